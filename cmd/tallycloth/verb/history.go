package verb

import (
	"context"
	"fmt"
	"io"
	"strings"

	"tallycloth/planner"
	lists "tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/ui/records"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// onPaper is where figures go besides the answer: a PDF, a file for a spreadsheet program.
type onPaper struct {
	pdf, file string
	o         lists.CSV
}

func (p *onPaper) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&p.pdf, "pdf", "", "also print the figures into this PDF, on the paper of the settings")
	cmd.Flags().StringVar(&p.file, "csv", "", "also write the numbers into this file (.csv or .xlsx)")
	cmd.Flags().BoolVar(&p.o.Comma, "comma", false, "CSV with decimal commas and semicolons between cells")
}

// write writes the files that were asked for.
func (p *onPaper) write(l *library, f records.Figures) error {
	if p.pdf != "" {
		if err := f.Print(p.pdf, records.PaperOf(l.settings)); err != nil {
			return err
		}
	}
	if p.file != "" {
		return f.Save(p.file, p.o)
	}
	return nil
}

// most is how many lines of history the files take.
func (p *onPaper) most(shown int) int {
	switch {
	case p.file != "":
		return planner.MostLines
	case p.pdf != "":
		return max(shown, records.MostPrinted)
	}
	return shown
}

// pastWords are the flags that say which lines of history are meant.
type pastWords struct{ period, from, to, fabric, cloth, garment, kind, words string }

func (w *pastWords) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&w.period, "period", "", "this month, this year, last year or all (default: all)")
	f.StringVar(&w.from, "from", "", "the first day, as 2026-03-02")
	f.StringVar(&w.to, "to", "", "the last day")
	f.StringVar(&w.fabric, "fabric", "", "of one fabric")
	f.StringVar(&w.cloth, "cloth", "", "of one cloth, by its code")
	f.StringVar(&w.garment, "garment", "", "for one garment")
	f.StringVar(&w.kind, "kind", "", "of one kind, such as bought, washed or cut")
	f.StringVar(&w.words, "words", "", "with all these words in fabric, code, garment, kind or note")
}

// past reads the flags, and says in words what they ask for.
func (w pastWords) past(ctx context.Context, l *library) (p planner.Past, asked string, err error) {
	if w.period != "" && w.from+w.to != "" {
		return p, "", mistyped("A period is named, and days are said", "Say one of them")
	}
	period := planner.AllTime
	if w.period != "" {
		if period, err = pick("period", w.period, planner.Periods[:4], func(p planner.Period) string { return string(p) }); err != nil {
			return p, "", err
		}
	}
	if p.From, p.To = period.Days(l.Today()); period == planner.AllTime {
		if p.From, err = l.day("--from", w.from); err == nil {
			p.To, err = l.day("--to", w.to)
		}
		if err != nil {
			return p, "", err
		}
	}
	only := []string{say.Period(p.From, p.To)}
	if w.fabric != "" {
		f, err := l.pickFabric(ctx, w.fabric)
		if err != nil {
			return p, "", err
		}
		p.FabricID, only = f.ID, append(only, "only "+f.Name)
	}
	if w.cloth != "" {
		p.Code, only = strings.TrimSpace(w.cloth), append(only, "only cloth "+w.cloth)
	}
	if w.garment != "" {
		g, err := l.pickGarment(ctx, w.garment)
		if err != nil {
			return p, "", err
		}
		p.GarmentID, only = g.ID, append(only, "only "+g.Name)
	}
	if w.kind != "" {
		kind, err := pick("kind of movement", w.kind, planner.MovementKinds, func(k stash.MovementKind) string { return string(k) })
		if err != nil {
			return p, "", err
		}
		p.Kinds, only = []stash.MovementKind{kind}, append(only, string(kind))
	}
	if p.Words = strings.Fields(w.words); len(p.Words) > 0 {
		only = append(only, "with the words "+w.words)
	}
	return p, say.Sentence(strings.Join(only, ", ")), nil
}

