package dxf

import (
	"math"

	"tallycloth/planner/exchange/drawn"
)

// pieces are the blocks that describe pattern pieces: with a text that only those have,
// or with a boundary and something else on the layers of the standard.
func (f *File) pieces() (out []int) {
	for i, b := range f.Blocks {
		if isPaper(b.Name) {
			continue
		}
		boundary, more, said := false, false, false
		for _, e := range b.Entities {
			switch n := layerNumber(e.Layer); {
			case e.Text != "":
				k, _, ok := keyed(e.Text)
				said = said || ok && k != unitsKey
			case n == boundaryLayer || n == boundaryChecks:
				boundary = boundary || e.Kind != "POINT" && e.Kind != "INSERT"
			case n >= turnLayer && n <= wordsLayer || n >= tNotchLayer && n <= lastChecks:
				more = true
			}
		}
		if said || boundary && more {
			out = append(out, i)
		}
	}
	return out
}

// sorted is what lies in a block, by the numbers of layers; -1 holds all other layers.
type sorted struct {
	lines map[int][]mark
	dots  map[int][]Vec
	texts []mark
}

// sort parts marks by their layers.
func sort(marks []mark) sorted {
	s := sorted{lines: map[int][]mark{}, dots: map[int][]Vec{}}
	for _, m := range marks {
		n := layerNumber(m.layer)
		if !standard(n) {
			n = -1
		}
		switch m.kind {
		case line:
			s.lines[n] = append(s.lines[n], m)
		case dot:
			s.dots[n] = append(s.dots[n], m.points[0])
		case words:
			s.texts = append(s.texts, m)
		}
	}
	for _, n := range []int{boundaryLayer, boundaryChecks} {
		s.lines[n], _ = join(s.lines[n])
	}
	return s
}

func standard(n int) bool {
	return n >= boundaryLayer && n <= wordsLayer && n != 12 || n >= tNotchLayer && n <= lastChecks
}

// boundary takes the cutting line of a piece out of what lies in its block; nil for none.
func (s *sorted) boundary(about string, n *notes) []Vec {
	ring, drawn84 := s.largest(boundaryLayer), s.largest(boundaryChecks)
	switch {
	case ring != nil && drawn84 != nil && differs(ring, drawn84):
		n.add(drawn.Marks, about, "its curves are drawn out on the layer for checking (84), so that outline was taken", "Compare it with the pattern.")
		return drawn84
	case ring != nil:
		return ring
	case drawn84 != nil:
		n.add(drawn.Marks, about, "its outline was found on the layer for checking (84), not on that of boundaries (1)", "Compare it with the pattern.")
		return drawn84
	}
	best := 0
	for _, layer := range []int{-1, sewLayer, internalLayer} {
		joined, _ := join(s.lines[layer])
		s.lines[layer] = joined
		if r := s.peek(layer); r >= 0 && (ring == nil || math.Abs(area(joined[r].points)) > math.Abs(area(ring))) {
			ring, best = joined[r].points, layer
		}
	}
	if ring != nil {
		s.largest(best)
		n.add(drawn.Marks, about, "there is no closed outline on the layer of boundaries (1), so the largest other one was taken", "Compare it with the pattern.")
	}
	return ring
}

// peek is the index of the largest closed line of a layer, -1 for none.
func (s *sorted) peek(layer int) int {
	best := -1
	for i, m := range s.lines[layer] {
		if m.closed && len(m.points) > 2 && (best < 0 || math.Abs(area(m.points)) > math.Abs(area(s.lines[layer][best].points))) {
			best = i
		}
	}
	return best
}

// largest takes the largest closed line of a layer out; nil for none.
func (s *sorted) largest(layer int) []Vec {
	i := s.peek(layer)
	if i < 0 {
		return nil
	}
	ring := s.lines[layer][i].points
	s.lines[layer] = append(s.lines[layer][:i:i], s.lines[layer][i+1:]...)
	return ring
}

// longest takes the longest line of a layer out, as its two ends.
func (s *sorted) longest(layer int) (ends [2]Vec, ok bool) {
	best, far := -1, 0.0
	for i, m := range s.lines[layer] {
		if d := m.points[len(m.points)-1].sub(m.points[0]).len(); d > far {
			best, far = i, d
		}
	}
	if best < 0 {
		return ends, false
	}
	p := s.lines[layer][best].points
	s.lines[layer] = append(s.lines[layer][:best:best], s.lines[layer][best+1:]...)
	return [2]Vec{p[0], p[len(p)-1]}, true
}

// area is that of a ring, negative when it runs clockwise.
func area(r []Vec) float64 {
	sum := 0.0
	for i, p := range r {
		sum += p.sub(r[0]).cross(r[(i+1)%len(r)].sub(r[0]))
	}
	return sum / 2
}

// differs says whether the second of two rings is nearly the first, with its curves drawn out:
// their areas are within 5 %, but not the same, or the ways round are not. Chords are
// shorter than their curve, so one of the two always tells.
func differs(a, b []Vec) bool {
	sa, sb, la, lb := math.Abs(area(a)), math.Abs(area(b)), round(a), round(b)
	return math.Abs(sa/sb-1) < 0.05 && (math.Abs(sa-sb) > 0.02*la || math.Abs(la-lb) > 0.05)
}

// round is the way round a ring.
func round(r []Vec) float64 {
	sum := 0.0
	for i, p := range r {
		sum += r[(i+1)%len(r)].sub(p).len()
	}
	return sum
}

// nearest is the point of a ring nearest to p, and its distance.
func nearest(p Vec, ring []Vec) (at Vec, far float64) {
	far = math.Inf(1)
	for i, a := range ring {
		d, v := ring[(i+1)%len(ring)].sub(a), p.sub(a)
		t := 0.0
		if l := d.dot(d); l > 0 {
			t = min(1, max(0, v.dot(d)/l))
		}
		if q := a.add(d.times(t)); q.sub(p).len() < far {
			at, far = q, q.sub(p).len()
		}
	}
	return at, far
}

// slope is how much a vertex of a curve may turn before its curve is called coarse, and
// sag how far the true curve may then lie from the chords, in mm.
const (
	slope = math.Pi / 15
	sag   = 0.5
)

// coarse says whether the boundary is drawn straight between points of a curve that lie so
// far apart that the curve itself lies elsewhere: by c·a/8 for a chord c and a turn a.
func coarse(ring, curve []Vec) bool {
	on := make(map[[2]int64]bool, len(curve))
	for _, p := range curve {
		on[[2]int64{micro(p.X), micro(p.Y)}] = true
	}
	for i, p := range ring {
		if !on[[2]int64{micro(p.X), micro(p.Y)}] {
			continue
		}
		a, b := p.sub(ring[(i+len(ring)-1)%len(ring)]), ring[(i+1)%len(ring)].sub(p)
		turn := math.Abs(math.Atan2(a.cross(b), a.dot(b)))
		if turn > slope && max(a.len(), b.len())*turn/8 > sag {
			return true
		}
	}
	return false
}
