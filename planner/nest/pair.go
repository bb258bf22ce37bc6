package nest

import (
	"slices"

	"tallycloth/planner/geometry"
	"tallycloth/stash/shape"
)

const (
	// regionsDrawn bounds the regions drawn for one proof, each some tenths of a
	// millisecond: a first layout must not wait for a proof.
	regionsDrawn = 6
	// pairItems is how many items, the largest, are compared with each other.
	pairItems = 48
	// pairCorners is how many corners of an outline are kept, the rest cut off: on
	// outlines of 60 corners that takes off a few per cent of the area, and a region
	// is drawn in a third of the time.
	pairCorners = 24
	// insetBy is how far, in µm, an outline is drawn in where there is no clearance, and
	// insetLeast what of it must be left everywhere.
	insetBy, insetLeast = 6, 2
	// leastClearance, in µm, is one large enough to be counted.
	leastClearance = 100
)

// pairs looks for items that keep each other out of every room.
type pairs struct {
	*lodging
	left    int // regions that may still be drawn
	regions map[pairTurns]*geometry.Region
	cut     map[*stance]shape.Ring // outlines of fewer corners
}

// pairTurns names two outlines and how they are turned to each other: half turns of
// both make no difference.
type pairTurns struct {
	item   [2]int
	turn   [2]shape.Placement // angles under 180°
	turned bool               // one of them by half a turn more
}

func newPairs(l *lodging) *pairs {
	return &pairs{lodging: l, left: regionsDrawn, regions: map[pairTurns]*geometry.Region{}, cut: map[*stance]shape.Ring{}}
}

// bound: of items that keep each other out, each room takes one. So where more
// copies keep each other out than there are rooms for them, no layout exists.
func (p *pairs) bound() Bound {
	none := Bound{Item: -1, Other: -1}
	if len(p.rooms) > 64 {
		return none
	}
	order := p.largest()
	if len(p.rooms) == 1 {
		return p.inOneRoom(order)
	}
	for n, i := range order {
		kept := []int{i}
		set := p.roomSet(i)
		many := 1
		if p.count(i) > 1 && p.apart(i, i) {
			many = p.count(i)
		}
		for _, j := range order[n+1:] {
			if slices.ContainsFunc(kept, func(k int) bool { return !p.apart(k, j) }) {
				continue
			}
			kept = append(kept, j)
			set |= p.roomSet(j)
			many++
			if p.count(j) > 1 && p.apart(j, j) {
				many += p.count(j) - 1
			}
		}
		if many > ones(set) {
			return Bound{Kind: BoundPair, Item: i, Other: kept[min(1, len(kept)-1)]}
		}
	}
	return none
}

func ones(set uint64) (n int) {
	for ; set > 0; set &= set - 1 {
		n++
	}
	return n
}

// inOneRoom: two items that keep each other out prove it; and a group cannot take a
// turn under which two of its own do.
func (p *pairs) inOneRoom(order []int) Bound {
	dead := make([]int, len(p.in.Groups)) // how many turns of each group are ruled out
	for n, i := range order {
		for _, j := range order[n:] {
			if (i != j || p.count(i) > 1) && p.apart(i, j) {
				return p.proof(i, j)
			}
		}
	}
	for g := range p.in.Groups {
		turns := max(len(p.in.Groups[g].Angles), 1)
		last := Bound{Item: -1, Other: -1}
		for turn := range turns {
			if b := p.turnDies(order, g, turn); b.Kind != NoBound || p.ruledOut(g, turn) {
				dead[g]++
				if b.Kind != NoBound {
					last = b
				}
			}
		}
		if dead[g] == turns && last.Kind != NoBound {
			return last
		}
	}
	return Bound{Item: -1, Other: -1}
}

// turnDies looks for two items of a group that keep each other out under a turn.
func (p *pairs) turnDies(order []int, g, turn int) Bound {
	for n, i := range order {
		for _, j := range order[n:] {
			if p.in.Items[i].Group == g && p.in.Items[j].Group == g && (i != j || p.count(i) > 1) && !p.together(i, turn, j, turn) {
				return Bound{Kind: BoundPair, Item: i, Other: j}
			}
		}
	}
	return Bound{Item: -1, Other: -1}
}

