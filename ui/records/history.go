package records

import (
	"context"
	"fmt"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/scene"
	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
)

// AtFullWidth says what yardage is.
const AtFullWidth = "Yardage is area, as the length that it has at the full width of its fabric."

// Movements are lines of history, of so many in all.
func Movements(v say.Voice, lines []planner.PastLine, of int, what string) Figures {
	f := Figures{Title: "Movements", Notes: []string{what, AtFullWidth}}
	f.Table.Columns = []sheet.Column{{Title: "Noted on", Share: 21}, {Title: "What", Share: 27}, {Title: "Fabric", Share: 32}, {Title: "Code", Share: 12},
		{Title: "Yardage", Share: 18, Right: true}, {Title: "Area", Share: 17, Right: true}, {Title: "Garment", Share: 24}, {Title: "Notes", Share: 28}}
	for _, l := range planner.Told(lines) {
		area, sum := "", l.Yards()
		if sum.Area != 0 {
			area = v.Area(sum.Area)
		}
		f.Table.Rows = append(f.Table.Rows, []string{say.ShortDay(stash.On(l.At)), say.Told(l), l.Names(planner.PastLine.FabricName), l.Names(planner.PastLine.ClothCode),
			v.Yards(sum), area, l.Names(planner.PastLine.GarmentName), say.Besides(l)})
	}
	f.Lines = []string{say.Count(of, "line", "lines") + " of history, the last written first."}
	if len(lines) < of {
		f.Lines = []string{fmt.Sprintf("The newest %d of %d lines of history. Say a shorter period for the others, or export them all.", len(lines), of)}
	}
	return f
}

// Yardage is what went in and out.
func Yardage(v say.Voice, y planner.Yardage, what string) Figures {
	f := Figures{Title: "Yardage", Notes: []string{what, AtFullWidth}, Chart: Chart(v, y), File: planner.YardageTable(y)}
	f.Table.Columns = []sheet.Column{{Title: "", Share: 20}, {Title: "In", Share: 20, Right: true}, {Title: "Cut for garments", Share: 22, Right: true},
		{Title: "Given away, discarded", Share: 24, Right: true}, {Title: "Washed, measured", Share: 22, Right: true}}
	if y.Struck {
		f.Table.Columns = append(f.Table.Columns, sheet.Column{Title: "There at the end", Share: 22, Right: true})
	}
	row := func(name string, x planner.Flowed, there planner.Yards) []string {
		r := []string{name, v.Yards(x.In), v.Yards(x.Cut), v.Yards(x.Gone), v.Yards(x.Changed)}
		if y.Struck {
			r = append(r, v.Yards(there))
		}
		return r
	}
	for _, s := range y.Spans {
		f.Table.Rows = append(f.Table.Rows, row(say.Span(s, y.Step), s.Flowed, s.Balance))
	}
	area := []string{"area", v.Area(y.Total.In.Area), v.Area(y.Total.Cut.Area), v.Area(y.Total.Gone.Area), v.Area(y.Total.Changed.Area)}
	if y.Struck {
		area = append(area, v.Area(y.After().Area))
	}
	f.Table.Totals = [][]string{row("In all", y.Total, y.After()), area}
	f.Lines = []string{"In: " + v.YardsAndArea(y.Total.In) + ". Out: " + v.YardsAndArea(y.Total.Out()) + "."}
	if y.Struck {
		f.Lines = append(f.Lines, "There before: "+v.YardsAndArea(y.Before)+". There at the end: "+v.YardsAndArea(y.After())+".")
	}
	return f
}

// Chart draws yardage in the unit of long lengths.
func Chart(v say.Voice, y planner.Yardage) scene.Scene {
	unit, name := measure.Metre, "m"
	if v.Units == measure.Imperial {
		unit, name = measure.Yard, "yd"
	}
	in := func(l measure.Length) float64 { return float64(l) / float64(unit) }
	c := scene.Chart{Unit: name, Balance: y.Struck}
	for _, s := range y.Spans {
		c.Bars = append(c.Bars, scene.Bar{Name: say.Span(s, y.Step), In: max(in(s.In.Length), 0), Out: max(in(s.Out().Length), 0), There: in(s.Balance.Length)})
	}
	return c.Scene()
}

// Worth is what lies on the shelf at what was paid.
func Worth(v say.Voice, w planner.Worth) Figures {
	f := Figures{Title: "Value on hand", Notes: []string{"At what was paid, with its share of postage and tax. A leftover has its part by area of what it was cut from.", AtFullWidth}, File: w.Table()}
	f.Lines = []string{"On the shelf: " + say.Count(w.Pieces, "piece of cloth", "pieces of cloth") + ", " + v.YardsAndArea(w.Yards) + ".",
		"Paid for it: " + say.Totals(w.Totals, w.Joined) + "."}
	if w.Unpriced > 0 {
		f.Lines = append(f.Lines, "Of "+say.Count(w.Unpriced, "piece of cloth", "pieces of cloth")+" the price is not noted.")
	}
	f.Table.Columns = []sheet.Column{{Title: "Fabric", Share: 44}, {Title: "Pieces", Share: 12, Right: true}, {Title: "Yardage", Share: 22, Right: true}, {Title: "Area", Share: 20, Right: true},
		{Title: "Paid", Share: 36, Right: true}}
	for _, x := range w.Fabrics {
		f.Table.Rows = append(f.Table.Rows, []string{x.Fabric.Name, fmt.Sprint(x.Pieces), v.Yards(x.Yards), v.Area(x.Area), PaidFor(x)})
	}
	f.Table.Totals = [][]string{{"In all", fmt.Sprint(w.Pieces), v.Yards(w.Yards), v.Area(w.Area), amounts(w.Totals)}}
	return f
}

