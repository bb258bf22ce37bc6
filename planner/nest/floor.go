package nest

import (
	"math"
	"math/big"
	"slices"

	"tallycloth/stash/shape"
)

// floorLines is how many lines along the cloth are looked at in each room.
const floorLines = 17

// leastLength is a length that no layout of all items on a single strip goes below:
// the longest item, the area by the width, or what must lie one behind the other
// on some line along the strip. Each is less than or equal to the least length.
func leastLength(in Instance) int64 {
	if len(in.Fabrics) != 1 {
		return 0
	}
	l := newLodging(in)
	if l.turnsBound().Kind != NoBound {
		return 0
	}
	floor := max(l.longest(), l.byArea())
	for r := range l.rooms {
		floor = max(floor, l.byLines(r))
	}
	return floor
}

// overTurns adds or compares what each item takes and keeps the turn of each group
// that takes least; items alone have one turn.
func (l *lodging) overTurns(takes func(i, turn int) int64, join func(a, b int64) int64) int64 {
	var all int64
	groups := make([][]int64, len(l.in.Groups))
	for g := range groups {
		groups[g] = make([]int64, max(len(l.in.Groups[g].Angles), 1))
	}
	for i, it := range l.in.Items {
		if it.Group == NoGroup {
			all = join(all, takes(i, 0))
			continue
		}
		for turn := range groups[it.Group] {
			if !l.dead[it.Group][turn] {
				groups[it.Group][turn] = join(groups[it.Group][turn], takes(i, turn))
			}
		}
	}
	for g, sums := range groups {
		least := int64(math.MaxInt64)
		for turn, sum := range sums {
			if !l.dead[g][turn] {
				least = min(least, sum)
			}
		}
		all = join(all, least)
	}
	return all
}

// longest is the length of the item that needs most, each in its shortest way.
func (l *lodging) longest() int64 {
	return l.overTurns(func(i, turn int) int64 {
		least := int64(math.MaxInt64)
		for k := range l.stances[i][turn] {
			s := &l.stances[i][turn][k]
			for r := range l.rooms {
				if l.fits(l.in.Items[i], s, &l.rooms[r]) {
					least = min(least, s.length)
				}
			}
		}
		return least
	}, func(a, b int64) int64 { return max(a, b) })
}

// byArea is the area of items that only some rooms take by the width of those rooms.
func (l *lodging) byArea() int64 {
	if len(l.rooms) > 64 {
		return 0
	}
	var floor int64
	sets := make([]uint64, len(l.in.Items))
	for i := range sets {
		sets[i] = l.roomSet(i)
	}
	for k, set := range sets {
		if slices.Index(sets, set) < k {
			continue
		}
		area, width := new(big.Int), int64(0)
		for i, it := range l.in.Items {
			if sets[i]&^set == 0 {
				area.Add(area, itemArea2(l.in, it))
			}
		}
		for r := range l.rooms {
			if set>>r&1 == 1 {
				width += l.rooms[r].width
			}
		}
		twice := big.NewInt(2 * width)
		area.Add(area, twice).Sub(area, big.NewInt(1)).Div(area, twice) // rounded up
		floor = max(floor, area.Int64())
	}
	return floor
}

// byLines looks at lines along a room. What an item surely covers of such a line,
// however it lies in the room, it keeps to itself, and from the next item its
// clearance; so all that is added up. Derived here; lines between whole µm meet no
// corner of an outline, so what is covered changes evenly from corner to corner.
func (l *lodging) byLines(n int) int64 {
	if len(l.rooms) > 64 {
		return 0
	}
	r := &l.rooms[n]
	var floor int64
	only := make([]bool, len(l.in.Items))
	for i := range only {
		only[i] = l.roomSet(i) == 1<<n
	}
	for k := range int64(floorLines) {
		line := r.y + min(r.width*k/(floorLines-1), r.width-1) // and half a µm
		sum := l.overTurns(func(i, turn int) int64 {
			if !only[i] {
				return 0
			}
			if c := l.covered(i, turn, r, line); c > 0 {
				return (c + l.in.Clearance) * int64(max(l.in.Items[i].Count, 1))
			}
			return 0
		}, func(a, b int64) int64 { return a + b })
		floor = max(floor, sum-l.in.Clearance)
	}
	return floor
}

// covered is what an item covers at least, in µm, of the line half a µm above a
// height in a room.
func (l *lodging) covered(i, turn int, r *room, line int64) int64 {
	least := math.Inf(1)
	for k := range l.stances[i][turn] {
		s := &l.stances[i][turn][k]
		if !l.fits(l.in.Items[i], s, r) {
			continue
		}
		if s.ring == nil {
			return 0
		}
		at := s.reach(r)
		if line < at.Max.Y+s.box.Min.Y || line >= at.Min.Y+s.box.Max.Y {
			return 0 // it can lie beside the line
		}
		least = min(least, leastChord(s.ring, line-at.Max.Y, line-at.Min.Y))
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return int64(max(least-1, 0)) // 1 µm for floating point
}

// leastChord is the least that a level line covers of a ring, half a µm above any
// height from low to high.
func leastChord(r shape.Ring, low, high int64) float64 {
	least := min(chord(r, low), chord(r, high))
	for _, p := range r {
		if p.Y > low && p.Y <= high {
			least = min(least, chord(r, p.Y-1), chord(r, min(p.Y, high)))
		}
	}
	return least
}

// chord is how much of the level line half a µm above a height lies in a ring.
func chord(r shape.Ring, height int64) float64 {
	y := float64(height) + 0.5
	sum := 0.0
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if p.Y <= height == (q.Y <= height) {
			continue
		}
		x := float64(p.X) + (y-float64(p.Y))*float64(q.X-p.X)/float64(q.Y-p.Y)
		if q.Y > p.Y { // an edge that runs up has the inside on its left
			sum += x
		} else {
			sum -= x
		}
	}
	return sum
}
