package patternui

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Which way the grain may run besides along a line that was drawn.
const (
	grainUp     = "up the page"
	grainAcross = "across the page"
)

// mostMarks are listed of a piece.
const mostMarks = 40

// recognised shows what was taken for a grain line, a notch or a dot on a piece, and takes what the person
// says of it.
type recognised struct {
	im     *importer
	piece  *widgets.Choice
	grain  *widgets.Choice
	turn   *widgets.Check
	lines  *widgets.Check
	list   *fyne.Container
	box    *fyne.Container
	marks  []drawn.Mark // of all pieces and sizes
	codes  []string     // of the pieces, as they are listed
	plain  map[drawn.MarkName]bool
	wish   map[string]drawn.GrainWish
	listed string // what is listed, to see whether it changed
	checks []*widgets.Check
	fills  bool // fields are being filled: nobody changed them
}

func newRecognised(im *importer) *recognised {
	r := &recognised{im: im, list: container.NewVBox()}
	r.forget()
	r.piece = widgets.NewChoice("What was recognised on", nil, func(string) { r.fill(); im.lookAtMarks() })
	r.grain = widgets.NewChoice("Its grain runs", []string{grainUp, grainAcross}, func(string) { r.grainSaid() })
	r.turn = widgets.NewCheck("the other end is the top", func(bool) { r.grainSaid() })
	r.lines = widgets.NewCheck("Take nothing drawn on pattern pieces for a grain line, notch or dot", func(bool) { im.take() })
	for _, c := range []*widgets.Choice{r.piece, r.grain} {
		c.Escape = im.leave
	}
	for _, c := range []*widgets.Check{r.turn, r.lines} {
		c.Escape = im.leave
	}
	for name, o := range map[string]fyne.CanvasObject{"outlines.marksof": r.piece, "outlines.grain": r.grain, "outlines.grainturn": r.turn, "outlines.onlylines": r.lines, "outlines.marks": r.list} {
		im.page.host.Names.Set(name, o)
	}
	r.box = container.NewVBox(container.NewGridWithColumns(2, r.piece.Object(), r.grain.Object()), r.turn, r.list, r.lines)
	r.box.Hide()
	return r
}

// forget drops what was said of another drawing.
func (r *recognised) forget() {
	r.plain, r.wish = map[drawn.MarkName]bool{}, map[string]drawn.GrainWish{}
}

// choice is what was said so far.
func (r *recognised) choice(c drawn.Choice) drawn.Choice {
	c.Plain, c.Grain, c.OnlyLines = r.plain, r.wish, r.lines.Checked
	return c
}

// seen shows the marks of a drawing.
func (r *recognised) seen(marks []drawn.Mark, pieces []pattern.Piece) {
	r.marks = marks
	r.codes = nil
	var words []string
	for _, q := range pieces {
		r.codes, words = append(r.codes, q.Code), append(words, q.Code+"  "+q.Name)
	}
	if len(pieces) == 0 || r.im.whole == nil || r.im.whole.Stated != nil {
		r.box.Hide()
		return
	}
	r.piece.Words(words)
	r.box.Show()
	r.fill()
}

// code is the piece looked at.
func (r *recognised) code() string {
	if i := r.piece.SelectedIndex(); i >= 0 && i < len(r.codes) {
		return r.codes[i]
	}
	return ""
}

// of are the marks of the piece looked at in the size shown.
func (r *recognised) of(kinds ...drawn.MarkKind) (out []drawn.Mark) {
	size := r.im.sizeShown()
	for _, m := range r.marks {
		for _, k := range kinds {
			if m.Piece == r.code() && m.Size == size && m.Kind == k {
				out = append(out, m)
			}
		}
	}
	return out
}

