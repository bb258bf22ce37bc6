package sheet

import (
	"fmt"
	"math"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
)

// widestPlot is the longest side a page of a PDF may have, in mm: 14 400 units of 1/72 in
// (ISO 32000-1, annex C.2).
const widestPlot = 14_400 * 25.4 / 72

// plotMargin is what stays white round a drawing on one page, in mm.
const plotMargin = 10.0

// OnePage lays a scene out in full size on one page as large as it takes, for a projector or
// a plotter, with a square to check its size by below it. The paper of f does not matter.
// Errors: an empty scene, or one that is longer than a page may be.
func (p *Printer) OnePage(page Page, f Full) (*Document, error) {
	b := page.Scene.Bounds
	if b.Width() <= 0 || b.Height() <= 0 {
		return nil, errEmpty
	}
	const foot = 106.0 // for the squares
	on := Paper{max(b.Width(), 190) + 2*plotMargin, b.Height() + foot + 2*plotMargin}
	if longest := max(on.Width, on.Height); longest > widestPlot {
		return nil, fmt.Errorf("it is %.1f m long and a page can be %.1f m: print it tiled", longest/1000, math.Floor(widestPlot/100)/10)
	}
	s := gridded(page.Scene, f.Grid)
	s.Hair = f.weight()
	d := &Document{Title: page.Title, Drawing: s}
	d.add(on).mark(func(r canvas.Renderer) {
		p.draw(r, s, canvas.Identity.Translate(plotMargin-b.Min.X, plotMargin+foot-b.Min.Y), 1)
		p.squares(r, plotMargin, plotMargin)
		left, top := plotMargin+106, plotMargin+96.0
		room := on.Width - plotMargin - left
		for _, n := range append([]string{page.Title, "In full size: measure a square before you cut."}, page.Notes...) {
			for _, line := range p.wrap(n, 4.5, room) {
				if top > plotMargin {
					p.text(r, line, ink, 4.5, canvas.Identity.Translate(left, top), scene.Start)
					top -= 5.5
				}
			}
		}
	})
	return d, nil
}

// gridded returns a scene with a grid under it, counted from the corner of its bounds.
func gridded(s scene.Scene, step float64) scene.Scene {
	if step <= 0 || s.Bounds.Width()/step > 2000 || s.Bounds.Height()/step > 2000 {
		return s
	}
	b := s.Bounds
	var lines []scene.Line
	for x := math.Ceil(b.Min.X/step) * step; x <= b.Max.X; x += step {
		lines = append(lines, scene.Line{Points: []scene.Point{{X: x, Y: b.Min.Y}, {X: x, Y: b.Max.Y}}})
	}
	for y := math.Ceil(b.Min.Y/step) * step; y <= b.Max.Y; y += step {
		lines = append(lines, scene.Line{Points: []scene.Point{{X: b.Min.X, Y: y}, {X: b.Max.X, Y: y}}})
	}
	under := 0 // the cloth lies under the grid
	for under < len(s.Items) && s.Items[under].Style == scene.Cloth {
		under++
	}
	items := append([]scene.Item{}, s.Items[:under]...)
	items = append(items, scene.Item{Style: scene.Grid, Lines: lines})
	s.Items = append(items, s.Items[under:]...)
	return s
}
