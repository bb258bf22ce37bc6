package adjust

import (
	"fmt"
	"math"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// overEdge is how far a line over a piece is run on beyond its ends, so that it crosses the edge.
const overEdge = float64(10 * measure.Centimetre)

// split parts a piece along a line into two panels, each with the seam allowance beyond the
// line, its ends running along the old edges.
func (w *work) split(s Step, b *body) error {
	l, err := b.lineOver(s)
	if err != nil {
		return err
	}
	wide := int64(w.p.SeamAllowance)
	if b.WithoutAllowance {
		wide = 0
	}
	left, err := b.panel(l, wide, true)
	if err != nil {
		return err
	}
	right, err := b.panel(l, wide, false)
	if err != nil {
		return err
	}
	first, second := left, right
	if a, z := middleOf(left.o.Cut), middleOf(right.o.Cut); z.X+z.Y < a.X+a.Y {
		first, second = right, left // the one nearer to the top and the centre
	}
	for i, q := range []*body{first, second} {
		q.Code, q.Name = fmt.Sprintf("%s%d", b.Code, i+1), fmt.Sprintf("%s %d", b.Name, i+1)
		if slices.ContainsFunc(w.bodies, func(o *body) bool { return o.Code == q.Code }) {
			return invalid(fmt.Sprintf("there is a pattern piece %s already", q.Code), "Part another pattern piece.")
		}
	}
	at := slices.Index(w.bodies, b)
	w.bodies = slices.Replace(w.bodies, at, at+1, first, second)
	w.followSplit(b, l, left, right)
	return nil
}

// lineOver is the line of a step on a piece, run on beyond its ends.
func (b *body) lineOver(s Step) (line, error) {
	box := b.o.Cut.Bounds()
	var l line
	if s.At.Said() {
		x, err := b.mustDepth(s.At)
		if err != nil {
			return nil, err
		}
		l = line{{X: x, Y: box.Min.Y}, {X: x, Y: box.Max.Y}}
	}
	for _, p := range s.Line {
		q := shape.Point{X: box.Min.X + p.X*box.Length()/1000, Y: box.Min.Y + p.Y*box.Width()/1000}
		if n := len(l); n == 0 || Gap(l[n-1], q) > cornerReach {
			l = append(l, q)
		}
	}
	if len(l) < 2 {
		return nil, invalid("the line has no length", "Draw it from one edge to another.")
	}
	n := len(l)
	l[0] = beyond(l[1], l[0])
	l[n-1] = beyond(l[n-2], l[n-1])
	return l, nil
}

// beyond runs on from p through q.
func beyond(p, q shape.Point) shape.Point { return towards(p, q, (Gap(p, q)+overEdge)/Gap(p, q)) }

// beside is a line moved to its left by so much, to its right where that is less than zero.
func (l line) beside(by int64) line {
	out := make(line, len(l))
	for i := range l {
		var nx, ny, n float64
		for _, k := range []int{i, i + 1} {
			if k > 0 && k < len(l) {
				d := Gap(l[k-1], l[k])
				nx -= float64(l[k].Y-l[k-1].Y) / d
				ny += float64(l[k].X-l[k-1].X) / d
				n++
			}
		}
		long := 2 / max(0.3, (nx*nx+ny*ny)/n) // a mitre, cut short in sharp corners
		if n == 1 {
			long = 1
		} else {
			long /= n
		}
		out[i] = shape.Point{X: l[i].X + int64(math.Round(nx*long*float64(by))), Y: l[i].Y + int64(math.Round(ny*long*float64(by)))}
	}
	return out
}

// panel is what of a piece lies on one side of a line and the allowance beyond it.
func (b *body) panel(l line, wide int64, left bool) (*body, error) {
	moved := l.beside(wide)
	if left {
		moved = l.beside(-wide)
	}
	ring, ok := cutOff(b.o.Cut, moved, left)
	if !ok || ring.Validate() != nil {
		return nil, invalid("the line does not part "+b.called()+" in two", "Draw it from one edge to another, so that it crosses the outline just twice, and not along an edge.")
	}
	q := b.copy()
	q.o.Cut = ring
	if b.OnFold && !pattern.HasFoldEdge(ring) {
		if slices.ContainsFunc(ring, func(p shape.Point) bool { return p.Y <= 0 }) {
			return nil, invalid("the line runs along the fold of "+b.called(), "Draw it farther from the fold.")
		}
		q.OnFold, q.Pairs, q.Cut = false, true, 2*max(b.Cut, 1)
	}
	q.partMarks(b, l, left)
	return q, nil
}

// crossing is where a line passes the edge of a ring.
type crossing struct {
	edge, seg int     // of the ring, of the line
	along     float64 // of the segment
	at        shape.Point
}

// cutOff is the part of a ring to one side of a line, which must pass its edge just twice.
func cutOff(r shape.Ring, l line, left bool) (shape.Ring, bool) {
	var found []crossing
	for k := 1; k < len(l); k++ {
		for i, p := range r {
			q := r[(i+1)%len(r)]
			switch shape.Meet(l[k-1], l[k], p, q) {
			case shape.Crossing:
				t := shareOf(l[k-1], l[k], p, q)
				found = append(found, crossing{i, k, t, towards(l[k-1], l[k], t)})
			case shape.Along:
				return nil, false
			case shape.Touching:
				if shape.OnSegment(p, l[k-1], l[k]) { // a point of the ring: counted where the line passes it
					before := r[(i+len(r)-1)%len(r)]
					if shape.Orientation(l[k-1], l[k], before)*shape.Orientation(l[k-1], l[k], q) < 0 {
						found = append(found, crossing{i, k, float64(Gap(l[k-1], p)) / Gap(l[k-1], l[k]), p})
					}
				}
			}
		}
	}
	if len(found) != 2 {
		return nil, false
	}
	a, z := found[0], found[1]
	if z.seg < a.seg || z.seg == a.seg && z.along < a.along {
		a, z = z, a
	}
	seam := line{a.at}
	seam = append(seam, l[a.seg:z.seg]...)
	seam = append(seam, z.at)
	var out shape.Ring
	if left { // on along the line, then round counter-clockwise
		out = append(out, seam...)
		out = append(out, round(r, z.edge, a.edge)...)
	} else {
		out = append(out, seam.reversed()...)
		out = append(out, round(r, a.edge, z.edge)...)
	}
	out = out.Clean()
	return out, len(out) > 2 && out.Area2() > 0
}

// round are the points of a ring after one edge up to the beginning of another.
func round(r shape.Ring, from, to int) []shape.Point {
	var out []shape.Point
	for i := from; i != to; {
		i = (i + 1) % len(r)
		out = append(out, r[i])
	}
	return out
}

// shareOf is how far along a b, from 0 to 1, the line p q crosses it.
func shareOf(a, b, p, q shape.Point) float64 {
	side := func(c shape.Point) float64 {
		return float64(q.X-p.X)*float64(c.Y-p.Y) - float64(q.Y-p.Y)*float64(c.X-p.X)
	}
	return side(a) / (side(a) - side(b))
}

// leftOf says whether a point lies to the left of a line.
func (l line) leftOf(p shape.Point) bool {
	best, at := math.Inf(1), 1
	for k := 1; k < len(l); k++ {
		if d := fromSegment(p, l[k-1], l[k]); d < best {
			best, at = d, k
		}
	}
	return shape.Orientation(l[at-1], l[at], p) >= 0
}

// partMarks gives a panel what of the marks of the piece lies on its side, a notch in the middle
// of the new seam, and a grain line of its own.
func (q *body) partMarks(b *body, l line, left bool) {
	here := func(p shape.Point) bool { return l.leftOf(p) == left }
	ring := append(line(slices.Clone(q.o.Cut)), q.o.Cut[0])
	q.o.Notches, q.o.Dots, q.o.Inner, q.o.Edges = nil, nil, nil, nil
	for _, n := range b.o.Notches {
		if here(n.At) && ring.distance(n.At) <= onCut {
			q.o.Notches = append(q.o.Notches, n)
		}
	}
	for _, d := range b.o.Dots {
		if here(d) {
			q.o.Dots = append(q.o.Dots, d)
		}
	}
	for _, in := range b.o.Inner {
		if len(in) > 0 && here(in[0]) {
			q.o.Inner = append(q.o.Inner, in)
		}
	}
	for _, e := range b.o.Edges {
		if pts := partOf(e.Points, l, left); len(pts) > 1 {
			e.Points = pts
			q.o.Edges = append(q.o.Edges, e)
		}
	}
	box := q.o.Cut.Bounds()
	y := (box.Min.Y + box.Max.Y) / 2
	q.o.GrainTop = shape.Point{X: box.Min.X + box.Length()/4, Y: y}
	q.o.GrainFoot = shape.Point{X: box.Min.X + box.Length()*3/4, Y: y}
	for name, x := range q.levels {
		if x < box.Min.X || x > box.Max.X {
			delete(q.levels, name)
		}
	}
	q.levels[Top], q.levels[HemLevel] = max(box.Min.X, b.levels[Top]), min(box.Max.X, b.levels[HemLevel])
}

// partOf is the part of a stitching line to one side of a line; of one that passes it several
// times the first part.
func partOf(pts []shape.Point, l line, left bool) []shape.Point {
	var out []shape.Point
	for i, p := range pts {
		if i > 0 {
			if at, ok := meets(pts[i-1], p, l); ok {
				out = append(out, at)
				if l.leftOf(p) != left && len(out) > 1 {
					return out
				}
			}
		}
		if l.leftOf(p) == left {
			out = append(out, p)
		}
	}
	return out
}

// meets is where a segment crosses a line.
func meets(p, q shape.Point, l line) (shape.Point, bool) {
	for k := 1; k < len(l); k++ {
		if shape.Meet(p, q, l[k-1], l[k]) == shape.Crossing {
			return towards(p, q, shareOf(p, q, l[k-1], l[k])), true
		}
	}
	return p, false
}

func middleOf(r shape.Ring) shape.Point {
	box := r.Bounds()
	return shape.Point{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}
}

// followSplit lets edges to finish run along the panels instead of the piece, in the order in
// which they ran along it.
func (w *work) followSplit(b *body, l line, left, right *body) {
	for i := range w.p.Edges {
		var out []pattern.EdgeSegment
		for _, s := range w.p.Edges[i].Segments {
			if s.Piece != b.Code {
				out = append(out, s)
				continue
			}
			out = append(out, partsOf(s, b, l, left, right)...)
		}
		w.p.Edges[i].Segments = out
	}
}

func partsOf(s pattern.EdgeSegment, b *body, l line, left, right *body) []pattern.EdgeSegment {
	was := paths(b.o, s.Path)
	order := []*body{left, right}
	if len(was) > 0 && !l.leftOf(was[0].Points[0]) {
		order = []*body{right, left}
	}
	var out []pattern.EdgeSegment
	for _, q := range order {
		if len(paths(q.o, s.Path)) > 0 {
			part := s
			part.Piece = q.Code
			out = append(out, part)
		}
	}
	if len(out) == 2 {
		out[0].MarkEnd, out[0].Catches, out[0].JoinHere = "panel seam", "", false
		out[0].Name, out[1].Name = s.Name+" 1", s.Name+" 2"
	}
	return out
}
