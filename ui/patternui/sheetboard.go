package patternui

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/scene"
	"tallycloth/ui/widgets"
)

// howPagesMove says what can be done by hand.
const howPagesMove = "Drag a page to its place in the picture of everything. By keyboard: n and b choose one, arrows move it."

// pageBox is where a page lies in the picture.
func pageBox(p drawn.Sheet) scene.Box {
	return scene.Box{Min: scene.Point{X: mm(p.Min.Y), Y: -mm(p.Max.X)}, Max: scene.Point{X: mm(p.Max.Y), Y: -mm(p.Min.X)}}
}

// pageAt is the page under a point of the picture.
func (s *sheets) pageAt(at scene.Point) (drawn.Sheet, bool) {
	if s.known != nil && s.im.shows.Selected == showsSheet {
		for _, p := range s.known.Sheets {
			if b := pageBox(p); at.X >= b.Min.X && at.X <= b.Max.X && at.Y >= b.Min.Y && at.Y <= b.Max.Y {
				return p, true
			}
		}
	}
	return drawn.Sheet{}, false
}

// dragged moves the frame of a page along, and puts the page down where it is let go.
func (s *sheets) dragged(from, by scene.Point, end bool) {
	p, ok := s.pageAt(from)
	if !ok || s.known.Count < 2 {
		return
	}
	s.chosen = p.Number
	if !end {
		frames := framesOnly(s.known, s.chosen, by)
		frames.Bounds, frames.Hair = s.im.preview.Scene().Bounds, s.im.preview.Scene().Hair // nothing jumps
		s.im.preview.Draw(frames)
		return
	}
	rows, err := drawn.ParseRows(s.rows.Text())
	if err != nil {
		s.im.drawPreview()
		return
	}
	row, place, in := drawn.PlaceOf(rows, p.Number)
	if q, on := s.pageAt(scene.Point{X: from.X + by.X, Y: from.Y + by.Y}); on {
		if r, c, ok := drawn.PlaceOf(rows, q.Number); ok && in {
			s.put(rows, p.Number, r, c)
			return
		}
	}
	b := pageBox(p)
	if !in || s.known.Plan.Rows == nil { // pages by themselves have no places between them
		s.im.drawPreview()
		return
	}
	steps := func(by, size float64) int { return int(math.Round(by / size)) }
	s.put(rows, p.Number, max(-1, row-steps(by.Y, b.Height())), max(-1, place+steps(by.X, b.Width())))
}

// key chooses a page, or moves the chosen one by a place.
func (s *sheets) key(k fyne.KeyName) bool {
	if s.known == nil || s.known.Count < 2 || s.im.shows.Selected != showsSheet || len(s.known.Sheets) == 0 {
		return false
	}
	at := 0
	for i, p := range s.known.Sheets {
		if p.Number == s.chosen {
			at = i
		}
	}
	n := len(s.known.Sheets)
	switch k {
	case "n", "b":
		if s.chosen > 0 {
			at = (at + map[fyne.KeyName]int{"n": 1, "b": n - 1}[k]) % n
		}
		s.chosen = s.known.Sheets[at].Number
		s.im.drawPreview()
		return true
	}
	by, ok := map[fyne.KeyName][2]int{fyne.KeyUp: {-1, 0}, fyne.KeyDown: {1, 0}, fyne.KeyLeft: {0, -1}, fyne.KeyRight: {0, 1}}[k]
	rows, err := drawn.ParseRows(s.rows.Text())
	row, place, in := drawn.PlaceOf(rows, s.chosen)
	if !ok || err != nil || !in {
		return false
	}
	s.put(rows, s.chosen, row+by[0], place+by[1])
	return true
}

// put lays the pages with one of them in another place.
func (s *sheets) put(rows [][]int, page, row, place int) {
	s.rows.Set(drawn.FormatRows(drawn.MovePage(rows, page, row, place)))
	s.choose(pagesTyped)
	s.typed.Show()
	s.box.Refresh()
	s.im.read()
}

// framesOnly draws the frames of pages, one of them moved: quick enough to follow the pointer.
func framesOnly(p *drawn.Pages, moved int, by scene.Point) scene.Scene {
	d := drawn.Drawing{Pages: p}
	s := sheetScene(&d, moved)
	for _, q := range p.Sheets {
		if q.Number == moved {
			b := pageBox(q)
			l := scene.Line{Closed: true}
			for _, c := range [4]scene.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
				l.Points = append(l.Points, scene.Point{X: c.X + by.X, Y: c.Y + by.Y})
			}
			s.Items = append(s.Items, scene.Item{Style: scene.Strip, Lines: []scene.Line{l}})
		}
	}
	return s
}

// pageWords name a page in the picture.
func pageWords(n, chosen int) string {
	if n == chosen {
		return fmt.Sprintf("page %d, chosen", n)
	}
	return fmt.Sprintf("page %d", n)
}

// byHand says how pages are moved, where there are several.
func (s *sheets) byHand(p *drawn.Pages) {
	if p.Count > 1 {
		s.told.Add(widgets.Remark("", howPagesMove, widgets.Quiet))
	}
}
