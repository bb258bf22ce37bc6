package verb

import (
	"context"
	"fmt"
	"io"

	"tallycloth/stash"

	"github.com/spf13/cobra"
)

// undo is the verb that takes the last act back.
func (s *session) undo() *cobra.Command {
	return s.back(&cobra.Command{
		Use:   "undo",
		Short: "Take back the last thing that was done",
		Long: `Takes back the last thing that was done in the library and says what it was. Nothing
is erased: the history gets a line that reverses it, and redo does it again.

With --json an object: what (a sentence), at (RFC 3339), undone (false).`,
	}, func(ctx context.Context, l *library) (stash.Act, error) { return l.Undo(ctx) })
}

// redo is the verb that does again what undo took back.
func (s *session) redo() *cobra.Command {
	return s.back(&cobra.Command{
		Use:   "redo",
		Short: "Do again what undo took back",
		Long: `Does again what undo took back last, as long as nothing else was done since.

With --json an object: what (a sentence), at (RFC 3339), undone (false).`,
	}, func(ctx context.Context, l *library) (stash.Act, error) { return l.Redo(ctx) })
}

func (s *session) back(cmd *cobra.Command, do func(context.Context, *library) (stash.Act, error)) *cobra.Command {
	cmd.Args = noMore
	cmd.RunE = func(cmd *cobra.Command, _ []string) error {
		return s.changing(cmd, func(ctx context.Context, l *library) error {
			act, err := do(ctx, l)
			if err != nil {
				return err
			}
			return s.answer(actOf(act), func(w io.Writer) { fmt.Fprintln(w, act.Sentence) })
		})
	}
	return cmd
}

// noMore refuses words after a verb that takes none.
func noMore(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return mistyped(fmt.Sprintf("%s takes no further words, so %q is one too many", cmd.Name(), args[0]), "See tallycloth "+cmd.Name()+" --help")
}

// exactly refuses any other count of words than the names given.
func exactly(names ...string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) < len(names):
			return mistyped(fmt.Sprintf("%s needs %s", cmd.Name(), names[len(args)]), "See tallycloth "+cmd.Name()+" --help")
		case len(args) > len(names):
			return mistyped(fmt.Sprintf("%q is one word too many for %s", args[len(names)], cmd.Name()), "Put names of several words in quotes")
		}
		return nil
	}
}
