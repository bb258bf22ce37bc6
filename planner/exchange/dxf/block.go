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
func (s *sorted) boundary(about string, w *walker) ([]Vec, error) {
	ring, drawn84, n := s.largest(boundaryLayer), s.largest(boundaryChecks), w.notes
	if ring != nil && drawn84 != nil {
		if err := w.look(len(ring) * len(drawn84)); err != nil {
			return nil, err
		}
	}
	switch {
	case ring != nil && drawn84 != nil && math.Abs(area(ring)/area(drawn84)-1) < 0.05 && farther(drawn84, ring):
		n.add(drawn.Marks, about, "its curves are drawn out on the layer for checking (84), so that outline was taken", "Compare it with the pattern.")
		return drawn84, nil
	case ring != nil:
		return ring, nil
	case drawn84 != nil:
		n.add(drawn.Marks, about, "its outline was found on the layer for checking (84), not on that of boundaries (1)", "Compare it with the pattern.")
		return drawn84, nil
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
	return ring, nil
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

// farther says whether a ring has points that lie off another by more than 0.1 mm.
func farther(a, b []Vec) bool {
	for _, p := range a {
		if _, d := nearest(p, b); d > 0.1 {
			return true
		}
	}
	return false
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
