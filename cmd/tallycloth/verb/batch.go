package verb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// batch is the verb that plans many garments over the shelf.
func (s *session) batch() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "batch plan|list|show|compare|reserve|drop",
		Short: "Plan many garments over the shelf, and reserve them at once",
		Long: `Plans many garments over the cloth on the shelf: which of them can be made, each use of
fabric from which cloth, by layouts that were checked; how many more are possible at
most; what comes nearest for the rest, and what to buy for it.

  plan FILE        plans what a list asks for, and keeps or reserves it if you say so
  list             shows the batches that are kept
  show NAME        shows one of them with its plan
  compare [NAME …] shows plans side by side
  reserve NAME     reserves the cloth of a plan that is kept, all at once
  drop NAME        takes one off the list; what is reserved stays reserved

A list is a workbook (.xlsx) or a text file (.csv) with a line of headings, or JSON: a list
of objects. Its columns are pattern, size, person, variant, count, priority (1 comes
first), for, date (2026-06-01), colours (moss, #a0513c), uses and adjustments. Only pattern and size must
be there, or a person instead of the size: somebody whose measurements are kept, for whom
a size is then proposed. Uses say what a use of fabric may be cut from:
  binding: goes with; lining: none; contrast: named Moss jersey, Brick rib
It is any, same (the fabric and lot of main), goes with (the colour of main, or nearer to it
by goes with 10, a distance in CIELAB; 20 is usual), named, or none (not planned). Where nothing is said, main is cut from any fabric that suits and all
else from the same. Adjustments are kept (all that is kept for the person), or words parted by semicolons:
  take in 1 cm at the waist, from the underarm to the hip; hem 3 cm longer

With --json an object: name, wanted, made, at_most_more, best (nothing better exists),
tried (layouts), whole_lengths, waste_m2, priorities (list of priority, wanted, made), cloth (list
of code, fabric, whole_length, waste_m2, parts (list of garment (its number), used_for,
conditions, pieces (as lay gives them), kept_mm (an outline kept by the yardage table)),
left (list of outline_mm, straight_mm)), garments (list of number, row, pattern, size, variant, for, date,
adjustments (texts), from (list of used_for, code)), missing (list of row, pattern, size, count, why), buy (list
of used_for, fabric, for (rows), lengths (list of width_mm, needed_mm, buy_mm, apart_mm,
saves_mm, by_table)), sizes (list of row, person, size, proposed, between (they lie between
sizes), why), blended (what --blend kept), kept, reserved (names of the garments). The verb list gives a list of
name, changed, wanted, made.`,
		Example: `  tallycloth batch plan spring.csv --seconds 30 --name "spring class"
  tallycloth batch plan spring.csv --whole-lengths --reserve
  tallycloth batch show "spring class" --json`,
		Args: func(_ *cobra.Command, args []string) error {
			return mistyped("batch does one of six things", "Say which: plan, list, show, compare, reserve or drop")
		},
		RunE: func(*cobra.Command, []string) error { return nil },
	}
	cmd.AddCommand(s.batchPlan(), s.batchList(), s.batchShow(), s.batchCompare(), s.batchReserve(), s.batchDrop())
	for _, c := range cmd.Commands() {
		c.DisableFlagsInUseLine = true
	}
	return cmd
}

// batchWords are what was typed about a batch.
type batchWords struct {
	file, name      string
	whole, reserve  bool
	blend           bool
	not, first      []string
	only            []string
	order           string
	seconds, rounds int
}

