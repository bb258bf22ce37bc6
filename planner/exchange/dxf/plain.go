package dxf

import (
	"fmt"
	"math"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/stash/shape"
)

// plain reads a file without the structure of sewn products: what is drawn in it.
func (f *File) plain(w *walker, o Options) (drawn.Drawing, error) {
	s, err := f.scale(o.Unit, "", w.notes)
	if err != nil {
		return drawn.Drawing{}, err
	}
	if err := w.visit(f.Entities, state{m: scaled(s.Unit, s.Unit)}); err != nil {
		return drawn.Drawing{}, err
	}
	var runs, texts []mark
	for _, m := range w.marks {
		switch m.kind {
		case line:
			runs = append(runs, m)
		case words:
			texts = append(texts, m)
		}
	}
	runs, forks := join(runs)
	if forks > 0 {
		w.notes.add(drawn.OpenPath, "", fmt.Sprintf("in %d places more than two lines end, so they were not joined there", forks), "Draw outlines and inner lines on layers of their own.")
	}
	left, top := corner(runs)
	c := drawn.Collector{Limits: w.lim}
	for i, r := range runs {
		points := make([]drawn.Place, len(r.points))
		for k, p := range r.points {
			points[k] = drawn.Place{X: p.X - left, Y: top - p.Y}
		}
		c.Add(points, r.closed, drawn.Found{Name: r.block, Group: []string{r.layer}, Object: i})
	}
	d, err := c.Finish(w.ctx, s)
	if err != nil {
		return drawn.Drawing{}, err
	}
	name(d, texts, left, top, w.notes)
	d.Warnings = append(w.notes.warnings(), d.Warnings...)
	return d, nil
}

// corner is the top left corner of everything drawn.
func corner(runs []mark) (left, top float64) {
	left, top = math.Inf(1), math.Inf(-1)
	for _, r := range runs {
		for _, p := range r.points {
			left, top = min(left, p.X), max(top, p.Y)
		}
	}
	if math.IsInf(left, 1) {
		return 0, 0
	}
	return left, top
}

// mostLooks bounds how many edges are looked at to find the outlines around texts.
const mostLooks = 20_000_000

// name gives outlines without a name the words that are written in them; other words
// are left out, which is noted.
func name(d drawn.Drawing, texts []mark, left, top float64, n *notes) {
	boxes := make([]shape.Box, len(d.Shapes))
	for k, s := range d.Shapes {
		boxes[k] = s.Ring.Bounds()
	}
	looks := mostLooks
	for _, t := range texts {
		at := shape.Point{X: micro(top - t.points[0].Y), Y: micro(t.points[0].X - left)}
		best := -1
		for k, s := range d.Shapes {
			if looks--; looks < 0 {
				break
			}
			if b := boxes[k]; !s.Usable() || at.X < b.Min.X || at.X > b.Max.X || at.Y < b.Min.Y || at.Y > b.Max.Y {
				continue
			}
			if best >= 0 && s.Area >= d.Shapes[best].Area {
				continue
			}
			if looks -= len(s.Ring); s.Ring.Contains(at) {
				best = k
			}
		}
		if best >= 0 && d.Shapes[best].Name == "" && t.text != "" {
			d.Shapes[best].Name = shorten(t.text)
			continue
		}
		n.add(drawn.Text, shorten(t.text), "words were left out", "Nothing to do if they are notes.")
	}
}
