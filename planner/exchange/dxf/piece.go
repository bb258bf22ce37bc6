package dxf

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// sized is a pattern piece in one size.
type sized struct {
	said
	onFold  bool
	outline pattern.Outline
}

const checkIt = "Compare it with the pattern."

// piece reads a block, its numbers turned into mm by m; nil where it holds no outline.
func (w *walker) piece(b *Block, m affine) (*sized, error) {
	w.marks = w.marks[:0]
	if err := w.visit(b.Entities, state{m: m, block: b.Name}); err != nil {
		return nil, err
	}
	s := sort(w.marks)
	var q sized
	q.said.read(s.texts, b.Name, w.notes)
	about := q.name
	if about == "" {
		about, q.name = shorten(b.Name), shorten(b.Name)
		w.notes.add(drawn.Counts, about, "its block says no name, so it is called like the block", "Name it after bringing it in.")
	}
	ring := s.boundary(about, w.notes)
	if ring == nil {
		w.notes.add(drawn.NoOutline, about, "there is no closed outline in its block, so it was left out", "Close its boundary and save again.")
		return nil, nil
	}
	p := placer{s: &s, q: &q, ring: ring, about: about, w: w}
	return p.piece()
}

// placer brings a piece into the frame of pattern pieces.
type placer struct {
	s     *sorted
	q     *sized
	ring  []Vec
	about string
	w     *walker
	frame affine
	turn  float64 // by which the opened piece is turned at last
	open  bool    // it is opened out about y = 0
}

func (p *placer) tell(r drawn.Reason, what, do string) { p.w.notes.add(r, p.about, what, do) }

func (p *placer) piece() (*sized, error) {
	grain, has := p.grain()
	mirror, mirrored := p.s.longest(mirrorLayer)
	direction := grain
	switch {
	case !has && mirrored:
		direction = topFirst(mirror)
		p.tell(drawn.Grain, "it has no grain line, so its grain is taken to run along its mirror line", "Set its grain.")
	case !has:
		p.tell(drawn.Grain, "it has no grain line, so its grain is taken to run from left to right in the file", "Set its grain.")
		direction = [2]Vec{{0, 0}, {1, 0}}
	}
	p.frame = rotated(-along(direction))
	if mirrored {
		p.mirror(mirror)
	}
	cut, ok := p.cut()
	if !ok {
		return nil, nil
	}
	o := pattern.Outline{Cut: cut}
	if has {
		o.GrainTop, o.GrainFoot = p.point(grain[0]), p.point(grain[1])
	}
	p.lines(&o)
	if err := p.notches(&o); err != nil {
		return nil, err
	}
	if p.open {
		o = opened(o)
		o = turned(o, p.turn)
	}
	p.q.outline = o
	p.check()
	return p.q, nil
}

// check looks at what the standard has points for.
func (p *placer) check() {
	if p.s.lines[boundaryChecks] == nil && coarse(p.ring, p.s.dots[curveLayer]) {
		p.tell(drawn.Marks, "its curves are drawn with few points; between them straight lines were taken, so the true edge lies more than ½ mm away in places", "Have the file saved with finer curves.")
	}
	on := make(map[[2]int64]bool, len(p.ring))
	rings := [][]Vec{p.ring}
	for _, lines := range p.s.lines {
		for _, l := range lines {
			rings = append(rings, l.points)
		}
	}
	for _, r := range rings {
		for _, v := range r {
			on[[2]int64{micro(v.X), micro(v.Y)}] = true
		}
	}
	for _, v := range slices.Concat(p.s.dots[turnLayer], p.s.dots[curveLayer]) {
		off := !on[[2]int64{micro(v.X), micro(v.Y)}]
		if off {
			if p.w.look(len(on)) != nil {
				p.tell(drawn.Marks, "there are so many turn and curve points that not all were looked at", checkIt)
				break
			}
		}
		for k := 0; off && k < len(rings); k++ {
			_, d := nearest(v, rings[k])
			off = d > 0.5
		}
		if off {
			p.tell(drawn.Marks, "some of its turn or curve points lie off its lines", checkIt)
			break
		}
	}
}

// grain is the grain line, its top end first.
func (p *placer) grain() (ends [2]Vec, ok bool) {
	ends, ok = p.s.longest(grainLayer)
	if !ok {
		return ends, false
	}
	ends = topFirst(ends)
	// The file's line runs along the grain of the cloth; the piece's own lies across it
	// or at 45° where the piece says so.
	if by := lean(p.q.grain); by != 0 {
		mid := ends[0].add(ends[1]).times(0.5)
		s, c := math.Sincos(by)
		for i := range ends {
			ends[i] = mid.add(ends[i].sub(mid).turned(s, c))
		}
	}
	return ends, true
}

// lean is how far the piece's own grain line is turned from the grain of the cloth.
func lean(g pattern.GrainRule) float64 {
	switch g {
	case pattern.Crosswise:
		return math.Pi / 2
	case pattern.Bias:
		return math.Pi / 4
	}
	return 0
}

// topFirst orders the ends of a line: the upper first, of a level one the left.
func topFirst(e [2]Vec) [2]Vec {
	d := e[0].sub(e[1])
	if math.Abs(d.Y) > math.Abs(d.X)*1.01 && d.Y < 0 || math.Abs(d.Y) <= math.Abs(d.X)*1.01 && d.X > 0 {
		return [2]Vec{e[1], e[0]}
	}
	return e
}

// nearlyQuarter is how far a direction may be off a quarter turn to count as one.
const nearlyQuarter = 0.1 * math.Pi / 180

