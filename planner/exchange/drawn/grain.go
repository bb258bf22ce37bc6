package drawn

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// grainLine is a straight line on a piece that may be its grain line.
type grainLine struct {
	stretch
	shape int
	heads []int // shapes that are its arrow heads
	rank  int
	why   string
}

// How likely a straight line is the grain line.
const (
	onlyLine = iota
	longLine
	arrowLine
	namedLine
)

// grains are the straight lines among shapes on a piece, the likeliest first.
func (b *builder) grains(ring shape.Ring, on []int) []grainLine {
	var out []grainLine
	for _, i := range on {
		f := b.drawing.Shapes[i]
		s, ok := straightIn(f)
		a, fold := bentArrow(f, ring)
		if fold {
			s, ok = a.shaft, true
			s.heads = [2]bool{true, true}
		}
		if !ok || s.length < grainLeast {
			continue
		}
		g := grainLine{stretch: s, shape: i}
		b.addHeads(&g, on)
		g.judge(f, ring)
		if fold {
			g.why = "the shaft of a bent arrow at the fold"
		}
		out = append(out, g)
	}
	slices.SortStableFunc(out, func(x, y grainLine) int {
		return cmp.Or(-cmp.Compare(x.rank, y.rank), -cmp.Compare(x.length, y.length))
	})
	return out
}

// judge says how likely a line is the grain line, and why.
func (g *grainLine) judge(f Found, ring shape.Ring) {
	arrow := g.stretch.heads[0] || g.stretch.heads[1]
	down, over := math.Abs(float64(g.b.X-g.a.X)), math.Abs(float64(g.b.Y-g.a.Y))
	ends := min(offRing(ring, g.a), offRing(ring, g.b))
	switch {
	case saysGrain(f):
		g.rank, g.why = namedLine, "a straight line named grain"
	case arrow:
		g.rank, g.why = arrowLine, "a straight line with an arrow head"
	case f.Ring == nil && f.Line.Dash == "" && g.length >= plainLeast && down > over && ends >= clearEdge:
		g.rank, g.why = longLine, "the longest straight line up the piece that ends clear of its edge"
	default:
		g.why = "a straight line"
	}
}

// saysGrain says whether a line or a group it lies in is named as the grain.
func saysGrain(f Found) bool {
	for _, name := range append([]string{f.Name}, f.Group...) {
		if strings.Contains(strings.ToLower(name), "grain") {
			return true
		}
	}
	return false
}

// addHeads looks for arrow heads at the ends of a line: strokes or a small area.
func (b *builder) addHeads(g *grainLine, on []int) {
	for _, i := range on {
		if i == g.shape || b.drawing.Shapes[i].Length > 4*headMost {
			continue
		}
		f := b.drawing.Shapes[i]
		for e, ends := range [2][2]shape.Point{{g.a, g.b}, {g.b, g.a}} {
			if headOn(f, ends[0], ends[1], g.length) {
				g.heads = append(g.heads, i)
				g.stretch.heads[e] = true
				break
			}
		}
	}
}

// headOn says whether a shape is an arrow head at the end of a line. An area may reach past the end: a line
// is often drawn no farther than into its head.
func headOn(f Found, tip, foot shape.Point, length float64) bool {
	if f.Ring == nil {
		near := false
		for _, p := range f.Open {
			near = near || apart(p, tip) <= 1_000
		}
		return near && headAt(tip, foot, f.Open, length)
	}
	if box := f.Ring.Bounds(); max(box.Length(), box.Width()) > headMost || !(f.Ring.Contains(tip) || offRing(f.Ring, tip) <= 1_000) {
		return false
	}
	first, last, side := math.Inf(1), math.Inf(-1), 0.0
	for _, p := range f.Ring {
		x, y := alongLine(tip, foot, p)
		first, last, side = min(first, x), max(last, x), max(side, math.Abs(y))
	}
	return last-first >= markLeast && last < length/2 && side > 0.1*(last-first)
}

// topEnd orders the ends of a grain line: with one arrow head that is the top, else the upper end, of a
// level line the left one.
func (g grainLine) topEnd(turn bool) (foot, top shape.Point) {
	foot, top = g.a, g.b
	d := top.Sub(foot)
	level := math.Abs(float64(d.X)) <= math.Abs(float64(d.Y))*0.01
	switch {
	case g.stretch.heads[0] != g.stretch.heads[1]:
		if g.stretch.heads[0] {
			foot, top = top, foot
		}
	case !level && d.X > 0 || level && d.Y > 0:
		foot, top = top, foot
	}
	if turn {
		foot, top = top, foot
	}
	return foot, top
}

// grainMark is the mark of a grain line.
func grainMark(g grainLine, name MarkName, size string, on bool) Mark {
	return Mark{MarkName: name, Size: size, Why: g.why, On: on, At: middleOf(g.a, g.b), Length: measure.Length(math.Round(g.length))}
}

func middleOf(a, b shape.Point) shape.Point {
	return shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
}
