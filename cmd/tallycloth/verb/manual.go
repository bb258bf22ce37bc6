package verb

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
)

// manual is the verb that writes the manual page, for packages; it is in no list.
func (s *session) manual() *cobra.Command {
	return &cobra.Command{
		Use: "manual", Hidden: true, Args: noMore, Short: "Write the manual page",
		Long: "Writes the manual page of the program in roff, for packages.",
		RunE: func(cmd *cobra.Command, _ []string) error {
			var b strings.Builder
			root := cmd.Root()
			fmt.Fprintf(&b, ".TH TALLYCLOTH 1\n.SH NAME\ntallycloth \\- %s\n.SH SYNOPSIS\n.B tallycloth\n[VERB …] [options]\n.SH DESCRIPTION\n", roff(strings.ToLower(root.Short)))
			b.WriteString(paragraphs(root.Long))
			b.WriteString(".SH VERBS\n")
			manualOf(&b, root)
			b.WriteString(".SH FILES\n.TP\n~/.local/share/tallycloth\nthe library, with its back\\-ups; tallycloth in $XDG_DATA_HOME where that is set\n" +
				".TP\n~/.config/tallycloth/library\nnames another library that was opened from the window\n")
			_, err := io.WriteString(s.Out, b.String())
			return err
		},
	}
}

// manualOf writes the verbs under one.
func manualOf(b *strings.Builder, of *cobra.Command) {
	for _, c := range of.Commands() {
		if !c.IsAvailableCommand() {
			continue
		}
		fmt.Fprintf(b, ".SS %s\n%s", roff(strings.TrimPrefix(c.UseLine(), "tallycloth ")), paragraphs(c.Long))
		if flags := c.LocalNonPersistentFlags().FlagUsages(); flags != "" {
			fmt.Fprintf(b, ".nf\n%s\n.fi\n", roff(strings.TrimRight(flags, "\n")))
		}
		if c.Example != "" {
			fmt.Fprintf(b, "For example:\n.nf\n%s\n.fi\n", roff(c.Example))
		}
		manualOf(b, c)
	}
}

// paragraphs are the paragraphs of a help text; those with columns keep their lines.
func paragraphs(text string) string {
	var b strings.Builder
	for _, p := range strings.Split(text, "\n\n") {
		if strings.Contains(p, "\n  ") || strings.HasPrefix(p, "  ") {
			fmt.Fprintf(&b, ".PP\n.nf\n%s\n.fi\n", roff(p))
		} else {
			fmt.Fprintf(&b, ".PP\n%s\n", roff(p))
		}
	}
	return b.String()
}

// roff keeps a text from being taken for instructions.
func roff(text string) string {
	text = strings.ReplaceAll(text, `\`, `\e`)
	text = strings.ReplaceAll(text, "-", `\-`)
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		if strings.HasPrefix(l, ".") || strings.HasPrefix(l, "'") {
			lines[i] = `\&` + l
		}
	}
	return strings.Join(lines, "\n")
}
