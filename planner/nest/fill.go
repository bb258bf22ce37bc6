package nest

import (
	"tallycloth/planner/geometry"
	"tallycloth/stash/shape"
)

// layout is the state of one bottom-left fill: what lies where so far.
type layout struct {
	p      *problem
	placed [][]laidPose // by fabric
	turn   []int        // group → index of the angle chosen, −1 while open
	scan   geometry.Scan
	merged []geometry.Span
	bases  []base
}

// laidPose is a pose moved to its place.
type laidPose struct {
	pose, item, copy int
	at               shape.Point
}

// base is a forbidden region moved to where its fixed outline lies.
type base struct {
	f   *geometry.Forbidden
	at  shape.Point
	gap int64
}

// spot is a place found for a pose: less end is better, then less x, then less y.
type spot struct {
	fabric, pose int
	at           shape.Point
	end          int64
	ok           bool
}

func newLayout(p *problem) *layout {
	l := &layout{p: p, placed: make([][]laidPose, len(p.cloths)), turn: make([]int, len(p.in.Groups))}
	for i := range l.turn {
		l.turn[i] = -1
	}
	return l
}

func (a spot) better(b spot) bool {
	switch {
	case !a.ok || !b.ok:
		return a.ok
	case a.fabric != b.fabric:
		return a.fabric < b.fabric
	case a.end != b.end:
		return a.end < b.end
	case a.at.X != b.at.X:
		return a.at.X < b.at.X
	}
	return a.at.Y < b.at.Y
}

// lay puts one copy of an item as far to the start and to the low side as it can
// go, over every pose that its group still allows, and says whether it found room,
// which it does not once the search has ended.
//
// Bottom-left fill on no-fit regions: Burke, Hellier, Kendall, Whitwell, "A new
// bottom-left-fill heuristic algorithm for the two-dimensional irregular packing
// problem", 2006; here each height is a line that cuts the forbidden regions in
// ranges of x, so that holes in the layout are found as well as its front.
func (l *layout) lay(item, copy int) bool {
	best := spot{}
	it := l.p.in.Items[item]
	for g, poses := range l.p.byItem[item] {
		if it.Group != NoGroup && l.turn[it.Group] >= 0 && l.turn[it.Group] != g {
			continue
		}
		for _, id := range poses {
			for fabric := range l.p.cloths {
				if s := l.find(fabric, id); s.better(best) {
					best = s
				}
				if best.ok && best.fabric <= fabric {
					break
				}
			}
		}
	}
	if !best.ok || l.p.stopped() {
		return false
	}
	l.put(best, copy)
	return true
}

func (l *layout) put(s spot, copy int) {
	q := l.p.poses[s.pose]
	l.placed[s.fabric] = append(l.placed[s.fabric], laidPose{s.pose, q.item, copy, s.at})
	it := l.p.in.Items[q.item]
	if it.Group != NoGroup && l.turn[it.Group] < 0 {
		l.turn[it.Group] = l.groupTurnOf(q)
	}
}

// groupTurnOf finds which of its group's turns a pose belongs to.
func (l *layout) groupTurnOf(q pose) int {
	for g, ids := range l.p.byItem[q.item] {
		for _, id := range ids {
			if id == q.id {
				return g
			}
		}
	}
	return 0
}

// find looks for the best spot of one pose on one fabric; it finds none once the search
// has ended.
func (l *layout) find(fabric, id int) spot {
	q, c := &l.p.poses[id], &l.p.cloths[fabric]
	best := spot{}
	if !l.gather(fabric, id) {
		return best
	}
	it := l.p.in.Items[q.item]
	for _, b := range c.bands {
		if it.Layers != 0 && it.Layers != b.Layers || q.low && !b.FoldLow || q.high && !b.FoldHigh {
			continue
		}
		lo, hi := max(b.From, c.box.Min.Y)-q.box.Min.Y, min(b.To, c.box.Max.Y)-q.box.Max.Y
		switch {
		case hi < lo:
			continue
		case q.low:
			hi = lo
		case q.high:
			lo = hi
		}
		l.tryBand(fabric, id, lo, hi, &best)
	}
	if l.p.stopped() {
		return spot{}
	}
	return best
}

// gather lists the forbidden regions the pose has to keep out of; false if the search
// ended on the way.
func (l *layout) gather(fabric, id int) bool {
	c := &l.p.cloths[fabric]
	l.bases = l.bases[:0]
	for i := range c.obstacles {
		if l.p.stopped() {
			return false
		}
		o := &c.obstacles[i]
		l.bases = append(l.bases, base{l.p.forbidden(o.id, id, o.ring), shape.Point{}, o.gap})
	}
	for _, b := range l.placed[fabric] {
		if l.p.stopped() {
			return false
		}
		l.bases = append(l.bases, base{l.p.forbidden(b.pose, id, l.p.poses[b.pose].body), b.at, l.p.in.Clearance})
	}
	return true
}

// tryBand tries the pose at evenly spread heights and where it would just touch
// what lies there, then closer and closer about the best.
func (l *layout) tryBand(fabric, id int, lo, hi int64, best *spot) {
	try := func(y int64) {
		if y >= lo && y <= hi && !l.p.stopped() {
			if s := l.at(fabric, id, y); s.better(*best) {
				*best = s
			}
		}
	}
	step := max((hi-lo)/heightsTried, 1)
	for y := lo; y <= hi; y += step {
		try(y)
	}
	try(hi)
	for _, b := range l.bases {
		box := b.f.Box()
		try(b.at.Y + box.Max.Y + b.gap)
		try(b.at.Y + box.Min.Y - b.gap)
	}
	if !best.ok || best.fabric != fabric || best.pose != id {
		return
	}
	for k := 0; k < refineSteps && step > 1; k++ {
		step /= 2
		y := best.at.Y
		try(y - step)
		try(y + step)
	}
}

// at is the least x at height y where the pose is free.
func (l *layout) at(fabric, id int, y int64) spot {
	q, c := &l.p.poses[id], &l.p.cloths[fabric]
	l.merged = l.merged[:0]
	for _, b := range l.bases {
		n := len(l.merged)
		l.merged = b.f.Spans(y-b.at.Y, b.gap, &l.scan, l.merged)
		for i := n; i < len(l.merged); i++ {
			l.merged[i].From += b.at.X
			l.merged[i].To += b.at.X
		}
	}
	blocked := geometry.Merge(l.merged)
	x := l.matched(q.item, c.box.Min.X-q.box.Min.X)
	for _, s := range blocked {
		if x <= s.From {
			break
		}
		if x < s.To {
			x = l.matched(q.item, s.To)
		}
	}
	if !c.open && x+q.box.Max.X > c.box.Max.X {
		return spot{}
	}
	return spot{fabric, id, shape.Point{X: x, Y: y}, x + q.box.Max.X, true}
}

// matched moves x up to the next place where the item's print repeat meets.
func (l *layout) matched(item int, x int64) int64 {
	it := l.p.in.Items[item]
	if it.Repeat <= 0 {
		return x
	}
	off := (x - it.Phase) % it.Repeat
	if off < 0 {
		off += it.Repeat
	}
	if off == 0 {
		return x
	}
	return x + it.Repeat - off
}
