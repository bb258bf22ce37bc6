package paper

import (
	"slices"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
)

// Project is all that is known of a garment: photos, measurements, adjustments, fabric, notions, stitches,
// thread by seam, strips, the order of work with what is done of it, fittings, and what it costs.
func Project(v say.Voice, s planner.ProjectSheet) sheet.Report {
	g := s.Garment
	r := sheet.Report{Title: "Project sheet: " + g.Name, Notes: []string{about(planner.SheetGarment{Garment: g, Pattern: s.Pattern})}}
	if g.Record.Purpose != "" {
		r.Notes = append(r.Notes, say.Sentence("What it is for: "+g.Record.Purpose))
	}
	r.Notes = append(r.Notes, lifeOf(s))
	part := func(heading string, p sheet.Part) {
		p.Heading = heading
		if len(p.Lines) > 0 || len(p.Photos) > 0 || len(p.Table.Rows) > 0 || len(p.Boxes) > 0 {
			r.Parts = append(r.Parts, p)
		}
	}
	part("Photos", sheet.Part{Photos: photosOf(s)})
	part("Measurements", measurements(v, s))
	part("Adjustments", sheet.Part{Lines: adjustmentLines(v, g)})
	part("Fabric", fabricTable(v, s))
	part("Notions", sheet.Part{Table: notionTable(planner.SheetGarment{Notions: s.Notions})})
	part("Stitches", sheet.Part{Lines: stitchLines(s)})
	if len(g.Strips) > 0 {
		var strips []binding.Strip
		for _, k := range g.Strips {
			strips = append(strips, k.Strip)
		}
		r.Parts = append(r.Parts, stripTables(v, strips, "")...)
	}
	part("Thread by seam", threadPart(v, s.Record))
	part("Allowances", sheet.Part{Lines: []string{"Seams: " + allowance(v, s.Pattern.SeamAllowance) + ". Hems: " + allowance(v, s.Pattern.HemAllowance) + "."}})
	part("Order of work", sheet.Part{Table: workTable(v, s.Record.Steps), Lines: nonEmpty(strapLine(v, g), v.AfterTakeIn(g))})
	r.Parts = append(r.Parts, fittingParts(s)...)
	part("Notes", sheet.Part{Lines: nonEmpty(g.Notes, s.Pattern.Notes)})
	part("Cost", sheet.Part{Lines: costLines(v, s)})
	part("Mind", sheet.Part{Lines: Cautions(planner.CuttingSheet{Garments: []planner.SheetGarment{{Garment: g, Pattern: s.Pattern, Notions: s.Notions}}})})
	return r
}

// lifeOf says where a garment is in its life, and for when it is wanted.
func lifeOf(s planner.ProjectSheet) string {
	g := s.Garment
	text := "It is " + string(g.State)
	if g.Changed != "" {
		text += " since " + say.Day(g.Changed)
	}
	if g.Wanted != "" {
		text += ", wanted for " + say.Day(g.Wanted)
	}
	if g.State == garment.Finished || g.State == garment.GivenUp {
		return text + "."
	}
	return text + ". Next: " + say.Next(g.State) + "."
}

func photosOf(s planner.ProjectSheet) []sheet.Photo {
	var out []sheet.Photo
	for _, p := range s.Photos {
		if ofFitting(s.Garment, p.ID) { // they stand with it
			continue
		}
		words := p.Note
		if words == "" && p.Kind == stash.Scrap {
			words = "test scrap"
		}
		if p.At != "" {
			words = strings.TrimPrefix(words+", "+say.ShortDay(p.At), ", ")
		}
		out = append(out, sheet.Photo{JPEG: p.JPEG, Words: words})
	}
	return out
}

