package verb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"tallycloth/stash"

	"github.com/spf13/cobra"
)

// The exit codes, said in the help of the program and tested.
const (
	Done     = 0 // it was done; for check: the cloth is enough
	Failed   = 1 // it could not be done; the library is as it was
	Mistyped = 2 // what was typed cannot be
	Answered = 3 // check: no cloth asked about is enough
	NoAccess = 4 // the library cannot be opened or written
)

// Program is what the verbs need from outside.
type Program struct {
	Out, Err io.Writer
	Getenv   func(string) string
	Now      func() time.Time
	NewID    func() stash.ID
	// Window opens the window on the library in a folder, for a call without a verb.
	Window func(ctx context.Context, folder string) error
}

// Run does what the arguments ask (without the program's own name) and returns the
// exit code. Errors go to Err, as sentences that say what to do next.
func (p Program) Run(ctx context.Context, args []string) int {
	root := p.root()
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return Done
	}
	var no *answeredNo
	if errors.As(err, &no) {
		return Answered
	}
	fmt.Fprintln(p.Err, sentence(err))
	return exitCode(err)
}

const about = `Tallycloth knows the fabrics and leftovers on your shelf and tells you which of them
are really enough for a pattern in your size, how its pattern pieces and binding strips
lie on them, and keeps the cloth reserved for the garment.

Without a verb it opens the window. With a verb it works without one.

Lengths are read as you would write them: "1 1/4 yd", "45 in", "1,25 m", "114 cm".
A fabric, pattern or garment is named by its name or the beginning of it, a cloth by
the code on its label.

Exit codes: 0 done; 1 could not be done, nothing was changed; 2 what was typed cannot
be; 3 no cloth asked about is enough; 4 the library cannot be opened.`

// root is the whole tree of verbs.
func (p Program) root() *cobra.Command {
	s := &session{Program: p}
	root := &cobra.Command{
		Use:           "tallycloth",
		Short:         "Which cloth on your shelf is enough for the pattern",
		Long:          about,
		Args:          noVerb,
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE: func(cmd *cobra.Command, _ []string) error {
			folder, err := s.libraryFolder()
			if err != nil {
				return err
			}
			return p.Window(cmd.Context(), folder)
		},
	}
	root.SetOut(p.Out)
	root.SetErr(p.Err)
	root.SetFlagErrorFunc(optionError)
	root.PersistentFlags().StringVar(&s.folder, "library", "", "folder of the library (default: tallycloth in your data folder)")
	root.PersistentFlags().BoolVar(&s.json, "json", false, "answer in JSON, with the fields described in the help of each verb")
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetUsageTemplate(usage)
	root.AddCommand(s.demo(), s.list(), s.log(), s.purchases(), s.rate(), s.classes(), s.notions(), s.notion(), s.shopping(), s.history(), s.yardage(), s.value(), s.costs(), s.leftover(), s.fabric(), s.photos(), s.stitches(), s.making(), s.adjusts(), s.bringIn(), s.outlines(), s.editing(), s.quick(), s.people(), s.blend(), s.chart(), s.importList(), s.export(), s.check(), s.lay(), s.batch(), s.reserve(), s.release(), s.cut(), s.wash(), s.measureAgain(), s.move(), s.flaw(), s.labels(), s.sheet(), s.strips(), s.elastic(), s.bias(), s.technique(), s.undo(), s.redo(), s.backup(), s.restore())
	root.AddCommand(s.goodFor())
	root.AddCommand(s.manual())
	for _, cmd := range root.Commands() {
		cmd.DisableFlagsInUseLine = true
	}
	return root
}

// noVerb refuses a first word that is no verb, so that a slip does not open a window.
func noVerb(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return mistyped(fmt.Sprintf("%q is nothing this program can do", args[0]), "See tallycloth --help for the verbs")
}

// usage is how the help of the program and of each verb goes on after its text.
const usage = `Write:
  {{if .HasAvailableSubCommands}}{{.CommandPath}} VERB …{{else}}{{.UseLine}} [options]{{end}}{{if .HasExample}}

For example:
{{.Example}}{{end}}{{if .HasAvailableSubCommands}}

Verbs:{{range .Commands}}{{if .IsAvailableCommand}}
  {{rpad .Name .NamePadding}} {{.Short}}{{end}}{{end}}{{end}}{{if .HasAvailableLocalFlags}}

Options:
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}{{end}}{{if .HasAvailableInheritedFlags}}

Options of every verb:
{{.InheritedFlags.FlagUsages | trimTrailingWhitespaces}}{{end}}{{if .HasAvailableSubCommands}}

{{.CommandPath}} VERB --help says more about a verb.{{end}}
`
