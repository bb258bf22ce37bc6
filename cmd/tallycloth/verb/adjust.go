package verb

import (
	"context"
	"fmt"
	"io"
	"strconv"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/garment"
	"tallycloth/planner/sizing"
	"tallycloth/stash"

	"github.com/spf13/cobra"
)

// adjusts is the verb for the adjustments of a garment.
func (s *session) adjusts() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "adjust add|change|list|remove|take|keep|forget",
		Short: "Adjust a garment: take in, lengthen, another hem or neckline, panels",
		Long: `Records how the pattern is adjusted for a garment, in words:

  ` + strings.Join(adjust.Examples(), "\n  ") + `

Places are the top, underarm, waist, hip, crotch and hem, and so far below or above one of them;
letters after "on" are pattern pieces. A take-in is what one seam loses, measured level: at both
side seams the garment loses four times as much. Before the cloth is cut, outlines, cloth and
strips follow at once; afterwards only finished measurements, edges, strips and the next garment.

With --json an object: garment, state, adjustments (list of number, text, after_cut, step), finished
(list of name, before_mm, after_mm), offers (list of number, text, from), notes. A step has what its
kind asks for: kind, amount, at, from and to (level, below), seam, length, round, out, down, line
(points x, y in thousandths), half, pieces, aftercut; lengths in µm.`,
		Example: `  tallycloth adjust add "Tank for June" "take in 1/2 in at the waist, from the underarm to the hip"
  tallycloth adjust keep "Tank for June" 1`,
		Args: func(_ *cobra.Command, args []string) error {
			return mistyped("adjust does one of seven things", "Say which: add, change, list, remove, take, keep or forget")
		},
		RunE: func(*cobra.Command, []string) error { return nil },
	}
	cmd.AddCommand(s.adjustAdd(), s.adjustChange(), s.adjustList(), s.adjustRemove(), s.adjustTake(), s.adjustKeep(), s.adjustForget())
	for _, c := range cmd.Commands() {
		c.DisableFlagsInUseLine = true
	}
	return cmd
}

// adjustedFields is a garment with its adjustments in JSON.
type adjustedFields struct {
	Garment     string             `json:"garment"`
	State       string             `json:"state"`
	Adjustments []adjustmentFields `json:"adjustments"`
	Finished    []finishedFields   `json:"finished"`
	Offers      []offeredFields    `json:"offers"`
	Notes       []string           `json:"notes"`
	follows     []string
}

type adjustmentFields struct {
	Number   int         `json:"number"`
	Text     string      `json:"text"`
	AfterCut bool        `json:"after_cut"`
	Step     adjust.Step `json:"step"`
}

type finishedFields struct {
	Name   string  `json:"name"`
	Before float64 `json:"before_mm"`
	After  float64 `json:"after_mm"`
}

type offeredFields struct {
	Number int    `json:"number"`
	Text   string `json:"text"`
	From   string `json:"from"`
}

// adjustedOf reads the adjustments of a garment; more is what is to be said besides.
func (l *library) adjustedOf(ctx context.Context, id stash.ID, more string) (adjustedFields, error) {
	a, err := l.AdjustedGarment(ctx, id)
	if err != nil {
		return adjustedFields{}, err
	}
	v := l.voice
	out := adjustedFields{Garment: a.Garment.Name, State: string(a.Garment.State), Adjustments: []adjustmentFields{}, Finished: []finishedFields{}, Offers: []offeredFields{}, Notes: some(a.Notes)}
	for i, st := range a.Garment.Adjustments {
		out.Adjustments = append(out.Adjustments, adjustmentFields{i + 1, v.Adjustment(st), st.AfterCut, st})
	}
	for _, level := range a.Plain.Levels {
		was, now := a.Plain.Sizes[0].Finished[level.Name], a.Sewn.Sizes[0].Finished[level.Name]
		if was != 0 {
			out.Finished = append(out.Finished, finishedFields{level.Name, was.Millimetres(), now.Millimetres()})
		}
	}
	for i, o := range a.Offers {
		out.Offers = append(out.Offers, offeredFields{i + 1, v.Adjustment(o.Step), o.From})
	}
	if more != "" {
		out.Notes = append([]string{more}, out.Notes...)
	}
	out.follows = v.Adjusted(a.Plain, a.Sewn)
	return out, nil
}

