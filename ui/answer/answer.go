package answer

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Tone is the colour of a verdict; its mark and its words say the same.
func Tone(g match.Grade) widgets.Tone {
	switch g {
	case match.Enough:
		return widgets.Good
	case match.Tight, match.EnoughIf:
		return widgets.Careful
	case match.CannotTell:
		return widgets.Quiet
	}
	return widgets.Bad
}

// Panel shows one verdict.
type Panel struct {
	View  *widgets.LayoutView
	Hover func(string)
	words *fyne.Container
	tube  bool // the cloth shown is of a tube
	box   *fyne.Container
}

// NewPanel returns an empty panel whose drawing is at least so large.
func NewPanel(least fyne.Size) *Panel {
	p := &Panel{View: widgets.NewLayoutView(least), words: container.NewVBox()}
	p.View.Hovered = func(s string) {
		if p.Hover != nil {
			p.Hover(s)
		}
	}
	p.box = container.NewBorder(p.words, nil, nil, nil, p.View)
	return p
}

// Object is what is put on a screen.
func (p *Panel) Object() fyne.CanvasObject { return p.box }

// Show shows a verdict on a cloth.
func (p *Panel) Show(v say.Voice, c stash.ClothState, d match.Verdict) {
	p.tube = c.Tube()
	p.Say(v, d)
	pic := Labelled(v, Picture(v, c, d.Layout), d)
	if len(d.Keep) > 2 {
		pic.Pieces = append(pic.Pieces, widgets.PicturePiece{Name: "kept by the yardage table", Outline: d.Keep})
	}
	p.View.Draw(pic)
}

// Labelled is a picture whose free stretch is called as the verdict calls it, where that is what is
// to spare beyond the layout.
func Labelled(v say.Voice, p widgets.ClothPicture, d match.Verdict) widgets.ClothPicture {
	if strings.HasSuffix(p.FreeLabel, " to spare") && p.FreeTo == p.Cloth.Bounds().Max.X && d.SpareLength > 0 {
		p.FreeLabel = v.Left(d)
	}
	return p
}

// Say says a verdict in words; the drawing stays as it is.
func (p *Panel) Say(v say.Voice, d match.Verdict) {
	p.say(v, d, widgets.Verdict(say.Mark(d.Grade)+" ", v.Verdict(d), Tone(d.Grade)))
}

// SayWrong says that the layout does not hold as it lies, above the verdict it had: the
// words keep their height, so that the drawing does not jump.
func (p *Panel) SayWrong(v say.Voice, d match.Verdict) {
	p.say(v, d, widgets.Verdict(say.Mark(match.Unsuitable)+" ", "Does not hold as it lies now", widgets.Bad))
}

func (p *Panel) say(v say.Voice, d match.Verdict, head fyne.CanvasObject) {
	p.words.RemoveAll()
	p.words.Add(head)
	if s := join(say.Proof(d.Proof), spare(v, d), lie(v, d, p.tube)); s != "" {
		p.words.Add(widgets.Remark("", s, widgets.Quiet))
	}
	for _, r := range d.Reasons {
		tone, mark := widgets.Plain, "·"
		if r.Bad || r.Missing {
			tone, mark = widgets.Bad, "×"
		}
		p.words.Add(widgets.Remark(mark, say.Sentence(v.Reason(r)), tone))
	}
	p.words.Refresh()
}

func join(parts ...string) string {
	out := ""
	for _, s := range parts {
		if s == "" {
			continue
		}
		if out != "" {
			out += "  "
		}
		out += s
	}
	return out
}

func spare(v say.Voice, d match.Verdict) string {
	if s := v.Left(d); s != "" {
		return say.Sentence(s)
	}
	return ""
}

