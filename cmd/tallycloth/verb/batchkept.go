package verb

import (
	"context"
	"fmt"
	"io"
	"slices"

	"tallycloth/planner"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// keptPlan is a batch as it stands beside others in JSON.
type keptPlan struct {
	Name       string           `json:"name"`
	Changed    string           `json:"changed"`
	Planned    bool             `json:"planned"`
	Wanted     int              `json:"wanted"`
	Made       int              `json:"made"`
	AtMostMore int              `json:"at_most_more"`
	Priorities []priorityFields `json:"priorities"`
	Whole      int              `json:"whole_lengths"`
	Waste      float64          `json:"waste_m2"`
	Cloths     int              `json:"cloths"`
	Buy        mm               `json:"buy_mm"`
	Makes      []keptRow        `json:"garments"`
}

// keptRow is how many garments of one kind a plan makes.
type keptRow struct {
	Garment string `json:"garment"`
	Made    int    `json:"made"`
}

func (s *session) batchReserve() *cobra.Command {
	return &cobra.Command{
		Use: "reserve NAME", Short: "Reserve the cloth of a plan that is kept", Args: exactly("the name of a batch"), Example: "  tallycloth batch reserve \"spring class\"",
		Long: `Makes the garments of a plan that is kept and reserves their cloth as it was planned, all at
once. If the shelf or a pattern has changed since, nothing is reserved, and the reason is
said. One undo releases all of it.

With --json an object: name, reserved (names of the garments).`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				b, err := l.pickBatch(ctx, args[0])
				if err != nil {
					return err
				}
				if b.Plan == nil {
					return mistyped(b.Name+" has no plan yet", "Plan it first, with batch plan FILE --name")
				}
				made, err := l.ReserveAll(ctx, b, *b.Plan)
				if err != nil {
					return err
				}
				out := struct {
					Name     string   `json:"name"`
					Reserved []string `json:"reserved"`
				}{b.Name, []string{}}
				for _, g := range made {
					out.Reserved = append(out.Reserved, g.Name)
				}
				return s.answer(out, func(o io.Writer) {
					for _, name := range out.Reserved {
						fmt.Fprintln(o, name)
					}
					tellReserved(o, len(out.Reserved))
				})
			})
		},
	}
}

// tellReserved says how many garments have their cloth now.
func tellReserved(o io.Writer, n int) {
	fmt.Fprintf(o, "Reserved cloth for %s. undo releases all of it.\n", say.Count(n, "garment", "garments"))
}

func (s *session) batchCompare() *cobra.Command {
	return &cobra.Command{
		Use: "compare [NAME …]", Short: "Show kept plans side by side", Example: "  tallycloth batch compare \"spring class\" \"without the linen\"",
		Long: `Shows plans that are kept side by side, those named or all: what each makes by priority, the
whole lengths it cuts, its waste, the cloths handled, and what is to be bought for the
rest at 150 cm wide. What not all of them make alike is listed by garment.

With --json a list of name, changed, planned, wanted, made, at_most_more, priorities (list of
priority, wanted, made), whole_lengths, waste_m2, cloths, buy_mm, garments (list of garment,
made).`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error { return s.compareBatches(ctx, l, args) })
		},
	}
}

func (s *session) compareBatches(ctx context.Context, l *library, names []string) error {
	all, err := l.Batches(ctx)
	if err != nil {
		return err
	}
	if len(names) > 0 {
		var some []planner.Batch
		for _, n := range names {
			b, err := pick("batch", n, all, func(b planner.Batch) string { return b.Name })
			if err != nil {
				return err
			}
			some = append(some, b)
		}
		all = some
	}
	out, rows := []keptPlan{}, [][]string{}
	for _, b := range all {
		k, err := l.keptPlan(ctx, b)
		if err != nil {
			return err
		}
		out = append(out, k)
		row := []string{k.Name, "not planned", "", "", "", ""}
		if b.Plan != nil {
			row = []string{k.Name, say.ByPriority(b.Rows, *b.Plan), fmt.Sprint(k.Whole), l.voice.Area(say.Wasted(*b.Plan)), fmt.Sprint(k.Cloths), "nothing"}
			if k.Buy > 0 {
				row[5] = l.voice.Length(measure.Length(k.Buy))
			}
		}
		rows = append(rows, row)
	}
	return s.answer(out, func(o io.Writer) {
		table(o, "PLAN|MADE, BY PRIORITY|WHOLE LENGTHS|WASTE|CLOTHS|TO BUY FOR THE REST", rows)
		tellDifferences(o, out)
	})
}

// keptPlan is a batch with what its plan comes to.
func (l *library) keptPlan(ctx context.Context, b planner.Batch) (keptPlan, error) {
	k := keptPlan{Name: b.Name, Changed: string(b.Changed), Wanted: say.Wants(b.Rows), Priorities: []priorityFields{}, Makes: []keptRow{}}
	if b.Plan == nil {
		return k, nil
	}
	p := *b.Plan
	k.Planned, k.Made, k.AtMostMore, k.Whole, k.Waste, k.Cloths = true, len(p.Made), p.AtMostMore(), p.Score.Whole, m2(say.Wasted(p)), len(p.Cuts)
	of := batchFields{}
	of.addPriorities(b, p)
	k.Priorities = of.Priorities
	var err error
	if of.patterns, err = l.Patterns(ctx); err != nil {
		return k, err
	}
	made := make([]int, len(b.Rows))
	for _, g := range p.Made {
		made[g.Row]++
	}
	for i, w := range b.Rows {
		w.Count = 1
		k.Makes = append(k.Makes, keptRow{say.GarmentOf(w, of.patternOf(w), 1), made[i]})
	}
	if len(p.Missing) > 0 {
		buy, err := l.WhatToBuy(ctx, b, p)
		if err != nil {
			return k, err
		}
		k.Buy = mm(planner.BuyInAll(buy))
	}
	return k, nil
}

// tellDifferences lists the garments of which not all plans make as many.
func tellDifferences(o io.Writer, plans []keptPlan) {
	var names []string
	for _, k := range plans {
		for _, r := range k.Makes {
			if !slices.Contains(names, r.Garment) {
				names = append(names, r.Garment)
			}
		}
	}
	head, rows := "MADE DIFFERENTLY", [][]string{}
	for _, k := range plans {
		head += "|" + k.Name
	}
	for _, n := range names {
		row, differs := []string{n}, false
		for _, k := range plans {
			made := 0
			for _, r := range k.Makes {
				if r.Garment == n {
					made += r.Made
				}
			}
			row = append(row, fmt.Sprint(made))
			differs = differs || row[len(row)-1] != row[1]
		}
		if differs {
			rows = append(rows, row)
		}
	}
	if len(rows) > 0 {
		fmt.Fprintln(o)
		table(o, head, rows)
	}
}
