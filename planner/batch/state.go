package batch

import (
	"math"
	"slices"
)

// states are what is cut after some stages, one beside the other.
type states struct {
	width  int
	counts []uint16 // width for each state
	hash   [][2]uint64
	tally  []Score
	ub     []float64 // one for each class
	value  []float64
	last   []int32 // the option taken for the last cloth
}

// step is one way on from a state: which option, and how it would stand.
type step struct {
	from, option int32
	hash         [2]uint64
	tally        Score
	value        float64
}

// trace leads back from the states of a stage to those before.
type trace struct{ from, option int32 }

// run makes the choice with at most so many states after each stage, and returns the loads by
// cloth; nil where nothing better than the plan to beat was found.
func (c *choice) run(most int) []*fact {
	now := c.root()
	traces := make([][]trace, 0, len(c.stages))
	for i := range c.stages {
		steps := c.expand(now, i, most)
		if c.ended() {
			c.exact = false
			return nil
		}
		if len(steps) > most {
			c.exact = false
			steps = promising(steps, most)
		}
		var tr []trace
		now, tr = c.take(now, i, steps)
		traces = append(traces, tr)
	}
	at := c.finest(now)
	if at < 0 {
		return nil
	}
	facts := make([]*fact, len(c.Cloths))
	for i := len(c.stages) - 1; i >= 0; i-- {
		t := traces[i][at]
		facts[c.stages[i].cloth] = c.stages[i].options[t.option].f
		at = int(t.from)
	}
	return facts
}

// promising keeps the steps of the highest value, as many as asked, in their order.
func promising(steps []step, most int) []step {
	values := make([]float64, len(steps))
	for i, s := range steps {
		values[i] = s.value
	}
	slices.Sort(values)
	floor := values[len(values)-most]
	at, _ := slices.BinarySearch(values, floor)
	for at < len(values) && values[at] == floor {
		at++
	}
	level := most - (len(values) - at) // of those at the floor
	return slices.DeleteFunc(steps, func(s step) bool {
		if s.value == floor {
			level--
			return level < 0
		}
		return s.value < floor
	})
}

func (c *choice) root() states {
	s := states{width: len(c.slots), counts: make([]uint16, len(c.slots)), hash: make([][2]uint64, 1), tally: make([]Score, 1), last: []int32{math.MaxInt32}}
	s.ub = slices.Clone(c.rest)
	for _, st := range c.stages {
		for k, b := range st.best {
			s.ub[k] += b
		}
	}
	s.value = []float64{c.restValue}
	for _, st := range c.stages {
		s.value[0] += st.most
	}
	return s
}

// expand returns the ways on from all states, the same ones merged. Of many more than asked the least
// promising are dropped in between, to bound the memory.
func (c *choice) expand(now states, i, most int) []step {
	st := &c.stages[i]
	symmetric := i+1 < len(c.stages) && c.stages[i+1].same
	key := func(s step) [2]uint64 {
		if symmetric {
			return [2]uint64{s.hash[0] + scatter(uint64(s.option)+1<<40), s.hash[1]}
		}
		return s.hash
	}
	seen := map[[2]uint64]int32{}
	var steps []step
	ub := make([]float64, len(c.classes))
	for from := range now.hash {
		if from%256 == 0 && c.ended() {
			return nil
		}
		counts := now.counts[from*now.width : (from+1)*now.width]
		lack := c.lacking(counts, st)
		if len(steps) > 4*most+1000 {
			c.exact = false
			steps = promising(steps, most)
			clear(seen)
			for i, s := range steps {
				seen[key(s)] = int32(i)
			}
		}
		for j := range st.options {
			o := &st.options[j]
			if st.same && int32(j) > now.last[from] {
				break // alike: the earlier takes the later option
			}
			for k := range ub {
				ub[k] = now.ub[from*len(ub)+k] - st.best[k] + o.worth[k]
			}
			s := step{from: int32(from), option: int32(j), tally: now.tally[from], value: now.value[from] - st.most + o.value}
			s.tally.add(o.tally)
			top := s.tally
			top.Pins += st.rest.Pins
			top.First += st.rest.First
			if !c.hopeful(ub, top, s.value) || !c.loose && !c.sound(counts, st, o, lack) {
				continue
			}
			s.hash = c.hashAfter(now.hash[from], counts, o)
			at, known := seen[key(s)]
			switch {
			case !known:
				seen[key(s)] = int32(len(steps))
				steps = append(steps, s)
			case s.tally.Compare(steps[at].tally, c.order()) > 0:
				steps[at] = s
			}
		}
	}
	return steps
}

func (s *Score) add(t Score) {
	s.Pins += t.Pins
	s.First += t.First
	s.Whole += t.Whole
	s.Cloths += t.Cloths
	s.Waste += t.Waste
}

// cut returns how many copies of a task are cut in a state.
func (c *choice) cut(counts []uint16, task int) int {
	n := 0
	for _, i := range c.ofTask[task] {
		n += int(counts[i])
	}
	return n
}