// fill writes what was recognised on the piece looked at into the fields.
func (r *recognised) fill() {
	r.fills = true
	defer func() { r.fills = false }()
	grains := r.of(drawn.GrainMark)
	words, at := make([]string, 0, len(grains)+2), len(grains)
	for i, m := range grains {
		words = append(words, r.lineWords(m))
		if m.On {
			at = i
		}
	}
	wish := r.wish[r.code()]
	if wish.Way == drawn.AcrossP {
		at = len(grains) + 1
	}
	r.grain.Words(append(words, grainUp, grainAcross))
	changed := r.grain.OnChanged
	r.grain.OnChanged = nil
	r.grain.SetSelectedIndex(at)
	r.grain.OnChanged = changed
	r.turn.SetChecked(wish.Turn)
	if !r.same() {
		r.listMarks(grains)
	}
	for i, m := range r.of(drawn.NotchMark, drawn.DotMark)[:len(r.checks)] {
		r.checks[i].SetChecked(m.On)
	}
	r.box.Refresh()
}

// same says whether the marks listed are those of the piece looked at, so that the focus stays.
func (r *recognised) same() bool {
	now := r.code()
	for _, m := range r.of(drawn.GrainMark, drawn.NotchMark, drawn.DotMark) {
		if m.Kind != drawn.GrainMark || m.On {
			now += "\n" + markWords(m)
		}
	}
	if m, ok := drawn.FoldOf(r.marks, r.code()); ok {
		now += "\n" + m.Why
	}
	same := now == r.listed
	r.listed = now
	return same
}

// listMarks lists what was recognised, the notches and dots to be switched off and on.
func (r *recognised) listMarks(grains []drawn.Mark) {
	r.list.RemoveAll()
	r.checks = nil
	marks := r.of(drawn.NotchMark, drawn.DotMark)
	if len(marks) == 0 && len(grains) == 0 {
		r.list.Add(widgets.Remark("", "No line on it looks like a grain line, a notch or a dot.", widgets.Quiet))
	}
	if len(marks) > 0 {
		r.list.Add(widgets.Remark("", "In the picture a notch has its number beside it, a dot and a line say what they are. Switch off here, or click there, what is none.", widgets.Quiet))
	}
	for i, m := range marks[:min(len(marks), mostMarks)] {
		c := widgets.NewCheck(markWords(m), func(on bool) { r.said(m.MarkName, on) })
		c.Escape = r.im.leave
		r.im.page.host.Names.Set(fmt.Sprintf("outlines.mark.%d", i+1), c)
		r.checks = append(r.checks, c)
		r.list.Add(c)
	}
	if m, ok := drawn.FoldOf(r.marks, r.code()); ok {
		side := map[bool]string{true: "right", false: "left"}[m.Side == pattern.RightSide]
		r.list.Add(widgets.Remark("", "Its "+side+" edge is on the fold: "+m.Why+". Choose another beside the piece if that is wrong.", widgets.Quiet))
	}
	for _, m := range grains {
		if m.On {
			r.list.Add(widgets.Remark("", fmt.Sprintf("Line %d is %s.", m.Number, m.Why), widgets.Quiet))
		}
	}
	if more := len(marks) - mostMarks; more > 0 {
		r.list.Add(widgets.Remark("", say.Count(more, "more is", "more are")+" in the picture: click on one to change it.", widgets.Quiet))
	}
}

// lineWords tell a straight line from others: "along line 1, 22 cm".
func (r *recognised) lineWords(m drawn.Mark) string {
	return fmt.Sprintf("along line %d, %s", m.Number, r.im.page.host.Voice().Fine(m.Length))
}

// markWords name a notch or a dot: "notch 2".
func markWords(m drawn.Mark) string {
	return fmt.Sprintf("%s %d: %s", m.Kind, m.Number, m.Why)
}

// said takes what was said of a mark.
func (r *recognised) said(name drawn.MarkName, on bool) {
	if r.fills {
		return
	}
	r.plain[name] = !on
	r.im.take()
}

