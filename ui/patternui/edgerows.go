package patternui

import (
	"fmt"
	"maps"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// mostEdges of a piece are asked about: an outline with more is not made of edges.
const mostEdges = 24

// edgeRows asks for the seam allowance along each edge of a piece whose outlines lack theirs: a neck that is
// bound takes none, a hem more than a seam.
type edgeRows struct {
	im     *importer
	piece  *widgets.Choice
	rows   *fyne.Container
	told   *fyne.Container
	box    *fyne.Container
	fields []*widgets.Field
	listed string                    // what is asked about, to see whether it changed
	typed  map[string]map[int]string // by letter of the piece and number of the edge
	codes  []string
	plain  map[string]map[string]pattern.Outline // outlines before the allowances of their edges were added
}

func newEdgeRows(im *importer) *edgeRows {
	e := &edgeRows{im: im, rows: container.NewVBox(), told: container.NewVBox()}
	e.forget()
	e.piece = widgets.NewChoice("Other allowances along the edges of", nil, func(string) { e.list(); im.shows.SetSelected(showsEdges) })
	e.piece.Escape = im.leave
	im.page.host.Names.Set("outlines.edgesof", e.piece)
	e.box = container.NewVBox(e.told, e.piece.Object(), e.rows)
	e.box.Hide()
	return e
}

// forget drops what was said of another drawing.
func (e *edgeRows) forget() { e.typed, e.listed = map[string]map[int]string{}, "" }

// usual is the allowance along every edge that nothing else is said of.
func (e *edgeRows) usual() measure.Length { return e.im.made.SeamAllowance }

// seen shows the pieces that lack their allowance, and says what becomes of the one that was typed.
func (e *edgeRows) seen() {
	var words []string
	e.codes, e.plain = nil, map[string]map[string]pattern.Outline{}
	for _, q := range e.im.made.Pieces {
		if q.WithoutAllowance && len(q.Outlines[e.im.sizeShown()].Cut) > 2 {
			e.codes, words = append(e.codes, q.Code), append(words, q.Code+"  "+q.Name)
			e.plain[q.Code] = maps.Clone(q.Outlines)
		}
	}
	e.say(len(words) > 0)
	if e.box.Hidden = len(words) == 0 && e.usual() == 0; e.box.Hidden || len(words) == 0 {
		e.piece.Object().Hide()
		e.rows.Hide()
		e.box.Refresh()
		return
	}
	e.piece.Object().Show()
	e.rows.Show()
	e.piece.Words(words)
	e.list()
	e.box.Refresh()
}

// say tells where the allowance lies.
func (e *edgeRows) say(bare bool) {
	v, text := e.im.page.host.Voice(), ""
	switch {
	case bare && e.usual() > 0:
		text = "Drawn are the lines to stitch along (dashed). They are cut " + v.Fine(e.usual()) + " outside them, but for a fold; say where it is another width, or 0 for none."
	case bare:
		text = "Drawn are the lines to stitch along. Say how wide the seam allowance is, or how wide along each edge, else they are cut as drawn."
	case e.usual() > 0:
		text = "The outlines are taken to be where the pieces are cut: " + v.Fine(e.usual()) + " of seam allowance is inside them."
	}
	e.told.Objects = []fyne.CanvasObject{widgets.Remark("", text, widgets.Quiet)}
	e.told.Refresh()
}

// code is the piece asked about.
func (e *edgeRows) code() string {
	if i := e.piece.SelectedIndex(); i >= 0 && i < len(e.codes) {
		return e.codes[i]
	}
	return ""
}

// drawn is the outline of the piece asked about as it was drawn, in the size shown.
func (e *edgeRows) drawn() (shape.Ring, bool) {
	o, ok := e.plain[e.code()][e.im.sizeShown()]
	return o.Cut, ok && len(o.Cut) > 2
}

// list asks for every edge of the piece looked at.
func (e *edgeRows) list() {
	cut, ok := e.drawn()
	var edges []pattern.Stretch
	if ok {
		edges = pattern.Stretches(cut)
	}
	v, now := e.im.page.host.Voice(), e.code()
	var words []string
	piece, _ := e.im.made.Piece(e.code())
	var numbers []int
	for k, s := range edges[:min(len(edges), mostEdges)] {
		if !onFold(piece, s, cut) {
			numbers, words = append(numbers, k+1), append(words, fmt.Sprintf("Edge %d, %s", k+1, v.Fine(s.Length(cut))))
			now += "\n" + words[len(words)-1]
		}
	}
	if now == e.listed {
		return
	}
	e.listed, e.fields = now, nil
	e.rows.RemoveAll()
	grid := container.NewGridWithColumns(3)
	for i, text := range words {
		code, k := e.code(), numbers[i]
		f := widgets.NewField(text, "as the others", e.im.page.readAllowance)
		f.Set(e.typed[code][k])
		f.Changed = func() { e.put1(code, k, f.Text()) }
		f.Entry.Escape = e.im.leave
		f.Entry.Got = func() { e.im.shows.SetSelected(showsEdges) }
		e.im.page.host.Names.Set(fmt.Sprintf("outlines.edge.%d", k), f.Entry)
		e.fields = append(e.fields, f)
		grid.Add(f.Object())
	}
	e.rows.Add(grid)
	e.rows.Refresh()
}

// readAllowance reads a width that may be none.
func (p *Page) readAllowance(text string) (string, error) {
	l, err := measure.ParseLengthOrNone(text, p.unit())
	if err != nil {
		return "", err
	}
	if l == 0 {
		return "= none", nil
	}
	return "= " + p.host.Voice().Fine(l), nil
}

// put1 takes what was typed for an edge.
func (e *edgeRows) put1(code string, edge int, text string) {
	if e.typed[code] == nil {
		e.typed[code] = map[int]string{}
	}
	e.typed[code][edge] = text
	e.im.take()
}

// put adds the allowances to the pieces of which an edge is said to have another one than all others; the
// others get theirs when they are laid out.
func (e *edgeRows) put() {
	size, unit := e.im.sizeShown(), e.im.page.unit()
	for i, q := range e.im.made.Pieces {
		if _, bare := e.plain[q.Code]; !bare {
			continue
		}
		code, on := q.Code, e.plain[q.Code][size].Cut
		edges := pattern.Stretches(on)
		var others []pattern.EdgeAllowance
		for k, s := range edges {
			if l, err := measure.ParseLengthOrNone(e.typed[code][k+1], unit); err == nil {
				others = append(others, pattern.EdgeAllowance{At: s.Middle(on), Wide: l})
			}
		}
		if len(others) == 0 {
			continue
		}
		made, err := sizing.WithAllowance(q, on, e.usual(), others)
		if err != nil {
			e.told.Add(widgets.Remark("× ", say.Error(err), widgets.Bad))
			continue
		}
		e.im.made.Pieces[i] = made
	}
}

// scene draws the piece asked about with its edges numbered.
func (e *edgeRows) scene() (s scene.Scene) {
	cut, ok := e.drawn()
	piece, _ := e.im.made.Piece(e.code())
	size := e.im.sizeShown()
	if !ok {
		return piecesScene(e.im.page.host.Voice(), e.im.made, size)
	}
	b := cutOf(e.im.made, piece, size).Bounds()
	unit := max(mm(b.Length()), mm(b.Width())) / 32
	drawPiece(&s, e.im.made, piece, size, 0, 0, unit)
	writeUnder(&s, pieceWords(e.im.page.host.Voice(), e.im.made, piece, size), scene.Point{X: mm(b.Width()) / 2, Y: -mm(b.Length())}, unit)
	along := scene.Line{Closed: true}
	for _, p := range cut {
		along.Points = append(along.Points, place(p, b))
	}
	s.Items = append(s.Items, scene.Item{Style: scene.Stitch, Lines: []scene.Line{along}})
	for k, t := range pattern.Stretches(cut) {
		if onFold(piece, t, cut) {
			continue
		}
		p := place(t.Middle(cut), b)
		in := inward(cut, t.Middle(cut), func(p shape.Point) scene.Point { return place(p, b) })
		s.Items = append(s.Items, scene.Item{Style: scene.Label, ID: fmt.Sprintf("edge %d", k+1), Text: strconv.Itoa(k + 1), At: scene.Point{X: p.X + 1.2*unit*in.X, Y: p.Y + 1.2*unit*in.Y}, Size: 1.2 * unit})
	}
	s.Bounds = scene.Box{Min: scene.Point{X: -6 * unit, Y: -mm(b.Length()) - 7*unit}, Max: scene.Point{X: mm(b.Width()) + 6*unit, Y: unit}}
	s.Hair = unit / 30
	return s
}

// onFold says whether an edge of a piece is the one on its fold, which takes no allowance.
func onFold(q pattern.Piece, t pattern.Stretch, cut shape.Ring) bool {
	return q.OnFold && t.Middle(cut).Y == 0
}