// lie says how the cloth lies for the layout.
func lie(v say.Voice, d match.Verdict, tube bool) string {
	if d.Layout == nil {
		return ""
	}
	f := d.Layout.Frame
	switch {
	case len(f.Folds) == 2 && tube:
		return "As the tube lies, on its two folds."
	case tube && len(f.Folds) == 1:
		return "Slit open along one wale, then folded at " + v.Width(f.Folds[0]) + "."
	case tube && !f.Crosswise:
		return "Slit open along one wale, one layer."
	case len(f.Folds) == 2:
		return "Folded from both sides."
	case len(f.Folds) == 1:
		return "Folded at " + v.Width(f.Folds[0]) + "."
	case f.Crosswise:
		return "One layer, cut crosswise."
	}
	return "One layer."
}

// Picture is the drawing of a cloth with its reserved parts and, if there is one, a layout.
func Picture(v say.Voice, c stash.ClothState, l *match.Layout) widgets.ClothPicture {
	p := widgets.ClothPicture{Cloth: c.Cloth.Polygon(), Colour: c.Fabric.Colour,
		SelvedgeLow: c.Cloth.SelvedgeLow, SelvedgeHigh: c.Cloth.SelvedgeHigh, Grid: GridOf(v)}
	for _, r := range c.Reservations {
		for _, q := range r.Pieces {
			p.Reserved = append(p.Reserved, widgets.PicturePiece{Name: q.Name, Outline: q.Outline})
		}
	}
	if l == nil {
		return p
	}
	total := map[string]int{}
	for _, q := range l.Pieces {
		total[q.Piece+q.Name]++
	}
	for _, q := range l.Pieces {
		name := q.Name
		if q.Piece != "" && q.Piece != q.Name { // strips have no code
			name = q.Piece + " " + q.Name
		}
		pp := widgets.PicturePiece{Name: name, Outline: q.Outline, Under: q.Layer > 0,
			Top: shape.Placement{Angle: q.Place.Angle, Mirror: q.Place.Mirror}.ApplyPoint(shape.Point{X: -1000})}
		if n := total[q.Piece+q.Name]; n > 1 {
			pp.Note = fmt.Sprintf("%d of %d", q.Copy+1, n)
		}
		p.Pieces = append(p.Pieces, pp)
	}
	measureFree(&p, v, c, *l)
	for k := range l.Frame.Folds {
		y := l.Frame.Origin.Y // the laid frame begins on the first fold
		if k == 1 {
			y += int64(l.Frame.Width)
		}
		p.Folds = append(p.Folds, y)
	}
	return p
}

// measureFree marks the longest stretch of a cloth without reservations on which nothing lies, as
// far as it counts: of a plain length without raw ends and at the size that it has washed.
func measureFree(p *widgets.ClothPicture, v say.Voice, c stash.ClothState, l match.Layout) {
	if len(c.Reservations) > 0 {
		return
	}
	from, to := longestFree(*p)
	label, size := "free", to-from
	if start := l.Frame.Origin.X; c.Cloth.Plain() {
		label, size = "to spare", min(to, start+int64(l.Frame.Length))-max(from, start)
	} else if !c.Cloth.Washed { // the drawing is of the cloth as it lies
		label = "free before washing"
	}
	if size > 30_000 {
		p.FreeFrom, p.FreeTo, p.FreeLabel = from, to, v.Spare(measure.Length(size))+" "+label
	}
}

// longestFree is the longest stretch along the cloth on which no piece lies.
func longestFree(p widgets.ClothPicture) (from, to int64) {
	box := p.Cloth.Bounds()
	taken := []shape.Box{{Min: box.Max, Max: box.Max}}
	for _, q := range p.Pieces {
		taken = append(taken, q.Outline.Bounds())
	}
	slices.SortFunc(taken, func(a, b shape.Box) int { return cmp.Compare(a.Min.X, b.Min.X) })
	at := box.Min.X
	for _, t := range taken {
		if t.Min.X-at > to-from {
			from, to = at, t.Min.X
		}
		at = max(at, t.Max.X)
	}
	return from, to
}

// GridOf is the distance of grid lines: 10 cm, or 4 in.
func GridOf(v say.Voice) int64 {
	if v.Units == measure.Imperial {
		return int64(4 * measure.Inch)
	}
	return int64(10 * measure.Centimetre)
}
