package match

import (
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Hand is a layout in a person's hands: pieces are moved and turned, kept in place or let
// go, and each step can be taken back. The cloth lies as the layout found it: on folded
// cloth both layers of a pair move together. Nothing is refused while moving; Faults
// says what does not hold. It is for one goroutine.
type Hand struct {
	q          *Question
	c          stash.ClothState
	now        held
	past, next []held
}

// held is a layout at one moment. Its slices are never changed once it is in the past.
type held struct {
	layout Layout
	keep   []bool // by piece: stays where it lies when the search goes on
	said   string // what was done to come here
	nudged int    // the piece that was moved in small steps to come here, from one; 0 for none
}

// NewHand takes a layout on a cloth in hand. The layout given stays as it is.
func (q *Question) NewHand(c stash.ClothState, l Layout) *Hand {
	if len(l.Pieces) == 0 {
		l.StripParts = q.stripsAmong(c)
	}
	o := q.onOpen(c, l)
	l.Frame = o.frame()
	l.Pieces = slices.Clone(l.Pieces)
	return &Hand{q: q, c: c, now: held{layout: l, keep: make([]bool, len(l.Pieces))}}
}

// Cloth is the cloth that the layout lies on.
func (h *Hand) Cloth() stash.ClothState { return h.c }

// Touched says whether anything was done that could be taken back.
func (h *Hand) Touched() bool { return len(h.past) > 0 }

// Layout is the layout as it lies now.
func (h *Hand) Layout() Layout {
	l := h.now.layout
	if len(h.past) == 0 {
		return l
	}
	if r, err := h.q.replay(h.c, l, nil, h.q.onOpen(h.c, l).u.length, fits); err == nil {
		l.Instance, l.Solution = r.in, r.start
	}
	return l
}

// Kept says whether a piece is kept in place.
func (h *Hand) Kept(i int) bool { return h.now.keep[i] }

// KeptCount is how many pieces are kept in place.
func (h *Hand) KeptCount() int {
	n := 0
	for _, k := range h.now.keep {
		if k {
			n++
		}
	}
	return n
}

// Faults says what does not hold in the layout as it lies.
func (h *Hand) Faults() []Fault { return h.q.Faults(h.c, h.now.layout) }

// Verdict is the verdict that the layout as it lies proves; it is only one without faults.
func (h *Hand) Verdict() Verdict { return h.q.Proved(h.c, h.Layout()) }

// step begins a change: the layout as it lies goes into the past.
func (h *Hand) step(said string) {
	h.past, h.next = append(h.past, h.now), nil
	h.now.layout.Pieces, h.now.keep, h.now.said, h.now.nudged = slices.Clone(h.now.layout.Pieces), slices.Clone(h.now.keep), said, 0
}

// Undo gives back the layout before the last step and says what that was; false where
// nothing is to be taken back.
func (h *Hand) Undo() (string, bool) {
	if len(h.past) == 0 {
		return "", false
	}
	said := h.now.said
	h.next = append(h.next, h.now)
	h.now, h.past = h.past[len(h.past)-1], h.past[:len(h.past)-1]
	return said, true
}

// Redo does again what was taken back last.
func (h *Hand) Redo() (string, bool) {
	if len(h.next) == 0 {
		return "", false
	}
	h.past = append(h.past, h.now)
	h.now, h.next = h.next[len(h.next)-1], h.next[:len(h.next)-1]
	return h.now.said, true
}

// Replace puts another layout of the same pieces in its place, as a step.
func (h *Hand) Replace(l Layout, keep []bool, said string) {
	h.step(said)
	h.now.layout = l
	h.now.layout.Pieces = slices.Clone(l.Pieces)
	h.now.keep = make([]bool, len(l.Pieces))
	copy(h.now.keep, keep)
}

// Keep keeps a piece in place, both layers of a pair, or lets it go.
func (h *Hand) Keep(i int, keep bool) {
	said := "kept " + h.now.layout.Pieces[i].Name + " in place"
	if !keep {
		said = "let " + h.now.layout.Pieces[i].Name + " go"
	}
	h.step(said)
	h.setKeep(h.q.onOpen(h.c, h.now.layout), i, keep)
}

func (h *Hand) setKeep(o *opened, i int, keep bool) {
	h.now.keep[i] = keep
	if k := o.pair[i]; k >= 0 {
		h.now.keep[k] = keep
	}
}

// Move moves a piece, and a little further where that sets it clear: at most a
// centimetre, the least that does. What lies on the fold is drawn back onto it from as
// near. The piece is kept in place from then on.
func (h *Hand) Move(i int, by shape.Point) {
	h.step("moved " + h.now.layout.Pieces[i].Name)
	h.move(i, by, settleMost)
}

// Nudge is Move for the small steps of a key: it sets clear by 3 mm at most, so that a
// piece can be led past others, and steps of one piece in a row are taken back together.
func (h *Hand) Nudge(i int, by shape.Point) {
	if h.now.nudged != i+1 {
		h.step("moved " + h.now.layout.Pieces[i].Name)
	}
	h.next = nil
	h.move(i, by, settleNudge)
	h.now.nudged = i + 1
}

// move moves a piece in the layout as it lies, settling it as far as most.
func (h *Hand) move(i int, by shape.Point, most int64) {
	o := h.q.onOpen(h.c, h.now.layout)
	h.setKeep(o, i, true)
	o.shift(i, by)
	along := o.snap(i)
	o.brief = true
	if len(o.unit(i)) == 0 {
		return
	}
	for far := int64(settleFine); far <= most; far += settleFine {
		for _, d := range around(far, along) {
			o.shift(i, d)
			if len(o.unit(i)) == 0 {
				return
			}
			o.shift(i, shape.Point{X: -d.X, Y: -d.Y})
		}
	}
}

// A piece let go is set clear in steps of a millimetre, by a centimetre at most, and one
// moved by a key by 3 mm.
const settleFine, settleMost, settleNudge = 1000, 10_000, 3000

// around are the eight ways to go so far, or the two along the cloth.
func around(far int64, along bool) []shape.Point {
	out := []shape.Point{{X: far}, {X: -far}}
	if along {
		return out
	}
	return append(out, shape.Point{Y: far}, shape.Point{Y: -far}, shape.Point{X: far, Y: far}, shape.Point{X: far, Y: -far}, shape.Point{X: -far, Y: far}, shape.Point{X: -far, Y: -far})
}

// shift moves a piece exactly so far, and the other layer of a pair as the fold turns it over.
func (o *opened) shift(i int, by shape.Point) {
	move := func(k int, by shape.Point) {
		p := &o.pieces[k]
		p.Outline, p.Place.At = p.Outline.Move(by), p.Place.At.Add(by)
	}
	move(i, by)
	if k := o.pair[i]; k >= 0 {
		move(k, shape.Point{X: by.X, Y: -by.Y})
	}
}

// unit lists what is wrong with a piece where it lies, and with the other layer of a pair.
func (o *opened) unit(i int) []Fault {
	out := o.of(i)
	if k := o.pair[i]; k >= 0 {
		out = append(out, o.of(k)...)
	}
	return out
}

// snap draws a piece on the fold back onto the fold where that is near, and says whether
// the piece lies on one.
func (o *opened) snap(i int) bool {
	if !o.onFold(o.parts[i]) {
		return false
	}
	y := o.laid(o.pieces[i]).At.Y
	lines := []int64{0}
	if o.b.second > 0 {
		lines = append(lines, o.b.laidWidth())
	}
	for _, line := range lines {
		if d := line - y; d >= -settleMost && d <= settleMost {
			o.shift(i, shape.Point{Y: d})
			return true
		}
	}
	return false
}

// FaultsAt is what would be wrong with a piece held that far from its place.
func (h *Hand) FaultsAt(i int, by shape.Point) []Fault {
	l := h.now.layout
	l.Pieces = slices.Clone(l.Pieces)
	o := h.q.onOpen(h.c, l)
	o.shift(i, by)
	o.snap(i)
	return o.of(i)
}

// Turn turns a piece end for end about its middle, where the fabric allows that: alone
// where its direction is either way, all together where it is one way within a garment.
// The piece is kept in place from then on. False where the fabric has one direction for
// everything, and for strips, which look the same.
func (h *Hand) Turn(i int) bool {
	o := h.q.onOpen(h.c, h.now.layout)
	d := h.c.Fabric.Direction
	if o.parts[i] == nil || d == stash.SameWayForAll {
		return false
	}
	h.step("turned " + h.now.layout.Pieces[i].Name)
	if d == stash.SameWayInGarment {
		h.now.said = "turned all pattern pieces"
	}
	o = h.q.onOpen(h.c, h.now.layout)
	for k := range o.pieces {
		if o.parts[k] != nil && (k == i || k == o.pair[i] || d == stash.SameWayInGarment) {
			turnEnd(&o.pieces[k])
		}
	}
	h.setKeep(o, i, true)
	return true
}

// turnEnd turns a piece by 180° about the middle of its box, which is exact.
func turnEnd(p *PlacedPiece) {
	b := p.Outline.Bounds()
	twice := b.Min.Add(b.Max)
	p.Outline = shape.Placement{Angle: shape.Turn180, At: twice}.Apply(p.Outline)
	p.Place.Angle = (p.Place.Angle + shape.Turn180).Norm()
	p.Place.At = twice.Sub(p.Place.At)
}

// Folded says whether the cloth lies folded.
func (h *Hand) Folded() bool { return len(h.now.layout.Frame.Folds) > 0 }

// OpenOut opens folded cloth out: every piece stays where it lies, but pieces on the fold
// and the layers of pairs are cut from one layer from then on, and each may be moved alone.
func (h *Hand) OpenOut() {
	if !h.Folded() {
		return
	}
	h.step("opened the cloth out")
	h.now.layout.Frame.Folds = nil
	for i := range h.now.layout.Pieces {
		h.now.layout.Pieces[i].Layer = 0
	}
	h.now.layout.Frame = h.q.onOpen(h.c, h.now.layout).frame()
}

// Length is the length that the layout takes, from where cutting may begin to its far end.
func (h *Hand) Length() measure.Length { return h.q.LengthOf(h.c, h.now.layout) }

// LengthOf is the length that a layout takes, from where cutting may begin to its far end.
func (q *Question) LengthOf(c stash.ClothState, l Layout) measure.Length {
	from, end := usableOf(c, q.ask.EndLoss).box.Min.X, int64(0)
	for _, p := range l.Pieces {
		end = max(end, p.Outline.Bounds().Max.X-from)
	}
	return measure.Length(end)
}
