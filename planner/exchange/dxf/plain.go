package dxf

import (
	"fmt"
	"math"

	"tallycloth/planner/exchange/drawn"
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
		c.Add(points, r.closed, drawn.Found{Name: r.block, Given: r.block != "", Group: []string{r.layer}, Object: i})
	}
	for _, t := range texts {
		at := drawn.Place{X: t.points[0].X - left, Y: top - t.points[0].Y}
		c.Write(t.text, at, at, 0, []string{t.layer})
	}
	d, err := c.Finish(w.ctx, s)
	if err != nil {
		return drawn.Drawing{}, err
	}
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