func (s *session) batchPlan() *cobra.Command {
	var w batchWords
	cmd := &cobra.Command{
		Use:   "plan FILE",
		Short: "Plan what a list asks for",
		Long: `Plans the garments that a list asks for; tallycloth batch --help says how the list is
written and what comes with --json. Whole lengths are left alone unless you allow them.
The longer it may plan, the better the plan; it ends by itself where nothing better can
exist. Where a plan is kept under the name given, it goes on from that. The exit code is 3 when nothing can be made.`,
		Example: `  tallycloth batch plan spring.xlsx --whole-lengths --leave-out A17,B2 --seconds 30`,
		Args:    exactly("the name of a list"),
		RunE: func(cmd *cobra.Command, args []string) error {
			w.file = args[0]
			do := s.reading
			if w.name != "" || w.reserve || w.blend {
				do = s.changing
			}
			return do(cmd, func(ctx context.Context, l *library) error { return s.planBatch(ctx, l, w) })
		},
	}
	f := cmd.Flags()
	f.BoolVar(&w.whole, "whole-lengths", false, "whole lengths may be cut into as well")
	f.StringSliceVar(&w.not, "leave-out", nil, "codes of cloth that may not be used")
	f.StringSliceVar(&w.first, "first", nil, "codes of cloth to be used up first")
	f.StringSliceVar(&w.only, "only", nil, "codes of the cloth that alone may be used")
	f.StringVar(&w.order, "order", "", `of plans that make as many garments, the one with: "few whole lengths, little waste, few cloths", or these in another order`)
	f.IntVar(&w.seconds, "seconds", 60, "how long it may plan")
	f.IntVar(&w.rounds, "rounds", 0, "instead of seconds: so many rounds, which give the same answer on any computer")
	f.StringVar(&w.name, "name", "", "keep the batch with its plan under this name")
	f.BoolVar(&w.blend, "blend", false, "where a person lies between sizes, keep a blend as a size of the pattern and take it")
	f.BoolVar(&w.reserve, "reserve", false, "reserve the cloth for all garments that can be made, at once")
	return cmd
}

// effort is how long it may plan.
func (w batchWords) effort() (planner.BatchEffort, error) {
	switch {
	case w.rounds < 0 || w.seconds < 1 || w.seconds > 24*3600:
		return planner.BatchEffort{}, mistyped("It cannot plan for so long", "Say --seconds from 1 to 86400, or --rounds from 1")
	case w.rounds > 0:
		return planner.BatchEffort{Rounds: w.rounds}, nil
	}
	return planner.BatchEffort{Time: time.Duration(w.seconds) * time.Second}, nil
}

// batch is the question as it was typed.
func (w batchWords) batch(ctx context.Context, l *library) (planner.Batch, error) {
	b := planner.Batch{Name: w.name, May: planner.MayUse{WholeLengths: w.whole}}
	for _, x := range []struct {
		codes []string
		into  *[]stash.ID
	}{{w.not, &b.May.Never}, {w.first, &b.May.First}, {w.only, &b.May.Only}} {
		for _, code := range x.codes {
			c, err := l.pickCloth(ctx, code)
			if err != nil {
				return b, err
			}
			*x.into = append(*x.into, c.Cloth.ID)
		}
	}
	if w.order != "" {
		want := strings.Join(strings.Fields(strings.NewReplacer(",", " ", "then", " ").Replace(strings.ToLower(w.order))), " ")
		for _, o := range say.Orders() {
			if want == strings.Join(strings.Fields(strings.ReplaceAll(say.Order(o), ", then", "")), " ") {
				b.Order = o
			}
		}
		if b.Order == nil {
			return b, mistyped(fmt.Sprintf("%q is no order of all three", w.order), "Name few whole lengths, little waste and few cloths, each once")
		}
	}
	data, err := readFile(w.file)
	if err != nil {
		return b, err
	}
	b.Rows, err = l.ReadWanted(ctx, data)
	var wrong *planner.WrongRows
	if errors.As(err, &wrong) {
		err = typed{error: err}
	}
	return b, err
}

// readFile reads a list, no more of it than a list can be.
func readFile(path string) ([]byte, error) {
	cannot := func(err error) error {
		return typed{error: &stash.Error{Kind: stash.NotFound, What: "The list cannot be read", Do: "Look at the name of the file", Err: err}}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, cannot(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostList+1))
	if err != nil {
		return nil, cannot(err)
	}
	return data, nil
}

