package shape

// Area returns the area in µm² without the holes; never negative for a valid polygon.
func (p Polygon) Area() int64 {
	a := p.Outer.Area()
	for _, h := range p.Holes {
		a -= h.Area()
	}
	return a
}

// Bounds returns the bounds of the outer ring.
func (p Polygon) Bounds() Box { return p.Outer.Bounds() }

// Contains says whether q lies in the polygon; its edges, also those of its
// holes, belong to it.
func (p Polygon) Contains(q Point) bool {
	if !p.Outer.Contains(q) {
		return false
	}
	for _, h := range p.Holes {
		if h.Locate(q) == Within {
			return false
		}
	}
	return true
}

// Move returns a copy moved by d.
func (p Polygon) Move(d Point) Polygon {
	out := Polygon{Outer: p.Outer.Move(d)}
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, h.Move(d))
	}
	return out
}

// Rings returns the outer ring followed by the holes.
func (p Polygon) Rings() []Ring { return append([]Ring{p.Outer}, p.Holes...) }
