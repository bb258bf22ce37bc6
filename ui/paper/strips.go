package paper

import (
	"fmt"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// Strips is the sheet of strips that were worked out: each to scale with its marks, how they are cut
// across the cloth, and what to mind.
func Strips(v say.Voice, title string, a planner.BindingAnswer) sheet.Report {
	r := sheet.Report{Title: title, Notes: []string{"Mark from the end, so that rounding does not add up."}}
	r.Parts = stripTables(v, a.Strips, "")
	no := 0
	for _, s := range a.Strips {
		d := stripDrawing(v, s, joinsOf(a.Plan, no))
		d.Line = paperLine
		part := sheet.Part{Heading: capital(s.Job.Name), Scene: d.Scene()}
		if n := max(s.Job.Count, 1); n > 1 {
			part.Heading += fmt.Sprintf(", %d alike", n)
		}
		no += max(s.Job.Count, 1)
		for _, c := range s.Checks {
			part.Lines = append(part.Lines, checkWords(c))
		}
		r.Parts = append(r.Parts, part, sheet.Part{Scene: SectionScene(v, s), Times: 3})
	}
	for i := range a.Cloths {
		if s := CutScene(v, a, i); len(s.Items) > 0 {
			r.Parts = append(r.Parts, sheet.Part{Heading: "Across " + a.Cloths[i].Fabric.Name + " " + a.Cloths[i].Cloth.Code, Scene: s})
		}
	}
	if c, unlike := a.Unlike(); unlike {
		r.Parts = append(r.Parts, sheet.Part{Lines: []string{checkWords(c)}})
	}
	if a.Short > 0 {
		r.Parts = append(r.Parts, sheet.Part{Lines: []string{"There is no cloth for " + v.Length(a.Short) + " of strip: add another length or leftover."}})
	}
	return r
}

func joinsOf(p binding.CutPlan, strip int) []measure.Length {
	if strip < len(p.Joins) {
		return p.Joins[strip]
	}
	return nil
}

// checkWords says a check in words alone, as it is read in grey and by any font.
func checkWords(c binding.Check) string {
	text := say.Sentence(c.Text)
	switch {
	case c.OK && c.Mind:
		return strings.TrimSpace("Mind: " + text + " " + c.Do)
	case c.OK:
		return "Holds: " + text
	case c.Unknown:
		return "Not known yet: " + text
	case c.Do == "":
		return "Does not hold: " + text
	}
	return "Does not hold: " + text + " " + c.Do
}

func capital(s string) string {
	if s == "" {
		return "Strip"
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// guideLine is how high words are beside a strip in full size: 5 mm, in µm.
const guideLine = 5_000.0

// Guide is a full-size drawing of every kind of strip with its marks and folds, to lay a strip on
// and mark it.
func Guide(v say.Voice, title string, a planner.BindingAnswer) sheet.Page {
	var all []scene.Scene
	no := 0
	for _, s := range a.Strips {
		d := stripDrawing(v, s, joinsOf(a.Plan, no))
		d.Name = capital(s.Job.Name)
		d.Line = guideLine / float64(s.CutLength)
		all = append(all, d.Scene())
		no += max(s.Job.Count, 1)
	}
	return sheet.Page{Title: title, Scene: scene.Stack(12, all...), Notes: []string{"Lay each strip on its drawing, without stretching it, and mark it on both edges."}}
}

// Numbers are strips as lines of text, to copy.
func Numbers(a planner.BindingAnswer) string {
	var out []string
	for _, s := range a.Strips {
		out = append(out, s.Text())
	}
	return strings.Join(out, "\n")
}

// screenLine is how high words are beside a strip on the screen: a column of the window is at least some 28 lines wide.
const screenLine = 1.0 / 28

// paperLine is the same on a sheet, which is some 44 lines of its words wide.
const paperLine = 1.0 / 44

// StripOnScreen draws a strip with its marks and parts for a column of the window: words are large
// enough there that no two lie over each other.
func StripOnScreen(v say.Voice, s binding.Strip) scene.Scene {
	d := stripDrawing(v, s, nil)
	d.Line = screenLine
	return d.Scene()
}

func stripDrawing(v say.Voice, s binding.Strip, joins []measure.Length) scene.StripDrawing {
	d := scene.StripDrawing{Length: int64(s.CutLength), Width: int64(s.CutWidth), Units: v.Units}
	r, _ := s.Job.Finish.Recipe()
	if r.Widths > 1 {
		d.Folds = []int64{int64(s.CutWidth) / 2}
	}
	for _, m := range s.Marks {
		if m.Name != "start" && m.Name != "end" {
			d.Marks = append(d.Marks, scene.StripMark{Name: m.Name, At: int64(m.FromEnd)})
		}
	}
	for _, j := range joins {
		d.Joins = append(d.Joins, int64(j))
	}
	for _, p := range s.Parts {
		name := fmt.Sprintf("%s %s", p.Segment.Name, measure.FormatPercent((measure.PercentOf(p.Ratio)+5)/10*10))
		d.Parts = append(d.Parts, scene.StripSpan{Name: name, From: int64(p.From), To: int64(p.From + p.Length)})
	}
	if n := len(s.Parts); n > 0 && !s.Job.Closed {
		d.FreeStart, d.FreeEnd = s.Parts[0].Segment.Free, s.Parts[n-1].Segment.Free
	}
	return d
}

// SectionScene draws a finish cut through.
func SectionScene(v say.Voice, s binding.Strip) scene.Scene {
	f := s.Job.Finish
	cut := f.Section()
	r, _ := f.Recipe()
	d := scene.SectionDrawing{Garment: cut.Garment, Strip: cut.Strip, Finished: int64(f.Width), Seam: int64(f.Seam),
		CutWidth: int64(s.CutWidth), Inwards: r.Lies == binding.TurnsIn, Units: v.Units}
	for _, x := range cut.Stitches {
		d.Stitches = append(d.Stitches, int64(x))
	}
	return d.Scene()
}

// CutScene draws the strips across one cloth; empty when none is cut from it.
func CutScene(v say.Voice, a planner.BindingAnswer, source int) scene.Scene {
	c := a.Cloths[source]
	d := scene.CutDrawing{Name: c.Fabric.Name + " " + c.Cloth.Code, Units: v.Units, Along: int64(c.Cloth.Length), Across: int64(c.Cloth.Width), Cloth: c.Cloth.Polygon()}
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			d.Reserved = append(d.Reserved, scene.Kept{Outline: shape.Polygon{Outer: p.Outline}})
		}
	}
	names := StripNames(a.Strips)
	parts := map[int]int{}
	for _, p := range a.Plan.Pieces {
		parts[p.StripNo] = max(parts[p.StripNo], p.Part)
	}
	for _, p := range a.Plan.Pieces {
		if p.Source != source {
			continue
		}
		var where shape.Ring
		if n := len(d.Pieces); source < len(a.Where) && n < len(a.Where[source]) {
			where = a.Where[source][n]
		}
		d.Pieces = append(d.Pieces, scene.CutPiece{Outline: where, Name: names[p.StripNo], From: int64(p.From), To: int64(p.To), At: int64(p.At),
			Width: int64(p.Width), JoinFrom: p.Part > 0, JoinTo: p.Part < parts[p.StripNo], Tint: p.StripNo + 1})
	}
	if len(d.Pieces) == 0 {
		return scene.Scene{}
	}
	return d.Scene()
}

// StripNames names the strips by their numbers in a plan: "armhole 1", "armhole 2".
func StripNames(strips []binding.Strip) []string {
	var out []string
	for _, s := range strips {
		n := max(s.Job.Count, 1)
		for i := range n {
			if n == 1 {
				out = append(out, s.Job.Name)
			} else {
				out = append(out, fmt.Sprintf("%s %d", s.Job.Name, i+1))
			}
		}
	}
	return out
}