func (p *pairs) count(i int) int { return max(p.in.Items[i].Count, 1) }

// largest lists the items to compare, the largest first.
func (p *pairs) largest() []int {
	order := make([]int, len(p.in.Items))
	area := make([]int64, len(order))
	for i := range order {
		order[i], area[i] = i, p.in.Items[i].Outline.Area2()
	}
	slices.SortStableFunc(order, func(i, j int) int { return compare64(area[j], area[i]) })
	return order[:min(len(order), pairItems)]
}

func compare64(a, b int64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// apart says whether it is proved that two items cannot share any room.
func (p *pairs) apart(i, j int) bool {
	same := p.in.Items[i].Group != NoGroup && p.in.Items[i].Group == p.in.Items[j].Group
	for a := range p.stances[i] {
		for b := range p.stances[j] {
			if same && a != b || p.ruledOut(p.in.Items[i].Group, a) || p.ruledOut(p.in.Items[j].Group, b) {
				continue
			}
			if p.together(i, a, j, b) {
				return false
			}
		}
	}
	return true
}

// together says whether copies of two items may share a room under two turns: true
// unless the opposite is proved.
func (p *pairs) together(i, a, j, b int) bool {
	for n := range p.rooms {
		r := &p.rooms[n]
		for x := range p.stances[i][a] {
			for y := range p.stances[j][b] {
				s, t := &p.stances[i][a][x], &p.stances[j][b][y]
				if p.fits(p.in.Items[i], s, r) && p.fits(p.in.Items[j], t, r) && p.share(s, t, r) {
					return true
				}
			}
		}
	}
	return false
}

// share says whether two stances may lie in one room: true unless the opposite is
// proved. Each may be moved in a range along and a range across, each by itself,
// so the second lies from the first anywhere in a box. Both fit unless that
// whole box lies in the no-fit region of the two, whatever their outlines.
func (p *pairs) share(s, t *stance, r *room) bool {
	if s.ring == nil || t.ring == nil || r.length >= endless {
		return true
	}
	gap := p.in.Clearance
	d := between(s, t, r)
	if d.Max.X >= s.box.Max.X+gap-t.box.Min.X || d.Min.X <= s.box.Min.X-gap-t.box.Max.X ||
		d.Max.Y >= s.box.Max.Y+gap-t.box.Min.Y || d.Min.Y <= s.box.Min.Y-gap-t.box.Max.Y {
		return true // beside or behind each other as boxes
	}
	key, negated := keyOf(s, t)
	if _, known := p.regions[key]; !known && cornersFree(s, t, d, gap) {
		return true // cheaper than a region
	}
	region := p.region(key, s, t, negated)
	if negated {
		d.Min, d.Max = shape.Point{}.Sub(d.Max), shape.Point{}.Sub(d.Min)
	}
	return region == nil || !covers(region, d)
}

// between is where the second of two stances can lie from the first, in a room.
func between(s, t *stance, r *room) shape.Box {
	a, b := s.reach(r), t.reach(r)
	return shape.Box{Min: b.Min.Sub(a.Max), Max: b.Max.Sub(a.Min)}
}

// reach is where the origin of a stance can lie in a room.
func (s *stance) reach(r *room) shape.Box {
	b := shape.Box{Min: shape.Point{X: r.x - s.box.Min.X, Y: r.y - s.box.Min.Y},
		Max: shape.Point{X: r.x + r.length - s.box.Max.X, Y: r.y + r.width - s.box.Max.Y}}
	switch {
	case s.low:
		b.Max.Y = b.Min.Y
	case s.high:
		b.Min.Y = b.Max.Y
	}
	return b
}

// proof says how long the room must be, to the millimetre, before nothing is proved
// any more.
func (p *pairs) proof(i, j int) Bound {
	b := Bound{Kind: BoundPair, Item: i, Other: j, Have: p.rooms[0].length}
	low, high := int64(0), p.rooms[0].length+p.in.Clearance
	longer := p.rooms[0].length
	for high-low > 1000 {
		more := (low + high) / 2
		p.rooms[0].length = longer + more
		free := !p.apart(i, j)
		p.rooms[0].length = longer
		if free {
			high = more
		} else {
			low = more
		}
	}
	b.Need = b.Have + high
	return b
}
