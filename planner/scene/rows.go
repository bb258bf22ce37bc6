package scene

import (
	"math"

	"tallycloth/stash/shape"
)

// Rows parts the drawing of a long cloth into scenes of one scale, to stand beneath each other from
// its beginning on: each shows so much of its length at most (µm), words in a size for that. A pattern piece
// that the end of a row cuts through is whole on the next, which begins before it; such ends are drawn as broken
// edges. A cloth that is little longer stays one scene.
func (l Layout) Rows(most int64) []Scene {
	b := l.Cloth.Bounds()
	if len(l.Cloth.Outer) < 3 || most <= 0 || b.Length() <= most+most/4 {
		return []Scene{l.Scene()}
	}
	whole := l.drawn(mm(most) / 60)
	var out []Scene
	for from := b.Min.X; ; {
		to := min(from+most, b.Max.X)
		out = append(out, whole.window(mm(from), mm(to), from > b.Min.X, to < b.Max.X))
		if to >= b.Max.X {
			return out
		}
		from = l.nextRow(from, to)
	}
}

// nextRow is where the row after one begins: before the pieces that its end cuts through.
func (l Layout) nextRow(from, to int64) int64 {
	next := to
	consider := func(r shape.Ring) {
		if b := r.Bounds(); b.Min.X < to && b.Max.X > to && b.Min.X > from+(to-from)/4 {
			next = min(next, b.Min.X)
		}
	}
	for _, p := range l.Pieces {
		consider(p.Outline)
	}
	for _, k := range append(append([]Kept{}, l.Reserved...), l.Spoiled...) {
		consider(k.Outline.Outer)
	}
	return next
}

// window is what of a scene lies between two x, with broken edges where it goes on.
func (s Scene) window(from, to float64, before, after bool) Scene {
	edge := (to - from) / 60
	out := Scene{Bounds: s.Bounds, Hair: max(0.1, (to-from)/1500), Cut: true}
	if before {
		out.Bounds.Min.X = from - edge
	}
	if after {
		out.Bounds.Max.X = to + edge
	}
	for _, it := range s.Items {
		b := it.Box()
		inside := b.Max.X >= out.Bounds.Min.X && b.Min.X <= out.Bounds.Max.X
		if it.Text != "" { // half a word says nothing
			inside = b.Min.X >= out.Bounds.Min.X && b.Max.X <= out.Bounds.Max.X
		}
		if inside {
			out.Items = append(out.Items, it)
		}
	}
	for _, x := range []struct {
		at   float64
		cuts bool
	}{{from, before}, {to, after}} {
		if x.cuts {
			out.add(Dimension, "", broken(x.at, s.Bounds.Min.Y, s.Bounds.Max.Y, edge/2))
		}
	}
	return out
}

// broken is a zigzag across the cloth.
func broken(x, low, high, wide float64) Line {
	n := max(2, int(math.Round((high-low)/(4*wide))))
	out := Line{}
	for i := range n + 1 {
		side := wide / 2
		if i%2 == 1 {
			side = -side
		}
		out.Points = append(out.Points, Point{x + side, low + (high-low)*float64(i)/float64(n)})
	}
	return out
}
