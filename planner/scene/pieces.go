package scene

import (
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Pieces is pattern pieces side by side in full size, each as it is drawn, without cloth.
type Pieces struct {
	Pieces []Placed // outlines in their own frames
	Room   int64    // as high as rows may be before another begins beside them, µm
	Units  measure.System
}

// between is how far pieces lie apart, in µm.
const between = 15_000

// Scene draws the pieces in columns from the lower left, the tallest first as given.
// Empty without pieces.
func (d Pieces) Scene() Scene {
	var s Scene
	const unit = 8.0 // mm: read at arm's length
	x, y, wide := int64(0), int64(0), int64(0)
	for _, p := range d.Pieces {
		b := p.Outline.Bounds()
		if y > 0 && y+b.Width() > d.Room {
			x, y, wide = x+wide+between, 0, 0
		}
		p.moved(shape.Point{X: x - b.Min.X, Y: y - b.Min.Y}).draw(&s, unit, nil)
		y += b.Width() + between
		wide = max(wide, b.Length())
	}
	s.frame()
	return s
}

// moved is the piece with all that is drawn on it somewhere else.
func (p Placed) moved(d shape.Point) Placed {
	line := func(ps []shape.Point) []shape.Point { return shape.Ring(ps).Move(d) }
	out := p
	out.Outline = p.Outline.Move(d)
	out.GrainFrom, out.GrainTo = p.GrainFrom.Add(d), p.GrainTo.Add(d)
	out.Dots, out.Inner, out.Notches = line(p.Dots), nil, nil
	for _, l := range p.Inner {
		out.Inner = append(out.Inner, line(l))
	}
	for _, n := range p.Notches {
		out.Notches = append(out.Notches, Nick{At: n.At.Add(d), Tip: n.Tip.Add(d)})
	}
	return out
}
