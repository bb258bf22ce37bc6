package drawn

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// seen is what was recognised on the outline of a piece in one size, in the frame of the drawing.
type seen struct {
	shape  int
	where  place
	code   string
	ring   shape.Ring
	grains []grainLine
	grain  int // the one taken, −1 for none
	marks  []nick
	kinds  []MarkKind // of marks
	on     []int      // all that is drawn on it
	fold   *foldSign
}

// recognise looks at everything drawn on a piece.
func (b *builder) recognise(i int, on []int, words map[int]foldSign) seen {
	at := b.at[i]
	s := seen{shape: i, where: at, code: b.pieces[at.piece].Code, ring: b.drawing.Shapes[i].Ring, grain: -1, on: on}
	if b.choice.OnlyLines {
		return s
	}
	taken := map[int]bool{}
	if f, ok := b.foldSign(i, on, s.ring, words); ok {
		s.fold = &f
		for _, k := range f.shapes {
			taken[k] = true
		}
	}
	s.grains = b.grains(s.ring, on)
	s.chooseGrain(b.choice.Grain[s.code])
	if s.grain >= 0 {
		g := s.grains[s.grain]
		taken[g.shape] = true
		for _, h := range g.heads {
			taken[h] = true
		}
	}
	notches, dots := cutNotches(s.ring), []nick(nil)
	for _, k := range on {
		if taken[k] {
			continue
		}
		f := b.drawing.Shapes[k]
		if n, ok := strokeNotch(f, s.ring); ok {
			n.shapes = []int{k}
			notches, taken[k] = append(notches, n), true
		} else if n, ok := roundDot(f); ok {
			n.shapes = []int{k}
			dots, taken[k] = append(dots, n), true
		}
	}
	dots = append(dots, b.crossDots(on, taken)...)
	clockwise(notches, s.ring)
	notches = paired(notches)
	clockwise(notches, s.ring)
	clockwise(dots, s.ring)
	for _, n := range notches {
		s.marks, s.kinds = append(s.marks, n), append(s.kinds, NotchMark)
	}
	for _, n := range dots {
		s.marks, s.kinds = append(s.marks, n), append(s.kinds, DotMark)
	}
	return s
}

// chooseGrain takes the line that was said to be the grain line, else the likeliest that is likely at all.
func (s *seen) chooseGrain(w GrainWish) {
	switch {
	case w.Way != AsDrawn || len(s.grains) == 0:
	case w.Line > 0:
		if w.Line <= len(s.grains) {
			s.grain = w.Line - 1
		}
	case s.grains[0].rank > onlyLine:
		s.grain = 0
	}
}

// name is that of the k-th of the marks, which are counted by their kind.
func (s *seen) name(k int) MarkName {
	n := 1
	for i := range k {
		if s.kinds[i] == s.kinds[k] {
			n++
		}
	}
	return MarkName{s.code, s.kinds[k], n}
}

// direction is which way the grain runs on a piece in the frame of the drawing: foot and top; ok is false
// where nothing tells.
func (b *builder) direction(s *seen) (foot, top shape.Point, ok bool) {
	box := s.ring.Bounds()
	mid := middleOf(box.Min, box.Max)
	wish := b.choice.Grain[s.code]
	up := wish.Way == UpPage
	switch {
	case s.grain >= 0:
		foot, top = s.grains[s.grain].topEnd(wish.Turn)
		return foot, top, true
	case wish.Way == AcrossP:
		foot, top = shape.Point{X: mid.X, Y: mid.Y + box.Width()/4}, shape.Point{X: mid.X, Y: mid.Y - box.Width()/4}
	default:
		foot, top = shape.Point{X: mid.X + box.Length()/4, Y: mid.Y}, shape.Point{X: mid.X - box.Length()/4, Y: mid.Y}
	}
	if wish.Turn {
		foot, top = top, foot
	}
	return foot, top, up || wish.Way == AcrossP
}

// finish makes the outline of a piece in a size of what was recognised on it, turned so that its grain runs
// as pattern pieces have it.
func (b *builder) finish(s *seen, foot, top shape.Point, found bool) {
	o := pattern.Outline{Cut: s.ring}
	used := map[int]bool{}
	if s.grain >= 0 {
		g := s.grains[s.grain]
		used[g.shape] = true
		for _, h := range g.heads {
			used[h] = true
		}
	}
	first := len(b.marks)
	for i, g := range s.grains {
		b.marks = append(b.marks, grainMark(g, MarkName{s.code, GrainMark, i + 1}, s.where.size, i == s.grain))
	}
	if s.fold != nil {
		m := Mark{MarkName: MarkName{s.code, FoldMark, 1}, Size: s.where.size, Why: s.fold.why, At: s.fold.at}
		m.On = !b.choice.Plain[m.MarkName]
		b.marks = append(b.marks, m)
		for _, k := range s.fold.shapes {
			used[k] = used[k] || m.On
		}
	}
	for k, n := range s.marks {
		b.marks = append(b.marks, b.mark(s, k, n, &o, used))
	}
	for _, i := range s.on {
		if f := b.drawing.Shapes[i]; !used[i] {
			line := slices.Clone(f.points())
			if f.Ring != nil {
				line = append(line, line[0])
			}
			o.Inner = append(o.Inner, line)
		}
	}
	b.pieces[s.where.piece].Outlines[s.where.size] = turnedTo(o, foot, top, found, b.marks[first:])
}

