package batch

import "slices"

// shape is a problem with its tasks, classes and lots numbered. A slot is a task together with
// what matters of the lot it is cut from: nothing, unless the garment has a role
// that follows.
type shape struct {
	Problem
	tasks   []Task
	classes []int   // priorities
	class   []int   // of each row
	first   []int   // first task of each row
	slotAt  [][]int // task, cloth → slot, or -1 where no garment could use it
	slots   []slot
	ofTask  [][]int     // slots of each task
	pinned  [][]Pin     // by cloth
	gauges  [][]Gauge   // by cloth, area first
	hash    [][2]uint64 // of each slot
	ways    [][]way     // of each row
	plain   [][]int     // of each row: slots of roles that do not follow
	mates   [][]bool    // of each slot of a role that follows: does it go with the slots of the main role
}

// slot knows one lot that stands for all that are alike.
type slot struct {
	task, lot int
}

func newShape(p Problem) *shape {
	s := &shape{Problem: p, pinned: make([][]Pin, len(p.Cloths))}
	for _, r := range p.Rows {
		s.classes = append(s.classes, r.Priority)
	}
	slices.Sort(s.classes)
	s.classes = slices.Compact(s.classes)
	for i, r := range p.Rows {
		s.class = append(s.class, slices.Index(s.classes, r.Priority))
		s.first = append(s.first, len(s.tasks))
		for j := range r.Roles {
			s.tasks = append(s.tasks, Task{i, j})
		}
	}
	s.gauge()
	for _, pin := range p.Pins {
		s.pinned[pin.Cloth] = append(s.pinned[pin.Cloth], pin)
	}
	s.number()
	for i := range s.slots {
		s.hash = append(s.hash, [2]uint64{scatter(uint64(2*i) + 1), scatter(uint64(2*i) + 2)})
	}
	s.marry()
	for r := range p.Rows {
		ways, plain := s.waysOf(r)
		s.ways, s.plain = append(s.ways, ways), append(s.plain, plain)
	}
	return s
}

// scatter spreads a small number over 64 bits (the finaliser of splitmix64).
func scatter(x uint64) uint64 {
	x *= 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

func (s *shape) index(t Task) int { return s.first[t.Row] + t.Role }

// number gives slots to tasks: lots that go with the same other lots are one.
func (s *shape) number() {
	lots := []int{}
	for _, c := range s.Cloths {
		lots = append(lots, c.Lot)
	}
	slices.Sort(lots)
	lots = slices.Compact(lots)
	s.slotAt, s.ofTask = make([][]int, len(s.tasks)), make([][]int, len(s.tasks))
	for ti, t := range s.tasks {
		byKind := map[string]int{}
		byLot := map[int]int{}
		for _, lot := range lots {
			kind, usable := s.kind(t, lot, lots)
			if !usable {
				byLot[lot] = -1
				continue
			}
			id, known := byKind[kind]
			if !known {
				id = len(s.slots)
				s.slots = append(s.slots, slot{ti, lot})
				s.ofTask[ti] = append(s.ofTask[ti], id)
				byKind[kind] = id
			}
			byLot[lot] = id
		}
		for _, c := range s.Cloths {
			s.slotAt[ti] = append(s.slotAt[ti], byLot[c.Lot])
		}
	}
}

// kind describes what a task from a lot goes with, and whether any garment can use it.
func (s *shape) kind(t Task, lot int, lots []int) (string, bool) {
	row := s.Rows[t.Row]
	if t.Role > 0 {
		if !row.Roles[t.Role].Follows {
			return "", true
		}
		return s.with(lots, func(other int) bool { return s.goes(t, lot, other) })
	}
	all := ""
	for j, r := range row.Roles {
		if !r.Follows {
			continue
		}
		k, usable := s.with(lots, func(other int) bool { return s.goes(Task{t.Row, j}, other, lot) })
		if !usable {
			return "", false
		}
		all += k
	}
	return all, true
}

func (s *shape) with(lots []int, goes func(int) bool) (string, bool) {
	b, any := make([]byte, len(lots)), false
	for i, lot := range lots {
		if goes(lot) {
			b[i], any = 1, true
		}
	}
	return string(b), any
}

// marry notes which slots go together, so that Goes is asked by one goroutine alone.
func (s *shape) marry() {
	s.mates = make([][]bool, len(s.slots))
	for i, sl := range s.slots {
		t := s.tasks[sl.task]
		if !s.Rows[t.Row].Roles[t.Role].Follows {
			continue
		}
		for _, main := range s.ofTask[s.first[t.Row]] {
			s.mates[i] = append(s.mates[i], s.goes(t, sl.lot, s.slots[main].lot))
		}
	}
}

// worth says whether a load could be part of a plan at all: its tasks are of use from this
// lot, no more of them than wanted, and the areas allow it.
func (s *shape) worth(cloth int, l Load) bool {
	for _, sh := range l {
		if s.slotAt[s.index(sh.Task)][cloth] < 0 || sh.N > s.Rows[sh.Row].Count {
			return false
		}
	}
	for _, g := range s.gauges[cloth] {
		sum := int64(0)
		for _, sh := range l {
			sum += int64(sh.N) * g.Takes[s.index(sh.Task)]
		}
		if sum > g.Have {
			return false
		}
	}
	return true
}

// gauge lists the gauges of every cloth: area, and those of the problem that some wanted
// number of tasks could exceed.
func (s *shape) gauge() {
	areas := make([]int64, len(s.tasks))
	for i, t := range s.tasks {
		areas[i] = s.area(t)
	}
	for c, cloth := range s.Cloths {
		all := []Gauge{{cloth.Area, areas}}
		if s.Gauges != nil {
			for _, g := range s.Gauges(c) {
				if len(g.Takes) == len(s.tasks) && s.binds(g) {
					all = append(all, g)
				}
			}
		}
		s.gauges = append(s.gauges, all)
	}
}

// binds says whether a gauge rules anything out.
func (s *shape) binds(g Gauge) bool {
	sum := int64(0)
	for i, t := range s.tasks {
		sum += g.Takes[i] * int64(s.Rows[t.Row].Count)
	}
	return sum > g.Have
}

// pinsKept counts the pinned copies that a load keeps on a cloth.
func (s *shape) pinsKept(cloth int, l Load) int {
	kept := 0
	for _, pin := range s.pinned[cloth] {
		kept += min(pin.N, l.Of(pin.Task))
	}
	return kept
}
