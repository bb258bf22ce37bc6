package verb

import (
	"context"
	"fmt"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"
)

// backup is the verb that writes a copy of the library.
func (s *session) backup() *cobra.Command {
	return &cobra.Command{
		Use:   "backup FILE",
		Short: "Write a whole, checked copy of the library",
		Long: `Writes a copy of the whole library as a new file and checks that it can be read. It
may be done while the window is open. A file that is there already is not replaced.
The verb restore goes back to one.

With --json an object: file (its path).`,
		Example: "  tallycloth backup ~/tallycloth-spring.db",
		Args:    exactly("the name of the file to write"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				path, err := filepath.Abs(args[0])
				if err != nil {
					return fmt.Errorf("finding %s: %w", args[0], err)
				}
				if err := l.Backup(ctx, path); err != nil {
					return err
				}
				return s.answer(map[string]string{"file": path}, func(w io.Writer) { fmt.Fprintln(w, "Backed up to", path) })
			})
		},
	}
}