// grainSaid takes what was said of the grain of the piece looked at.
func (r *recognised) grainSaid() {
	if r.fills {
		return
	}
	w := drawn.GrainWish{Turn: r.turn.Checked}
	switch at := r.grain.SelectedIndex(); {
	case r.grain.Selected == grainUp:
		w.Way = drawn.UpPage
	case r.grain.Selected == grainAcross:
		w.Way = drawn.AcrossP
	default:
		w.Line = at + 1
	}
	r.wish[r.code()] = w
	r.im.take()
}

// sizeShown is the size that the picture shows.
func (im *importer) sizeShown() string {
	if n := len(im.made.Sizes); n > 0 {
		return im.made.Sizes[n-1].Name
	}
	return ""
}

// lookAtMarks turns to the picture of the piece looked at.
func (im *importer) lookAtMarks() {
	im.shows.SetSelected(showsMarks) // draws it
}

// clicked changes the mark that was clicked on.
func (r *recognised) clicked(at scene.Point) {
	if r.im.shows.Selected != showsMarks {
		return
	}
	_, places, unit := r.scene()
	best, near := -1, 2*unit
	for i, p := range places {
		if d := far(p, at); d < near {
			best, near = i, d
		}
	}
	if best < 0 {
		return
	}
	switch m := r.of(drawn.GrainMark, drawn.NotchMark, drawn.DotMark)[best]; {
	case m.Kind != drawn.GrainMark:
		r.said(m.MarkName, !m.On)
	case m.On:
		r.grain.SetSelected(grainUp)
	default:
		r.grain.SetSelectedIndex(m.Number - 1)
	}
}

// scene draws the piece looked at with its marks numbered, and where the numbers are.
func (r *recognised) scene() (s scene.Scene, places []scene.Point, unit float64) {
	size := r.im.sizeShown()
	for _, q := range r.im.made.Pieces {
		if q.Code != r.code() || len(q.Outlines[size].Cut) < 3 {
			continue
		}
		b := cutOf(r.im.made, q, size).Bounds()
		unit = max(mm(b.Length()), mm(b.Width())) / 40
		drawPiece(&s, r.im.made, q, size, 0, 0, unit)
		writeUnder(&s, pieceWords(r.im.page.host.Voice(), r.im.made, q, size), scene.Point{X: mm(b.Width()) / 2, Y: -mm(b.Length())}, unit)
		mid := scene.Point{X: mm(b.Width()) / 2, Y: -mm(b.Length()) / 2}
		for _, m := range r.of(drawn.GrainMark, drawn.NotchMark, drawn.DotMark) {
			p := place(m.At, b)
			off := scene.Point{X: unit}
			if d := far(p, mid); m.Kind == drawn.NotchMark && d > 0 {
				off = scene.Point{X: (p.X - mid.X) / d * 1.6 * unit, Y: (p.Y - mid.Y) / d * 1.6 * unit}
			}
			p = scene.Point{X: p.X + off.X, Y: p.Y + off.Y}
			style := scene.Label
			if !m.On {
				style = scene.Grid
			}
			words, align := strconv.Itoa(m.Number), scene.Middle
			switch m.Kind {
			case drawn.GrainMark:
				words, align = "line "+words, scene.Start
			case drawn.DotMark:
				words, align = "dot "+words, scene.Start
			}
			s.Items = append(s.Items, scene.Item{Style: style, ID: fmt.Sprintf("%s %d", m.Kind, m.Number), Text: words, At: p, Size: unit, Align: align})
			places = append(places, p)
		}
		s.Bounds = scene.Box{Min: scene.Point{X: -4 * unit, Y: -mm(b.Length()) - 7*unit}, Max: scene.Point{X: mm(b.Width()) + 4*unit, Y: 3 * unit}}
		s.Hair = unit / 30
	}
	return s, places, unit
}

// place is where a point of a piece lies in its picture.
func place(p shape.Point, b shape.Box) scene.Point {
	return scene.Point{X: mm(p.Y - b.Min.Y), Y: -mm(p.X - b.Min.X)}
}