func (f adjustedFields) tell(out io.Writer) {
	if len(f.Adjustments) == 0 {
		fmt.Fprintf(out, "%s is as its pattern was drafted.\n", f.Garment)
	}
	for _, a := range f.Adjustments {
		fmt.Fprintf(out, "%d  %s\n", a.Number, a.Text)
	}
	for _, s := range f.follows {
		fmt.Fprintln(out, "   "+s)
	}
	for _, s := range f.Notes {
		fmt.Fprintln(out, "   "+s)
	}
	for _, o := range f.Offers {
		fmt.Fprintf(out, "Offer %d, %s: %s\n", o.Number, o.From, o.Text)
	}
}

// readjust changes the adjustments of the garment named and answers with them.
func (s *session) readjust(cmd *cobra.Command, name string, do func(context.Context, *library, garment.Garment) (planner.Adjustment, error)) error {
	return s.changing(cmd, func(ctx context.Context, l *library) error {
		g, err := l.pickGarment(ctx, name)
		if err != nil {
			return err
		}
		made, err := do(ctx, l, g)
		if err != nil {
			return err
		}
		out, err := l.adjustedOf(ctx, g.ID, made.Words())
		if err != nil {
			return err
		}
		return s.answer(out, out.tell)
	})
}

func (s *session) adjustAdd() *cobra.Command {
	return &cobra.Command{Use: "add GARMENT WORDS", Short: "Add an adjustment, in words", Args: exactly("the name of a garment", "the adjustment in words"),
		Example: `  tallycloth adjust add "Tank for June" "hem at a length of 95 cm, 130 cm round"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.readjust(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (planner.Adjustment, error) {
				step, err := adjust.Parse(args[1], l.fieldUnit())
				if err != nil {
					return planner.Adjustment{}, err
				}
				return l.Adjust(ctx, planner.AdjustForm{GarmentID: g.ID, Step: step})
			})
		}}
}

func (s *session) adjustChange() *cobra.Command {
	return &cobra.Command{Use: "change GARMENT NUMBER WORDS", Short: "Say an adjustment anew", Args: exactly("the name of a garment", "the number of an adjustment", "the adjustment in words"),
		Example: `  tallycloth adjust change "Tank for June" 1 "take in 8 mm at the waist, from the underarm to the hip"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.readjust(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (planner.Adjustment, error) {
				at, err := numberOf(args[1], len(g.Adjustments), "adjustment")
				if err != nil {
					return planner.Adjustment{}, err
				}
				step, err := adjust.Parse(args[2], l.fieldUnit())
				if err != nil {
					return planner.Adjustment{}, err
				}
				return l.Adjust(ctx, planner.AdjustForm{GarmentID: g.ID, At: at, Step: step})
			})
		}}
}

// numberOf reads the number of one of so many.
func numberOf(text string, of int, what string) (int, error) {
	at, err := strconv.Atoi(text)
	if err != nil || at < 1 || at > of {
		return 0, mistyped(fmt.Sprintf("There is no %s %q", what, text), "adjust list shows their numbers")
	}
	return at, nil
}

func (s *session) adjustList() *cobra.Command {
	return &cobra.Command{Use: "list GARMENT", Short: "Show the adjustments, what follows from them, and what may be taken over", Args: exactly("the name of a garment"),
		Example: `  tallycloth adjust list "Tank for June"`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				g, err := l.pickGarment(ctx, args[0])
				if err != nil {
					return err
				}
				out, err := l.adjustedOf(ctx, g.ID, "")
				if err != nil {
					return err
				}
				return s.answer(out, out.tell)
			})
		}}
}

