package verb

import (
	"context"
	"fmt"
	"io"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// personFields is a person in JSON.
type personFields struct {
	Name  string        `json:"name"`
	Notes string        `json:"notes"`
	Taken []takenFields `json:"taken"`
	// Kept are adjustments offered at her next garments.
	Kept []keptAdjustment `json:"adjustments"`
}

type takenFields struct {
	On   string        `json:"on"`
	Note string        `json:"note"`
	Body map[string]mm `json:"body_mm"`
}

func (l *library) fieldsOfPerson(p sizing.Person) personFields {
	out := personFields{Name: p.Name, Notes: p.Notes, Taken: []takenFields{}, Kept: l.fieldsOfKept(p)}
	for _, t := range p.Taken {
		f := takenFields{On: string(t.Date), Note: t.Note, Body: map[string]mm{}}
		for name, l := range t.Body {
			f.Body[name] = mm(l)
		}
		out.Taken = append(out.Taken, f)
	}
	return out
}

// people is the verb for those that garments are made for.
func (s *session) people() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "person add|measure|list|size|remove",
		Short: "Keep people with their measurements, and find their size",
		Long: `Keeps people with what was measured of them on which day, and proposes a size of a pattern.

` + placesHelp() + `
With --json people: name, notes, taken (list of on, note, body_mm by name),
adjustments (kept for them: list of number, text, on, step). For size: size,
why (sentences), levels (level, size, beyond_mm), options (size, front, eases: level, body_mm,
finished_mm, ease_mm, worn_percent, wear: loose, comfortable, firm, too far or unknown).`,
		Example: `  tallycloth person add Ida
  tallycloth person measure Ida --at "high bust=84" --at "bust=91.5" --at "waist=76" --at "hip=101"
  tallycloth person size Ida --pattern "Fennel tank" --fabric "Heather rib"`,
		Args: func(_ *cobra.Command, args []string) error {
			return mistyped("person does one of five things", "Say which: add, measure, list, size, remove")
		},
		RunE: func(*cobra.Command, []string) error { return nil },
	}
	cmd.AddCommand(s.personAdd(), s.personMeasure(), s.personList(), s.personSize(), s.personRemove())
	for _, c := range cmd.Commands() {
		c.DisableFlagsInUseLine = true
	}
	return cmd
}

// placesHelp says what is measured where.
func placesHelp() string {
	out := ""
	for _, at := range sizing.Places() {
		out += "  " + pad(at.Name, 12) + wrapped(strings.Fields(at.Where), 14, 88, "") + "\n"
	}
	return out
}

func (l *library) pickPerson(ctx context.Context, name string) (sizing.Person, error) {
	all, err := l.People(ctx)
	if err != nil {
		return sizing.Person{}, err
	}
	return pick("person", name, all, func(p sizing.Person) string { return p.Name })
}

func (s *session) personAdd() *cobra.Command {
	var notes string
	cmd := &cobra.Command{
		Use: "add NAME", Short: "Add a person", Args: exactly("a name"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.adding(cmd, func(ctx context.Context, l *library) error {
				p, err := l.SavePerson(ctx, sizing.Person{Name: args[0], Notes: notes})
				if err != nil {
					return err
				}
				return s.answer(l.fieldsOfPerson(p), func(w io.Writer) { fmt.Fprintf(w, "%s is on the list.\n", p.Name) })
			})
		},
	}
	cmd.Flags().StringVar(&notes, "notes", "", "what else to know")
	return cmd
}

func (s *session) personMeasure() *cobra.Command {
	var values []string
	var day, note string
	cmd := &cobra.Command{
		Use: "measure NAME", Short: "Keep measurements of a person", Args: exactly("the name of a person"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				p, err := l.pickPerson(ctx, args[0])
				if err != nil {
					return err
				}
				t := sizing.Taken{Note: note, Body: map[string]measure.Length{}}
				if t.Date, err = l.day("--day", day); err != nil {
					return err
				}
				typed, err := named("--at", values)
				if err != nil {
					return err
				}
				for name, text := range typed {
					if t.Body[name], err = measure.ParsePositiveLength(text, l.fieldUnit()); err != nil {
						return said("--at "+name, err)
					}
				}
				if p, err = l.MeasurePerson(ctx, p.ID, t); err != nil {
					return err
				}
				return s.answer(l.fieldsOfPerson(p), func(w io.Writer) { l.tellPerson(w, p) })
			})
		},
	}
	cmd.Flags().StringArrayVar(&values, "at", nil, `a measurement, such as "bust=91.5"`)
	cmd.Flags().StringVar(&day, "day", "", "the day it was taken, such as 2026-03-02 (default: today)")
	cmd.Flags().StringVar(&note, "note", "", "what else to know about it")
	return cmd
}

