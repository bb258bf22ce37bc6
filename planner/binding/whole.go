package binding

import (
	"slices"

	"tallycloth/stash/measure"
)

// Where every strip fits into one cut-across length, a plan without joins is found by a
// table over how many strips of each kind are still to place, bin after bin: exact, and
// fast for many strips of few kinds, as a batch of garments has. Only fillings to which nothing can be
// added are tried; what a filling holds beyond the strips that are left counts as waste.
// Source: dynamic programming over patterns (P. C. Gilmore and R. E. Gomory, 1961).

// mostCells bounds the table: ways to have strips left × bins.
const mostCells = 2_000_000

// table is the search for a plan without joins. A state is how many strips of each kind
// are left, as a number with a digit for each kind.
type table struct {
	s       *searcher
	bins    []int       // the source of each bin
	fills   [][]filling // by source
	radix   []int       // what a digit counts, by kind
	states  int
	reached []bool
	cost    []cost
	came    [][]way // by bin and state
}

// filling is what is cut from one bin: only kinds that it holds.
type filling []some

type some struct{ kind, n int }

// way is how a state was reached at a bin: from which state, with which filling of the
// bin's source, or −1 where the bin stays uncut.
type way struct{ from, filling int32 }

// unjoined returns the best plan without joins, if there is one and the table is not too
// large; only for strips of one width.
func (s *searcher) unjoined() (answer, bool) {
	n := len(s.kinds)
	if n == 0 || s.kinds[0].width != s.kinds[n-1].width || s.kinds[0].length > s.widest {
		return answer{}, false
	}
	t := &table{s: s, states: 1}
	strips := 0
	for _, left := range s.left {
		strips += left
		t.radix = append(t.radix, t.states)
		if t.states *= left + 1; t.states > mostCells {
			return answer{}, false
		}
	}
	for src, along := range s.along {
		t.fills = append(t.fills, nil)
		if !t.fill(src, s.sources[src].Across, 0, make([]int, n)) {
			return answer{}, false
		}
		for range min(int(along/s.kinds[0].width), strips) { // each bin that is cut holds one at least
			t.bins = append(t.bins, src)
		}
		if len(t.bins)*t.states > mostCells {
			return answer{}, false
		}
	}
	t.run()
	if !t.reached[0] {
		return answer{}, false
	}
	return t.answer(), true
}

// fill appends to the fillings of a source that has so much length free from kind i on;
// false when there are too many.
func (t *table) fill(src int, free measure.Length, i int, counts []int) bool {
	if i < len(counts) {
		for n := min(t.s.left[i], int(free/t.s.kinds[i].length)); n >= 0; n-- {
			counts[i] = n
			if !t.fill(src, free-measure.Length(n)*t.s.kinds[i].length, i+1, counts) {
				return false
			}
		}
		counts[i] = 0
		return true
	}
	if t.s.full(counts, 0, len(counts), free) && slices.Max(counts) > 0 {
		var f filling
		for k, n := range counts {
			if n > 0 {
				f = append(f, some{k, n})
			}
		}
		t.fills[src] = append(t.fills[src], f)
	}
	return len(t.fills[src]) <= 200
}

// run fills the table, bin after bin. A state that wants more than the bins to come have is left.
func (t *table) run() {
	t.reached, t.cost = make([]bool, t.states), make([]cost, t.states)
	t.reached[t.states-1] = true
	was, wasCost := make([]bool, t.states), make([]cost, t.states)
	left := make([]int, len(t.s.left)) // of a state
	for b, src := range t.bins {
		copy(was, t.reached)
		copy(wasCost, t.cost)
		came := make([]way, t.states)
		width := int64(t.s.kinds[0].width)
		add := cost{area: int64(t.s.sources[src].Across) * width, order: t.s.rank(src) * width}
		room := t.room(b)
		clear(left)
		for state, ok := range was {
			came[state] = way{int32(state), -1}
			if state > 0 {
				t.count(left)
			}
			if !ok || t.long(left) > room {
				continue
			}
			c := wasCost[state].plus(add)
			for i, f := range t.fills[src] {
				to := after(state, left, f, t.radix)
				if to != state && (!t.reached[to] || c.compare(t.cost[to]) < 0) {
					t.reached[to], t.cost[to], came[to] = true, c, way{int32(state), int32(i)}
				}
			}
		}
		t.came = append(t.came, came)
	}
}

// room is how long the bins from the b-th on are together.
func (t *table) room(b int) measure.Length {
	sum := measure.Length(0)
	for _, src := range t.bins[b:] {
		sum += t.s.sources[src].Across
	}
	return sum
}

// count brings what is left to the next state.
func (t *table) count(left []int) {
	for k := range left {
		if left[k]++; left[k] <= t.s.left[k] {
			return
		}
		left[k] = 0
	}
}

// long is how long the strips left are together.
func (t *table) long(left []int) measure.Length {
	sum := measure.Length(0)
	for k, n := range left {
		sum += measure.Length(n) * t.s.kinds[k].length
	}
	return sum
}

// after is the state when a filling has been cut from one that has so many left; radix is what its
// digits count.
func after(state int, left []int, f filling, radix []int) int {
	for _, s := range f {
		state -= min(s.n, left[s.kind]) * radix[s.kind]
	}
	return state
}

// answer reads the best plan off the table, from the last bin to the first.
func (t *table) answer() answer {
	a := answer{cost: t.cost[0]}
	state := 0
	for b := len(t.bins) - 1; b >= 0; b-- {
		w := t.came[b][state]
		if w.filling >= 0 {
			a.groups = append(a.groups, t.group(t.bins[b], int(w.from), state))
		}
		state = int(w.from)
	}
	slices.Reverse(a.groups)
	return a
}

// group is what was cut from one bin between two states.
func (t *table) group(src, from, to int) group {
	g := group{bins: []int{src}, counts: make([]int, len(t.s.left))}
	radix := 1
	for k, all := range t.s.left {
		g.counts[k] = from/radix%(all+1) - to/radix%(all+1)
		radix *= all + 1
		for copy := range g.counts[k] {
			g.chunks = append(g.chunks, chunk{kind: k, copy: copy, to: t.s.kinds[k].length})
		}
	}
	return g
}
