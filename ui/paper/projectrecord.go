package paper

import (
	"fmt"
	"slices"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/say"
)

// adjustmentLines are the adjustments of a garment in their order.
func adjustmentLines(v say.Voice, g garment.Garment) []string {
	var out []string
	for i, s := range g.Adjustments {
		out = append(out, fmt.Sprintf("%d. %s", i+1, say.Sentence(v.Adjustment(s))))
	}
	return out
}

// workTable is the order of work: what is done is ticked, with what was noted of it; a stop that asks for
// a length has room to write it.
func workTable(v say.Voice, steps []garment.StepState) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Step", Share: 100}, {Title: "Noted", Share: 60}}}
	for i, s := range steps {
		row := []string{sheet.Box, say.Step(i, s), ""}
		switch {
		case s.Done():
			row[0], row[2] = sheet.Ticked, say.Sentence(v.StepNoted(*s.Noted))
		case s.Asks != "":
			row[2] = s.Asks + ": ……………………"
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// strapLine says how long the straps came to be at the fitting; "" where nothing is noted.
func strapLine(v say.Voice, g garment.Garment) string {
	l, ok := g.Noted(garment.AsksStrap)
	if !ok {
		return ""
	}
	return "Final strap length, as noted at the try-on: " + v.Fine(l) + "."
}

// fittingParts are what was seen at each fitting with its photos.
func fittingParts(s planner.ProjectSheet) []sheet.Part {
	var out []sheet.Part
	for _, f := range s.Garment.Record.Fittings {
		p := sheet.Part{Heading: "Fitting, " + say.Day(f.On), Lines: nonEmpty(f.Text)}
		for _, photo := range s.Photos {
			if slices.Contains(f.Photos, photo.ID) {
				p.Photos = append(p.Photos, sheet.Photo{JPEG: photo.JPEG, Words: photo.Note})
			}
		}
		out = append(out, p)
	}
	return out
}

// ofFitting says whether a photo belongs to a fitting.
func ofFitting(g garment.Garment, photo stash.ID) bool {
	return slices.ContainsFunc(g.Record.Fittings, func(f garment.Fitting) bool { return slices.Contains(f.Photos, photo) })
}

// threadPart is the thread seam by seam with their sum.
func threadPart(v say.Voice, r planner.GarmentRecord) sheet.Part {
	rows := v.ThreadRows(r.Thread)
	t := sheet.Table{}
	for i, title := range rows[0] {
		share := 16.0
		if i == 0 {
			share = 60
		}
		t.Columns = append(t.Columns, sheet.Column{Title: title, Share: share, Right: i > 0})
	}
	t.Rows = rows[1:]
	p := sheet.Part{Table: t, Lines: v.Thread(r.Thread)}
	if len(t.Rows) > 0 {
		t.Totals = [][]string{{"in all", "", "", "", "", v.LongThread(r.Thread.Total)}}
		p.Table = t
		if slices.ContainsFunc(r.Thread.Seams, func(s garment.SeamThread) bool { return s.Drawn }) {
			p.Lines = append(p.Lines, "* measured on the outlines.")
		}
	}
	if text := say.Breaks(r.Breaks); text != "" {
		p.Lines = append(p.Lines, text)
	}
	return p
}
