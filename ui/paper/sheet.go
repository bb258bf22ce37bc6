package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
)

// Cutting is a cutting sheet as it is printed.
func Cutting(v say.Voice, s planner.CuttingSheet) sheet.Report {
	r := sheet.Report{Title: "Cutting sheet: " + s.Title, Notes: garmentLines(s)}
	r.Parts = append(r.Parts, sheet.Part{Heading: "Before you cut", Boxes: before(v, s)})
	for _, c := range s.Cloths {
		r.Parts = append(r.Parts, clothParts(v, s, c)...)
	}
	if t := marksTable(s); len(t.Rows) > 0 {
		r.Parts = append(r.Parts, sheet.Part{Heading: "Marks to transfer", Table: t})
	}
	for k := range s.Garments {
		r.Parts = append(r.Parts, garmentParts(v, s, k)...)
	}
	r.Parts = append(r.Parts, sheet.Part{Heading: "When all is cut", Boxes: after(s)}, sheet.Part{Heading: "Mind", Lines: Cautions(s)})
	return r
}

// about is a garment in a line.
func about(g planner.SheetGarment) string {
	s := g.Garment.Name
	if name := g.Pattern.Name; !strings.HasPrefix(s, name) {
		s += ": " + name
	}
	if g.Garment.Sized() != g.Garment.Name {
		s += ", size " + g.Garment.Size
	}
	if more := ", for " + g.Garment.For; g.Garment.For != "" && !strings.Contains(s, more) {
		s += more
	}
	return say.Sentence(s)
}

// before are the boxes to tick before the first cut. How long a knit rests is common practice.
func before(v say.Voice, s planner.CuttingSheet) []string {
	var out []string
	for _, c := range s.Cloths {
		k := c.State.Cloth
		if !k.Washed {
			long, wide := c.State.OnceWashed()
			out = append(out, fmt.Sprintf("%s is not washed yet: wash and dry it as the garment will be, measure it again, and print this sheet anew. It is drawn as it lies now, but folds and layout count with the %s × %s that it will be.",
				k.Code, v.Length(long), v.Width(wide)))
		}
		if k.RawStart {
			out = append(out, fmt.Sprintf("%s: chalk a line square across, %s from its raw end. Lengths are measured from it.", k.Code, v.Width(measure.Length(c.Trued))))
		}
	}
	if slices.ContainsFunc(s.Cloths, func(c planner.SheetCloth) bool { return c.State.Fabric.Construction.Knit() }) {
		out = append(out, "Rest the cloth flat, nothing hanging over the edge of the table: knits draw together for some hours after they were rolled or folded.")
	} else {
		out = append(out, "Rest the cloth flat, nothing hanging over the edge of the table.")
	}
	return append(out, "Chalk the grain arrows, lay every pattern piece on its arrow, and look at the whole before the first cut.")
}

// clothParts are the layout on a cloth and what is read from it.
func clothParts(v say.Voice, s planner.CuttingSheet, c planner.SheetCloth) []sheet.Part {
	f, k := c.State.Fabric, c.State.Cloth
	head := sheet.Part{Heading: f.Name + ", " + k.Code}
	head.Lines = append(head.Lines, say.Sentence(where(v, k)), lie(v, c),
		fmt.Sprintf("Used: %s of its length, %s of its width.", v.Length(c.UsedLength), v.Width(c.UsedWidth)), left(v, c))
	if len(c.Folds) > 0 && slices.ContainsFunc(c.Pieces, isStrip) {
		head.Lines = append(head.Lines, "Strips are drawn as they lie on the cloth opened out, and cut in one layer.")
	}
	if f.Direction != stash.EitherWay {
		head.Lines = append(head.Lines, "The head of every arrow is the top end of its pattern piece.")
	}
	draw(&head, v.Units, s, c)
	grain := sheet.Part{Heading: "Grain arrows on " + k.Code, Table: arrowTable(v, s, c)}
	grain.Lines = []string{"Along is from " + endWords(v, c) + ", across from the edge named, both at the foot and at the head of the arrow: chalk the two points and join them. Of strips the corners are measured."}
	sew := sheet.Part{Heading: "Needle, thread and stitches for " + f.Name, Lines: stitches(s, f)}
	return []sheet.Part{head, grain, sew}
}

// isStrip says whether a pattern piece is a strip, which is cut in one layer.
func isStrip(p planner.SheetPiece) bool { return p.UsedFor == pattern.Binding && !p.Spoiled }

func where(v say.Voice, k stash.Cloth) string {
	s := v.Size(k)
	if k.Lot != "" {
		s += ", lot " + k.Lot
	}
	if k.Place != "" {
		s += ", kept in " + k.Place
	}
	return s
}

