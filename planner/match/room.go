package match

import (
	"cmp"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Rooms are the rectangles of a cloth from which strips can be cut, the largest
// first, in the cloth's frame: on a plain length every stretch that is free over the
// whole usable width, as large as it will be after washing; on a leftover one
// rectangle that lies within its outline. What is reserved is kept clear by the
// clearance. A cloth without room has none.
func Rooms(c stash.ClothState, endLoss, clearance measure.Length) []shape.Box {
	if c.Cloth.Gone {
		return nil
	}
	u := usableOf(c, endLoss)
	if !c.Cloth.Plain() {
		if b, ok := inscribed(c, u, int64(clearance)); ok {
			return []shape.Box{b}
		}
		return nil
	}
	var out []shape.Box
	for _, s := range u.freeStretches(c.Reservations, int64(clearance)) {
		from := u.box.Min.Add(shape.Point{X: s.from})
		out = append(out, shape.Box{Min: from, Max: from.Add(shape.Point{X: s.to - s.from, Y: u.width})})
	}
	return out
}

// roomLines is how many lines a leftover is ruled into, each way, to look for a
// rectangle: on a leftover of half a metre they lie 2 cm apart.
const roomLines = 24

// inscribed finds the largest rectangle between ruled lines that lies within a leftover,
// clear of what is reserved. It may miss up to a line's distance on each side.
func inscribed(c stash.ClothState, u usable, clearance int64) (shape.Box, bool) {
	xs, ys := ruled(u.box.Min.X, u.box.Max.X), ruled(u.box.Min.Y, u.box.Max.Y)
	var boxes []shape.Box
	for i, x0 := range xs {
		for _, x1 := range xs[i+1:] {
			for k, y0 := range ys {
				for _, y1 := range ys[k+1:] {
					boxes = append(boxes, shape.Box{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}})
				}
			}
		}
	}
	slices.SortStableFunc(boxes, func(a, b shape.Box) int {
		return cmp.Compare(b.Length()*b.Width(), a.Length()*a.Width())
	})
	grid := corners(c.Cloth.Outline, xs, ys)
	for _, b := range boxes {
		if grid[b.Min] && grid[b.Max] && grid[shape.Point{X: b.Min.X, Y: b.Max.Y}] && grid[shape.Point{X: b.Max.X, Y: b.Min.Y}] &&
			isFree(c, b.Ring(), clearance) {
			return b, true
		}
	}
	return shape.Box{}, false
}

func ruled(from, to int64) []int64 {
	var out []int64
	for i := range int64(roomLines + 1) {
		out = append(out, from+(to-from)*i/roomLines)
	}
	return slices.Compact(out)
}

// corners are the crossings of the lines that lie in the outline.
func corners(p shape.Polygon, xs, ys []int64) map[shape.Point]bool {
	out := map[shape.Point]bool{}
	for _, x := range xs {
		for _, y := range ys {
			if q := (shape.Point{X: x, Y: y}); p.Contains(q) {
				out[q] = true
			}
		}
	}
	return out
}

func isFree(c stash.ClothState, r shape.Ring, clearance int64) bool {
	if !shape.Inside(r, c.Cloth.Outline) {
		return false
	}
	for _, live := range c.Reservations {
		for _, p := range live.Pieces {
			if !shape.Clear(r, p.Outline, clearance) {
				return false
			}
		}
	}
	return true
}