// mark puts a notch or dot on the outline, unless the person said that it is none.
func (b *builder) mark(s *seen, k int, n nick, o *pattern.Outline, used map[int]bool) Mark {
	m := Mark{MarkName: s.name(k), Size: s.where.size, Why: n.why, At: n.at, Double: n.double}
	if m.On = !b.choice.Plain[m.MarkName]; m.On && n.cut != nil {
		var ok bool
		cut := o.Cut
		if o.Cut, ok = without(cut, n.cut); !ok {
			o.Cut, m.On = cut, false
		}
	}
	if !m.On {
		return m
	}
	for _, i := range n.shapes {
		used[i] = true
	}
	if m.Kind == DotMark {
		o.Dots = append(o.Dots, n.at)
		return m
	}
	kind := "single"
	if n.double {
		kind = "double"
	}
	o.Notches = append(o.Notches, pattern.Notch{At: pattern.Onto(o.Cut, n.at), Kind: kind})
	return m
}

// upright is how far the ends of a grain line up the page may lie beside each other, by its length, and
// the piece still be left as drawn.
const upright = 0.0002

// turnedTo moves an outline to the origin, turned so that its grain runs along x with the top end towards
// −x, and the marks with it.
func turnedTo(o pattern.Outline, foot, top shape.Point, found bool, marks []Mark) pattern.Outline {
	if d := top.Sub(foot); d.X < 0 && math.Abs(float64(d.Y)) <= upright*math.Abs(float64(d.X)) {
		top.Y = foot.Y
	}
	dots := len(o.Dots)
	for _, m := range marks {
		o.Dots = append(o.Dots, m.At)
	}
	o.GrainFoot, o.GrainTop = foot, top
	turned, err := pattern.SetGrain(foot, top)(o)
	if err != nil { // a line without length, which no grain line is
		return o
	}
	for i := range marks {
		marks[i].At = turned.Dots[dots+i]
	}
	turned.Dots = turned.Dots[:dots:dots]
	for i, n := range turned.Notches { // rounding may have left them beside the line
		turned.Notches[i].At = pattern.Onto(turned.Cut, n.At)
	}
	if dots == 0 {
		turned.Dots = nil
	}
	return turned
}

// finishAll makes the outlines of all pieces; a size whose drawing has no grain line takes the direction of
// another size of the piece.
func (b *builder) finishAll(all []seen) {
	type way struct{ foot, top shape.Point }
	known := map[int]way{}
	for i := range all {
		if foot, top, ok := b.direction(&all[i]); ok {
			if _, is := known[all[i].where.piece]; !is {
				known[all[i].where.piece] = way{foot, top}
			}
		}
	}
	for i := range all {
		s := &all[i]
		foot, top, ok := b.direction(s)
		if w, is := known[s.where.piece]; !ok && is {
			mid, by := middleOf(foot, top), middleOf(w.foot, w.top)
			foot, top, ok = w.foot.Add(mid.Sub(by)), w.top.Add(mid.Sub(by)), true
		}
		b.finish(s, foot, top, ok)
	}
	b.folds()
	var none []string
	for i, q := range b.pieces {
		if _, is := known[i]; !is {
			none = append(none, q.Name)
		}
	}
	b.grainless(none)
}

// grainless tells which pieces have no grain line.
func (b *builder) grainless(names []string) {
	const do = "Turn pieces in the editor, or set the grain, where it does not."
	switch {
	case len(names) == 0:
	case len(names) == len(b.pieces):
		b.warn(Grain, "", "the grain of every piece is taken to run up the page", do)
	default:
		const most = 6
		text := strings.Join(names[:min(most, len(names))], ", ")
		if len(names) > most {
			text += fmt.Sprintf(" and %d more", len(names)-most)
		}
		b.warn(Grain, "", "no grain line was recognised on "+text+", so the grain is taken to run up the page there", do)
	}
}

// touched is the piece whose edge a small shape outside of it touches, −1 for none.
func (b *builder) touched(f Found) int {
	pts := f.points()
	if len(pts) > 8 || b.choice.OnlyLines || span(pts) > notchMost {
		return -1
	}
	box := shape.Ring(pts).Bounds().Grown(onEdge)
	for i := range b.drawing.Shapes {
		g := b.drawing.Shapes[i]
		if _, piece := b.at[i]; !piece || !together(f, g) || !b.boxes[i].Meets(box) {
			continue
		}
		if _, ok := strokeNotch(f, g.Ring); ok {
			return i
		}
	}
	return -1
}

// Recognised says in a few words what was taken for marks on a piece in a size: "grain line, 4 notches".
func Recognised(marks []Mark, piece, size string) string {
	count := map[MarkKind]int{}
	for _, m := range marks {
		if m.On && m.Piece == piece && m.Size == size {
			count[m.Kind]++
		}
	}
	var words []string
	for _, k := range []MarkKind{FoldMark, GrainMark, NotchMark, DotMark} {
		switch n := count[k]; {
		case (k == GrainMark || k == FoldMark) && n > 0:
			words = append(words, string(k))
		case n == 1:
			words = append(words, "1 "+string(k))
		case n > 1 && k == NotchMark:
			words = append(words, fmt.Sprintf("%d notches", n))
		case n > 1:
			words = append(words, fmt.Sprintf("%d %ss", n, k))
		}
	}
	return strings.Join(words, ", ")
}