func (l *library) tellPerson(w io.Writer, p sizing.Person) {
	fmt.Fprintln(w, p.Name)
	b := p.Latest("")
	for _, at := range sizing.Places() {
		if b[at.Name] > 0 {
			fmt.Fprintf(w, "  %s %s\n", pad(at.Name, 12), l.voice.Width(b[at.Name]))
		}
	}
	for _, k := range p.Adjustments {
		fmt.Fprintln(w, "  "+l.voice.Kept(k))
	}
}

func (s *session) personList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "Show the people with their latest measurements", Args: noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				all, err := l.People(ctx)
				if err != nil {
					return err
				}
				out := []personFields{}
				for _, p := range all {
					out = append(out, l.fieldsOfPerson(p))
				}
				return s.answer(out, func(w io.Writer) {
					for _, p := range all {
						l.tellPerson(w, p)
					}
				})
			})
		},
	}
}

func (s *session) personRemove() *cobra.Command {
	return &cobra.Command{
		Use: "remove NAME", Short: "Take a person off the list", Args: exactly("the name of a person"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				p, err := l.pickPerson(ctx, args[0])
				if err != nil {
					return err
				}
				if err := l.DropPerson(ctx, p.ID); err != nil {
					return err
				}
				return s.answer(l.fieldsOfPerson(p), func(w io.Writer) { fmt.Fprintf(w, "%s is off the list; undo puts it back.\n", p.Name) })
			})
		},
	}
}

// sizeFields is a size that is proposed.
type sizeFields struct {
	Size    string        `json:"size"`
	Why     []string      `json:"why"`
	Levels  []levelFields `json:"levels"`
	Options []optionField `json:"options"`
}

type levelFields struct {
	Level  string `json:"level"`
	Size   string `json:"size"`
	Beyond mm     `json:"beyond_mm"`
}

type optionField struct {
	Size  string       `json:"size"`
	Front string       `json:"front"`
	Eases []easeFields `json:"eases"`
}

type easeFields struct {
	Level    string  `json:"level"`
	Body     mm      `json:"body_mm"`
	Finished mm      `json:"finished_mm"`
	Ease     mm      `json:"ease_mm"`
	Worn     float64 `json:"worn_percent"`
	Wear     string  `json:"wear"`
}

// wears are the words for wear in JSON, which do not change with the language.
var wears = map[sizing.Wear]string{sizing.Loose: "loose", sizing.Comfortable: "comfortable", sizing.Firm: "firm", sizing.TooFar: "too far", sizing.Unknown: "unknown"}

func (l *library) fieldsOfSize(c sizing.Choice) sizeFields {
	out := sizeFields{Size: c.Size, Why: l.voice.SizeWhy(c), Levels: []levelFields{}, Options: []optionField{}}
	for _, x := range c.Levels {
		out.Levels = append(out.Levels, levelFields{x.Level, x.Size, mm(x.Beyond)})
	}
	for _, o := range c.Options {
		f := optionField{Size: o.Size, Front: o.Front, Eases: []easeFields{}}
		for _, e := range o.Eases {
			f.Eases = append(f.Eases, easeFields{e.Level, mm(e.Body), mm(e.Finished), mm(e.Ease), 100 * e.Worn.Fraction(), wears[e.Wear]})
		}
		out.Options = append(out.Options, f)
	}
	return out
}

func (s *session) personSize() *cobra.Command {
	var of, in string
	cmd := &cobra.Command{
		Use: "size NAME", Short: "Propose a size of a pattern for a person", Args: exactly("the name of a person"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				who, err := l.pickPerson(ctx, args[0])
				if err != nil {
					return err
				}
				var q pattern.Pattern
				if q, err = l.pickPattern(ctx, of); err != nil {
					return err
				}
				var f stash.Fabric
				if in != "" {
					if f, err = l.pickFabric(ctx, in); err != nil {
						return err
					}
				}
				c, err := l.SizeFor(ctx, q.ID, who.ID, f.ID)
				if err != nil {
					return err
				}
				return s.answer(l.fieldsOfSize(c), func(w io.Writer) { l.tellSize(w, who, q, c) })
			})
		},
	}
	cmd.Flags().StringVar(&of, "pattern", "", "the pattern")
	cmd.Flags().StringVar(&in, "fabric", "", "the fabric it is worn in (default: one that stretches as the pattern asks)")
	return cmd
}

func (l *library) tellSize(w io.Writer, who sizing.Person, q pattern.Pattern, c sizing.Choice) {
	fmt.Fprintf(w, "%s, %s: size %s\n", who.Name, q.Name, c.Size)
	for _, line := range l.voice.SizeWhy(c) {
		fmt.Fprintln(w, "  "+line)
	}
	rows := l.voice.EaseRows(c)
	table(w, "SIZE|BODY|GARMENT|EASE|STRETCHED|WORN", rows[1:])
	if caution := say.Caution(q); caution != "" {
		fmt.Fprintln(w, "!", caution)
	}
}
