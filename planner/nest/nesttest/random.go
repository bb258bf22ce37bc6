package nesttest

import (
	"math/rand/v2"

	"tallycloth/planner/nest"
	"tallycloth/stash/shape"
)

// Random returns a valid question, the same one for the same seed. Over many
// seeds it uses every option of the contract, and options together: strips,
// rectangles, outlines with holes, several fabrics, obstacles, one and two folds at
// any depth with and without a single layer, groups, mirrored pairs, angles, tilt,
// clearance, matched repeats and pins; TestEveryOptionOccurs counts them. Questions
// are small (up to seven outlines of up to twelve corners), as odd cases need few
// outlines.
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
	repeat := int64(50+rng.IntN(100)) * mm // what is matched is matched to one print
	for range 1 + rng.IntN(4) {
		in.Items = append(in.Items, item(rng, in, repeat))
	}
	if k := rng.IntN(len(in.Items)); !in.Items[k].OnFold && rng.IntN(4) == 0 {
		in.Items = append(in.Items, mirrored(&in.Items[k]))
	}
	if rng.IntN(4) == 0 {
		pinSome(rng, &in)
	}
	return in
}

func groupTurns(rng *rand.Rand) []shape.Angle {
	choices := [][]shape.Angle{
		{shape.Turn0, shape.Turn180},
		{shape.Turn0, shape.Turn180},
		{shape.Turn0, shape.Turn180},
		{shape.Turn90},
		{shape.Turn0, shape.Turn90, shape.Turn180, shape.Turn270},
	}
	return choices[rng.IntN(len(choices))]
}

func item(rng *rand.Rand, in nest.Instance, repeat int64) nest.Item {
	reach := int64(30+rng.IntN(220)) * mm
	it := nest.Item{
		Outline: outline(rng, 12, reach), Count: rng.IntN(3), Group: rng.IntN(len(in.Groups)+1) - 1,
		Mirror: nest.Mirror(rng.IntN(3)), Value: int64(rng.IntN(100)),
	}
	switch rng.IntN(8) {
	case 0, 1:
		it.Angles = []shape.Angle{shape.Turn0, shape.Turn180}
	case 2:
		it.Angles = []shape.Angle{shape.Angle(rng.IntN(360_000))}
	case 3:
		it.Angles = []shape.Angle{shape.Turn90, shape.Angle(rng.IntN(360_000))}
	}
	if rng.IntN(5) == 0 {
		it.Tilt = shape.Angle(1 + rng.IntN(2000))
	}
	if rng.IntN(5) == 0 {
		it.Repeat, it.Phase = repeat, int64(rng.IntN(int(repeat)))
	}
	if !folded(in) {
		return it
	}
	switch rng.IntN(4) {
	case 0:
		it.Outline, it.OnFold = Half(rng, 10, reach), true
		if it.Angles = nil; rng.IntN(2) == 0 {
			it.Angles = []shape.Angle{shape.Turn0, shape.Turn180}
		}
		if it.Group != nest.NoGroup && in.Groups[it.Group].Angles[0] != shape.Turn0 {
			it.Group = nest.NoGroup // never upright, so never on a fold
		}
	case 1:
		it.Layers = 1 + rng.IntN(2)
	}
	return it
}

func folded(in nest.Instance) bool {
	for _, f := range in.Fabrics {
		if len(f.Bands) > 0 {
			return true
		}
	}
	return false
}

// mirrored is the other one of a pair, as left and right: the item itself is laid as
// drawn from now on.
func mirrored(it *nest.Item) nest.Item {
	it.Mirror = nest.AsDrawn
	other := *it
	other.Mirror = nest.Mirrored
	return other
}
