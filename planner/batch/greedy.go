package batch

import (
	"cmp"
	"context"
	"slices"
)

// greedy places garment after garment: first those of a higher priority, each use of fabric on
// the smallest leftover that still takes it, whole lengths last.
type greedy struct {
	*book
	loads []Load
	free  []int64
	facts []*fact
	wide  bool // large garments last
}

// begin tries the loads of the plan to go on from, then places garments in two orders.
func (v *solver) begin(ctx context.Context) error {
	if err := v.resume(ctx); err != nil {
		return err
	}
	for _, smallFirst := range []bool{false, true} {
		g := newGreedy(v.book, smallFirst)
		err := g.run(ctx)
		if v.adopt(g.facts) || !smallFirst {
			v.report()
		}
		if err != nil {
			return err
		}
		if v.ended() || len(v.plan.Made) == v.wanted() {
			break
		}
	}
	v.lower()
	v.report()
	return nil
}

func (s *shape) wanted() int {
	n := 0
	for _, r := range s.Rows {
		n += r.Count
	}
	return n
}

// resume tries the loads of the plan to go on from until they are found again.
func (v *solver) resume(ctx context.Context) error {
	if v.o.Start == nil {
		return nil
	}
	facts := make([]*fact, len(v.Cloths))
	var all []*fact
	for _, cut := range v.o.Start.Cuts {
		if cut.Cloth < 0 || cut.Cloth >= len(facts) || !v.sound(cut.Load) {
			continue // of another problem
		}
		f := v.about(cut.Cloth, cut.Load)
		facts[cut.Cloth] = f
		all = append(all, f)
	}
	for range v.mostEffort + 1 {
		if err := v.try(ctx, all); err != nil {
			return err
		}
	}
	for c, f := range facts {
		if f != nil && f.verdict != Fits {
			facts[c] = nil
		}
	}
	if v.adopt(facts) {
		v.report()
	}
	return nil
}

// sound says that a load is written as loads are, about tasks there are.
func (p Problem) sound(l Load) bool {
	for i, s := range l {
		if s.N < 1 || !p.has(s.Task) || i > 0 && compareTasks(l[i-1].Task, s.Task) >= 0 {
			return false
		}
	}
	return len(l) > 0
}

func newGreedy(b *book, smallFirst bool) *greedy {
	g := &greedy{book: b, loads: make([]Load, len(b.Cloths)), facts: make([]*fact, len(b.Cloths)), wide: smallFirst}
	for _, c := range b.Cloths {
		g.free = append(g.free, c.Area)
	}
	return g
}

func (g *greedy) run(ctx context.Context) error {
	for _, r := range g.rowsInTurn() {
		for k := range g.Rows[r].Count {
			ok, err := g.garment(ctx, r, g.pinsOf(r, k))
			if !ok && err == nil && g.pinsOf(r, k) != nil {
				ok, err = g.garment(ctx, r, nil)
			}
			if err != nil {
				return err
			}
			if !ok || g.ended() {
				break // the next is no other
			}
		}
		if g.ended() {
			break
		}
	}
	return nil
}

// rowsInTurn returns the rows: pinned ones, then by priority, then by area.
func (g *greedy) rowsInTurn() []int {
	rows := make([]int, len(g.Rows))
	area := make([]int64, len(g.Rows))
	for i, r := range g.Rows {
		rows[i] = i
		for _, role := range r.Roles {
			area[i] += role.Area
		}
		if g.wide {
			area[i] = -area[i]
		}
	}
	slices.SortStableFunc(rows, func(a, b int) int {
		return cmp.Or(cmp.Compare(len(g.pinsOf(b, 0)), len(g.pinsOf(a, 0))),
			cmp.Compare(g.class[a], g.class[b]), cmp.Compare(area[b], area[a]))
	})
	return rows
}

// pinsOf returns where the roles of the k-th garment of a row are pinned.
func (g *greedy) pinsOf(row, k int) map[int]int {
	var at map[int]int
	before := map[int]int{}
	for _, pin := range g.Pins {
		if pin.Row != row {
			continue
		}
		if from := before[pin.Role]; k >= from && k < from+pin.N {
			if at == nil {
				at = map[int]int{}
			}
			at[pin.Role] = pin.Cloth
		}
		before[pin.Role] += pin.N
	}
	return at
}

