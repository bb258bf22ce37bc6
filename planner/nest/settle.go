package nest

import (
	"math"

	"tallycloth/stash/shape"
)

// settler turns a board whose overlaps are down to contacts into a layout in
// whole µm that is exactly free, by moving copies a few µm.
type settler struct {
	g     *game
	b     *board
	at    []shape.Point
	rings []shape.Ring
	boxes []shape.Box
}

// settle returns the layout of a board, exactly free of overlaps on the true
// outlines, or false if the contacts could not be undone or the search ended. A strip
// may become a few µm longer.
func (g *game) settle(b *board) (Solution, bool) {
	n := len(g.copies)
	b.relax()
	s := &settler{g, b, make([]shape.Point, n), make([]shape.Ring, n), make([]shape.Box, n)}
	for i := range n {
		pl := b.at[i]
		s.place(i, shape.Point{X: nearest(pl.x), Y: nearest(pl.y)})
	}
	for round := 0; ; round++ {
		i, j, bad := s.fault()
		if !bad {
			return s.solution(), true
		}
		if round == settleRounds*n || g.p.stopped() || !s.part(i, j) {
			return Solution{}, false
		}
	}
}

// nearest rounds to a whole number, halves and quarters that pushing leaves all
// one way, so that copies in contact are rounded alike.
func nearest(v float64) int64 { return int64(math.Floor(v + 0.5 + roundingBias)) }

func (s *settler) place(i int, at shape.Point) {
	s.at[i] = at
	s.rings[i] = s.g.p.poses[s.b.at[i].site.pose].ring.Move(at)
	s.boxes[i] = s.rings[i].Bounds()
}

// fault finds a copy that lies too near another, or with j = −1 too near
// something fixed.
func (s *settler) fault() (i, j int, bad bool) {
	for i := range s.rings {
		if !s.g.fixed[i] && !s.onCloth(i) {
			return i, -1, true
		}
		for j := i + 1; j < len(s.rings); j++ {
			if !s.apart(i, j) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

func (s *settler) apart(i, j int) bool {
	gap := s.g.p.in.Clearance
	return s.b.at[i].site.fabric != s.b.at[j].site.fabric || !s.boxes[i].Grown(gap).Meets(s.boxes[j]) ||
		shape.Clear(s.rings[i], s.rings[j], gap)
}

// onCloth says whether copy i keeps its range and what is fixed on its cloth.
func (s *settler) onCloth(i int) bool {
	w := s.b.at[i].site
	x, y := float64(s.at[i].X), float64(s.at[i].Y)
	if x < w.lowX || x > w.highX || y < w.lowY || y > w.highY {
		return false
	}
	if w.repeat > 0 && math.Mod(x-w.phase, w.repeat) != 0 {
		return false
	}
	return onFabric(s.g.p.in.Fabrics[w.fabric], s.rings[i], s.g.p.in.Clearance) == nil
}

// faults counts what copy i lies too near.
func (s *settler) faults(i int) int {
	n := 0
	if !s.onCloth(i) {
		n++
	}
	for j := range s.rings {
		if j != i && !s.apart(i, j) {
			n++
		}
	}
	return n
}

// part moves one of two copies by a few µm: where it touches least, if that is
// better than now, else to the right until the two are apart.
func (s *settler) part(i, j int) bool {
	if j >= 0 && s.at[j].X+s.boxes[j].Length() > s.at[i].X+s.boxes[i].Length() {
		i, j = j, i
	}
	for _, k := range [2]int{i, j} {
		if k >= 0 && !s.g.fixed[k] && s.shake(k) {
			return true
		}
	}
	if j < 0 || s.g.fixed[i] {
		return false
	}
	from := s.at[i]
	for _, d := range s.reaches() {
		s.place(i, shape.Point{X: from.X + d, Y: from.Y})
		if s.onCloth(i) && s.apart(i, j) {
			return true
		}
	}
	s.place(i, from)
	return false
}

// reaches are the distances tried, in µm: from one to a few contacts.
func (s *settler) reaches() []int64 {
	var out []int64
	for d := 1.0; d <= settleReach*max(1, s.g.contact); d *= 1.5 {
		if k := int64(math.Ceil(d)); len(out) == 0 || out[len(out)-1] != k {
			out = append(out, k)
		}
	}
	return out
}

// shake tries copy i all round, near first, and keeps a place with fewer faults.
func (s *settler) shake(i int) bool {
	from, least := s.at[i], s.faults(i)
	best, found := from, false
	for _, d := range s.reaches() {
		for _, w := range [8]shape.Point{{X: 1}, {Y: 1}, {Y: -1}, {X: -1}, {X: 1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: -1, Y: -1}} {
			s.place(i, shape.Point{X: from.X + d*w.X, Y: from.Y + d*w.Y})
			if n := s.faults(i); n < least && s.onCloth(i) {
				best, least, found = s.at[i], n, true
				if n == 0 {
					return true
				}
			}
		}
	}
	s.place(i, best)
	return found
}

// solution lists where everything lies.
func (s *settler) solution() Solution {
	l := newLayout(s.g.p)
	var left []Copy
	laid := map[Copy]bool{}
	for i, c := range s.g.copies {
		w := s.b.at[i].site
		l.placed[w.fabric] = append(l.placed[w.fabric], laidPose{w.pose, c.Item, c.Copy, s.at[i]})
		laid[c] = true
	}
	for _, c := range copies(s.g.p.in) {
		if !laid[c] {
			left = append(left, c)
		}
	}
	return l.solution(left)
}