func (s *session) adjustRemove() *cobra.Command {
	return &cobra.Command{Use: "remove GARMENT NUMBER", Short: "Take an adjustment away; undo brings it back", Args: exactly("the name of a garment", "the number of an adjustment"),
		Example: `  tallycloth adjust remove "Tank for June" 1`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.readjust(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (planner.Adjustment, error) {
				at, err := numberOf(args[1], len(g.Adjustments), "adjustment")
				if err != nil {
					return planner.Adjustment{}, err
				}
				return l.DropAdjustment(ctx, g.ID, at)
			})
		}}
}

func (s *session) adjustTake() *cobra.Command {
	return &cobra.Command{Use: "take GARMENT NUMBER", Short: "Take over what was kept or found before", Args: exactly("the name of a garment", "the number of an offer"),
		Example: `  tallycloth adjust take "Tank for July" 1`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.readjust(cmd, args[0], func(ctx context.Context, l *library, g garment.Garment) (planner.Adjustment, error) {
				a, err := l.AdjustedGarment(ctx, g.ID)
				if err != nil {
					return planner.Adjustment{}, err
				}
				at, err := numberOf(args[1], len(a.Offers), "offer")
				if err != nil {
					return planner.Adjustment{}, err
				}
				return l.TakeOver(ctx, g.ID, []adjust.Step{a.Offers[at-1].Step})
			})
		}}
}

// keptFields are the adjustments kept for a person in JSON.
type keptFields struct {
	Person      string           `json:"person"`
	Adjustments []keptAdjustment `json:"adjustments"`
}

type keptAdjustment struct {
	Number int         `json:"number"`
	Text   string      `json:"text"`
	On     string      `json:"on"`
	Step   adjust.Step `json:"step"`
}

func (s *session) adjustKeep() *cobra.Command {
	return &cobra.Command{Use: "keep GARMENT NUMBER", Short: "Keep an adjustment for whom the garment is for", Args: exactly("the name of a garment", "the number of an adjustment"),
		Long: `Keeps an adjustment for whom the garment is for, so that it is offered at their next garments.

With --json an object: person, adjustments (list of number, text, on (since when), step).`,
		Example: `  tallycloth adjust keep "Tank for June" 1`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				g, err := l.pickGarment(ctx, args[0])
				if err != nil {
					return err
				}
				at, err := numberOf(args[1], len(g.Adjustments), "adjustment")
				if err != nil {
					return err
				}
				who, err := l.KeepAdjustment(ctx, g.ID, at)
				if err != nil {
					return err
				}
				return s.tellKept(l, who)
			})
		}}
}

func (s *session) adjustForget() *cobra.Command {
	return &cobra.Command{Use: "forget PERSON NUMBER", Short: "Keep an adjustment for a person no longer", Args: exactly("the name of a person", "the number of what is kept"),
		Long: `Keeps an adjustment for a person no longer. Garments that took it over stay as they are.

With --json an object: person, adjustments (list of number, text, on (since when), step).`,
		Example: `  tallycloth adjust forget Ida 1`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				who, err := l.pickPerson(ctx, args[0])
				if err != nil {
					return err
				}
				at, err := numberOf(args[1], len(who.Adjustments), "kept adjustment")
				if err != nil {
					return err
				}
				if who, err = l.ForgetAdjustment(ctx, who.ID, at); err != nil {
					return err
				}
				return s.tellKept(l, who)
			})
		}}
}

func (s *session) tellKept(l *library, who sizing.Person) error {
	return s.answer(keptFields{who.Name, l.fieldsOfKept(who)}, func(w io.Writer) {
		if len(who.Adjustments) == 0 {
			fmt.Fprintf(w, "Nothing is kept for %s.\n", who.Name)
		}
		for i, k := range who.Adjustments {
			fmt.Fprintf(w, "%d  %s\n", i+1, l.voice.Kept(k))
		}
	})
}

// fieldsOfKept lists what is kept for a person.
func (l *library) fieldsOfKept(who sizing.Person) []keptAdjustment {
	out := []keptAdjustment{}
	for i, k := range who.Adjustments {
		out = append(out, keptAdjustment{i + 1, l.voice.Adjustment(k.Step), string(k.On), k.Step})
	}
	return out
}
