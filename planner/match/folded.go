package match

import (
	"cmp"
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// mirrorSlack is how far the two layers of a folded piece may lie from being mirror images, in µm.
const mirrorSlack = 20

// FoldsOf finds how a cloth, of which so much counts (see Counts), is folded for what is to be cut from
// it, of which outlines on the open cloth are known alone: the y of one fold, or of two that bring both selvedges to the
// middle; none where it lies in one layer. With a fold every outline is its own mirror
// image about it, or is cut twice as a mirrored pair about it, or lies beyond both layers.
func FoldsOf(cloth shape.Box, outlines []shape.Ring) []int64 {
	candidates := foldLines(outlines)
	middle := cloth.Min.Y + cloth.Width()/2
	for i, f := range candidates {
		for _, g := range candidates[i+1:] {
			low, high := parted(outlines, middle)
			apart := math.Abs(float64(g-f) - float64(cloth.Width())/2)
			if apart > 30_000 || len(low) == 0 || len(high) == 0 || len(low)+len(high) < len(outlines) {
				continue
			}
			if mirrored(low, f) == len(low) && mirrored(high, g) == len(high) {
				return []int64{f, g}
			}
		}
	}
	for _, f := range candidates {
		if foldsAt(cloth, outlines, f) {
			return []int64{f}
		}
	}
	return nil
}

// foldLines are heights that a fold may have: middles of outlines that are their own mirror
// image, and middles between two that are each other's.
func foldLines(outlines []shape.Ring) []int64 {
	var out []int64
	add := func(y int64) {
		for _, o := range out {
			if d := o - y; max(d, -d) <= mirrorSlack {
				return
			}
		}
		out = append(out, y)
	}
	for i, r := range outlines {
		if y := middleOf(r); sameAbout(r, r, y) {
			add(y)
		}
		for _, s := range outlines[i+1:] {
			if y := (middleOf(r) + middleOf(s)) / 2; sameAbout(r, s, y) {
				add(y)
			}
		}
	}
	slices.SortFunc(out, func(a, b int64) int { return cmp.Compare(a, b) })
	return out
}

func middleOf(r shape.Ring) int64 { b := r.Bounds(); return (b.Min.Y + b.Max.Y) / 2 }

// foldsAt says whether everything is cut from cloth folded at one height: some of it double,
// the rest beyond both layers.
func foldsAt(cloth shape.Box, outlines []shape.Ring, f int64) bool {
	single := 2*f - cloth.Min.Y // above it there is one layer
	above := true
	if f-cloth.Min.Y > cloth.Max.Y-f {
		single, above = 2*f-cloth.Max.Y, false
	}
	var double []shape.Ring
	for _, r := range outlines {
		b := r.Bounds()
		if above && b.Min.Y >= single || !above && b.Max.Y <= single {
			continue
		}
		double = append(double, r)
	}
	return len(double) > 0 && mirrored(double, f) == len(double)
}

// mirrored counts outlines that have their mirror image about f among them.
func mirrored(outlines []shape.Ring, f int64) int {
	n := 0
	for _, r := range outlines {
		if slices.ContainsFunc(outlines, func(s shape.Ring) bool { return sameAbout(r, s, f) }) {
			n++
		}
	}
	return n
}

// parted are the outlines wholly below and wholly above a height.
func parted(outlines []shape.Ring, y int64) (low, high []shape.Ring) {
	for _, r := range outlines {
		switch b := r.Bounds(); {
		case b.Max.Y <= y:
			low = append(low, r)
		case b.Min.Y >= y:
			high = append(high, r)
		}
	}
	return low, high
}

// sameAbout says whether one outline is the mirror image of the other about a height, its points
// in whatever order.
func sameAbout(r, s shape.Ring, y int64) bool {
	a, b := r.Bounds(), s.Bounds()
	off := func(d int64) bool { return max(d, -d) > 2*mirrorSlack }
	if len(r) != len(s) || off(a.Min.X-b.Min.X) || off(a.Max.X-b.Max.X) || off(a.Min.Y+b.Max.Y-2*y) || off(a.Max.Y+b.Min.Y-2*y) {
		return false
	}
	for _, p := range r {
		if !slices.ContainsFunc(s, func(q shape.Point) bool { return !off(p.X-q.X) && !off(p.Y+q.Y-2*y) }) {
			return false
		}
	}
	return true
}
