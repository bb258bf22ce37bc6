package answer

import (
	"slices"

	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// Hand is a layout whose pieces are moved by hand, on the open cloth in one layer. It
// says what is wrong with it as it lies; only one with nothing wrong is a layout.
type Hand struct {
	cloth   stash.ClothState
	layout  match.Layout
	gap     int64 // least distance between pieces
	usable  shape.Box
	kept    []shape.Ring // reserved already
	voice   say.Voice
	touched bool
}

// Clash is two outlines that lie over each other or too near.
type Clash struct {
	Piece int // of the layout
	Other int // of the layout, or −1 for what is reserved or the cloth's edge
	Ring  shape.Ring
	Deep  measure.Length // 0 where they only lie too near
	Words string
}

// NewHand takes a layout in hand. The layout given stays as it is.
func NewHand(v say.Voice, c stash.ClothState, l match.Layout, clearance, endLoss measure.Length) *Hand {
	h := &Hand{cloth: c, layout: l, gap: int64(clearance), usable: c.Cloth.Usable(c.Fabric, endLoss), voice: v}
	h.layout.Pieces = slices.Clone(l.Pieces)
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			h.kept = append(h.kept, p.Outline)
		}
	}
	return h
}

// Touched says whether a piece was moved at all.
func (h *Hand) Touched() bool { return h.touched }

// Layout is the layout as it lies now.
func (h *Hand) Layout() match.Layout { return h.layout }

// Move moves a piece, and a little further where that sets it clear: at most a
// centimetre, the least that does.
func (h *Hand) Move(i int, by shape.Point) {
	h.shift(i, by)
	if len(h.wrong(i)) == 0 {
		return
	}
	const fine, most = 1000, 10_000 // µm
	for far := int64(fine); far <= most; far += fine {
		for _, d := range []shape.Point{{X: far}, {X: -far}, {Y: far}, {Y: -far}, {X: far, Y: far}, {X: far, Y: -far}, {X: -far, Y: far}, {X: -far, Y: -far}} {
			h.shift(i, d)
			if len(h.wrong(i)) == 0 {
				return
			}
			h.shift(i, shape.Point{X: -d.X, Y: -d.Y})
		}
	}
}

// shift moves a piece exactly so far. Once a piece is moved the cloth lies open.
func (h *Hand) shift(i int, by shape.Point) {
	p := &h.layout.Pieces[i]
	p.Outline = p.Outline.Move(by)
	p.Place.At = p.Place.At.Add(by)
	h.open()
}

// open says that the cloth lies in one layer now.
func (h *Hand) open() {
	h.touched = true
	f := &h.layout.Frame
	f.Length, f.Width = measure.Length(h.usable.Length()), measure.Length(h.usable.Width())
	f.Origin, f.Folds = h.usable.Min, nil
	for i := range h.layout.Pieces {
		h.layout.Pieces[i].Layer = 0
	}
}

// Turn turns a piece end for end about its middle, where the fabric allows that: alone
// where its direction is either way, all together where it is one way within a garment.
// False where it has a direction for everything.
func (h *Hand) Turn(i int) bool {
	switch h.cloth.Fabric.Direction {
	case stash.EitherWay:
		h.turn(i)
	case stash.SameWayInGarment:
		for k := range h.layout.Pieces {
			h.turn(k)
		}
	default:
		return false
	}
	h.open()
	return true
}

// turn turns a piece by 180° about the middle of its box, which is exact.
func (h *Hand) turn(i int) {
	p := &h.layout.Pieces[i]
	b := p.Outline.Bounds()
	twice := b.Min.Add(b.Max)
	p.Outline = shape.Placement{Angle: shape.Turn180, At: twice}.Apply(p.Outline)
	p.Place.Angle = (p.Place.Angle + shape.Turn180).Norm()
	p.Place.At = twice.Sub(p.Place.At)
}

// Wrong lists everything that is wrong with the layout as it lies; each pair once.
func (h *Hand) Wrong() []Clash {
	var out []Clash
	for i := range h.layout.Pieces {
		for _, c := range h.wrong(i) {
			if c.Other < i {
				out = append(out, c)
			}
		}
	}
	return out
}

// WrongAt is Wrong for one piece held that far from its place.
func (h *Hand) WrongAt(i int, by shape.Point) []Clash {
	held := h.layout.Pieces[i].Outline
	h.layout.Pieces[i].Outline = held.Move(by)
	out := h.wrong(i)
	h.layout.Pieces[i].Outline = held
	return out
}

// wrong lists what is wrong with one piece.
func (h *Hand) wrong(i int) []Clash {
	p := h.layout.Pieces[i]
	var out []Clash
	if !h.onCloth(p.Outline) {
		out = append(out, Clash{Piece: i, Other: -1, Words: p.Name + " reaches beyond what can be cut"})
	}
	for k, q := range h.layout.Pieces {
		if k != i {
			out = h.against(out, i, k, q.Outline, q.Name)
		}
	}
	for _, r := range h.kept {
		out = h.against(out, i, -1, r, "what is reserved")
	}
	return out
}

func (h *Hand) against(out []Clash, i, k int, r shape.Ring, name string) []Clash {
	p := h.layout.Pieces[i]
	if !p.Outline.Bounds().Grown(h.gap).Meets(r.Bounds()) || shape.Clear(p.Outline, r, h.gap) {
		return out
	}
	c := Clash{Piece: i, Other: k, Ring: r, Deep: measure.Length(shape.Depth(p.Outline, r))}
	c.Words = p.Name + " is nearer than " + h.voice.Fine(measure.Length(h.gap)) + " to " + name
	if c.Deep > 0 {
		c.Words = p.Name + " lies " + h.voice.Fine(c.Deep) + " over " + name
	}
	return append(out, c)
}

// onCloth says whether a piece lies on what can be cut: within the selvedges and raw
// ends, and within the outline of a leftover.
func (h *Hand) onCloth(r shape.Ring) bool {
	b := r.Bounds()
	u := h.usable
	if b.Min.X < u.Min.X || b.Min.Y < u.Min.Y || b.Max.X > u.Max.X || b.Max.Y > u.Max.Y {
		return false
	}
	return h.cloth.Cloth.Plain() || shape.Inside(r, h.cloth.Cloth.Outline)
}
