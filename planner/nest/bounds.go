package nest

import "tallycloth/stash/shape"

// bounds looks for a proof that the items cannot all lie on the fabrics: more
// area than there is, or an item longer or wider than every fabric however it is
// turned. It never refuses what can be laid.
func bounds(in Instance) Bound {
	if b := areaBound(in); b.Kind != NoBound {
		return b
	}
	for i, it := range in.Items {
		if b := extentBound(in, i, it); b.Kind != NoBound {
			return b
		}
	}
	return Bound{Item: -1}
}

func areaBound(in Instance) Bound {
	var need, have float64
	for _, it := range in.Items {
		need += float64(it.Outline.Area()) * float64(max(it.Count, 1))
	}
	for _, f := range in.Fabrics {
		switch {
		case len(f.Outline.Outer) > 0:
			have += float64(f.Outline.Area())
		case f.Length == 0:
			return Bound{Item: -1}
		default:
			have += float64(f.Width) * float64(f.Length)
		}
	}
	if need <= have {
		return Bound{Item: -1}
	}
	return Bound{Kind: BoundArea, Item: -1, Need: int64(need / 1e6), Have: int64(have / 1e6)}
}

// extentBound compares the item's box in every turn with every fabric's box.
func extentBound(in Instance, i int, it Item) Bound {
	var long, wide Bound
	for _, g := range groupAngles(in, it) {
		for _, a := range itemAngles(it) {
			box := shape.Placement{Angle: (g + a).Norm()}.Apply(it.Outline).Bounds()
			for _, f := range in.Fabrics {
				l, w := f.Length, f.Width
				if len(f.Outline.Outer) > 0 {
					b := f.Outline.Bounds()
					l, w = b.Length(), b.Width()
				}
				fitsLong, fitsWide := l == 0 || box.Length() <= l, box.Width() <= w
				if fitsLong && fitsWide || it.Tilt > 0 {
					return Bound{Item: -1}
				}
				if !fitsLong && (long.Kind == NoBound || box.Length()-l < long.Need-long.Have) {
					long = Bound{BoundLength, i, box.Length(), l}
				}
				if !fitsWide && (wide.Kind == NoBound || box.Width()-w < wide.Need-wide.Have) {
					wide = Bound{BoundWidth, i, box.Width(), w}
				}
			}
		}
	}
	if wide.Kind != NoBound {
		return wide
	}
	return long
}
