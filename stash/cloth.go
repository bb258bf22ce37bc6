package stash

import (
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Cloth is one physical length or leftover of a fabric.
type Cloth struct {
	ID       ID     `json:",omitzero"`
	FabricID ID     `json:",omitzero"`
	Code     string `json:",omitzero"` // short, for its label, unique in the library
	Lot      string `json:",omitzero"`
	Place    string `json:",omitzero"` // where it is kept
	// Length × Width is the cloth when Outline is empty; else they are its bounds. The
	// width of a tube is that of its one layer once slit: twice its flat width.
	Length, Width measure.Length `json:",omitzero"`
	// Outline is a leftover's true outline with its flaws and cut-outs as holes,
	// in the cloth's own frame; empty for a plain length.
	Outline shape.Polygon `json:",omitzero"`
	// RawStart and RawEnd: the end is not trued yet and loses 2 cm. Plain lengths only.
	RawStart, RawEnd bool `json:",omitzero"`
	// Selvedges says whether the edges at y = 0 and y = Width are selvedges (leftovers may have lost them).
	SelvedgeLow, SelvedgeHigh bool   `json:",omitzero"`
	Washed                    bool   `json:",omitzero"`
	CutFrom                   ID     `json:",omitzero"` // the cloth it was cut from, or NoID
	PurchaseID                ID     `json:",omitzero"` // or NoID
	Gone                      bool   `json:",omitzero"` // used up, given away or discarded; kept for history
	Notes                     string `json:",omitzero"`
}

// Polygon returns the cloth as an outline in its own frame: its true outline, or
// for a plain length the rectangle from (0, 0) to (Length, Width). A cloth that is
// gone still has the shape it had.
func (c Cloth) Polygon() shape.Polygon {
	if len(c.Outline.Outer) > 0 {
		return c.Outline
	}
	return shape.Polygon{Outer: shape.Box{Max: shape.Point{X: int64(c.Length), Y: int64(c.Width)}}.Ring()}
}

// Shaped returns the cloth with an outline, moved so that its bounds begin at the origin;
// an outline that is just an upright rectangle makes a plain length.
func (c Cloth) Shaped(p shape.Polygon) Cloth {
	box := p.Bounds()
	c.Length, c.Width, c.Outline = measure.Length(box.Length()), measure.Length(box.Width()), shape.Polygon{}
	if len(p.Holes) > 0 || p.Area() != box.Length()*box.Width() {
		c.Outline = p.Move(shape.Point{X: -box.Min.X, Y: -box.Min.Y})
	}
	return c
}

// Plain says whether the cloth is a plain length, without an outline of its own.
func (c Cloth) Plain() bool { return len(c.Outline.Outer) == 0 }

// Area returns the area of what is there: of the outline less its holes, or length
// × width; 0 for a cloth that is gone.
func (c Cloth) Area() measure.Area {
	switch {
	case c.Gone:
		return 0
	case c.Plain():
		return measure.Area(int64(c.Length) * int64(c.Width))
	}
	return measure.Area(c.Outline.Area())
}

// LengthThere returns the length of what is there; 0 for a cloth that is gone.
func (c Cloth) LengthThere() measure.Length {
	if c.Gone {
		return 0
	}
	return c.Length
}