// lie says how the cloth lies for cutting.
func lie(v say.Voice, c planner.SheetCloth) string {
	low := edgeName(c.State.Cloth, false)
	switch len(c.Folds) {
	case 1:
		return fmt.Sprintf("Folded lengthwise %s from %s, face inside: what lies on both sides of the fold line is cut at once, through both layers.", v.Width(measure.Length(c.Folds[0])), low)
	case 2:
		return fmt.Sprintf("Folded lengthwise twice, both selvedges to the middle: %s and %s from %s, face inside. What lies on both sides of a fold line is cut at once.",
			v.Width(measure.Length(c.Folds[0])), v.Width(measure.Length(c.Folds[1])), low)
	}
	return "In one layer, face up: every pattern piece is cut as it is drawn here."
}

// left says what will be left.
func left(v say.Voice, c planner.SheetCloth) string {
	var out []string
	for _, l := range c.Left {
		b := l.Outline.Bounds()
		text := v.Free(measure.Length(b.Length())) + " × " + v.Width(measure.Length(b.Width()))
		if l.Area() != measure.Area(b.Length()*b.Width()) {
			s := l.Straight
			text = v.Area(l.Area()) + ", in it a straight " + v.Free(measure.Length(s.Length())) + " × " + v.Width(measure.Length(s.Width()))
		}
		if l.OnlyStrips {
			text += " for strips"
		}
		out = append(out, text)
	}
	if len(out) == 0 {
		return "Nothing will be left that is worth keeping."
	}
	return "Will be left: " + say.And(out) + "."
}

func endWords(v say.Voice, c planner.SheetCloth) string {
	if c.Trued > 0 {
		return "the line chalked " + v.Width(measure.Length(c.Trued)) + " from the raw end"
	}
	return "its trued end, the left one here"
}

// edgeName names the edge at the least or the greatest y.
func edgeName(k stash.Cloth, high bool) string {
	switch {
	case high && k.SelvedgeHigh:
		return "the upper selvedge"
	case high:
		return "its upper edge"
	case k.SelvedgeLow:
		return "the lower selvedge"
	}
	return "its lower edge"
}

// Arrow is where one chalks the grain arrow of a pattern piece: both ends along from the trued
// end and across from one edge.
type Arrow struct {
	Piece                planner.SheetPiece
	FootAlong, HeadAlong measure.Length
	FootAcross           measure.Length
	HeadAcross           measure.Length
	From                 string // the edge: "the lower selvedge", "the fold"
	Corners              bool   // it has no arrow: the corners of its bounds are measured
}

// Arrows are the grain arrows of all that is to be cut from a cloth.
func Arrows(c planner.SheetCloth) []Arrow {
	var out []Arrow
	for _, p := range c.Pieces {
		if p.Spoiled {
			continue
		}
		e := measuredFrom(c, p)
		a := Arrow{Piece: p, From: e.name, Corners: p.GrainFoot == p.GrainTop}
		foot, head := p.GrainFoot, p.GrainTop
		if a.Corners {
			foot, head = p.Outline.Bounds().Min, p.Outline.Bounds().Max
		}
		a.FootAlong, a.HeadAlong = measure.Length(foot.X-c.Trued), measure.Length(head.X-c.Trued)
		a.FootAcross, a.HeadAcross = e.from(foot.Y), e.from(head.Y)
		out = append(out, a)
	}
	return out
}

func arrowTable(v say.Voice, s planner.CuttingSheet, c planner.SheetCloth) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "No.", Share: 7, Right: true}, {Title: "Pattern piece", Share: 33}, {Title: "Size", Share: 13}, {Title: "Cut", Share: 28},
		{Title: "Foot along", Share: 19, Right: true}, {Title: "across", Share: 18, Right: true}, {Title: "Head along", Share: 20, Right: true}, {Title: "across", Share: 18, Right: true},
		{Title: "Across from", Share: 38}}}
	for _, a := range Arrows(c) {
		name := a.Piece.Name
		if len(s.Garments) > 1 {
			name += ", " + garmentNumber(a.Piece.Garment)
		}
		t.Rows = append(t.Rows, []string{sheet.Box, fmt.Sprint(a.Piece.Number), name, a.Piece.Size, copyWords(a.Piece),
			v.Fine(a.FootAlong), v.Fine(a.FootAcross), v.Fine(a.HeadAlong), v.Fine(a.HeadAcross), a.From})
	}
	return t
}

// copyWords says which of how many it is, and how it is cut.
func copyWords(p planner.SheetPiece) string {
	if !p.Known {
		if p.Of > 1 {
			return fmt.Sprintf("%d of %d", p.At, p.Of)
		}
		return ""
	}
	s := CutCount(p.Piece)
	if p.Of > 1 {
		s += fmt.Sprintf(": %d of %d", p.At, p.Of)
	}
	return s
}

