package verb

import (
	"context"
	"fmt"
	"io"
	"strconv"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// stitchWords say on what a stitch is noted, and the note itself.
type stitchWords struct {
	fabric, garment, scrap, forFabric string
	note                              stash.StitchNote
}

// stitches is the verb for stitches that worked.
func (s *session) stitches() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "stitch add|list|change|remove",
		Short: "Note stitches that worked on a fabric or a garment",
		Long: `Notes stitches that worked, with --fabric or with --garment. A garment takes over the notes
of its fabrics when it is cut; they are its own from then on. What speaks against a note is
said: a needle that may cut threads of a knit, a plain lockstitch on a seam that must stretch.

With --json the notes: number, of, name, seam, stitch, width, length, feed, needle, thread,
tension, note, still (the seam need not stretch), fabric (of a garment's note), doubts.`,
		Example: `  tallycloth stitch add --fabric "Heather rib" --seam side --stitch "narrow zigzag" --needle "stretch 75/11"
  tallycloth stitch list --garment "Tank for June"`,
		Args: func(_ *cobra.Command, args []string) error {
			return mistyped("stitch does one of four things", "Say which: add, list, change or remove")
		},
		RunE: func(*cobra.Command, []string) error { return nil },
	}
	cmd.AddCommand(s.stitchAdd(), s.stitchList(), s.stitchChange(), s.stitchRemove())
	for _, c := range cmd.Commands() {
		c.DisableFlagsInUseLine = true
	}
	return cmd
}

func (w *stitchWords) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&w.fabric, "fabric", "", "the fabric it is noted on")
	cmd.Flags().StringVar(&w.garment, "garment", "", "the garment it is noted on")
}

// stitchLine is a line of a note with its option.
type stitchLine struct {
	to         *string
	name, says string
}

// lines are the lines of a note.
func (w *stitchWords) lines(n *stash.StitchNote) []stitchLine {
	return []stitchLine{
		{&n.Seam, "seam", "which seam, such as side or hem"}, {&n.Stitch, "stitch", "which stitch, such as narrow zigzag"},
		{&n.Width, "width", "its width, as the machine's dial says"}, {&n.Length, "length", "its length, as the dial says"},
		{&n.Feed, "feed", "differential feed, as the dial says"}, {&n.Needle, "needle", "which needle, such as stretch 75/11"},
		{&n.Thread, "thread", "which thread"}, {&n.Tension, "tension", "thread tension, as the dial says"}, {&n.Note, "note", "what else to remember"},
	}
}

func (w *stitchWords) noteFlags(cmd *cobra.Command) {
	f := cmd.Flags()
	for _, o := range w.lines(&w.note) {
		f.StringVar(o.to, o.name, "", o.says)
	}
	f.StringVar(&w.scrap, "scrap", "", "a photo of the test scrap, a JPEG, PNG or WebP file")
	f.StringVar(&w.forFabric, "for", "", "on a garment: the fabric it is for")
	f.BoolVar(&w.note.Still, "still", false, "the seam need not stretch, such as a shoulder over tape")
}

// subject is a form for what was named, its name, and the notes there now.
func (w stitchWords) subject(ctx context.Context, l *library) (planner.StitchForm, string, []stitchFields, error) {
	if (w.fabric == "") == (w.garment == "") {
		return planner.StitchForm{}, "", nil, mistyped("A stitch is noted on one thing", "Name it with --fabric or --garment")
	}
	form, name, err := photoWords{fabric: w.fabric, garment: w.garment}.subject(ctx, l)
	if err != nil {
		return planner.StitchForm{}, "", nil, err
	}
	out := planner.StitchForm{Of: form.Of, OfID: form.OfID}
	notes, err := l.stitchNotes(ctx, out, name)
	return out, name, notes, err
}

// stitchFields is a stitch note in JSON.
type stitchFields struct {
	Number  int      `json:"number"`
	Of      string   `json:"of"`
	Name    string   `json:"name"`
	Seam    string   `json:"seam"`
	Stitch  string   `json:"stitch"`
	Width   string   `json:"width"`
	Length  string   `json:"length"`
	Feed    string   `json:"feed"`
	Needle  string   `json:"needle"`
	Thread  string   `json:"thread"`
	Tension string   `json:"tension"`
	Note    string   `json:"note"`
	Still   bool     `json:"still"`
	Fabric  string   `json:"fabric"`
	Doubts  []string `json:"doubts"`

	kept     stash.StitchNote
	fabricID stash.ID
}

func fieldsOfStitch(number int, of stash.PhotoOf, name string, n stash.StitchNote, f stash.Fabric) stitchFields {
	out := stitchFields{number, string(of), name, n.Seam, n.Stitch, n.Width, n.Length, n.Feed, n.Needle, n.Thread, n.Tension, n.Note, n.Still, f.Name, []string{}, n, f.ID}
	if f.ID != stash.NoID {
		out.Doubts = some(n.Doubts(f))
	}
	return out
}