// PaidFor says what was paid for what is there of a fabric.
func PaidFor(x planner.FabricWorth) string {
	switch {
	case len(x.Totals) == 0:
		return "not noted"
	case x.Unpriced > 0:
		return amounts(x.Totals) + " and " + fmt.Sprint(x.Unpriced) + " not noted"
	}
	return amounts(x.Totals)
}

func amounts(ms []measure.Money) string {
	out := make([]string, len(ms))
	for i, m := range ms {
		out[i] = m.String()
	}
	return say.And(out)
}

// Costs are what garments cost.
func Costs(v say.Voice, all []planner.GarmentCost) Figures {
	f := Figures{Title: "Garment costs", Notes: []string{"Cloth with its share of the waste of cutting, by area at what it was paid, and notions. What is reserved and not cut yet counts without waste."},
		File: planner.CostTable(all)}
	f.Table.Columns = []sheet.Column{{Title: "Garment", Share: 34}, {Title: "What it takes", Share: 58}, {Title: "Cloth", Share: 20, Right: true}, {Title: "Waste", Share: 20, Right: true}, {Title: "Cost", Share: 30, Right: true}}
	var paid []measure.Money
	var area, waste measure.Area
	for _, g := range all {
		f.Table.Rows = append(f.Table.Rows, []string{g.Garment.Name, "", v.Area(g.Area), v.Area(g.Waste), CostOf(g)})
		for _, part := range PartsOf(v, g) {
			f.Table.Rows = append(f.Table.Rows, append([]string{""}, part...))
		}
		paid = append(paid, g.Totals...)
		area, waste = area+g.Area, waste+g.Waste
	}
	f.Lines = []string{say.Count(len(all), "garment", "garments") + "."}
	f.Table.Totals = [][]string{{"In all", "", v.Area(area), v.Area(waste), amounts(measure.Totals(paid...))}}
	return f
}

// PartsOf are the parts of what a garment costs, each what it is, its cloth, waste and cost.
func PartsOf(v say.Voice, g planner.GarmentCost) [][]string {
	var out [][]string
	for _, c := range g.Cloth {
		name := c.Fabric + " " + c.Code
		if c.Planned {
			name += ", not cut yet"
		}
		waste := v.Area(c.Waste)
		if c.Planned {
			waste = ""
		}
		out = append(out, []string{name, v.Area(c.Area), waste, say.Money(c.Cost.Amount())})
	}
	for _, n := range g.Notions {
		out = append(out, []string{stash.FormatQuantity(n.Quantity, n.Unit) + " of " + n.Name, "", "", say.Money(n.Cost)})
	}
	return out
}

// CostOf says what a garment costs, as far as it is known.
func CostOf(g planner.GarmentCost) string {
	switch {
	case len(g.Totals) == 0:
		return "not noted"
	case g.Unpriced > 0:
		return "at least " + amounts(g.Totals)
	}
	return amounts(g.Totals)
}

// Shopping is what is to be bought.
func Shopping(items []planner.ToBuy) Figures {
	f := Figures{Title: "Shopping list", File: planner.ShoppingTable(items), Lines: []string{say.Count(len(items), "thing", "things") + " to buy."}}
	f.Table.Columns = []sheet.Column{{Share: 5}, {Title: "Buy", Share: 24, Right: true}, {Title: "What", Share: 50}, {Title: "On hand", Share: 24, Right: true}, {Title: "Because", Share: 70}}
	for _, b := range items {
		f.Table.Rows = append(f.Table.Rows, []string{sheet.Box, stash.FormatQuantity(b.Buy, b.Unit), b.Name, stash.FormatQuantity(b.OnHand, b.Unit), b.Why()})
	}
	return f
}

// MostPrinted is how many lines of history are printed, some hundred sheets.
const MostPrinted = 5000

// Historian is who is asked for lines of history.
type Historian interface {
	HistoryUpTo(ctx context.Context, p planner.Past, most int) ([]planner.PastLine, error)
	HistoryCount(ctx context.Context, p planner.Past) (int, error)
	MovementTable(lines []planner.PastLine) list.Table
}

// AllMovements asks for the newest lines of history, at most so many.
func AllMovements(ctx context.Context, h Historian, v say.Voice, p planner.Past, most int, what string) (Figures, error) {
	n, err := h.HistoryCount(ctx, p)
	if err != nil {
		return Figures{}, err
	}
	lines, err := h.HistoryUpTo(ctx, p, most)
	if err != nil {
		return Figures{}, err
	}
	f := Movements(v, lines, max(n, len(lines)), what)
	f.File = h.MovementTable(lines)
	return f, nil
}