// edge is a line along the cloth from which one measures across.
type edge struct {
	y    int64
	name string
}

func (e edge) from(y int64) measure.Length { return measure.Length(abs(y - e.y)) }

// measuredFrom is the edge that both ends of a piece's arrow are measured from: the fold it
// lies on; on folded cloth the selvedge on its side; else one selvedge for all.
func measuredFrom(c planner.SheetCloth, p planner.SheetPiece) edge {
	b, k := p.Outline.Bounds(), c.State.Cloth
	whole := k.Polygon().Bounds()
	low, high := edge{whole.Min.Y, edgeName(k, false)}, edge{whole.Max.Y, edgeName(k, true)}
	folds := c.Folds
	if p.UsedFor == pattern.Binding { // cut in one layer
		folds = nil
	}
	for i, f := range folds {
		if b.Min.Y < f && f < b.Max.Y {
			name := "the fold"
			if len(folds) > 1 {
				name = []string{"the lower fold", "the upper fold"}[i]
			}
			return edge{f, name}
		}
	}
	if len(folds) > 0 && b.Min.Y >= folds[len(folds)-1] && (k.SelvedgeHigh || !k.SelvedgeLow) {
		return high
	}
	if !k.SelvedgeLow && k.SelvedgeHigh {
		return high
	}
	return low
}

// stitches are what is noted for a fabric on itself and on the garments, each once, with what
// speaks against it.
func stitches(s planner.CuttingSheet, f stash.Fabric) []string {
	var out []string
	if n := stash.NeedleFor(f); n != "" {
		out = append(out, "Needle: "+n+".")
	}
	notes := slices.Clone(f.Stitches)
	for _, g := range s.Garments {
		for _, n := range g.Garment.Stitches {
			if n.FabricID == f.ID || n.FabricID == stash.NoID {
				notes = append(notes, n.StitchNote)
			}
		}
	}
	if len(notes) == 0 {
		out = append(out, "No stitch settings are noted for it yet: try stitch, tension and thread on a scrap, and note what works.")
	}
	seen := map[string]bool{}
	for _, n := range notes {
		text := "Worked before: " + say.Stitch(n)
		if seen[text] {
			continue
		}
		seen[text] = true
		out = append(out, text)
		for _, d := range n.Doubts(f) {
			out = append(out, "But: "+d)
		}
	}
	return out
}

// marksTable lists what is transferred from each pattern piece, once for all its copies.
func marksTable(s planner.CuttingSheet) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{{Share: 5}, {Title: "Pattern piece", Share: 34}, {Title: "Notches", Share: 24}, {Title: "Dots", Share: 12}, {Title: "Print or stripe meets at", Share: 34}, {Title: "Strip meets at", Share: 60}}}
	seen := map[string]bool{}
	for _, c := range s.Cloths {
		for _, p := range c.Pieces {
			key := fmt.Sprint(p.Garment, p.Piece.Code, p.Piece.Name)
			if !p.Known || seen[key] {
				continue
			}
			seen[key] = true
			if row, any := marksRow(s.Garments[p.Garment].Pattern, p); any {
				t.Rows = append(t.Rows, row)
			}
		}
	}
	return t
}

func marksRow(pat pattern.Pattern, p planner.SheetPiece) (row []string, any bool) {
	o := p.Piece.Outlines[p.Size]
	times := len(halves(p.Piece.OnFold))
	kinds := map[string]int{}
	var order []string
	for _, n := range o.Notches {
		kind := cmp.Or(n.Kind, "single")
		if kinds[kind] == 0 {
			order = append(order, kind)
		}
		kinds[kind] += times
	}
	var notches, meets, strips []string
	for _, k := range order {
		notches = append(notches, fmt.Sprintf("%d %s", kinds[k], k))
	}
	for _, m := range o.MatchMarks {
		meets = append(meets, m.Name)
	}
	for _, e := range pat.Edges {
		var at []string
		for _, g := range e.Segments {
			if g.Piece == p.Piece.Code && g.Piece != "" && g.MarkEnd != "" {
				at = append(at, g.MarkEnd)
			}
		}
		if len(at) > 0 {
			strips = append(strips, e.Name+": "+say.And(at))
		}
	}
	dots := ""
	if n := len(o.Dots) * times; n > 0 {
		dots = fmt.Sprint(n)
	}
	row = []string{sheet.Box, p.Name, strings.Join(notches, ", "), dots, strings.Join(meets, ", "), strings.Join(strips, "; ")}
	return row, len(notches)+len(o.Dots)+len(meets)+len(strips) > 0
}
