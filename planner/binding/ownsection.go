package binding

import (
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// run is one layer of a strip in section: so long, folded back against the one before or
// going on from it.
type run struct {
	length measure.Length
	back   bool
	width  bool // a finished width
}

// runs are the layers of a recipe in order across the strip: a seam, the widths each folded
// against the last, what turns round the edge, what is caught beneath, the other seams. Round a
// wrapped edge the first seam lies folded against the first width.
func (r Recipe) runs(f Finish) []run {
	var out []run
	add := func(l measure.Length, back bool) {
		if l > 0 {
			out = append(out, run{length: l, back: back})
		}
	}
	seams := r.Seams
	if seams > 0 {
		add(f.Seam, false)
		seams--
	}
	for i := range r.Widths {
		out = append(out, run{f.Width, i > 0 || r.Lies == Wraps && len(out) > 0, true})
	}
	add(measure.Length(r.Turns)*f.Turn, r.Widths%2 == 1)
	add(measure.Length(r.Caughts)*f.Caught, r.Widths%2 == 1 && r.Turns == 0)
	for i := range seams {
		add(f.Seam, r.Lies == Wraps || r.Widths%2 == 1 || i > 0)
	}
	return out
}

// folds are where the runs meet, across the strip.
func (r Recipe) folds(f Finish) []measure.Length {
	var out []measure.Length
	at := measure.Length(0)
	for i, x := range r.runs(f) {
		if i > 0 && (x.back || i == 1) {
			out = append(out, at)
		}
		at += x.length
	}
	return out
}

// ownLines draws a recipe layer by layer: the garment, and the strip beginning at its seam. In a
// wrap what comes after the first width lies beneath the garment, the rest above it.
func (d drawer) ownLines(r Recipe, f Finish) (garment, strip []shape.Point) {
	far := -(d.f + d.s + 4*d.e)
	garment = []shape.Point{{X: far}, {X: min(d.s, d.f-d.g/2)}}
	x, y, step, down := int64(-d.s), -2*d.g, int64(1), int64(1)
	switch {
	case r.Lies == Wraps:
		x, y, step, down = d.s, d.g, -1, -1
		if r.Seams == 0 {
			x, y, step = 0, 2*d.g, 1
		}
	case r.Seams == 0:
		x = 0
	}
	if r.Lies != Wraps {
		garment = []shape.Point{{X: far}, {X: 0}, {X: 0, Y: -d.g}, {X: -d.s, Y: -d.g}}
	}
	strip = []shape.Point{{X: x, Y: y}}
	widths := 0
	for _, l := range r.runs(f) {
		if l.back {
			step = -step
			y -= down * d.g
			if r.Lies == Wraps && widths == 1 {
				y, down = -2*d.g, 1
			}
			strip = append(strip, shape.Point{X: x, Y: y})
		}
		if l.width {
			widths++
		}
		x += step * int64(l.length)
		strip = append(strip, shape.Point{X: x, Y: y})
	}
	if r.Lies == TurnsIn { // folded over at the stitching, its widths lie beneath the garment
		for i := range strip {
			strip[i].X = min(strip[i].X, -strip[i].X)
		}
	}
	return garment, strip
}
