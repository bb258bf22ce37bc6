package paper

import (
	"fmt"
	"slices"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/say"
)

// ByCloth is a planned batch cloth by cloth: each with its layout and its garments, then what finds no
// cloth. s is the sheet of its plan, pattern names a pattern.
func ByCloth(v say.Voice, b planner.Batch, s planner.CuttingSheet, pattern func(stash.ID) string) sheet.Report {
	r := sheet.Report{Title: "Batch by cloth: " + s.Title, Notes: []string{say.Planned(*b.Plan, say.Wants(b.Rows)), v.PlanSum(*b.Plan)}}
	if s.Planned {
		r.Notes = append(r.Notes, "As it was planned; reserve the cloth before you cut.")
	}
	for _, c := range s.Cloths {
		part := sheet.Part{Heading: c.State.Fabric.Name + ", " + c.State.Cloth.Code, Table: onCloth(s, c)}
		part.Lines = []string{say.Sentence(where(v, c.State.Cloth)), lie(v, c),
			fmt.Sprintf("Used: %s of its length, %s of its width. %s", v.Length(c.UsedLength), v.Width(c.UsedWidth), left(v, c))}
		draw(&part, v.Units, s, c)
		r.Parts = append(r.Parts, part)
	}
	r.Parts = append(r.Parts, sheet.Part{Heading: "The garments", Table: fromCloths(s)})
	if len(b.Plan.Missing) > 0 {
		t := sheet.Table{Columns: []sheet.Column{{Title: "Count", Share: 11, Right: true}, {Title: "Garment", Share: 80}}}
		for _, m := range b.Plan.Missing {
			if m.Row < len(b.Rows) {
				t.Rows = append(t.Rows, []string{fmt.Sprint(m.Count), one(b.Rows[m.Row], pattern)})
			}
		}
		r.Parts = append(r.Parts, sheet.Part{Heading: "No cloth for these", Table: t})
	}
	return r
}

// one names a garment of a row, without which of several it is.
func one(row planner.Wanted, pattern func(stash.ID) string) string {
	row.Count = 1
	return say.GarmentOf(row, pattern(row.PatternID), 1)
}

// onCloth are the garments on a cloth, with what of them is cut from it.
func onCloth(s planner.CuttingSheet, c planner.SheetCloth) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Garment", Share: 16}, {Title: "", Share: 76}, {Title: "Cut for", Share: 30}, {Title: "Outlines", Share: 18, Right: true}}}
	for k, g := range s.Garments {
		var uses []string
		n := 0
		for _, p := range c.Pieces {
			if p.Garment != k || p.Spoiled {
				continue
			}
			n++
			if !slices.Contains(uses, p.UsedFor) {
				uses = append(uses, p.UsedFor)
			}
		}
		if n > 0 {
			t.Rows = append(t.Rows, []string{sheet.Box, garmentNumber(k), about(g), say.And(uses), fmt.Sprint(n)})
		}
	}
	return t
}

// fromCloths are all garments with the cloth they are cut from.
func fromCloths(s planner.CuttingSheet) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Garment", Share: 16}, {Title: "", Share: 76}, {Title: "Wanted for", Share: 30}, {Title: "Cut from", Share: 40}}}
	for k, g := range s.Garments {
		var from []string
		for _, c := range s.Cloths {
			if slices.ContainsFunc(c.Pieces, func(p planner.SheetPiece) bool { return p.Garment == k }) {
				from = append(from, c.State.Cloth.Code)
			}
		}
		on := ""
		if g.Garment.Wanted != "" {
			on = say.ShortDay(g.Garment.Wanted)
		}
		t.Rows = append(t.Rows, []string{sheet.Box, garmentNumber(k), about(g), on, say.And(from)})
	}
	return t
}
