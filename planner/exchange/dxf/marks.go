package dxf

import (
	"math"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// How far notches may lie from where they should, in mm.
const (
	pairNear = 8.0 // two closer ones are one double notch
	pairHalf = 3.0 // how a double one is written: so far to both sides
	onLine   = 0.5 // off the cutting line, taken as it is
	toLine   = 3.0 // off the cutting line, moved onto it
)

// notches reads notches of every shape: two near each other are one double notch.
func (p *placer) notches(o *pattern.Outline) error {
	count := len(p.s.dots[notchLayer]) + 2*len(p.s.lines[notchLayer])
	for n := tNotchLayer; n <= uNotchLayer; n++ {
		count += len(p.s.dots[n]) + 2*len(p.s.lines[n])
	}
	if err := p.w.look(count * (count + len(p.ring))); err != nil {
		return err
	}
	at := p.notchPoints(notchLayer)
	for n := tNotchLayer; n <= uNotchLayer; n++ {
		if more := p.notchPoints(n); len(more) > 0 {
			p.tell(drawn.Marks, "its notches have several shapes; all are kept as plain ones", "Nothing to do if their shape does not matter.")
			at = append(at, more...)
		}
	}
	taken := make([]bool, len(at))
	for i, v := range at {
		if taken[i] {
			continue
		}
		kind, best, far := "single", -1, pairNear
		for k := i + 1; k < len(at); k++ {
			if d := at[k].sub(v).len(); !taken[k] && d <= far {
				best, far = k, d
			}
		}
		if best >= 0 {
			taken[best] = true
			v, kind = v.add(at[best]).times(0.5), "double"
		}
		p.notch(o, v, kind)
	}
	return nil
}

// notchPoints are the places of the notches of a layer: points, or the end of a line
// that is nearer to the boundary, or the middle of what is closed.
func (p *placer) notchPoints(layer int) []Vec {
	out := p.s.dots[layer]
	for _, l := range p.s.lines[layer] {
		if l.closed {
			out = append(out, centre(l.points))
			continue
		}
		a, b := l.points[0], l.points[len(l.points)-1]
		_, da := nearest(a, p.ring)
		if _, db := nearest(b, p.ring); db < da {
			a = b
		}
		out = append(out, a)
	}
	return out
}

func (p *placer) notch(o *pattern.Outline, v Vec, kind string) {
	on, off := nearest(v, p.ring)
	switch {
	case off <= onLine:
	case off <= toLine:
		v = on
		p.tell(drawn.Marks, "notches that lie a little off its outline were moved onto it", checkIt)
	default:
		o.Dots = append(o.Dots, p.point(v))
		p.tell(drawn.Marks, "notches that lie off its outline were kept as dots", checkIt)
		return
	}
	o.Notches = append(o.Notches, pattern.Notch{At: p.point(v), Kind: kind})
}

// centre is the middle of what a line spans.
func centre(pts []Vec) Vec {
	low, high := pts[0], pts[0]
	for _, q := range pts {
		low, high = Vec{min(low.X, q.X), min(low.Y, q.Y)}, Vec{max(high.X, q.X), max(high.Y, q.Y)}
	}
	return low.add(high).times(0.5)
}

// lines puts everything else that is drawn on the piece where it belongs.
func (p *placer) lines(o *pattern.Outline) {
	p.drills(o)
	for _, l := range p.s.lines[internalLayer] {
		p.inner(o, l)
	}
	for _, l := range p.s.lines[cutoutLayer] {
		p.inner(o, l)
		p.tell(drawn.Marks, "lines to be cut inside it were kept as lines drawn on it", "Cut them by hand.")
	}
	for _, l := range p.s.lines[sewLayer] {
		if name, ok := p.label(edgeKey, l); !ok || !p.edge(o, l, name) {
			p.inner(o, l)
		}
	}
	for _, n := range []int{stripeLayer, plaidLayer} {
		for _, l := range p.s.lines[n] {
			if name, ok := p.label(stripeKey, l); ok && !p.open {
				o.MatchMarks = append(o.MatchMarks, pattern.MatchMark{Name: name, X: p.point(l.points[0]).X})
				continue
			}
			p.inner(o, l)
			p.tell(drawn.Marks, "lines to match stripes or checks by were kept as lines drawn on it", "Set its marks for stripes if they matter.")
		}
	}
	p.others(o)
}

// others deals with layers that have no place here.
func (p *placer) others(o *pattern.Outline) {
	if len(p.s.lines[gradeLayer])+len(p.s.dots[gradeLayer]) > 0 {
		p.tell(drawn.Marks, "its reference lines for grading were left out", "Nothing to do: sizes come as they are drawn.")
	}
	for _, n := range []int{mirrorLayer, grainLayer, boundaryLayer, wordsLayer, -1} {
		for _, l := range p.s.lines[n] {
			p.inner(o, l)
			p.tell(drawn.Marks, "lines on layers that have another meaning, or none, were kept as lines drawn on it", checkIt)
		}
	}
	for _, n := range []int{-1, boundaryLayer, mirrorLayer, grainLayer, internalLayer, stripeLayer, plaidLayer, cutoutLayer, sewLayer, wordsLayer} {
		if len(p.s.dots[n]) > 0 {
			p.tell(drawn.Marks, "points on layers where none belong were left out", "Nothing to do if they are no marks.")
		}
	}
}

// drills are the marks inside: points, or the middles of circles and crosses.
func (p *placer) drills(o *pattern.Outline) {
	at := p.s.dots[drillLayer]
	for _, l := range p.s.lines[drillLayer] {
		c := centre(l.points)
		if k := len(at) - 1; k < 0 || at[k].sub(c).len() > onLine {
			at = append(at, c)
		}
	}
	for _, v := range at {
		o.Dots = append(o.Dots, p.point(v))
	}
}

func (p *placer) inner(o *pattern.Outline, l mark) {
	pts := make([]shape.Point, 0, len(l.points)+1)
	for _, v := range l.points {
		pts = append(pts, p.point(v))
	}
	if l.closed {
		pts = append(pts, pts[0])
	}
	o.Inner = append(o.Inner, pts)
}

// label is the name written at the first point of a line, if any is.
func (p *placer) label(key string, l mark) (string, bool) {
	for i, t := range p.q.labels {
		if t.layer == key && t.points[0].sub(l.points[0]).len() < 0.01 {
			p.q.labels = append(p.q.labels[:i:i], p.q.labels[i+1:]...)
			return t.text, t.text != ""
		}
	}
	return "", false
}

// edge takes a line as a stretch of an edge to finish; ok is false where none can be kept.
func (p *placer) edge(o *pattern.Outline, l mark, name string) bool {
	if p.open {
		return false
	}
	e := pattern.EdgePath{}
	e.Name, e.Halved = strings.CutSuffix(name, halfNote)
	for _, v := range l.points {
		e.Points = append(e.Points, p.point(v))
	}
	if p.frame.a*p.frame.d-p.frame.b*p.frame.c < 0 { // the garment stays on the left
		for i, k := 0, len(e.Points)-1; i < k; i, k = i+1, k-1 {
			e.Points[i], e.Points[k] = e.Points[k], e.Points[i]
		}
	}
	if e.Length() == 0 || e.Name == "" {
		return false
	}
	e.Turn = pattern.Turning(e.Points)
	if math.IsNaN(e.Turn) {
		return false
	}
	o.Edges = append(o.Edges, e)
	return true
}