// garment places one garment, or leaves everything as it was.
func (g *greedy) garment(ctx context.Context, row int, pins map[int]int) (bool, error) {
	roles := make([]int, len(g.Rows[row].Roles))
	for i := range roles {
		roles[i] = i
	}
	slices.SortStableFunc(roles[1:], func(a, b int) int {
		ra, rb := g.Rows[row].Roles[a], g.Rows[row].Roles[b]
		return cmp.Or(compareBool(rb.Follows, ra.Follows), cmp.Compare(rb.Area, ra.Area))
	})
	failed := map[int]bool{} // lots of the main role that were of no use
	for {
		lots := func(lot int) bool { return !failed[lot] }
		main, err := g.place(ctx, Task{row, 0}, pins, lots)
		if main < 0 || err != nil {
			return false, err
		}
		done := []int{main}
		for _, role := range roles[1:] {
			t := Task{row, role}
			at, err := g.place(ctx, t, pins, func(lot int) bool { return g.goes(t, lot, g.Cloths[main].Lot) })
			if err != nil {
				return false, err
			}
			if at < 0 {
				break
			}
			done = append(done, at)
		}
		if len(done) == len(roles) {
			return true, nil
		}
		for i := len(done) - 1; i >= 0; i-- {
			g.put(done[i], Task{row, roles[i]}, -1)
		}
		failed[g.Cloths[main].Lot] = true
		if g.ended() {
			return false, nil
		}
	}
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

func (g *greedy) put(cloth int, t Task, n int) {
	g.loads[cloth] = g.loads[cloth].With(t, n)
	g.free[cloth] -= int64(n) * g.area(t)
	g.facts[cloth] = nil
	if len(g.loads[cloth]) > 0 {
		g.facts[cloth] = g.about(cloth, g.loads[cloth])
	}
}

// ahead is how many cloths are tried at the same time: a fixed number, so that the answer
// does not depend on the workers.
const ahead = 2

// place puts a task on the first cloth that takes it, -1 where none does.
func (g *greedy) place(ctx context.Context, t Task, pins map[int]int, lot func(int) bool) (int, error) {
	var facts []*fact
	for _, c := range g.clothsInTurn() {
		if at, pinned := pins[t.Role]; pinned && at != c || g.free[c] < g.area(t) || !lot(g.Cloths[c].Lot) {
			continue
		}
		if g.slotAt[g.index(t)][c] < 0 || g.about(c, Load{{t, 1}}).failed() {
			continue
		}
		f := g.about(c, g.loads[c].With(t, 1))
		if f.verdict != Fits && g.odds.slim(g.fullness(f), 0) {
			continue // a first plan comes first; the rounds see to it
		}
		facts = append(facts, f)
	}
	for len(facts) > 0 && !g.ended() {
		some := facts[:min(ahead, len(facts))]
		facts = facts[len(some):]
		var untried []*fact
		for _, f := range some {
			if f.efforts == 0 {
				untried = append(untried, f)
			}
		}
		if err := g.try(ctx, untried); err != nil {
			return -1, err
		}
		for _, f := range some {
			if f.verdict == Fits {
				g.put(f.cloth, t, 1)
				return f.cloth, nil
			}
		}
	}
	return -1, nil
}

// clothsInTurn returns the cloths: to be used up first, leftovers by what is left of them, lengths
// already cut into, other lengths.
func (g *greedy) clothsInTurn() []int {
	cloths := make([]int, len(g.Cloths))
	for i := range cloths {
		cloths[i] = i
	}
	rank := func(c int) int {
		switch {
		case g.Cloths[c].Whole && len(g.loads[c]) == 0:
			return 2
		case g.Cloths[c].Whole:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(cloths, func(a, b int) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), compareBool(g.Cloths[b].First, g.Cloths[a].First), cmp.Compare(g.free[a], g.free[b]))
	})
	return cloths
}
