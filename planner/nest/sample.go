package nest

import (
	"math"
	"math/rand/v2"
)

// mover looks for better places of single copies on one worker's board.
type mover struct {
	b    *board
	rng  *rand.Rand
	best [descents]try
	n    int
}

// try is a place and its loss.
type try struct {
	place
	loss float64
}

// move looks for a place of copy i with less loss than where it lies: samples
// over all its room, near by and in corners, short descents from the best few, a long one
// from the winner (the search of a place in Gardeyn, Vanden Berghe, Wauters, 2025).
// It says whether the copy moved.
func (m *mover) move(i int) bool {
	b := m.b
	now := b.at[i]
	loss := b.rate(i, now.site, now.x, now.y, math.Inf(1))
	if loss == 0 {
		return false
	}
	m.n = 0
	m.keep(try{now, loss})
	ways := b.ways(i)
	for range wideSamples {
		s := &ways[m.rng.IntN(len(ways))]
		if s.open(b.limit) {
			m.sample(i, s, m.anywhere(s))
		}
	}
	for range nearSamples {
		s := now.site
		if m.rng.IntN(2) == 0 {
			s = &ways[m.rng.IntN(len(ways))]
		}
		if s.open(b.limit) {
			m.sample(i, s, m.near(now, s))
		}
	}
	for range cornerSamples {
		s := &ways[m.rng.IntN(len(ways))]
		if s.open(b.limit) {
			m.corner(i, s)
		}
	}
	size := b.g.size[i]
	best := try{loss: math.Inf(1)}
	for k := range m.n {
		t := m.best[k]
		m.descend(i, &t, coarseFrom*size, coarseTo*size)
		if t.loss < best.loss {
			best = t
		}
	}
	if best.loss > 0 {
		m.descend(i, &best, fineFrom*size, max(fineTo*size, b.g.contact/2))
	}
	if best.loss >= loss {
		return false
	}
	b.put(i, best.place)
	return true
}

func (m *mover) sample(i int, s *site, at [2]float64) {
	x, y := s.clamp(m.b.limit, at[0], at[1])
	bound := math.Inf(1)
	if m.n == descents {
		bound = m.best[m.n-1].loss
	}
	if loss := m.b.rate(i, s, x, y, bound); loss < bound {
		m.keep(try{place{s, x, y}, loss})
	}
}

// keep inserts a try among the best few, in order of loss.
func (m *mover) keep(t try) {
	k := m.n
	if k == descents {
		k--
	} else {
		m.n++
	}
	for k > 0 && m.best[k-1].loss > t.loss {
		m.best[k] = m.best[k-1]
		k--
	}
	m.best[k] = t
}

func (m *mover) anywhere(s *site) [2]float64 {
	high := min(s.highX, m.b.limit-s.maxX)
	return [2]float64{s.lowX + m.rng.Float64()*(high-s.lowX), s.lowY + m.rng.Float64()*(s.highY-s.lowY)}
}

// near is a place about now where the pose of s covers about what is covered now.
func (m *mover) near(now place, s *site) [2]float64 {
	r, q := now.site.reach, s.reach
	cx, cy := (r.x0+r.x1-q.x0-q.x1)/2+now.x, (r.y0+r.y1-q.y0-q.y1)/2+now.y
	return [2]float64{cx + (m.rng.Float64()-0.5)*(r.x1-r.x0), cy + (m.rng.Float64()-0.5)*(r.y1-r.y0)}
}

// corner samples a place where the copy touches another with a corner of the two,
// or that and an edge of the cloth: where nothing is to spare, copies lie so
// (Burke, Hellier, Kendall, Whitwell, "Complete and robust no-fit polygon
// generation for the irregular stock cutting problem", 2007).
func (m *mover) corner(i int, s *site) {
	b := m.b
	j := m.rng.IntN(len(b.at))
	to := &b.at[j]
	if j == i || to.site.fabric != s.fabric {
		return
	}
	x, y, ok := b.g.t.get(to.site.pose, s.pose).Corner(m.rng.Uint32())
	if !ok {
		return
	}
	x, y = x+to.x, y+to.y
	if m.rng.Float64() < cornerOnEdge {
		switch m.rng.IntN(3) {
		case 0:
			y = s.lowY
		case 1:
			y = s.highY
		case 2:
			x = s.lowX
		}
	}
	m.sample(i, s, [2]float64{x, y})
}

// descend walks from a place to less loss along an axis or a diagonal chosen at
// random, with steps that grow on success and halve on failure: adaptive
// coordinate descent as in Gardeyn, Vanden Berghe, Wauters, 2025.
func (m *mover) descend(i int, t *try, from, to float64) {
	limit := m.b.limit
	sx, sy := from, from
	for t.loss > 0 && (sx > to || sy > to) {
		dx, dy := sx, sy
		switch m.rng.IntN(4) {
		case 0:
			dy = 0
		case 1:
			dx = 0
		case 2:
			dx *= math.Sqrt2 / 2
			dy *= math.Sqrt2 / 2
		case 3:
			dx *= math.Sqrt2 / 2
			dy *= -math.Sqrt2 / 2
		}
		better := m.step(i, t, limit, dx, dy) || m.step(i, t, limit, -dx, -dy)
		k := stepShrink
		if better {
			k = stepGrow
		}
		if dx != 0 {
			sx *= k
		}
		if dy != 0 {
			sy *= k
		}
	}
}

func (m *mover) step(i int, t *try, limit, dx, dy float64) bool {
	x, y := t.site.clamp(limit, t.x+dx, t.y+dy)
	if x == t.x && y == t.y {
		return false
	}
	loss := m.b.rate(i, t.site, x, y, t.loss)
	if loss >= t.loss {
		return false
	}
	t.x, t.y, t.loss = x, y, loss
	return true
}
