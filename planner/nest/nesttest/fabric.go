package nesttest

import (
	"math/rand/v2"

	"tallycloth/planner/nest"
	"tallycloth/stash/shape"
)

func fabrics(rng *rand.Rand, ask nest.Ask) []nest.Fabric {
	if ask == nest.LeastLength {
		return []nest.Fabric{strip(rng)}
	}
	var out []nest.Fabric
	for range 1 + rng.IntN(3) {
		switch rng.IntN(2) {
		case 0:
			f := strip(rng)
			f.Length = int64(200+rng.IntN(1000)) * mm
			out = append(out, f)
		case 1:
			out = append(out, leftover(rng))
		}
	}
	return out
}

// strip is a fabric without length, sometimes folded, sometimes with flaws.
func strip(rng *rand.Rand) nest.Fabric {
	f := nest.Fabric{Width: int64(400+rng.IntN(1200)) * mm}
	if rng.IntN(2) == 0 {
		f.Bands = bands(rng, 0, f.Width)
	}
	box := shape.Box{Max: shape.Point{X: 800 * mm, Y: f.Width}}
	f.Obstacles = flaws(rng, box)
	return f
}

// flaws are up to two obstacles about places in a box; they may reach out of it, and
// over each other.
func flaws(rng *rand.Rand, box shape.Box) []shape.Polygon {
	var out []shape.Polygon
	for range rng.IntN(3) {
		at := shape.Point{X: box.Min.X + rng.Int64N(box.Length()), Y: box.Min.Y + rng.Int64N(box.Width())}
		out = append(out, shape.Polygon{Outer: Star(rng, 8, 60*mm).Move(at)})
	}
	return out
}

// bands fold cloth that reaches from one y to another: once at any depth from either
// side, or twice, with a single layer beyond the fold or between the two. Now and
// then both selvedges meet, or two layers lie on each other without a fold.
func bands(rng *rand.Rand, from, to int64) []nest.Band {
	width := to - from
	depth := from + width/10 + rng.Int64N(width*8/10)
	low := nest.Band{From: from, To: depth, Layers: 2, FoldLow: true}
	high := nest.Band{From: depth, To: to, Layers: 2, FoldHigh: true}
	switch rng.IntN(6) {
	case 0:
		return []nest.Band{low, {From: depth, To: to, Layers: 1}}
	case 1:
		return []nest.Band{{From: from, To: depth, Layers: 1}, high}
	case 2:
		return []nest.Band{low, high}
	case 3:
		low.To, high.From = from+(depth-from)*2/3, depth
		return []nest.Band{low, {From: low.To, To: high.From, Layers: 1}, high}
	case 4: // folded in half
		return []nest.Band{{From: from, To: to, Layers: 2, FoldLow: true}}
	}
	return []nest.Band{{From: from, To: depth, Layers: 2}, {From: depth, To: to, Layers: 1}}
}

// leftover is an outline of its own with up to two holes, sometimes with flaws as
// well, now and then folded.
func leftover(rng *rand.Rand) nest.Fabric {
	for {
		f := nest.Fabric{Outline: shape.Polygon{Outer: Star(rng, 10, int64(300+rng.IntN(700))*mm)}}
		for range rng.IntN(3) {
			at := shape.Point{X: int64(rng.IntN(200)-100) * mm, Y: int64(rng.IntN(200)-100) * mm}
			f.Outline.Holes = append(f.Outline.Holes, Star(rng, 8, 40*mm).Move(at).Reverse())
		}
		if f.Outline.Validate() != nil {
			continue
		}
		box := f.Outline.Bounds()
		if rng.IntN(3) == 0 {
			f.Obstacles = flaws(rng, box)
		}
		if rng.IntN(6) == 0 {
			f.Bands = bands(rng, box.Min.Y, box.Max.Y)
		}
		return f
	}
}