// measurements are the size's body and garment level by level, beside the person's own.
func measurements(v say.Voice, s planner.ProjectSheet) sheet.Part {
	size, ok := s.Pattern.Size(s.Garment.Size)
	if !ok {
		return sheet.Part{}
	}
	t := sheet.Table{Columns: []sheet.Column{{Title: "", Share: 30}, {Title: "Body of size " + size.Name, Share: 30, Right: true}, {Title: "Garment", Share: 26, Right: true}, {Title: "Ease", Share: 20, Right: true},
		{Title: "Measured on it", Share: 30, Right: true}}}
	if len(s.Body) > 0 {
		t.Columns = slices.Insert(t.Columns, 1, sheet.Column{Title: s.Garment.For, Share: 26, Right: true})
	}
	say := func(l measure.Length, known bool) string {
		if !known {
			return ""
		}
		return v.Width(l)
	}
	for _, l := range s.Pattern.Levels {
		body, hasBody := size.Body[l.Name]
		made, hasMade := s.Sewn.Finished[l.Name]
		own, hasOwn := s.Body[l.Name]
		if !hasBody && !hasMade && !hasOwn {
			continue
		}
		row := []string{l.Name, say(body, hasBody), say(made, hasMade), "", "……………"}
		of := body
		if hasOwn {
			of = own
		}
		if hasMade && (hasBody || hasOwn) {
			row[3] = v.Signed(made - of)
		}
		if len(s.Body) > 0 {
			row = slices.Insert(row, 1, say(own, hasOwn))
		}
		t.Rows = append(t.Rows, row)
	}
	p := sheet.Part{Table: t}
	if len(s.Garment.Adjustments) > 0 && len(t.Rows) > 0 {
		p.Lines = append(p.Lines, "The garment is measured with its adjustments.")
	}
	if len(t.Rows) > 0 && len(s.Body) > 0 {
		p.Lines = append(p.Lines, "Ease is the garment less "+s.Garment.For+"'s own measurement where it is known.")
	}
	return p
}

// fabricTable lists what the garment is made of.
func fabricTable(v say.Voice, s planner.ProjectSheet) sheet.Part {
	t := sheet.Table{Columns: []sheet.Column{{Title: "Fabric", Share: 44}, {Title: "Code", Share: 14}, {Title: "Used for", Share: 24}, {Title: "Fibres", Share: 40}, {Title: "Stretch across", Share: 30, Right: true}, {Title: "In it", Share: 18, Right: true}}}
	var care []string
	for _, f := range s.Fabrics {
		used := f.UsedFor
		if !f.Part.Planned {
			used = cutFor(s.Record, f.Code)
		}
		t.Rows = append(t.Rows, []string{f.Fabric.Name, f.Code, used, f.Fabric.Fibres.String(), say.Reading(f.Fabric.Crosswise.Stretch, stash.Assumed(f.Fabric).Crosswise.Stretch), v.Area(f.Part.Area)})
		if line := "Care of " + f.Fabric.Name + ": " + f.Fabric.Care + "."; f.Fabric.Care != "" && !slices.Contains(care, line) {
			care = append(care, line)
		}
	}
	if text := say.Blend(s.Record.Blend); text != "" {
		care = append(care, "Fibres: "+text)
	}
	return sheet.Part{Lines: care, Table: t}
}

// cutFor is what was cut from a cloth for the garment.
func cutFor(r planner.GarmentRecord, code string) string {
	var uses []string
	for _, f := range r.Fabrics {
		if f.Code == code && f.UsedFor != "" && !slices.Contains(uses, f.UsedFor) {
			uses = append(uses, f.UsedFor)
		}
	}
	if len(uses) == 0 {
		return "cut"
	}
	return say.And(uses)
}

// stitchLines are the stitches noted on the garment, or on its fabrics until it is cut.
func stitchLines(s planner.ProjectSheet) []string {
	var notes []stash.StitchNote
	for _, n := range s.Garment.Stitches {
		notes = append(notes, n.StitchNote)
	}
	if len(notes) == 0 {
		for _, f := range s.Fabrics {
			notes = append(notes, f.Fabric.Stitches...)
		}
	}
	var out []string
	for _, f := range s.Fabrics {
		if n := stash.NeedleFor(f.Fabric); n != "" && !slices.Contains(out, f.Fabric.Name+": needle "+n+".") {
			out = append(out, f.Fabric.Name+": needle "+n+".")
		}
	}
	for _, n := range notes {
		if text := say.Stitch(n); !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

func costLines(v say.Voice, s planner.ProjectSheet) []string {
	text := v.GarmentCost(s.Record)
	if text == "" {
		return nil
	}
	return []string{"Cloth and notions: " + text}
}

// nonEmpty are the lines of texts that have any.
func nonEmpty(texts ...string) []string {
	var out []string
	for _, t := range texts {
		for _, line := range strings.Split(t, "\n") {
			if strings.TrimSpace(line) != "" {
				out = append(out, line)
			}
		}
	}
	return out
}
