package pattern

import (
	"math"
	"slices"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// sharp is from what turning on a point of an outline one edge ends there and the next begins, in
// radians (35°): curves are drawn in smaller steps, shoulders, underarms and hems meet in larger ones.
const sharp = 35 * math.Pi / 180

// Stretch is an edge of an outline from one corner to the next: the indices of its first point and of its
// last, which may be lower.
type Stretch struct{ From, To int }

// Stretches are the edges of an outline from corner to corner, clockwise as the piece is seen with its
// grain upright, the first at the top. An outline with fewer than two corners is one edge.
func Stretches(r shape.Ring) []Stretch {
	var at []int
	for i, p := range r {
		u, v := p.Sub(r[(i+len(r)-1)%len(r)]), r[(i+1)%len(r)].Sub(p)
		turn := math.Atan2(float64(u.X)*float64(v.Y)-float64(u.Y)*float64(v.X), float64(u.X)*float64(v.X)+float64(u.Y)*float64(v.Y))
		if math.Abs(turn) >= sharp {
			at = append(at, i)
		}
	}
	if len(at) < 2 {
		return []Stretch{{0, 0}}
	}
	out := make([]Stretch, len(at))
	for k, i := range at {
		out[k] = Stretch{i, at[(k+1)%len(at)]}
	}
	slices.Reverse(out) // a ring runs the other way round
	first := 0
	for k := range out {
		if fromTop(r, out[k]) < fromTop(r, out[first]) {
			first = k
		}
	}
	return slices.Concat(out[first:], out[:first])
}

// fromTop is how far the middle of an edge lies round from the top, clockwise, in radians.
func fromTop(r shape.Ring, s Stretch) float64 {
	b, m := r.Bounds(), s.Middle(r)
	a := math.Atan2(float64(m.Y-(b.Min.Y+b.Max.Y)/2), -float64(m.X-(b.Min.X+b.Max.X)/2))
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// Points are those of an edge, from its first to its last.
func (s Stretch) Points(r shape.Ring) []shape.Point {
	if len(r) == 0 {
		return nil
	}
	out := []shape.Point{r[s.From]}
	for i := (s.From + 1) % len(r); ; i = (i + 1) % len(r) {
		if out = append(out, r[i]); i == s.To {
			return out
		}
	}
}

// Length is how long an edge is, along it.
func (s Stretch) Length(r shape.Ring) measure.Length {
	return EdgePath{Points: s.Points(r)}.Length()
}

// Middle is the place half the way along an edge.
func (s Stretch) Middle(r shape.Ring) shape.Point {
	points, left := s.Points(r), float64(s.Length(r))/2
	for i := 1; i < len(points); i++ {
		d := points[i].Sub(points[i-1])
		l := math.Hypot(float64(d.X), float64(d.Y))
		if l >= left && l > 0 {
			return points[i-1].Add(shape.Point{X: int64(math.Round(float64(d.X) * left / l)), Y: int64(math.Round(float64(d.Y) * left / l))})
		}
		left -= l
	}
	return points[len(points)-1]
}

// stretchAt is the edge that a place lies on or is nearest to.
func stretchAt(r shape.Ring, at shape.Point) Stretch {
	side, _, _ := NearestSide(r, at)
	for _, s := range Stretches(r) {
		if s.has(side, len(r)) {
			return s
		}
	}
	return Stretch{}
}

// has says whether a side of a ring of n points, by the index of its first, belongs to an edge.
func (s Stretch) has(side, n int) bool {
	long := (s.To - s.From + n) % n
	if long == 0 {
		long = n
	}
	return (side-s.From+n)%n < long
}

// EdgeAllowance is the seam allowance along the edge, from corner to corner, that a place lies on.
type EdgeAllowance struct {
	At   shape.Point
	Wide measure.Length
}

// Elsewhere is allowances along edges told by places on another outline, to which to leads.
func Elsewhere(all []EdgeAllowance, to func(shape.Point) shape.Point) []EdgeAllowance {
	out := slices.Clone(all)
	for i, e := range all {
		out[i].At = to(e.At)
	}
	return out
}

// AddAllowance moves the cutting line outwards by a seam allowance, along some edges by another one or
// none; what was the cutting line stays on the piece as the line to stitch along. Less than zero takes an
// allowance off. The fold edge of a piece on the fold stays.
func AddAllowance(wide measure.Length, others []EdgeAllowance, onFold bool) Change {
	return func(o Outline) (Outline, error) {
		was := o.Cut
		by := make([]int64, len(was))
		for i, p := range was {
			if by[i] = int64(wide); onFold && p.Y == 0 && was[(i+1)%len(was)].Y == 0 {
				by[i] = 0
			}
		}
		for _, e := range others {
			s := stretchAt(was, e.At)
			for i, p := range was {
				if fold := onFold && p.Y == 0 && was[(i+1)%len(was)].Y == 0; s.has(i, len(was)) && !fold {
					by[i] = int64(e.Wide)
				}
			}
		}
		cut := offsetSides(was, func(i int) int64 { return by[i] })
		if cut == nil {
			return o, invalid("its outline would cross itself or vanish", "Take a smaller allowance, or move the corners there apart first.")
		}
		o.Cut = cut
		o.Inner = append(o.Inner, stitchedAlong(was, by)...)
		return o, nil
	}
}

// stitchedAlong are the parts of a former cutting line that were moved outwards.
func stitchedAlong(was shape.Ring, by []int64) (lines [][]shape.Point) {
	start := slices.IndexFunc(by, func(d int64) bool { return d <= 0 })
	if start < 0 {
		return [][]shape.Point{append(slices.Clone([]shape.Point(was)), was[0])}
	}
	var line []shape.Point
	for k := range was {
		i := (start + k) % len(was)
		if by[i] > 0 {
			if line == nil {
				line = []shape.Point{was[i]}
			}
			line = append(line, was[(i+1)%len(was)])
		} else if line != nil {
			lines, line = append(lines, line), nil
		}
	}
	if line != nil {
		lines = append(lines, line)
	}
	return lines
}

// OffsetBy moves the cutting line outwards by a seam allowance, or inwards by one less than zero; the
// fold edge of a piece on the fold stays, and so do stitching lines.
func OffsetBy(by measure.Length, onFold bool) Change {
	return func(o Outline) (Outline, error) {
		inner := o.Inner
		o, err := AddAllowance(by, nil, onFold)(o)
		o.Inner = inner
		return o, err
	}
}
