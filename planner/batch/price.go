package batch

import "slices"

// way is how a garment of a row can be cut as to lots: the main slot and, for each role
// that follows, the slots that go with it.
type way struct {
	main    int
	follows [][]int
}

// ways returns the ways of a row; plain are the slots of roles that do not follow. A row with a role
// that no cloth serves has none.
func (s *shape) waysOf(row int) (ways []way, plain []int) {
	for j, r := range s.Rows[row].Roles[1:] {
		slots := s.ofTask[s.first[row]+j+1]
		if len(slots) == 0 {
			return nil, nil
		}
		if !r.Follows {
			plain = append(plain, slots[0])
		}
	}
	for i, main := range s.ofTask[s.first[row]] {
		w := way{main: main}
		for j, r := range s.Rows[row].Roles {
			if !r.Follows {
				continue
			}
			var with []int
			for _, f := range s.ofTask[s.first[row]+j] {
				if s.mates[f][i] {
					with = append(with, f)
				}
			}
			w.follows = append(w.follows, with)
		}
		ways = append(ways, w)
	}
	return ways, plain
}

// prices are what a copy of a task is worth, by slot. A garment earns what it counts less the
// prices of its tasks, a cloth the prices of the best load on it: what all garments and cloths
// earn together is never less than what any plan comes to, whatever the prices
// (Lagrangian relaxation of "no task without cloth").
type prices struct {
	slot  []float64
	cloth []float64 // what each cloth earns
	rest  float64   // what all garments earn
}

func (p prices) total() float64 {
	sum := p.rest
	for _, c := range p.cloth {
		sum += c
	}
	return sum
}

// market is a question for prices.
type market struct {
	*shape
	unit []float64 // what a garment of each row counts
	// earn returns what a cloth earns at most at prices, and adds what it supplies for that.
	earn func(cloth int, price, supply []float64) float64
}

// start returns prices that share what a garment counts by area.
func (m market) start() []float64 {
	price := make([]float64, len(m.slots))
	for i, sl := range m.slots {
		t := m.tasks[sl.task]
		sum, own := int64(0), m.area(t)
		for _, r := range m.Rows[t.Row].Roles {
			sum += r.Area + 1
		}
		price[i] = m.unit[t.Row] * float64(own+1) / float64(sum)
	}
	return price
}

// at returns what all earn at prices, and how much more of each slot is supplied than used.
func (m market) at(price []float64) (prices, []float64) {
	p := prices{slot: price, cloth: make([]float64, len(m.Cloths))}
	surplus := make([]float64, len(price))
	for c := range m.Cloths {
		p.cloth[c] = m.earn(c, price, surplus)
	}
	for r, row := range m.Rows {
		earns, use := m.garment(r, price)
		if earns <= 0 {
			continue
		}
		p.rest += float64(row.Count) * earns
		for _, i := range use {
			surplus[i] -= float64(row.Count)
		}
	}
	return p, surplus
}

// garment returns what the best garment of a row earns and the slots it uses.
func (m market) garment(row int, price []float64) (float64, []int) {
	best, use := 0.0, []int(nil)
	if m.unit[row] == 0 {
		return 0, nil
	}
	base := m.unit[row]
	for _, i := range m.plain[row] {
		base -= price[i]
	}
	for _, w := range m.ways[row] {
		earns, with := base-price[w.main], []int{w.main}
		for _, slots := range w.follows {
			i := slices.MinFunc(slots, func(a, b int) int { return compareFloat(price[a], price[b]) })
			earns -= price[i]
			with = append(with, i)
		}
		if earns > best {
			best, use = earns, with
		}
	}
	if best > 0 {
		use = append(use, m.plain[row]...)
	}
	return best, use
}

func compareFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// settle looks for prices at which all together earn least, by subgradient steps towards a
// target that some plan reaches, until it is less than enough. Any prices are valid; these are the
// best it came by.
func (m market) settle(price []float64, target, enough float64, steps int) prices {
	best, surplus := m.at(price)
	low, pace, idle := best.total(), 1.0, 0
	now := low
	for range steps {
		norm := 0.0
		for i, x := range surplus {
			if x < 0 || price[i] > 0 {
				norm += x * x
			}
		}
		if norm == 0 || low < enough || low-target <= 1e-9*(1+low) || pace < 1e-3 {
			break
		}
		step := pace * (now - target) / norm
		next := make([]float64, len(price))
		for i, x := range surplus {
			next[i] = max(0, price[i]-step*x)
		}
		price = next
		var p prices
		p, surplus = m.at(price)
		now = p.total()
		if now < low {
			if now < low-1e-4*(1+low-target) {
				idle = 0
			}
			best, low = p, now
		}
		if idle++; idle > 8 {
			idle, pace = 0, pace/2
			price, now = best.slot, low
			_, surplus = m.at(price)
		}
	}
	return best
}