// along is the direction from the first end to the second, exact for quarter turns.
func along(e [2]Vec) float64 {
	d := e[1].sub(e[0])
	a := math.Atan2(d.Y, d.X)
	if q := math.Round(a/(math.Pi/2)) * (math.Pi / 2); math.Abs(a-q) <= nearlyQuarter {
		return q
	}
	return a
}

// slack is how far points may lie off the mirror line, in mm.
const slack = 0.1

// mirror decides what a mirror line means: a fold, if it runs along the grain; else the
// piece is opened out about it.
func (p *placer) mirror(e [2]Vec) {
	a, b := p.frame.apply(e[0]), p.frame.apply(e[1])
	d := b.sub(a)
	if math.Abs(d.Y) > math.Abs(d.X)*0.01 {
		by := along([2]Vec{a, b})
		p.turn, p.open = by, true
		p.frame = rotated(-by).then(p.frame)
		a, b = p.frame.apply(e[0]), p.frame.apply(e[1])
	}
	shifted := moved(Vec{0, -(a.Y + b.Y) / 2}).then(p.frame)
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range p.ring {
		y := shifted.apply(v).Y
		low, high = min(low, y), max(high, y)
	}
	switch {
	case low >= -slack && high > slack:
	case high <= slack && low < -slack:
		shifted = scaled(1, -1).then(shifted)
	default:
		if p.open {
			p.frame = rotated(p.turn).then(p.frame)
			p.open = false
		}
		p.tell(drawn.Marks, "its mirror line runs through it, so it was taken as drawn whole", checkIt)
		p.s.lines[internalLayer] = append(p.s.lines[internalLayer], mark{points: e[:]})
		return
	}
	p.frame = shifted
	p.q.onFold = !p.open
	if p.open {
		p.tell(drawn.Marks, "its mirror line does not run along the grain, so the half was opened out", checkIt)
	}
}

// point brings a point of the file in mm into the frame.
func (p *placer) point(v Vec) shape.Point {
	v = p.frame.apply(v)
	return shape.Point{X: clamp(v.X), Y: clamp(v.Y)}
}

// clamp rounds to µm, what is too far away to somewhere that is refused.
func clamp(v float64) int64 {
	if !(math.Abs(v) < 1e6) {
		return 1e9
	}
	return micro(v)
}

// cut is the cutting line in the frame; ok is false where it cannot be cut.
func (p *placer) cut() (shape.Ring, bool) {
	if len(p.ring) > p.w.lim.Outline {
		p.tell(drawn.NoOutline, fmt.Sprintf("it was left out: its outline has more than %d points", p.w.lim.Outline), "Simplify it and save again.")
		return nil, false
	}
	ring := make(shape.Ring, 0, len(p.ring))
	for _, v := range p.ring {
		q := p.point(v)
		if (p.q.onFold || p.open) && q.Y >= -slack*1000 && q.Y <= slack*1000 {
			q.Y = 0
		}
		ring = append(ring, q)
	}
	if ring.Validate() != nil {
		ring = ring.Clean()
	}
	if ring != nil && ring.Area2() < 0 {
		ring = ring.Reverse()
	}
	err := ring.Validate()
	var fault *shape.Fault
	if errors.As(err, &fault) {
		p.tell(drawn.Crossing, fmt.Sprintf("it was left out: its outline %v", fault.Err), "Mend its outline where it was drawn and save again.")
		return nil, false
	}
	if half := p.q.onFold || p.open; half && !pattern.HasFoldEdge(ring) {
		p.tell(drawn.Marks, "it has a mirror line, but no single straight edge along it, so it was taken as drawn whole", checkIt)
		p.q.onFold, p.open = false, false
		return turned(pattern.Outline{Cut: ring}, p.turn).Cut, true
	}
	return ring, true
}

// opened opens everything on a half out about y = 0.
func opened(o pattern.Outline) pattern.Outline {
	out := o
	out.Cut = pattern.Unfold(o.Cut)
	other := shape.Placement{Mirror: true}
	for _, n := range o.Notches {
		if n.At.Y != 0 {
			out.Notches = append(out.Notches, pattern.Notch{At: other.ApplyPoint(n.At), Kind: n.Kind})
		}
	}
	for _, d := range o.Dots {
		if d.Y != 0 {
			out.Dots = append(out.Dots, other.ApplyPoint(d))
		}
	}
	for _, l := range o.Inner {
		back := make([]shape.Point, len(l))
		for i, q := range l {
			back[i] = other.ApplyPoint(q)
		}
		out.Inner = append(out.Inner, back)
	}
	return out
}

// turned turns everything on an outline about the origin.
func turned(o pattern.Outline, radians float64) pattern.Outline {
	sin, cos := math.Sincos(radians)
	at := func(p shape.Point) shape.Point {
		v := Vec{float64(p.X), float64(p.Y)}.turned(sin, cos)
		return shape.Point{X: int64(math.Round(v.X)), Y: int64(math.Round(v.Y))}
	}
	for i := range o.Cut {
		o.Cut[i] = at(o.Cut[i])
	}
	for i := range o.Notches {
		o.Notches[i].At = at(o.Notches[i].At)
	}
	for i := range o.Dots {
		o.Dots[i] = at(o.Dots[i])
	}
	for _, l := range o.Inner {
		for i := range l {
			l[i] = at(l[i])
		}
	}
	o.GrainTop, o.GrainFoot = at(o.GrainTop), at(o.GrainFoot)
	return o
}