// stitchNotes reads the notes of a fabric or a garment.
func (l *library) stitchNotes(ctx context.Context, form planner.StitchForm, name string) ([]stitchFields, error) {
	out := []stitchFields{}
	if form.Of == stash.OfFabric {
		f, err := l.Fabric(ctx, form.OfID)
		for i, n := range f.Stitches {
			out = append(out, fieldsOfStitch(i+1, form.Of, name, n, f))
		}
		return out, err
	}
	g, err := l.Garment(ctx, form.OfID)
	if err != nil {
		return nil, err
	}
	for i, n := range g.Stitches {
		var f stash.Fabric
		if n.FabricID != stash.NoID {
			if f, err = l.Fabric(ctx, n.FabricID); err != nil {
				return nil, err
			}
		}
		out = append(out, fieldsOfStitch(i+1, form.Of, name, n.StitchNote, f))
	}
	return out, nil
}

func (f stitchFields) tell(out io.Writer) {
	fmt.Fprintf(out, "%d  %s\n", f.Number, say.Stitch(f.kept))
	for _, d := range f.Doubts {
		fmt.Fprintln(out, "   ! "+d)
	}
}

func (s *session) stitchAdd() *cobra.Command {
	var w stitchWords
	cmd := &cobra.Command{Use: "add", Short: "Note a stitch that worked", Args: noMore,
		Example: `  tallycloth stitch add --fabric "Heather rib" --seam hem --stitch "twin needle" --needle "twin stretch 4.0/75" --scrap hem.jpg`,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.keepStitch(cmd, w, func(form *planner.StitchForm, _ []stitchFields) error {
				form.Note = w.note
				return nil
			})
		}}
	w.flags(cmd)
	w.noteFlags(cmd)
	return cmd
}

func (s *session) stitchChange() *cobra.Command {
	var w stitchWords
	cmd := &cobra.Command{Use: "change NUMBER", Short: "Change what is said of it", Args: exactly("the number of a note, as stitch list shows it"),
		Example: `  tallycloth stitch change 1 --fabric "Heather rib" --tension 3.5`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.keepStitch(cmd, w, func(form *planner.StitchForm, notes []stitchFields) error {
				at, err := stitchNumber(args[0], notes)
				if err != nil {
					return err
				}
				form.At, form.Note, form.FabricID = at, notes[at-1].kept, notes[at-1].fabricID
				said, kept := w.lines(&w.note), w.lines(&form.Note)
				for i := range said {
					if cmd.Flags().Changed(said[i].name) {
						*kept[i].to = *said[i].to
					}
				}
				if cmd.Flags().Changed("still") {
					form.Note.Still = w.note.Still
				}
				return nil
			})
		}}
	w.flags(cmd)
	w.noteFlags(cmd)
	return cmd
}

// keepStitch keeps a note that fill completes and answers with it.
func (s *session) keepStitch(cmd *cobra.Command, w stitchWords, fill func(*planner.StitchForm, []stitchFields) error) error {
	return s.changing(cmd, func(ctx context.Context, l *library) error {
		form, name, notes, err := w.subject(ctx, l)
		if err != nil {
			return err
		}
		if err := fill(&form, notes); err != nil {
			return err
		}
		if w.forFabric != "" {
			f, err := l.pickFabric(ctx, w.forFabric)
			if err != nil {
				return err
			}
			form.FabricID = f.ID
		}
		if w.scrap != "" {
			if form.Scrap, err = photoFile(w.scrap); err != nil {
				return err
			}
		}
		at, err := l.KeepStitch(ctx, form)
		if err != nil {
			return err
		}
		if notes, err = l.stitchNotes(ctx, form, name); err != nil {
			return err
		}
		return s.answer(notes[at-1], notes[at-1].tell)
	})
}

func stitchNumber(text string, notes []stitchFields) (int, error) {
	at, err := strconv.Atoi(text)
	if err != nil || at < 1 || at > len(notes) {
		return 0, mistyped(fmt.Sprintf("There is no stitch note %q", text), "stitch list shows their numbers")
	}
	return at, nil
}

func (s *session) stitchList() *cobra.Command {
	var w stitchWords
	cmd := &cobra.Command{Use: "list", Short: "Show the notes", Args: noMore, Example: `  tallycloth stitch list --fabric "Heather rib"`,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				_, name, notes, err := w.subject(ctx, l)
				if err != nil {
					return err
				}
				return s.answer(notes, func(out io.Writer) {
					if len(notes) == 0 {
						fmt.Fprintf(out, "No stitch is noted on %s.\n", name)
					}
					for _, n := range notes {
						n.tell(out)
					}
				})
			})
		}}
	w.flags(cmd)
	return cmd
}

func (s *session) stitchRemove() *cobra.Command {
	var w stitchWords
	cmd := &cobra.Command{Use: "remove NUMBER", Short: "Take a note away; undo brings it back", Args: exactly("the number of a note, as stitch list shows it"),
		Example: `  tallycloth stitch remove 2 --fabric "Heather rib"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				form, name, notes, err := w.subject(ctx, l)
				if err != nil {
					return err
				}
				at, err := stitchNumber(args[0], notes)
				if err != nil {
					return err
				}
				if err := l.DropStitch(ctx, form.Of, form.OfID, at); err != nil {
					return err
				}
				return s.answer(notes[at-1], func(out io.Writer) { fmt.Fprintf(out, "Removed stitch note %d of %s.\n", at, name) })
			})
		}}
	w.flags(cmd)
	return cmd
}
