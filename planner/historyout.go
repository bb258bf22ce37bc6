package planner

import (
	"context"

	"tallycloth/stash/list"
	"tallycloth/stash/measure"
)

// MostLines is how many lines of history a file takes: rows of a workbook's sheet, less its
// heading.
const MostLines = 1_048_575

// linesAtOnce is how many lines are read with one question.
const linesAtOnce = 5000

// HistoryUpTo returns the newest lines of history, at most so many, page by page.
func (s *Studio) HistoryUpTo(ctx context.Context, p Past, most int) ([]PastLine, error) {
	var out []PastLine
	for before := int64(0); len(out) < most; {
		page, err := s.History(ctx, p, before, min(linesAtOnce, most-len(out)))
		if err != nil {
			return nil, err
		}
		if len(page) == 0 {
			break
		}
		out, before = append(out, page...), page[len(page)-1].Seq
	}
	return out, nil
}

// MovementTable is lines of history as a table, for a file; the yardage is the area at the full
// width of the fabric.
func (s *Studio) MovementTable(lines []PastLine) list.Table {
	t := sheet("Movements", "noted on", "kind", "code", "fabric", "yardage (cm)", "area (m²)", "garment", "bought on", "taken back", "notes")
	zone := s.now().Location()
	for _, l := range lines {
		y := YardsOf(l.Area, l.FullWidth)
		add(&t, dayCell(PastLine{Movement: l.Movement}.Day(zone)), words(string(l.Kind)), words(l.Code), words(l.Fabric), centimetres(y.Length),
			decimal(y.Area.SquareMetres()), words(l.Garment), dayCell(l.BoughtOn), yes(l.TakenBack), words(l.Note))
	}
	return t
}

// YardageTable is what went in and out as a table, for a file.
func YardageTable(y Yardage) list.Table {
	t := sheet("Yardage", "from", "to", "in (cm)", "in (m²)", "cut (cm)", "cut (m²)", "given away or discarded (cm)", "given away or discarded (m²)",
		"changed (cm)", "changed (m²)", "there at the end (cm)", "there at the end (m²)")
	for _, s := range y.Spans {
		row := []list.Cell{dayCell(s.From), dayCell(s.To)}
		for _, a := range []Yards{s.In, s.Cut, s.Gone, s.Changed, s.Balance} {
			row = append(row, centimetres(a.Length), decimal(a.Area.SquareMetres()))
		}
		if !y.Struck {
			row = row[:len(row)-2]
		}
		add(&t, row...)
	}
	return t
}

// Table is what lies on the shelf as a table, for a file: a row for each fabric and currency.
func (w Worth) Table() list.Table {
	t := sheet("Value on hand", "fabric", "pieces", "yardage (cm)", "area (m²)", "paid", "currency", "pieces without a price")
	for _, f := range w.Fabrics {
		totals := f.Totals
		if len(totals) == 0 {
			totals = []measure.Money{{}}
		}
		for i, m := range totals {
			row := []list.Cell{words(f.Fabric.Name), count(f.Pieces), centimetres(f.Length), decimal(f.Area.SquareMetres()), paid(m), words(m.Currency), count(f.Unpriced)}
			if i > 0 { // what is of the whole fabric stands once, so that sums are right
				row[1], row[2], row[3], row[6] = list.Cell{}, list.Cell{}, list.Cell{}, list.Cell{}
			}
			add(&t, row...)
		}
	}
	return t
}

// CostTable is what garments cost as a table, for a file: a row for each piece of cloth and notion.
func CostTable(all []GarmentCost) list.Table {
	t := sheet("Garment costs", "garment", "pattern", "size", "state", "of", "code", "area (m²)", "waste (m²)", "quantity", "unit", "cost", "currency", "not cut yet")
	for _, g := range all {
		head := []list.Cell{words(g.Garment.Name), words(g.Pattern), words(g.Garment.Size), words(string(g.Garment.State))}
		for _, c := range g.Cloth {
			add(&t, append(head[:4:4], words(c.Fabric), words(c.Code), decimal(c.Area.SquareMetres()), decimal(c.Waste.SquareMetres()), list.Cell{}, list.Cell{},
				paid(c.Cost.Amount()), words(c.Cost.Amount().Currency), yes(c.Planned))...)
		}
		for _, n := range g.Notions {
			add(&t, append(head[:4:4], words(n.Name), list.Cell{}, list.Cell{}, list.Cell{}, decimal(n.Quantity), words(n.Unit), paid(n.Cost), words(n.Cost.Currency))...)
		}
	}
	return t
}
