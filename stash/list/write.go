package list

import (
	"bytes"
	"cmp"
	"slices"
	"strconv"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Write writes the stash as a table that Plan reads into the same records: a row for
// each cloth, one for each fabric without cloth, fabrics by name. Cloth that others were
// cut from stands before them. Headings are the words of the fields, with the unit.
// Cloth that is gone has no row; its code is there where others were cut from it.
func Write(cloths []stash.ClothState, fabrics []stash.Fabric, purchases []stash.Purchase) Table {
	w := writer{purchases: map[stash.ID]stash.Purchase{}, purchaseNo: map[stash.ID]string{}, codes: map[stash.ID]string{}}
	for i, p := range purchases {
		w.purchases[p.ID] = p
		w.purchaseNo[p.ID] = strconv.Itoa(i + 1)
	}
	for _, c := range cloths {
		w.codes[c.Cloth.ID] = c.Cloth.Code
	}
	of := map[stash.ID][]stash.Cloth{}
	for _, c := range cloths {
		if !c.Cloth.Gone {
			of[c.Cloth.FabricID] = append(of[c.Cloth.FabricID], c.Cloth)
		}
	}
	t := Table{Name: "Stash", Rows: [][]Cell{headingCells()}}
	for i, f := range fabrics {
		no := strconv.Itoa(i + 1)
		mine := of[f.ID]
		slices.SortFunc(mine, func(a, b stash.Cloth) int { return bytes.Compare(a.ID[:], b.ID[:]) })
		for _, c := range mine {
			t.Rows = append(t.Rows, w.row(no, f, c))
		}
		if len(mine) == 0 {
			t.Rows = append(t.Rows, w.row(no, f, stash.Cloth{}))
		}
	}
	return t
}

type writer struct {
	purchases  map[stash.ID]stash.Purchase
	purchaseNo map[stash.ID]string
	codes      map[stash.ID]string
}

// row writes one cloth with its fabric and purchase; the zero Cloth for a fabric alone.
func (w writer) row(no string, f stash.Fabric, c stash.Cloth) []Cell {
	rec := Record{FabricNo: no, Fabric: f, Cloth: c, CutFrom: w.codes[c.CutFrom]}
	if p, ok := w.purchases[c.PurchaseID]; ok {
		rec.Bought = Bought{No: w.purchaseNo[p.ID], On: p.Date, From: p.Supplier, Postage: p.Postage, Tax: p.Tax, Notes: p.Notes}
		for _, l := range p.Lines {
			if l.ClothID == c.ID {
				rec.Bought.Length, rec.Bought.Price = l.Quantity, l.Price
			}
		}
		rec.Currency = cmp.Or(rec.Bought.Price.Currency, p.Postage.Currency, p.Tax.Currency)
	}
	out := make([]Cell, len(defs))
	for i := range defs {
		if d := &defs[i]; d.part == ofFabric || c.ID != stash.NoID {
			out[i] = cellOf(d, &rec)
		}
	}
	return out
}

// headingCells are the headings of Write.
func headingCells() []Cell {
	out := make([]Cell, len(defs))
	for i, d := range defs {
		out[i].Text = string(d.field) + unitWords(&d)
	}
	return out
}

func unitWords(d *def) string {
	switch d.at(&Record{}).(type) {
	case *measure.Length:
		return " (" + map[measure.Unit]string{cm: "cm", mm: "mm"}[d.unit] + ")"
	case *measure.Weight:
		return " (g/m²)"
	case *reading:
		return " (%)"
	}
	return ""
}

// OwnMapping is the mapping of a table that Write wrote, with decimal points or commas,
// perhaps saved again by another program since; ok is false for another table.
func OwnMapping(t Table) (m Mapping, ok bool) {
	own := headingCells()
	if len(t.Rows) == 0 || t.Width() < len(own) {
		return Mapping{}, false
	}
	m.Columns = make([]Column, t.Width())
	for k := range m.Columns {
		m.Columns[k].Field = KeepNote
		if k < len(own) {
			if t.At(0, k).Text != own[k].Text {
				return Mapping{}, false
			}
			m.Columns[k] = Column{Field: defs[k].field, Decimal: ownDecimal(t, k)}
		}
	}
	return m, true
}

// ownDecimal is the decimal sign of a column that Write wrote, which sets off no
// thousands: the one sign there is. Where both are, another program wrote the column.
func ownDecimal(t Table, column int) Decimal {
	points, commas := false, false
	if defs[column].form() == plainForm {
		return Point
	}
	for i := 1; i < len(t.Rows); i++ {
		text := t.At(i, column).Text
		points = points || strings.Contains(text, ".")
		commas = commas || strings.Contains(text, ",")
	}
	switch {
	case points && commas:
		return Undecided
	case commas:
		return Comma
	}
	return Point
}
