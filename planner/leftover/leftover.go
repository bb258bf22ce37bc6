package leftover

import (
	"tallycloth/planner/geometry"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Limits say what is worth keeping.
type Limits struct {
	Square measure.Length // a square of this side fits in: a pocket or a patch
	// A rest that holds a strip StripWidth of the cloth's length by StripLength across
	// its width, where it stretches most, can be a binding.
	StripWidth, StripLength measure.Length
}

// DefaultLimits keep pieces of 10 cm, and crosswise rests of 3.5 × 40 cm: a usual binding
// strip, as wide as it is cut, once round a neck (common practice).
func DefaultLimits() Limits {
	return Limits{Square: 10 * measure.Centimetre, StripWidth: 35 * measure.Millimetre, StripLength: 40 * measure.Centimetre}
}

func (l Limits) probes() []geometry.Probe {
	var out []geometry.Probe
	if l.Square > 0 {
		out = append(out, geometry.Probe{Length: int64(l.Square), Width: int64(l.Square)})
	}
	if l.StripWidth > 0 && l.StripLength > 0 {
		out = append(out, geometry.Probe{Length: int64(l.StripWidth), Width: int64(l.StripLength)})
	}
	return out
}

// Leftover is a part of a cloth that is worth keeping.
type Leftover struct {
	Outline shape.Polygon // in the frame of the cloth it is cut from
	// Straight is its largest upright rectangle, in the same frame.
	Straight shape.Box
	// OnlyStrips says that no square of the limit fits: it is good for strips only.
	OnlyStrips bool
}

// Area returns its area.
func (l Leftover) Area() measure.Area { return measure.Area(l.Outline.Area()) }

// Of returns what is worth keeping of a cloth once the outlines are cut from it, the
// largest first. What it returns lies exactly within the cloth, clear of what is cut,
// without overlap.
func Of(c stash.Cloth, cut []shape.Ring, l Limits) []Leftover {
	var out []Leftover
	for _, p := range geometry.Opening(c.Polygon(), cut, l.probes()) {
		k := Leftover{Outline: p}
		b, ok := geometry.LargestBox(p)
		if !ok {
			continue
		}
		k.Straight = b
		square := geometry.Probe{Length: int64(l.Square), Width: int64(l.Square)}
		k.OnlyStrips = l.Square > 0 && len(geometry.Opening(p, nil, []geometry.Probe{square})) == 0
		out = append(out, k)
	}
	return out
}

// KeptArea returns about the area of all that Of returns, much sooner.
func KeptArea(c stash.Cloth, cut []shape.Ring, l Limits) measure.Area {
	return measure.Area(geometry.OpeningArea(c.Polygon(), cut, l.probes()))
}

// Cloth returns the cloth that an outline cut from c makes: in a frame of its own, with
// the selvedges and raw ends it still has. Its ID and code are left for the caller.
func Cloth(c stash.Cloth, outline shape.Polygon) stash.Cloth {
	box, whole := outline.Bounds(), c.Polygon().Bounds()
	k := c.Shaped(outline)
	k.ID, k.Code, k.CutFrom, k.Notes = stash.NoID, "", c.ID, ""
	k.SelvedgeLow = c.SelvedgeLow && runsAlong(outline, whole.Min.Y)
	k.SelvedgeHigh = c.SelvedgeHigh && runsAlong(outline, whole.Max.Y)
	k.RawStart = k.Plain() && c.RawStart && box.Min.X == whole.Min.X
	k.RawEnd = k.Plain() && c.RawEnd && box.Max.X == whole.Max.X
	return k
}

// Moved is how far the frame of the cloth that Cloth returns lies from c's.
func Moved(outline shape.Polygon) shape.Point { return outline.Bounds().Min }

// runsAlong says whether an outline has an edge on the lengthwise line at y.
func runsAlong(p shape.Polygon, y int64) bool {
	for i, a := range p.Outer {
		if a.Y == y && p.Outer[(i+1)%len(p.Outer)].Y == y {
			return true
		}
	}
	return false
}
