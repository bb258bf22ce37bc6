package patternui

import (
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// How the pages of a file may lie.
const (
	pagesFound = "as they were found to fit"
	pagesApart = "each by itself"
	pagesTyped = "side by side, as typed below"
)

// sheets asks how the pages of a file lie, where it has several.
type sheets struct {
	im                            *importer
	how                           *widgets.Choice
	rows                          *widgets.Field
	left, top, right, low, shared *widgets.Field
	typed                         *fyne.Container
	told                          *fyne.Container
	box                           *fyne.Container
	path                          string // of the file that the plan is of
	known                         *drawn.Pages
	chosen                        int // the page that keys move, 0 for none
}

func newSheets(im *importer) *sheets {
	s := &sheets{im: im, told: container.NewVBox()}
	s.how = widgets.NewChoice("The pages lie", []string{pagesFound, pagesApart, pagesTyped}, func(string) { s.changed() })
	s.rows = widgets.NewField("Pages row by row, a dash for an empty place", "2 3 4 / 5 6 7", readRows)
	length := func(name string) *widgets.Field {
		f := widgets.NewField(name, "12 mm", im.readEdge)
		return f
	}
	s.left, s.right = length("Cut off left"), length("Cut off right")
	s.top, s.low = length("Cut off above"), length("Cut off below")
	s.shared = length("Pages share")
	for _, f := range s.fields() {
		f.Entry.OnSubmitted = func(string) { im.read() }
		f.Entry.Escape = im.leave
	}
	s.how.Escape = im.leave
	again := widgets.NewButton("Lay the pages like this", im.read)
	s.typed = container.NewVBox(s.rows.Object(), container.NewGridWithColumns(5, s.left.Object(), s.right.Object(), s.top.Object(), s.low.Object(), s.shared.Object()),
		container.NewHBox(again))
	for name, o := range map[string]fyne.CanvasObject{"outlines.pages": s.how, "outlines.rows": s.rows.Entry, "outlines.cutleft": s.left.Entry, "outlines.cutright": s.right.Entry,
		"outlines.cutabove": s.top.Entry, "outlines.cutbelow": s.low.Entry, "outlines.shared": s.shared.Entry, "outlines.lay": again, "outlines.pagestold": s.told} {
		im.page.host.Names.Set(name, o)
	}
	s.box = container.NewVBox(s.how.Object(), s.typed, s.told)
	s.box.Hide()
	s.typed.Hide()
	return s
}

func (s *sheets) fields() []*widgets.Field {
	return []*widgets.Field{s.rows, s.left, s.right, s.top, s.low, s.shared}
}

func readRows(text string) (string, error) {
	rows, err := drawn.ParseRows(text)
	if err != nil {
		return "", err
	}
	wide := 0
	for _, r := range rows {
		wide = max(wide, len(r))
	}
	return fmt.Sprintf("= %s of up to %s", say.Count(len(rows), "row", "rows"), say.Count(wide, "page", "pages")), nil
}

// readEdge reads what is cut off or shared, which may be nothing.
func (im *importer) readEdge(text string) (string, error) {
	if strings.TrimSpace(text) == "0" {
		return "= nothing", nil
	}
	return im.page.readLength(text)
}

// changed shows the fields for rows, or lays the pages anew.
func (s *sheets) changed() {
	if s.how.Selected != pagesTyped {
		s.typed.Hide()
		s.im.read()
		return
	}
	s.typed.Show()
	s.box.Refresh()
	s.im.page.host.Focus(s.rows.Entry)
}

// plan is what the pages are to be laid by, nil to work it out. Another file is worked out anew.
func (s *sheets) plan() *drawn.Plan {
	if strings.TrimSpace(s.im.file.Text()) != s.path {
		return nil
	}
	switch s.how.Selected {
	case pagesApart:
		return &drawn.Plan{}
	case pagesTyped:
		rows, err := drawn.ParseRows(s.rows.Text())
		if err != nil {
			s.rows.Valid()
			rows = [][]int{{0}} // refused with its sentence where pages are laid
		}
		return &drawn.Plan{Rows: rows, Left: s.mm(s.left), Right: s.mm(s.right), Top: s.mm(s.top), Low: s.mm(s.low), Shared: s.mm(s.shared)}
	}
	return nil
}

func (s *sheets) mm(f *widgets.Field) float64 {
	l, err := measure.ParsePositiveLength(f.Text(), s.im.page.unit())
	if err != nil {
		return 0
	}
	return l.Millimetres()
}

// seen shows how the pages of a file that was read lie, and takes that into the fields.
func (s *sheets) seen(path string, p *drawn.Pages) {
	s.told.RemoveAll()
	s.known = p
	if p == nil || p.Count < 2 {
		s.path = path
		s.choose(pagesFound)
		s.box.Hide()
		return
	}
	if s.path != path {
		s.path, s.chosen = path, 0
		s.choose(pagesFound)
		s.typed.Hide()
	}
	s.box.Show()
	mark, tone := "", widgets.Quiet
	if s.how.Selected == pagesFound && p.Plan.Rows == nil {
		mark, tone = "! ", widgets.Careful
	}
	s.told.Add(widgets.Remark(mark, say.Sentence(p.Told), tone))
	s.byHand(p)
	if s.how.Selected != pagesTyped {
		s.fill(p)
	}
	s.box.Refresh()
}

// choose sets the choice without reading the file again.
func (s *sheets) choose(how string) {
	changed := s.how.OnChanged
	s.how.OnChanged = nil
	s.how.SetSelected(how)
	s.how.OnChanged = changed
}

// fill writes a plan into the fields; pages that lie by themselves are offered in rows of three.
func (s *sheets) fill(p *drawn.Pages) {
	rows := p.Plan.Rows
	if rows == nil {
		rows = drawn.Columns(1, p.Count, min(3, p.Count))
	}
	s.rows.Set(drawn.FormatRows(rows))
	for f, v := range map[*widgets.Field]float64{s.left: p.Plan.Left, s.right: p.Plan.Right, s.top: p.Plan.Top, s.low: p.Plan.Low, s.shared: p.Plan.Shared} {
		f.Set(fmt.Sprintf("%.4g mm", v))
		if v < 0.005 {
			f.Set("0")
		}
	}
}

// mostShown is how many points the picture of a sheet has: more cannot be told apart.
const mostShown = 40_000

// sheetScene draws everything of a drawing as it lies, with the pages and their numbers, one of them
// chosen.
func sheetScene(d *drawn.Drawing, chosen int) scene.Scene {
	var s scene.Scene
	if d == nil {
		return s
	}
	at := func(p shape.Point) scene.Point { return scene.Point{X: mm(p.Y), Y: -mm(p.X)} }
	b := scene.Box{Min: scene.Point{X: math.Inf(1), Y: math.Inf(1)}, Max: scene.Point{X: math.Inf(-1), Y: math.Inf(-1)}}
	reach := func(p scene.Point) scene.Point {
		b.Min, b.Max = scene.Point{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y)}, scene.Point{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y)}
		return p
	}
	points := 0
	for _, f := range d.Shapes {
		points += len(f.Ring) + len(f.Open)
	}
	step := 1 + points/mostShown
	for i, f := range d.Shapes {
		style, pts := scene.Edge, f.Open
		if f.Ring != nil {
			style, pts = scene.Piece, f.Ring
		}
		l := scene.Line{Closed: f.Ring != nil}
		for k := range pts {
			if len(pts) > 12 && k%step != 0 && k+1 < len(pts) {
				continue
			}
			l.Points = append(l.Points, reach(at(pts[k])))
		}
		s.Items = append(s.Items, scene.Item{Style: style, ID: fmt.Sprint(i), Lines: []scene.Line{l}})
	}
	if d.Pages != nil {
		for _, p := range d.Pages.Sheets {
			lo, hi := reach(at(p.Min)), reach(at(p.Max))
			s.Items = append(s.Items,
				scene.Item{Style: scene.Fold, Lines: []scene.Line{{Closed: true, Points: []scene.Point{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}}}},
				scene.Item{Style: scene.Label, Text: pageWords(p.Number, chosen), ID: pageWords(p.Number, 0), At: scene.Point{X: (lo.X + hi.X) / 2, Y: lo.Y - (lo.Y-hi.Y)*0.08}, Size: (hi.X - lo.X) / 10})
		}
	}
	if len(s.Items) == 0 {
		return s
	}
	edge := 0.02 * (b.Max.X - b.Min.X + b.Max.Y - b.Min.Y)
	s.Bounds = scene.Box{Min: scene.Point{X: b.Min.X - edge, Y: b.Min.Y - edge}, Max: scene.Point{X: b.Max.X + edge, Y: b.Max.Y + edge}}
	s.Hair = (b.Max.X - b.Min.X) / 1500
	return s
}
