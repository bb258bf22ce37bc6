package adjust

import (
	"fmt"
	"maps"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// body is a pattern piece in one size while it is adjusted.
type body struct {
	pattern.Piece
	o         pattern.Outline
	seam, hem int64            // allowances inside the outline
	levels    map[string]int64 // depths of the levels that it has
}

// bodyOf takes a pattern piece in a size in hand, with copies of what may change.
func bodyOf(p pattern.Pattern, q pattern.Piece, size string) *body {
	b := &body{Piece: q, o: copied(q.Outlines[size])}
	if !q.WithoutAllowance {
		b.seam, b.hem = int64(p.SeamAllowance), int64(p.HemAllowance)
	}
	b.levels = LevelsOf(p, q, size)
	return b
}

func copied(o pattern.Outline) pattern.Outline {
	o.Cut = slices.Clone(o.Cut)
	o.Notches, o.Dots, o.MatchMarks = slices.Clone(o.Notches), slices.Clone(o.Dots), slices.Clone(o.MatchMarks)
	o.Inner, o.Edges = slices.Clone(o.Inner), slices.Clone(o.Edges)
	for i := range o.Inner {
		o.Inner[i] = slices.Clone(o.Inner[i])
	}
	for i := range o.Edges {
		o.Edges[i].Points = slices.Clone(o.Edges[i].Points)
	}
	return o
}

// copy is the piece as it is now, to go back to or to compare with.
func (b *body) copy() *body {
	c := *b
	c.o, c.levels = copied(b.o), maps.Clone(b.levels)
	return &c
}

// called names the piece in a sentence.
func (b *body) called() string { return b.Code + " " + b.Name }

// sleeve says whether the piece is set into an armhole.
func (b *body) sleeve() bool { return len(paths(b.o, "cap")) > 0 }

// depth is where a place lies on the piece.
func (b *body) depth(p Place) (int64, bool) {
	x, ok := b.levels[p.Level]
	return x + int64(p.Below), ok
}

// mustDepth is depth with a sentence where there is none.
func (b *body) mustDepth(p Place) (int64, error) {
	x, ok := b.depth(p)
	if !ok {
		return 0, invalid(fmt.Sprintf("%s has no %s that can be told from its outline", b.called(), p.Level),
			"Say it from another level, such as 20 cm below the top.")
	}
	return x, nil
}

// set keeps a changed cutting line; it refuses one that crosses itself.
func (b *body) set(cut shape.Ring, do string) error {
	cut = cut.Clean()
	if err := cut.Validate(); err != nil {
		return invalid("the outline of "+b.called()+" would cross itself", do)
	}
	if b.OnFold && !pattern.HasFoldEdge(cut) {
		return invalid("the outline of "+b.called()+" would reach over its fold", do)
	}
	b.o.Cut = cut
	return nil
}

// turned works the turning of every edge out again.
func (b *body) turned() {
	for i := range b.o.Edges {
		b.o.Edges[i].Turn = pattern.Turning(b.o.Edges[i].Points)
	}
}

// onCut is how far a notch may lie off the cutting line, as package pattern has it.
const onCut = 500

// settle drops notches that were cut off, and says which.
func (b *body) settle() []string {
	var out []string
	ring := append(line(slices.Clone(b.o.Cut)), b.o.Cut[0])
	b.o.Notches = slices.DeleteFunc(b.o.Notches, func(n pattern.Notch) bool {
		if ring.distance(n.At) <= onCut {
			return false
		}
		out = append(out, "A notch of "+b.called()+" was cut off. Mark it again.")
		return true
	})
	b.turned()
	return out
}

// sideLeast is how long a side seam is at least; what is narrower is a band or a pocket (ours).
const sideLeast = int64(10 * measure.Centimetre)

// sides are the seams that a take-in changes, as places among the runs of the cutting line:
// those that go by a name, else the outer edge of a half, or both of a piece that is
// its own mirror image.
func (b *body) sides(all []line, seam string) []int {
	var out []int
	name := seam
	if name == "" {
		name = "side"
	}
	for _, e := range paths(b.o, name) {
		if k := nearest(all, line(e.Points).middle()); k >= 0 && !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	if len(out) > 0 || seam != "" {
		return out
	}
	if b.sleeve() {
		return nil
	}
	box := b.o.Cut.Bounds()
	x := box.Min.X + box.Length()*6/10
	ys := Crossings(b.o.Cut, x)
	if len(ys) < 2 {
		return nil
	}
	switch {
	case b.OnFold:
		out = []int{nearest(all, shape.Point{X: x, Y: ys[len(ys)-1]})}
	case mirrors(b.o.Cut):
		out = []int{nearest(all, shape.Point{X: x, Y: ys[0]}), nearest(all, shape.Point{X: x, Y: ys[len(ys)-1]})}
	case straightAt(b.o.Cut, x, ys[0]):
		out = []int{nearest(all, shape.Point{X: x, Y: ys[len(ys)-1]})}
	case straightAt(b.o.Cut, x, ys[len(ys)-1]):
		out = []int{nearest(all, shape.Point{X: x, Y: ys[0]})}
	}
	return slices.DeleteFunc(out, func(k int) bool {
		top, foot := all[k].depths()
		return foot-top < sideLeast
	})
}

// straightAt says whether the cutting line runs along the grain there: a centre seam.
func straightAt(r shape.Ring, x, y int64) bool {
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if (p.X <= x) != (q.X <= x) && between(p, q, x) == y {
			return p.Y == q.Y && max(p.X-q.X, q.X-p.X) >= sideLeast
		}
	}
	return false
}

// mirrors says whether a ring is its own mirror image about its middle, to ½ mm.
func mirrors(r shape.Ring) bool {
	box := r.Bounds()
	ring := append(line(slices.Clone(r)), r[0])
	for _, p := range r {
		if ring.distance(shape.Point{X: p.X, Y: box.Min.Y + box.Max.Y - p.Y}) > onCut {
			return false
		}
	}
	return true
}
