package nesttest

import (
	"math/rand/v2"

	"tallycloth/planner/nest"
	"tallycloth/stash/shape"
)

// Random returns a valid question, the same one for the same seed. Over many
// seeds it uses every option of the contract: strips, rectangles, outlines with
// holes, several fabrics, obstacles, folds with the single layer beyond, groups,
// mirroring, tilt, clearance, repeats and pins. Questions are small (up to six
// outlines of up to twelve corners), as odd cases need few outlines.
func Random(seed uint64) nest.Instance {
	rng := rand.New(rand.NewPCG(seed, 0x5eed))
	in := nest.Instance{Ask: nest.Ask(rng.IntN(3))}
	if rng.IntN(2) == 0 {
		in.Clearance = int64(rng.IntN(5 * mm))
	}
	in.Fabrics = fabrics(rng, in.Ask)
	for range 1 + rng.IntN(2) {
		in.Groups = append(in.Groups, nest.Group{Angles: groupTurns(rng)})
	}
	for range 1 + rng.IntN(4) {
		in.Items = append(in.Items, item(rng, in))
	}
	if rng.IntN(6) == 0 {
		pin(&in)
	}
	return in
}

func fabrics(rng *rand.Rand, ask nest.Ask) []nest.Fabric {
	if ask == nest.LeastLength {
		return []nest.Fabric{strip(rng)}
	}
	var out []nest.Fabric
	for range 1 + rng.IntN(2) {
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
	if rng.IntN(3) == 0 {
		f.Bands = bands(rng, f.Width)
	}
	for range rng.IntN(3) {
		at := shape.Point{X: int64(rng.IntN(800)) * mm, Y: int64(rng.IntN(int(f.Width)))}
		f.Obstacles = append(f.Obstacles, shape.Polygon{Outer: Star(rng, 8, 60*mm).Move(at)})
	}
	return f
}

// bands folds the cloth once at any depth, or twice with the selvedges to the middle.
func bands(rng *rand.Rand, width int64) []nest.Band {
	depth := width/4 + int64(rng.IntN(int(width/4)))
	if rng.IntN(2) == 0 {
		return []nest.Band{{From: 0, To: depth, Layers: 2, FoldLow: true}, {From: depth, To: width, Layers: 1}}
	}
	return []nest.Band{{From: 0, To: depth, Layers: 2, FoldLow: true}, {From: depth, To: width, Layers: 2, FoldHigh: true}}
}

// leftover is an outline of its own with up to two holes.
func leftover(rng *rand.Rand) nest.Fabric {
	for {
		p := shape.Polygon{Outer: Star(rng, 10, int64(300+rng.IntN(700))*mm)}
		for range rng.IntN(3) {
			at := shape.Point{X: int64(rng.IntN(200)-100) * mm, Y: int64(rng.IntN(200)-100) * mm}
			p.Holes = append(p.Holes, Star(rng, 8, 40*mm).Move(at).Reverse())
		}
		if p.Validate() == nil {
			return nest.Fabric{Outline: p}
		}
	}
}

func groupTurns(rng *rand.Rand) []shape.Angle {
	choices := [][]shape.Angle{
		{shape.Turn0, shape.Turn180},
		{shape.Turn0, shape.Turn90, shape.Turn180, shape.Turn270},
		{shape.Turn90},
	}
	return choices[rng.IntN(len(choices))]
}

func item(rng *rand.Rand, in nest.Instance) nest.Item {
	reach := int64(30+rng.IntN(220)) * mm
	it := nest.Item{
		Outline: outline(rng, 12, reach), Count: rng.IntN(3), Group: rng.IntN(len(in.Groups)+1) - 1,
		Mirror: nest.Mirror(rng.IntN(3)), Value: int64(rng.IntN(100)),
	}
	folded := len(in.Fabrics[0].Bands) > 0
	switch rng.IntN(6) {
	case 0:
		it.Angles = []shape.Angle{shape.Turn0, shape.Turn180}
	case 1:
		it.Angles = []shape.Angle{shape.Angle(rng.IntN(360_000))}
	case 2:
		it.Tilt = shape.Angle(rng.IntN(2001))
	case 3:
		it.Repeat = int64(50+rng.IntN(100)) * mm
		it.Phase = int64(rng.IntN(int(it.Repeat)))
	case 4:
		if folded {
			it.Outline, it.OnFold, it.Group = Half(rng, 10, reach), true, nest.NoGroup
		}
	case 5:
		if folded {
			it.Layers = 1 + rng.IntN(2)
		}
	}
	return it
}

// pin fixes the first copy of the first item in the corner of the first fabric,
// and takes away the flaws that are in its way. It does so only where the item
// may lie as drawn on plain cloth.
func pin(in *nest.Instance) {
	f, it := &in.Fabrics[0], &in.Items[0]
	if len(f.Outline.Outer) > 0 || len(f.Bands) > 0 || it.Mirror == nest.Mirrored || it.Repeat > 0 ||
		len(it.Angles) > 0 || it.Group != nest.NoGroup {
		return
	}
	box := it.Outline.Bounds()
	if box.Width() > f.Width || f.Length > 0 && box.Length() > f.Length {
		return
	}
	f.Obstacles = nil
	it.Pinned = []nest.Pin{{Place: shape.Placement{At: shape.Point{X: -box.Min.X, Y: -box.Min.Y}}}}
}
