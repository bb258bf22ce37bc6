package nesttest

import (
	"math/rand/v2"

	"tallycloth/planner/nest"
	"tallycloth/stash/shape"
)

// pinTries is how many places are tried for a copy to be pinned.
const pinTries = 12

// Options returns options for a question, the same for the same seed: most searches
// are plain, some fill only or take the first layout, some go on from a layout given,
// with outlines anywhere, as one might be left half moved by hand. The budget is left
// to the caller.
func Options(seed uint64, in nest.Instance) nest.Options {
	rng := rand.New(rand.NewPCG(seed, 0x0b7))
	o := nest.Options{Seed: seed}
	switch rng.IntN(6) {
	case 0:
		o.FillOnly = true
	case 1, 2:
		o.FirstOnly = true
	}
	if rng.IntN(12) == 0 {
		o.Start = scattered(rng, in)
	}
	return o
}

// Edited returns a layout after one or two copies were moved by hand, by up to a
// hand's breadth: they may lie over others or off the cloth. Pinned copies stay.
func Edited(seed uint64, in nest.Instance, sol nest.Solution) nest.Solution {
	rng := rand.New(rand.NewPCG(seed, 0xed17))
	out := sol
	out.Laid = append([]nest.Laid(nil), sol.Laid...)
	for range 1 + rng.IntN(2) {
		if len(out.Laid) == 0 {
			break
		}
		l := &out.Laid[rng.IntN(len(out.Laid))]
		if l.Copy >= len(in.Items[l.Item].Pinned) {
			l.Place.At.X += int64(rng.IntN(200)-100) * mm
			l.Place.At.Y += int64(rng.IntN(200)-100) * mm
		}
	}
	return out
}

// scattered lays every copy anywhere, as its item allows; now and then it leaves one out.
func scattered(rng *rand.Rand, in nest.Instance) *nest.Solution {
	sol := &nest.Solution{Used: make([]int64, len(in.Fabrics))}
	for i, it := range in.Items {
		for k := range max(it.Count, 1) {
			l := nest.Laid{Item: i, Copy: k, Fabric: rng.IntN(len(in.Fabrics))}
			switch {
			case k < len(it.Pinned):
				l.Fabric, l.Place = it.Pinned[k].Fabric, it.Pinned[k].Place
			case rng.IntN(8) == 0:
				sol.Left = append(sol.Left, nest.Copy{Item: i, Copy: k})
				continue
			default:
				l.Place = somewhere(rng, in, it, in.Fabrics[l.Fabric])
			}
			sol.Laid = append(sol.Laid, l)
			sol.Value += it.Value
		}
	}
	return sol
}

// pinSome fixes first copies of some items where they may lie, at any angle that
// their tilt allows. What is pinned keeps every rule.
func pinSome(rng *rand.Rand, in *nest.Instance) {
	only := *in
	only.Ask, only.Items = nest.FitsAll, nil
	sol := nest.Solution{Used: make([]int64, len(in.Fabrics))}
	for i := range in.Items {
		if rng.IntN(2) == 0 {
			continue
		}
		it := in.Items[i]
		it.Count = 1
		for range pinTries {
			l := nest.Laid{Item: len(only.Items), Fabric: rng.IntN(len(in.Fabrics))}
			l.Place = somewhere(rng, *in, it, in.Fabrics[l.Fabric])
			more := only
			more.Items = append(only.Items, it)
			with := nest.Solution{Laid: append(sol.Laid, l), Used: append([]int64(nil), sol.Used...), Value: sol.Value + it.Value}
			end := l.Place.Apply(it.Outline).Bounds().Max.X - start(in.Fabrics[l.Fabric])
			with.Used[l.Fabric] = max(with.Used[l.Fabric], end)
			if nest.Check(more, with) == nil {
				only, sol = more, with
				in.Items[i].Pinned = []nest.Pin{{Fabric: l.Fabric, Place: l.Place}}
				break
			}
		}
	}
}

// start is the x that the length used on a fabric is counted from.
func start(f nest.Fabric) int64 {
	if len(f.Outline.Outer) > 0 {
		return f.Outline.Bounds().Min.X
	}
	return 0
}

// somewhere is a place of an item within the bounds of a fabric, where there is room:
// turned and mirrored as it may be, on its repeat, on a fold where it asks for one.
func somewhere(rng *rand.Rand, in nest.Instance, it nest.Item, f nest.Fabric) shape.Placement {
	p := pose(rng, in, it)
	ring := p.Apply(it.Outline)
	bounds := shape.Box{Max: shape.Point{X: f.Length, Y: f.Width}}
	if len(f.Outline.Outer) > 0 {
		bounds = f.Outline.Bounds()
	} else if f.Length == 0 {
		bounds.Max.X = 900 * mm
	}
	low, high := bounds.Min.Y, bounds.Max.Y
	if len(f.Bands) > 0 {
		b := f.Bands[rng.IntN(len(f.Bands))]
		low, high = b.From, b.To
	}
	box := ring.Bounds()
	p.At = shape.Point{X: within(rng, bounds.Min.X-box.Min.X, bounds.Max.X-box.Max.X), Y: within(rng, low-box.Min.Y, high-box.Max.Y)}
	if it.OnFold && (p.Angle == shape.Turn0) != p.Mirror {
		p.At.Y = low
	} else if it.OnFold {
		p.At.Y = high
	}
	if it.Repeat > 0 {
		p.At.X += it.Repeat - (p.At.X-it.Phase)%it.Repeat
	}
	return p
}

// pose is a turn and a face that an item may have, under any turn of its group.
func pose(rng *rand.Rand, in nest.Instance, it nest.Item) shape.Placement {
	p := shape.Placement{Mirror: it.Mirror == nest.Mirrored || (it.OnFold || it.Mirror == nest.EitherFace) && rng.IntN(2) == 0}
	if len(it.Angles) > 0 {
		p.Angle = it.Angles[rng.IntN(len(it.Angles))]
	}
	if it.Group != nest.NoGroup {
		turns := in.Groups[it.Group].Angles
		p.Angle += turns[rng.IntN(len(turns))]
	}
	if it.Tilt > 0 && !it.OnFold {
		p.Angle += shape.Angle(rng.IntN(int(2*it.Tilt)+1)) - it.Tilt
	}
	p.Angle = p.Angle.Norm()
	return p
}

// within is a number from low to high, or low where there is none.
func within(rng *rand.Rand, low, high int64) int64 {
	if high <= low {
		return low
	}
	return low + rng.Int64N(high-low+1)
}