// history is the verb that lists movements of cloth.
func (s *session) history() *cobra.Command {
	var w pastWords
	var out onPaper
	most := 50
	cmd := &cobra.Command{
		Use:   "history",
		Short: "Show movements of cloth, line by line, in a period",
		Long: `Shows what happened to cloth, the last written first: bought, washed, reserved, cut, given
away and so on, each a line. What was taken back by undo still stands here, with the line
that took it back.

Yardage is area, as the length that it has at the full width of its fabric.

With --json an object: lines (how many there are in all) and movements, a list of
noted (RFC 3339), kind, fabric, code, garment, yardage_mm, area_m2, bought_on (the day
of the purchase), taken_back and note.`,
		Example: "  tallycloth history --period \"last year\" --kind cut\n  tallycloth history --fabric moss --pdf moss.pdf",
		Args:    noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error { return s.showHistory(ctx, l, w, out, most) })
		},
	}
	w.flags(cmd)
	out.flags(cmd)
	cmd.Flags().IntVar(&most, "lines", most, "so many lines, the newest; 0 for all")
	return cmd
}

func (s *session) showHistory(ctx context.Context, l *library, w pastWords, out onPaper, most int) error {
	p, asked, err := w.past(ctx, l)
	if err != nil {
		return err
	}
	if most < 0 {
		return mistyped("The number of lines is less than 0", "Say how many with --lines, 0 for all")
	}
	if most == 0 {
		most = planner.MostLines
	}
	f, err := records.AllMovements(ctx, l, l.voice, p, out.most(most), asked)
	if err != nil {
		return err
	}
	if err := out.write(l, f); err != nil {
		return err
	}
	n, err := l.HistoryCount(ctx, p)
	if err != nil {
		return err
	}
	lines, err := l.HistoryUpTo(ctx, p, most)
	if err != nil {
		return err
	}
	answer := historyFields{Lines: n, Movements: []movementFields{}}
	for _, m := range lines {
		answer.Movements = append(answer.Movements, fieldsOfMovement(m))
	}
	return s.answer(answer, func(o io.Writer) { showFigures(o, records.Movements(l.voice, lines, n, asked)) })
}

// showFigures writes figures in columns, what they are first and totals last.
func showFigures(w io.Writer, f records.Figures) {
	for _, n := range f.Notes {
		fmt.Fprintln(w, n)
	}
	if len(f.Table.Rows) > 0 {
		titles := make([]string, len(f.Table.Columns))
		for i, c := range f.Table.Columns {
			titles[i] = strings.ToUpper(c.Title)
		}
		fmt.Fprintln(w)
		table(w, strings.Join(titles, "|"), append(f.Table.Rows[:len(f.Table.Rows):len(f.Table.Rows)], f.Table.Totals...))
		fmt.Fprintln(w)
	}
	for _, n := range f.Lines {
		fmt.Fprintln(w, n)
	}
}

// yardage is the verb that adds up what went in and out.
func (s *session) yardage() *cobra.Command {
	var w pastWords
	var out onPaper
	by := "month"
	cmd := &cobra.Command{
		Use:   "yardage",
		Short: "Show yardage in, out and what was there, by month or year",
		Long: `Adds up what came in (bought, or there before the library), what was cut for garments, given
away or discarded, and what washing and measuring changed, and strikes the balance. Cloth
that was bought counts on the day of its purchase, all else on the day it was noted; what
was taken back by undo does not count. Cloth that becomes leftovers is neither in nor out,
but where --cloth asks for one cloth alone.

Yardage is area, as the length that it has at the full width of its fabric: areas are exact.
There is no balance where --kind, --garment or --words leave lines out.

With --json an object: before, after, total and spans. Each of spans has from, to, there
and, as total does, in, cut, gone (given away, discarded, waste of cutting) and changed.
Each amount has yardage_mm and area_m2. before, after and there are null without balance.`,
		Example: "  tallycloth yardage --period \"this year\"\n  tallycloth yardage --by year --pdf yardage.pdf",
		Args:    noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			step, err := pick("span", by, []string{"month", "year"}, func(s string) string { return s })
			if err != nil {
				return err
			}
			return s.reading(cmd, func(ctx context.Context, l *library) error { return s.showYardage(ctx, l, w, out, step) })
		},
	}
	w.flags(cmd)
	out.flags(cmd)
	cmd.Flags().StringVar(&by, "by", by, "month or year")
	return cmd
}

