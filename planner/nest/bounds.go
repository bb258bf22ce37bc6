package nest

import (
	"math"
	"math/big"

	"tallycloth/stash/shape"
)

// bounds looks for a proof that the items cannot all lie on the fabrics: more
// area than there is, or an item longer or wider than every fabric however it
// may lie. It never refuses what can be laid (derived here; each proof says why).
func bounds(in Instance) Bound {
	if b := areaBound(in); b.Kind != NoBound {
		return b
	}
	for i, it := range in.Items {
		if !bandServes(in, it) {
			return Bound{Kind: BoundBand, Item: i}
		}
		if b := extentBound(in, i, it); b.Kind != NoBound {
			return b
		}
	}
	return Bound{Item: -1}
}

// areaBound: items and obstacles do not overlap, so their areas add up. Sums are
// exact; obstacles that overlap one another or the edge are not counted.
func areaBound(in Instance) Bound {
	need, have := new(big.Int), new(big.Int) // twice the areas, in µm²
	for _, it := range in.Items {
		one := big.NewInt(leastArea2(in, it))
		need.Add(need, one.Mul(one, big.NewInt(int64(max(it.Count, 1)))))
	}
	for _, f := range in.Fabrics {
		if len(f.Outline.Outer) == 0 && f.Length == 0 {
			return Bound{Item: -1}
		}
		cloth := clothOutline(f)
		have.Add(have, big.NewInt(cloth.Outer.Area2()))
		for _, h := range cloth.Holes {
			have.Add(have, big.NewInt(h.Area2())) // negative: holes run clockwise
		}
		have.Sub(have, big.NewInt(flawsArea2(f, cloth)))
	}
	if need.Cmp(have) <= 0 {
		return Bound{Item: -1}
	}
	mm2 := big.NewInt(2_000_000)
	return Bound{Kind: BoundArea, Item: -1, Need: new(big.Int).Div(need, mm2).Int64(), Have: new(big.Int).Div(have, mm2).Int64()}
}

// leastArea2 is twice the least area the item can have as laid. Turned by other
// than quarter turns every point moves by under 1 µm in rounding, which takes off
// less than the perimeter times 1 µm and 4 µm² a corner.
func leastArea2(in Instance, it Item) int64 {
	area := it.Outline.Area2()
	turned := it.Tilt > 0
	for _, g := range groupAngles(in, it) {
		for _, a := range itemAngles(it) {
			turned = turned || (g+a)%shape.Turn90 != 0
		}
	}
	if turned {
		area -= int64(2*it.Outline.Perimeter()) + 8*int64(len(it.Outline))
	}
	return max(area, 0)
}

func clothOutline(f Fabric) shape.Polygon {
	if len(f.Outline.Outer) > 0 {
		return f.Outline
	}
	return shape.Polygon{Outer: shape.Box{Max: shape.Point{X: f.Length, Y: f.Width}}.Ring()}
}

// flawsArea2 is twice the area of obstacles that lie apart and wholly on the cloth.
func flawsArea2(f Fabric, cloth shape.Polygon) int64 {
	var sum int64
	var counted []shape.Ring
next:
	for _, o := range f.Obstacles {
		if len(o.Holes) > 0 || !shape.Inside(o.Outer, cloth) {
			continue
		}
		for _, c := range counted {
			if shape.Overlaps(c, o.Outer) {
				continue next
			}
		}
		counted = append(counted, o.Outer)
		sum += o.Outer.Area2()
	}
	return sum
}

// bandServes says whether some band has the layers and the fold the item asks for.
func bandServes(in Instance, it Item) bool {
	if !it.OnFold && it.Layers == 0 {
		return true
	}
	for _, f := range in.Fabrics {
		if len(f.Bands) == 0 && !it.OnFold && it.Layers == 1 {
			return true
		}
		for _, b := range f.Bands {
			if (it.Layers == 0 || it.Layers == b.Layers) && (!it.OnFold || b.FoldLow || b.FoldHigh) {
				return true
			}
		}
	}
	return false
}

// extentBound compares the item's box, in every way it may lie, with the box of
// every fabric. With tilt it proves nothing.
func extentBound(in Instance, i int, it Item) Bound {
	if it.Tilt > 0 {
		return Bound{Item: -1}
	}
	long, wide := Bound{Need: math.MaxInt64}, Bound{Need: math.MaxInt64}
	for _, box := range laidBoxes(in, it) {
		for _, f := range in.Fabrics {
			l, w := room(in, f)
			overL, overW := box.Length()-l, box.Width()-w
			switch {
			case overL <= 0 && overW <= 0:
				return Bound{Item: -1}
			case overW > 0 && overW < wide.Need-wide.Have:
				wide = Bound{BoundWidth, i, box.Width(), w}
			case overW <= 0 && overL < long.Need-long.Have:
				long = Bound{BoundLength, i, box.Length(), l}
			}
		}
	}
	if long.Kind != NoBound { // some way is narrow enough: it is the length that is missing
		return long
	}
	return wide
}

// laidBoxes are the boxes of the item in every turn and face it may have.
func laidBoxes(in Instance, it Item) []shape.Box {
	var out []shape.Box
	for _, g := range groupAngles(in, it) {
		for _, a := range itemAngles(it) {
			for _, mirror := range []bool{false, true} {
				if !it.OnFold && (mirror && it.Mirror == AsDrawn || !mirror && it.Mirror == Mirrored) {
					continue
				}
				out = append(out, shape.Placement{Angle: g + a, Mirror: mirror}.Apply(it.Outline).Bounds())
			}
		}
	}
	return out
}

// room is the greatest length and width that an item can have on the fabric; an
// outline keeps its clearance inside its bounds.
func room(in Instance, f Fabric) (length, width int64) {
	if len(f.Outline.Outer) > 0 {
		b := f.Outline.Bounds()
		return b.Length() - 2*in.Clearance, b.Width() - 2*in.Clearance
	}
	if f.Length == 0 {
		return math.MaxInt64, f.Width
	}
	return f.Length, f.Width
}