// lacking returns the rows whose garments could not all be finished if nothing of this cloth served them.
func (c *choice) lacking(counts []uint16, st *stage) []int {
	if c.loose {
		return nil
	}
	var rows []int
	for r := range c.Rows {
		if !c.finishable(counts, nil, r, st) {
			rows = append(rows, r)
		}
	}
	return rows
}

// finishable says whether the garments begun of a row can be finished after a stage, parts added.
func (c *choice) finishable(counts []uint16, add []part, row int, st *stage) bool {
	most := 0
	var buf [16]int
	cut := buf[:0]
	for j := range c.Rows[row].Roles {
		n := c.cut(counts, c.first[row]+j)
		for _, p := range add {
			if c.slots[p.slot].task == c.first[row]+j {
				n += p.n
			}
		}
		cut = append(cut, n)
		most = max(most, n)
	}
	if most > c.Rows[row].Count {
		return false
	}
	for j, n := range cut {
		if n+st.after[c.first[row]+j] < most {
			return false
		}
	}
	return true
}

// sound says whether an option leaves garments that can be finished, and finishes those of rows
// that no later stage serves.
func (c *choice) sound(counts []uint16, st *stage, o *option, lack []int) bool {
	for _, r := range lack {
		if !slices.Contains(o.rows, r) {
			return false
		}
	}
	for _, r := range o.rows {
		if !c.finishable(counts, o.parts, r, st) {
			return false
		}
	}
	for _, r := range st.closes {
		if !c.even(counts, o.parts, r) {
			return false
		}
	}
	return true
}

// even says whether what is cut for a row is whole garments, parts added, the lots going together.
func (c *choice) even(counts []uint16, add []part, row int) bool {
	amounts := func(task int) []int {
		var out []int
		for _, i := range c.ofTask[task] {
			n := int(counts[i])
			for _, p := range add {
				if p.slot == i {
					n += p.n
				}
			}
			out = append(out, n)
		}
		return out
	}
	main := c.first[row]
	mains := amounts(main)
	want := total(mains)
	for j, r := range c.Rows[row].Roles[1:] {
		task := main + j + 1
		got := amounts(task)
		if total(got) != want {
			return false
		}
		if !r.Follows || want == 0 {
			continue
		}
		_, moved := transport(got, mains, func(f, m int) bool { return c.mates[c.ofTask[task][f]][m] })
		if moved != want {
			return false
		}
	}
	return true
}

func total(n []int) int {
	sum := 0
	for _, x := range n {
		sum += x
	}
	return sum
}

// room is how many more copies of a slot's task are of use in a loose choice.
func (c *choice) room(counts []uint16, p part) int {
	task := c.slots[p.slot].task
	return min(p.n, max(0, c.Rows[c.tasks[task].Row].Count-c.cut(counts, task)))
}

func (c *choice) hashAfter(h [2]uint64, counts []uint16, o *option) [2]uint64 {
	if !c.loose {
		return [2]uint64{h[0] + o.hash[0], h[1] + o.hash[1]}
	}
	for _, p := range o.parts {
		n := uint64(c.room(counts, p))
		h[0] += n * c.hash[p.slot][0]
		h[1] += n * c.hash[p.slot][1]
	}
	return h
}

// take makes the states that steps lead to.
func (c *choice) take(now states, i int, steps []step) (states, []trace) {
	st := &c.stages[i]
	n := len(steps)
	out := states{width: now.width, counts: make([]uint16, 0, n*now.width), hash: make([][2]uint64, 0, n), tally: make([]Score, 0, n),
		ub: make([]float64, 0, n*len(c.classes)), value: make([]float64, 0, n), last: make([]int32, 0, n)}
	traces := make([]trace, 0, n)
	for _, s := range steps {
		from, o := int(s.from), &st.options[s.option]
		before := now.counts[from*now.width : (from+1)*now.width]
		at := len(out.counts)
		out.counts = append(out.counts, before...)
		for _, p := range o.parts {
			add := p.n
			if c.loose {
				add = c.room(before, p)
			}
			out.counts[at+p.slot] += uint16(add)
		}
		for k := range c.classes {
			out.ub = append(out.ub, now.ub[from*len(c.classes)+k]-st.best[k]+o.worth[k])
		}
		out.hash, out.tally = append(out.hash, s.hash), append(out.tally, s.tally)
		out.value, out.last = append(out.value, s.value), append(out.last, s.option)
		traces = append(traces, trace{s.from, s.option})
	}
	return out, traces
}

// finest returns the state with the best score, -1 where none is better than the plan to beat.
func (c *choice) finest(end states) int {
	best, at := c.score, -1
	for i := range end.hash {
		s := end.tally[i]
		s.Made = make([]int, len(c.classes))
		counts := end.counts[i*end.width : (i+1)*end.width]
		for r, row := range c.Rows {
			n := row.Count
			for j := range row.Roles {
				n = min(n, c.cut(counts, c.first[r]+j))
			}
			s.Made[c.class[r]] += n
		}
		if s.Compare(best, c.order()) > 0 {
			best, at = s, i
		}
	}
	return at
}
