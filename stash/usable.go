package stash

import (
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// RawEndLoss is what a raw end loses when it is cut straight (common practice).
const RawEndLoss = 2 * measure.Centimetre

// OpenWidth returns the width of a fabric in one layer: twice the flat width of
// tubular cloth that is slit, else the full width.
func (f Fabric) OpenWidth() measure.Length {
	if f.Tubular {
		return 2 * f.FullWidth
	}
	return f.FullWidth
}

// UsableWidth returns the width of a fabric in one layer without its selvedges; a tube,
// slit along a wale, has none.
func (f Fabric) UsableWidth() measure.Length {
	if f.Tubular {
		return f.OpenWidth()
	}
	return f.FullWidth - 2*f.SelvedgeLoss
}

// UsableLength returns the length of a plain length less endLoss at each raw end, at
// least 0. Once trued, nothing is lost. A leftover's outline is what it is.
func (c Cloth) UsableLength(endLoss measure.Length) measure.Length {
	l := c.Length
	if !c.Plain() {
		return l
	}
	for _, raw := range []bool{c.RawStart, c.RawEnd} {
		if raw {
			l -= endLoss
		}
	}
	return max(l, 0)
}

// UsableWidth returns the width less loss at each edge that is a selvedge, at least
// 0. Tubular fabric has no selvedges: its loss is zero.
func (c Cloth) UsableWidth(loss measure.Length) measure.Length {
	w := c.Width
	for _, selvedge := range []bool{c.SelvedgeLow, c.SelvedgeHigh} {
		if selvedge {
			w -= loss
		}
	}
	return max(w, 0)
}

// Usable returns the part of a cloth's bounds that may be cut, in the cloth's frame:
// without raw ends (plain lengths) and without selvedges. Of a leftover only what
// also lies in its outline is cloth. A cloth with nothing usable gives the zero Box.
func (c Cloth) Usable(f Fabric, endLoss measure.Length) shape.Box {
	b := c.Polygon().Bounds()
	loss := int64(f.SelvedgeLoss)
	if f.Tubular {
		loss = 0
	}
	if c.Plain() && c.RawStart {
		b.Min.X += int64(endLoss)
	}
	if c.Plain() && c.RawEnd {
		b.Max.X -= int64(endLoss)
	}
	if c.SelvedgeLow {
		b.Min.Y += loss
	}
	if c.SelvedgeHigh {
		b.Max.Y -= loss
	}
	if b.Length() <= 0 || b.Width() <= 0 {
		return shape.Box{}
	}
	return b
}
