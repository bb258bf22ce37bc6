package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// garmentParts are what the k-th garment wants besides its cloth.
func garmentParts(v say.Voice, s planner.CuttingSheet, k int) []sheet.Part {
	g := s.Garments[k]
	of := ""
	if len(s.Garments) > 1 {
		of = " of " + garmentNumber(k) + ", " + g.Garment.Name
	}
	parts := []sheet.Part{{Heading: "Allowances" + of, Lines: allowances(v, s, k)}}
	if len(g.Garment.Strips) > 0 {
		var strips []binding.Strip
		for _, r := range g.Garment.Strips {
			strips = append(strips, r.Strip)
		}
		parts = append(parts, stripTables(v, strips, of)...)
	} else if t := laidStrips(v, s, k); len(t.Rows) > 0 {
		parts = append(parts, sheet.Part{Heading: "Binding strips" + of, Table: t,
			Lines: []string{"As they are laid out. Their marks and how far each is held in come from Binding. " + stripsWhen}})
	}
	if len(g.Notions) > 0 {
		parts = append(parts, sheet.Part{Heading: "Notions" + of, Lines: threadBySeams(v, s, k), Table: notionTable(g)})
	}
	if g.Garment.Notes != "" {
		parts = append(parts, sheet.Part{Heading: "Notes" + of, Lines: strings.Split(g.Garment.Notes, "\n")})
	}
	return parts
}

func allowances(v say.Voice, s planner.CuttingSheet, k int) []string {
	p := s.Garments[k].Pattern
	out := []string{"Seams: " + allowance(v, p.SeamAllowance) + ". Hems: " + allowance(v, p.HemAllowance) + ". They are inside the outlines drawn here."}
	var without []string
	for _, c := range s.Cloths {
		for _, q := range c.Pieces {
			if q.Known && q.Piece.WithoutAllowance && q.At == 1 && q.Garment == k {
				without = append(without, q.Name)
			}
		}
	}
	if len(without) > 0 && p.SeamAllowance > 0 {
		out = append(out, "The paper of "+say.And(without)+" has no seam allowance: add it all round, as it is here.")
	}
	return out
}

func allowance(v say.Voice, l measure.Length) string {
	if l == 0 {
		return "not said"
	}
	return v.Fine(l)
}

// threadBySeams says what thread the seams take, as what a pattern asks for is more often a whole
// spool.
func threadBySeams(v say.Voice, s planner.CuttingSheet, k int) []string {
	g := s.Garments[k]
	thread := func(n planner.NotionAsked) bool { return strings.Contains(strings.ToLower(n.Name), "thread") }
	knit := len(s.Cloths) > 0 && s.Cloths[0].State.Fabric.Construction.Knit()
	t := garment.ThreadFor(g.Garment.Seams(g.Pattern, knit), garment.ThreadWaste)
	if !slices.ContainsFunc(g.Notions, thread) || t.Total == 0 {
		return nil
	}
	return []string{"Wanted is what the pattern asks for. By its seams it takes about " + v.LongThread(t.Total) + " of thread."}
}

func notionTable(g planner.SheetGarment) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Notion", Share: 70}, {Title: "Wanted", Share: 24, Right: true}, {Title: "On hand", Share: 40, Right: true}}}
	for _, n := range g.Notions {
		there := "none in your stash"
		if n.Known {
			there = stash.FormatQuantity(n.OnHand, n.Unit)
			if n.OnHand < n.Quantity {
				there += ", too little"
			}
		}
		wanted := ""
		if n.Quantity > 0 {
			wanted = stash.FormatQuantity(n.Quantity, n.Unit)
		}
		t.Rows = append(t.Rows, []string{sheet.Box, n.Name, wanted, there})
	}
	return t
}

// stripsWhen says when strips are cut.
const stripsWhen = "Cut strips to width now, to length after the try-on."

// laidStrips are the strips of the k-th garment as they lie on cloth, where nothing else is known of them.
func laidStrips(v say.Voice, s planner.CuttingSheet, k int) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Strip", Share: 60}, {Title: "Cut width", Share: 24, Right: true}, {Title: "Cut length", Share: 24, Right: true}, {Title: "On", Share: 60}}}
	for _, c := range s.Cloths {
		for _, p := range c.Pieces {
			if p.Garment != k || !isStrip(p) || len(p.Outline) != 4 {
				continue
			}
			a, b := distance(p.Outline[0], p.Outline[1]), distance(p.Outline[1], p.Outline[2])
			t.Rows = append(t.Rows, []string{sheet.Box, p.Name, v.Fine(min(a, b)), v.Fine(max(a, b)), fmt.Sprintf("%s, no. %d", c.State.Cloth.Code, p.Number)})
		}
	}
	return t
}

func distance(a, b shape.Point) measure.Length {
	return measure.Length(math.Round(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))))
}

// stripTables are strips as they are cut, and their marks.
func stripTables(v say.Voice, strips []binding.Strip, of string) []sheet.Part {
	cut := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Strip", Share: 30}, {Title: "How many", Share: 18, Right: true}, {Title: "Cut width", Share: 20, Right: true}, {Title: "Cut length", Share: 22, Right: true}, {Title: "Finish", Share: 60}}}
	marks := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Strip", Share: 30}, {Title: "Mark", Share: 44}, {Title: "From its end", Share: 24, Right: true}, {Title: "From the one before", Share: 34, Right: true}, {Title: "From its centre", Share: 26, Right: true}}}
	for _, s := range strips {
		finish := fmt.Sprintf("%s, %s wide, seam %s", s.Job.Finish.Technique, v.Fine(s.Job.Finish.Width), v.Fine(s.Job.Finish.Seam))
		cut.Rows = append(cut.Rows, []string{sheet.Box, s.Job.Name, fmt.Sprint(max(s.Job.Count, 1)), v.Fine(s.CutWidth), v.Fine(s.CutLength), finish})
		for _, r := range s.Table(v.Units) {
			marks.Rows = append(marks.Rows, []string{sheet.Box, s.Job.Name, r.Name, v.Mark(r.FromEnd), v.Mark(r.Step), v.Mark(max(r.FromCentre, -r.FromCentre))})
		}
	}
	return []sheet.Part{
		{Heading: "Binding strips" + of, Lines: []string{stripsWhen}, Table: cut},
		{Heading: "Marks on the strips" + of, Table: marks},
	}
}

// after are the boxes to tick when all is cut.
func after(s planner.CuttingSheet) []string {
	n := 0
	for _, c := range s.Cloths {
		for _, p := range c.Pieces {
			if !p.Spoiled {
				n++
			}
		}
	}
	return []string{
		say.Count(n, "outline is cut", "outlines are cut") + ", notches and dots transferred, faces marked.",
		"Leftovers measured and labelled with their codes, the garment marked cut.",
	}
}

// Cautions are those that apply to what is on a sheet (common practice).
func Cautions(s planner.CuttingSheet) []string {
	out := []string{"Rotary cutters, shears and pins: cut away from yourself, close the blade whenever you lay it down, count the pins. Hot irons: test on a scrap."}
	add := func(text string) {
		for _, o := range out {
			if o == text {
				return
			}
		}
		out = append(out, text)
	}
	for _, g := range s.Garments {
		if c := say.Caution(g.Pattern); c != "" {
			add(c)
		}
		for _, n := range g.Notions {
			if strings.Contains(strings.ToLower(n.Name), "elastic") {
				add("Elastic may contain latex: ask who will wear it.")
			}
		}
	}
	return append(out, "This sheet advises. Local rules and people licensed in the field decide.")
}