func (s *session) showYardage(ctx context.Context, l *library, w pastWords, out onPaper, by string) error {
	p, asked, err := w.past(ctx, l)
	if err != nil {
		return err
	}
	y, err := l.Yardage(ctx, p, map[string]planner.Step{"month": planner.ByMonth, "year": planner.ByYear}[by])
	if err != nil {
		return err
	}
	f := records.Yardage(l.voice, y, asked)
	if err := out.write(l, f); err != nil {
		return err
	}
	return s.answer(fieldsOfYardage(y), func(o io.Writer) { showFigures(o, f) })
}

// value is the verb that says what the shelf is worth.
func (s *session) value() *cobra.Command {
	var out onPaper
	cmd := &cobra.Command{
		Use:   "value",
		Short: "Show what lies on the shelf at what was paid for it",
		Long: `Adds up what lies on the shelf, fabric by fabric, at what was paid for it with its share of
postage and tax; a leftover has its part by area of what it was cut from. Totals are per
currency, and joined by the rates that you typed (see the verb rate), about.

With --json an object: pieces, yardage_mm, area_m2, totals, joined (total, approximate,
rates and without, as in purchases), pieces_without_a_price and fabrics, a list of fabric, pieces, yardage_mm, area_m2, totals
and pieces_without_a_price.`,
		Example: "  tallycloth value\n  tallycloth value --csv value.xlsx",
		Args:    noMore,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				worth, err := l.Worth(ctx)
				if err != nil {
					return err
				}
				f := records.Worth(l.voice, worth)
				if err := out.write(l, f); err != nil {
					return err
				}
				return s.answer(fieldsOfWorth(worth), func(o io.Writer) { showFigures(o, f) })
			})
		},
	}
	out.flags(cmd)
	return cmd
}

// costs is the verb that says what garments cost.
func (s *session) costs() *cobra.Command {
	var out onPaper
	cmd := &cobra.Command{
		Use:   "costs [GARMENT]",
		Short: "Show what garments cost: cloth with its waste, and notions",
		Long: `Shows what garments cost that have cloth or notions: the area cut for them with its share of
the waste of cutting, at what its cloth cost, and notions at the price last paid before
they were used. What is reserved and not cut yet counts without waste.

With --json a list of objects: garment, pattern, size, state, area_m2, waste_m2, totals,
joined (as in the verb value), parts_without_a_price, planned (not all is cut yet), cloth (list
of fabric, code, area_m2, waste_m2, cost, planned) and notions (list of name, quantity,
unit, cost). Amounts are texts such as "18.60 EUR", "" where none is noted.`,
		Example: "  tallycloth costs\n  tallycloth costs \"Summer tank\" --json",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return mistyped("More than one garment is named", "Put a name of several words in quotation marks")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error { return s.showCosts(ctx, l, args, out) })
		},
	}
	out.flags(cmd)
	return cmd
}

func (s *session) showCosts(ctx context.Context, l *library, args []string, out onPaper) error {
	all, err := l.GarmentCosts(ctx)
	if err != nil {
		return err
	}
	if len(args) > 0 {
		one, err := pick("garment with cloth or notions", args[0], all, func(g planner.GarmentCost) string { return g.Garment.Name })
		if err != nil {
			return err
		}
		all = []planner.GarmentCost{one}
	}
	f := records.Costs(l.voice, all)
	if err := out.write(l, f); err != nil {
		return err
	}
	answer := []costFields{}
	for _, g := range all {
		answer = append(answer, fieldsOfCost(g))
	}
	return s.answer(answer, func(o io.Writer) { showFigures(o, f) })
}