func (s *session) planBatch(ctx context.Context, l *library, w batchWords) error {
	effort, err := w.effort()
	if err != nil {
		return err
	}
	b, err := w.batch(ctx, l)
	if err != nil {
		return err
	}
	var blended []string
	if w.blend {
		if b.Rows, blended, err = l.BlendRows(ctx, b.Rows); err != nil {
			return err
		}
	}
	if effort.From, err = l.keptAs(ctx, w.name); err != nil {
		return err
	}
	plan, err := l.PlanBatch(ctx, b, effort, s.progress(say.Wants(b.Rows)))
	if err != nil {
		return err
	}
	if plan.AtMostMore() > 0 {
		if plan, _, err = l.FillIn(ctx, b, plan); err != nil {
			return err
		}
	}
	b.Plan = &plan
	out, err := l.fieldsOfBatch(ctx, b)
	if err != nil {
		return err
	}
	out.Blended = append(out.Blended, blended...)
	if w.name != "" {
		if b, err = l.keepBatch(ctx, b); err != nil {
			return err
		}
		out.Kept = true
	}
	if w.reserve && len(plan.Made) > 0 {
		made, err := l.ReserveAll(ctx, b, plan)
		if err != nil {
			return err
		}
		for _, g := range made {
			out.Reserved = append(out.Reserved, g.Name)
		}
	}
	if err := s.answer(out, func(o io.Writer) { l.tellBatch(o, b, out) }); err != nil {
		return err
	}
	if len(plan.Made) == 0 {
		return &answeredNo{}
	}
	return nil
}

// progress tells how far planning is, beside the answer, when more garments were found.
func (s *session) progress(wanted int) func(planner.BatchPlan) {
	made := -1
	return func(p planner.BatchPlan) {
		if n := len(p.Made); n > made && !s.json {
			made = n
			fmt.Fprintln(s.Err, say.Planning(p, wanted)+".")
		}
	}
}

// keepBatch keeps a batch under its name, in place of the one that has it.
func (l *library) keepBatch(ctx context.Context, b planner.Batch) (planner.Batch, error) {
	there, err := l.keptAs(ctx, b.Name)
	if err != nil {
		return b, err
	}
	if there != nil {
		b.ID = there.ID
	}
	return l.SaveBatch(ctx, b)
}

// keptAs is the batch that is kept under a name, nil where there is none.
func (l *library) keptAs(ctx context.Context, name string) (*planner.Batch, error) {
	if name == "" {
		return nil, nil
	}
	all, err := l.Batches(ctx)
	for _, k := range all {
		if k.Name == name {
			return &k, err
		}
	}
	return nil, err
}

func (s *session) batchList() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "Show the batches that are kept", Args: noMore, Example: "  tallycloth batch list",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				all, err := l.Batches(ctx)
				if err != nil {
					return err
				}
				out, rows := []batchLine{}, [][]string{}
				for _, b := range all {
					x := batchLine{Name: b.Name, Changed: string(b.Changed), Wanted: say.Wants(b.Rows)}
					if b.Plan != nil {
						x.Made = len(b.Plan.Made)
					}
					out = append(out, x)
					rows = append(rows, []string{x.Name, x.Changed, fmt.Sprint(x.Wanted), fmt.Sprint(x.Made)})
				}
				return s.answer(out, func(o io.Writer) { table(o, "BATCH|CHANGED|WANTED|MADE BY ITS PLAN", rows) })
			})
		},
	}
}

func (l *library) pickBatch(ctx context.Context, name string) (planner.Batch, error) {
	all, err := l.Batches(ctx)
	if err != nil {
		return planner.Batch{}, err
	}
	return pick("batch", name, all, func(b planner.Batch) string { return b.Name })
}

func (s *session) batchShow() *cobra.Command {
	return &cobra.Command{
		Use: "show NAME", Short: "Show a batch with its plan", Args: exactly("the name of a batch"), Example: "  tallycloth batch show \"spring class\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				b, err := l.pickBatch(ctx, args[0])
				if err != nil {
					return err
				}
				out, err := l.fieldsOfBatch(ctx, b)
				if err != nil {
					return err
				}
				out.Kept = true
				return s.answer(out, func(o io.Writer) { l.tellBatch(o, b, out) })
			})
		},
	}
}

func (s *session) batchDrop() *cobra.Command {
	return &cobra.Command{
		Use: "drop NAME", Short: "Take a batch off the list", Args: exactly("the name of a batch"), Example: "  tallycloth batch drop \"spring class\"",
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				b, err := l.pickBatch(ctx, args[0])
				if err != nil {
					return err
				}
				if err := l.DropBatch(ctx, b.ID); err != nil {
					return err
				}
				return s.answer(struct {
					Name string `json:"name"`
				}{b.Name}, func(o io.Writer) { fmt.Fprintf(o, "Took %s off the list. undo puts it back.\n", b.Name) })
			})
		},
	}
}
