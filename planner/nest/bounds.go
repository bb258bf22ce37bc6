package nest

import (
	"math"
	"math/big"

	"tallycloth/stash/shape"
)

// bounds looks for a proof that the items cannot all lie on the fabrics: more
// area than there is, an item longer or wider than every part of a fabric that
// serves it, a group that no common turn suits, or items that keep each other out.
// It refuses nothing that Check accepts, so nothing that the engine can lay
// (derived here; each proof says why). The cheap ones come first.
func bounds(in Instance) Bound {
	if b := areaBound(in); b.Kind != NoBound {
		return b
	}
	l := newLodging(in)
	if b := l.turnsBound(); b.Kind != NoBound {
		return b
	}
	if in.Ask != FitsAll {
		return Bound{Item: -1, Other: -1}
	}
	if b := l.shareBound(); b.Kind != NoBound {
		return b
	}
	return newPairs(l).bound()
}

// areaBound: items and obstacles do not overlap, so their areas add up. Sums are
// exact; obstacles that overlap one another or the edge are not counted.
func areaBound(in Instance) Bound {
	need, have := new(big.Int), new(big.Int) // twice the areas, in µm²
	for _, f := range in.Fabrics {
		if len(f.Outline.Outer) == 0 && f.Length == 0 {
			return Bound{Item: -1, Other: -1}
		}
		have.Add(have, clothArea2(f, clothOutline(f)))
	}
	for _, it := range in.Items {
		need.Add(need, itemArea2(in, it))
	}
	return areaProof(need, have)
}

func areaProof(need, have *big.Int) Bound {
	if need.Cmp(have) <= 0 {
		return Bound{Item: -1, Other: -1}
	}
	mm2 := big.NewInt(2_000_000)
	return Bound{Kind: BoundArea, Item: -1, Other: -1,
		Need: new(big.Int).Div(need, mm2).Int64(), Have: new(big.Int).Div(have, mm2).Int64()}
}

// itemArea2 is twice the least area that all copies of an item can have as laid.
func itemArea2(in Instance, it Item) *big.Int {
	one := big.NewInt(leastArea2(in, it))
	return one.Mul(one, big.NewInt(int64(max(it.Count, 1))))
}

// clothArea2 is twice the area of a fabric without its holes and flaws.
func clothArea2(f Fabric, cloth shape.Polygon) *big.Int {
	have := big.NewInt(cloth.Outer.Area2())
	for _, h := range cloth.Holes {
		have.Add(have, big.NewInt(h.Area2())) // negative: holes run clockwise
	}
	return have.Sub(have, big.NewInt(flawsArea2(f, cloth)))
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

// turnsBound: every item must lie in some room, and all items of a group under one
// turn. An item that lies alone in no room under a turn rules that turn out; when
// all are ruled out, nothing can be laid. What is reported is the turn that lacks
// least.
func (l *lodging) turnsBound() Bound {
	least := make([]Bound, len(l.in.Groups))
	for i, it := range l.in.Items {
		if it.Group == NoGroup {
			if b := l.misses(i, 0); b.Kind != NoBound {
				return b
			}
		}
	}
	for g := range l.in.Groups {
		for k := range max(len(l.in.Groups[g].Angles), 1) {
			b := l.groupMisses(g, k)
			if b.Kind == NoBound {
				least[g] = b
				break
			}
			if k == 0 || b.Need-b.Have < least[g].Need-least[g].Have {
				least[g] = b
			}
		}
		if least[g].Kind != NoBound {
			return least[g]
		}
	}
	return Bound{Item: -1, Other: -1}
}

// groupMisses is why a group cannot be turned so: what its worst item lacks.
func (l *lodging) groupMisses(g, turn int) Bound {
	worst := Bound{Item: -1, Other: -1}
	for i, it := range l.in.Items {
		if it.Group != g {
			continue
		}
		if b := l.misses(i, turn); b.Kind != NoBound && (worst.Kind == NoBound || b.Need-b.Have > worst.Need-worst.Have) {
			worst = b
		}
	}
	return worst
}

// misses is what an item lacks to lie in some room under a turn of its group: a
// band, the width of one, or the length.
func (l *lodging) misses(i, turn int) Bound {
	none := Bound{Item: -1, Other: -1}
	long, wide := Bound{Need: math.MaxInt64}, Bound{Need: math.MaxInt64}
	for k := range l.stances[i][turn] {
		s := &l.stances[i][turn][k]
		for n := range l.rooms {
			r := &l.rooms[n]
			if !r.admits(l.in.Items[i], s) {
				continue
			}
			overL, overW := s.length-r.length, s.width-r.width
			switch {
			case overL <= 0 && overW <= 0:
				return none
			case overW > 0 && overW < wide.Need-wide.Have:
				wide = Bound{BoundWidth, i, -1, s.width, r.width}
			case overW <= 0 && overL < long.Need-long.Have:
				long = Bound{BoundLength, i, -1, s.length, r.length}
			}
		}
	}
	switch {
	case long.Kind != NoBound: // some way is narrow enough: it is the length that is missing
		return long
	case wide.Kind != NoBound:
		return wide
	}
	return Bound{Kind: BoundBand, Item: i, Other: -1}
}

// shareBound: items that only some of the rooms take must share those rooms' area: for
// the rooms of each item, the items that lie in none but those are added up.
func (l *lodging) shareBound() Bound {
	if len(l.rooms) < 2 || len(l.rooms) > 64 {
		return Bound{Item: -1, Other: -1}
	}
	need := make([]*big.Int, len(l.in.Items))
	sets := make([]uint64, len(l.in.Items))
	for i, it := range l.in.Items {
		need[i], sets[i] = itemArea2(l.in, it), l.roomSet(i)
	}
	for _, set := range sets {
		asked, have := new(big.Int), new(big.Int)
		for i := range l.in.Items {
			if sets[i]&^set == 0 {
				asked.Add(asked, need[i])
			}
		}
		for r := range l.rooms {
			if set>>r&1 == 1 {
				have.Add(have, l.rooms[r].area2)
			}
		}
		if b := areaProof(asked, have); b.Kind != NoBound {
			return b
		}
	}
	return Bound{Item: -1, Other: -1}
}

// roomSet is the rooms that take an item under any turn that suits its group, one bit each.
func (l *lodging) roomSet(i int) uint64 {
	var set uint64
	for turn, serves := range l.serves[i] {
		if l.ruledOut(l.in.Items[i].Group, turn) {
			continue
		}
		for r, ok := range serves {
			if ok {
				set |= 1 << r
			}
		}
	}
	return set
}
