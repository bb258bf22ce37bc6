package binding

import (
	"cmp"
	"slices"

	"tallycloth/stash/measure"
)

// laneTable finds the best plan without joins for strips of one width over lanes that may
// overlap: a table over lanes in order and how many strips of each kind are still to place.
// A lane is left, or cut and those that overlap it passed over. Exact over the lanes it
// is given: least fabric, then the earlier sheet, then nearest to its start. Source: dynamic programming over patterns (P. C. Gilmore and R. E.
// Gomory, 1961) on intervals, derived here.
type laneTable struct {
	kinds []kind
	stops []stop
	size  int // states: a digit for each kind, how many are left
	digit []int
}

// stop is a lane with the ways to cut it and the first stop that does not overlap it.
type stop struct {
	sheet, lane, next int
	at                int64
	ways              []laneWay
}

// laneWay is one way to fill a lane: by reach, by kind.
type laneWay struct {
	counts [][]int
	total  filling
	cost   cost
}

// laneCut is a lane as cut.
type laneCut struct {
	sheet, lane int
	counts      [][]int
}

// mostWays bounds the ways to cut one lane.
const mostWays = 60

func newLaneTable(kinds []kind, lanes [][]Lane) *laneTable {
	t := &laneTable{kinds: kinds, size: 1}
	for _, k := range kinds {
		t.digit = append(t.digit, t.size)
		if t.size *= len(k.numbers) + 1; t.size > mostCells {
			return t
		}
	}
	for sheet, all := range lanes {
		first := len(t.stops)
		for i, l := range all {
			if ways := t.waysOf(l, sheet); len(ways) > 0 {
				t.stops = append(t.stops, stop{sheet: sheet, lane: i, at: int64(l.At), ways: ways})
			}
		}
		for i := first; i < len(t.stops); i++ {
			end := all[t.stops[i].lane].At + kinds[0].width
			n, _ := slices.BinarySearchFunc(t.stops[i:], end, func(s stop, at measure.Length) int { return cmp.Compare(all[s.lane].At, at) })
			t.stops[i].next = i + n
		}
	}
	return t
}

// waysOf lists the ways to cut strips from a lane.
func (t *laneTable) waysOf(l Lane, sheet int) []laneWay {
	ways := []laneWay{{}}
	for _, r := range l.Free {
		fills := t.fills(r.Long(), 0, make([]int, len(t.kinds)))
		var more []laneWay
		for _, w := range ways {
			for _, f := range append([][]int{make([]int, len(t.kinds))}, fills...) {
				v := laneWay{counts: append(slices.Clone(w.counts), f), total: w.total.with(f), cost: w.cost}
				if slices.Max(f) > 0 {
					width := int64(t.kinds[0].width)
					v.cost = v.cost.plus(cost{area: int64(r.Long()) * width, order: int64(sheet) * width})
				}
				if len(more) < mostWays {
					more = append(more, v)
				}
			}
		}
		ways = more
	}
	return slices.DeleteFunc(ways, func(w laneWay) bool { return len(w.total) == 0 })
}

// with is the filling with so many more of each kind.
func (f filling) with(counts []int) filling {
	var out filling
	for k, n := range counts {
		for _, s := range f {
			if s.kind == k {
				n += s.n
			}
		}
		if n > 0 {
			out = append(out, some{k, n})
		}
	}
	return out
}

// fills lists what fits into a reach so that nothing can be added.
func (t *laneTable) fills(free measure.Length, i int, counts []int) [][]int {
	if i == len(t.kinds) {
		for k, n := range counts {
			if n < len(t.kinds[k].numbers) && t.kinds[k].length <= free {
				return nil
			}
		}
		if slices.Max(counts) == 0 {
			return nil
		}
		return [][]int{slices.Clone(counts)}
	}
	var out [][]int
	for n := min(len(t.kinds[i].numbers), int(free/t.kinds[i].length)); n >= 0 && len(out) < mostWays; n-- {
		counts[i] = n
		out = append(out, t.fills(free-measure.Length(n)*t.kinds[i].length, i+1, counts)...)
	}
	counts[i] = 0
	return out
}

// cell is how a state was reached at a stop.
type cell struct {
	cost       cost
	at         int64 // sum of places
	ok         bool
	from, came int32 // stop and state before
	way        int32 // of the stop before, or −1 where it was left
}

// best returns how the lanes are cut; false where the strips do not all find a place in
// one length, or the table would be too large.
func (t *laneTable) best() ([]laneCut, bool) {
	n := len(t.stops)
	if n == 0 || t.size > mostCells || t.size*(n+1) > mostCells {
		return nil, false
	}
	cells := make([]cell, (n+1)*t.size)
	at := func(i, state int) *cell { return &cells[i*t.size+state] }
	at(0, t.size-1).ok = true
	reach := func(i, state int, c cell) {
		if d := at(i, state); !d.ok || cmp.Or(c.cost.compare(d.cost), cmp.Compare(c.at, d.at)) < 0 {
			c.ok = true
			*d = c
		}
	}
	left := make([]int, len(t.kinds)) // of a state
	for i, s := range t.stops {
		for state := range t.size {
			c := at(i, state)
			if !c.ok {
				continue
			}
			reach(i+1, state, cell{cost: c.cost, at: c.at, from: int32(i), came: int32(state), way: -1})
			for k := range left {
				left[k] = t.left(state, k)
			}
			for w, way := range s.ways {
				if to := after(state, left, way.total, t.digit); to != state {
					reach(s.next, to, cell{cost: c.cost.plus(way.cost), at: c.at + s.at, from: int32(i), came: int32(state), way: int32(w)})
				}
			}
		}
	}
	if !at(n, 0).ok {
		return nil, false
	}
	var out []laneCut
	for i, state := n, 0; i > 0; {
		c := at(i, state)
		if c.way >= 0 {
			out = append(out, t.cut(int(c.from), int(c.way), int(c.came)))
		}
		i, state = int(c.from), int(c.came)
	}
	slices.Reverse(out)
	return out, true
}

// left is how many strips of a kind a state leaves.
func (t *laneTable) left(state, k int) int { return state / t.digit[k] % (len(t.kinds[k].numbers) + 1) }

// cut is a lane as cut from a state: no more than was left.
func (t *laneTable) cut(stop, way, state int) laneCut {
	s := t.stops[stop]
	out := laneCut{sheet: s.sheet, lane: s.lane}
	left := make([]int, len(t.kinds))
	for k := range left {
		left[k] = t.left(state, k)
	}
	for _, f := range s.ways[way].counts {
		counts := slices.Clone(f)
		for k := range counts {
			counts[k] = min(counts[k], left[k])
			left[k] -= counts[k]
		}
		out.counts = append(out.counts, counts)
	}
	return out
}
