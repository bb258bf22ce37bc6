package match

import (
	"cmp"
	"slices"

	"tallycloth/planner/nest"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Faults checks a layout on a cloth as a whole, whoever laid it: by the outlines as
// they will be cut, on the open cloth, and by how the layout's frame says the cloth
// lies. It looks at each rule by itself and lists all that is broken, by pattern piece:
//
//   - every pattern piece is there as often as it is cut, with its own outline;
//   - it lies within what can be cut, off flaws and off what is reserved, and over
//     nothing else;
//   - its grain line lies as the piece asks, and it points as the fabric's direction allows;
//   - on folded cloth a fold edge lies on a fold, and what is cut double lies on double
//     cloth, its two layers on each other;
//   - of a mirrored pair each face is there as often as asked;
//   - match marks meet the print repeat;
//   - the clearance is kept. Across a fold pieces may touch, as the layers only do when
//     the cloth lies open.
//
// A layout without faults is checked once more by the engine's own check. Nothing here
// is rounded: places are whole µm.
func (q *Question) Faults(c stash.ClothState, l Layout) []Fault {
	o := q.onOpen(c, l)
	var out []Fault
	out = append(out, o.counts()...)
	out = append(out, o.strips()...)
	for i := range o.pieces {
		out = append(out, o.of(i)...)
	}
	out = append(out, o.faces()...)
	out = append(out, o.repeats()...)
	if len(out) == 0 && checkOpen(c, l.Pieces) != nil {
		out = append(out, Fault{Kind: Unproved, Piece: -1, Other: -1})
	}
	slices.SortStableFunc(out, func(a, b Fault) int { return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Kind, b.Kind)) })
	return out
}

// opened is a layout on its cloth as the rules look at it.
type opened struct {
	q        *Question
	c        stash.ClothState
	u        usable
	b        bed
	gap      int64
	scale    scale
	origin   shape.Point // of the laid frame
	pieces   []PlacedPiece
	parts    []*part // of each piece, nil for strips
	reserved []shape.Ring
	pair     []int // of each piece of a pair on folded cloth the other, else −1
	brief    bool  // only whether anything is wrong is asked, not how deep
}

// onOpen makes a layout ready to be looked at.
func (q *Question) onOpen(c stash.ClothState, l Layout) *opened {
	u := usableOf(c, q.ask.EndLoss)
	o := &opened{q: q, c: c, u: u, b: bedOf(u, c.Fabric), gap: int64(q.ask.Clearance), pieces: l.Pieces}
	o.b.turned, o.b.strips = l.Frame.Crosswise, l.StripParts
	if len(l.Frame.Folds) > 0 {
		o.b.fold = int64(l.Frame.Folds[0])
	}
	if len(l.Frame.Folds) > 1 {
		o.b.second = int64(l.Frame.Folds[1])
	}
	if c.Cloth.Plain() {
		o.origin = u.box.Min.Add(shape.Point{Y: o.b.fold})
	} else {
		o.scale = scale{u.dcLength, u.dcWid}
	}
	for _, p := range l.Pieces {
		o.parts = append(o.parts, q.partOf(p))
	}
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			o.reserved = append(o.reserved, p.Outline)
		}
	}
	o.findPairs()
	return o
}

// partOf is the pattern piece that a placed piece is a copy of; nil for a strip.
func (q *Question) partOf(p PlacedPiece) *part {
	for i := range q.parts {
		if q.parts[i].piece.Code == p.Piece && q.parts[i].piece.Name == p.Name {
			return &q.parts[i]
		}
	}
	return nil
}

// ring is the outline that a copy of a pattern piece has, whole, before it is placed.
func (o *opened) ring(p *part) shape.Ring {
	return sized(p.whole, baseAngle(p.piece.Grain, o.b), o.scale)
}

// onFold says whether a pattern piece lies with its half on a fold.
func (o *opened) onFold(p *part) bool {
	return p != nil && o.b.fold > 0 && p.half != nil && p.piece.Grain == pattern.Lengthwise
}

// laid is where a piece lies in the laid frame.
func (o *opened) laid(p PlacedPiece) shape.Placement {
	p.Place.At = p.Place.At.Sub(o.origin)
	return p.Place
}

// findPairs finds for each upper piece on folded cloth the lower one that it is the
// mirror image of about the fold.
func (o *opened) findPairs() {
	o.pair = make([]int, len(o.pieces))
	for i := range o.pair {
		o.pair[i] = -1
	}
	if o.b.fold == 0 {
		return
	}
	for i, low := range o.pieces {
		if low.Layer == 0 || o.parts[i] == nil {
			continue
		}
		place := o.laid(low)
		up := aboutFold(place, o.b, low.Outline.Move(shape.Point{X: -o.origin.X, Y: -o.origin.Y}).Bounds(), o.origin)
		for k, q := range o.pieces {
			if q.Layer == 0 && o.pair[k] < 0 && o.parts[k] == o.parts[i] && q.Place == up && !o.onFold(o.parts[k]) {
				o.pair[i], o.pair[k] = k, i
				break
			}
		}
	}
}

// fault is a fault of piece i.
func (o *opened) fault(kind FaultKind, i int) Fault {
	return Fault{Kind: kind, Piece: i, Other: -1, Name: o.pieces[i].Name}
}

// counts compares how often each pattern piece is laid with how often it is cut.
func (o *opened) counts() []Fault {
	var out []Fault
	for k := range o.q.parts {
		p := &o.q.parts[k]
		n, has := max(p.piece.Cut, 1), 0
		last := -1
		for i, q := range o.parts {
			if q == p {
				has, last = has+1, i
			}
		}
		switch {
		case has < n:
			out = append(out, Fault{Kind: Missing, Piece: -1, Other: -1, Name: p.piece.Name, Asked: n, Has: has})
		case has > n:
			out = append(out, Fault{Kind: TooMany, Piece: last, Other: -1, Name: p.piece.Name, Asked: n, Has: has})
		}
	}
	return out
}

// of lists what is wrong with one piece where it lies, the others as they lie.
func (o *opened) of(i int) []Fault {
	out := o.place(i)
	if o.parts[i] != nil {
		out = append(out, o.grain(i)...)
	} else {
		out = append(out, o.strip(i)...)
	}
	return append(out, o.neighbours(i)...)
}

// place says whether a piece has its outline and lies on what can be cut.
func (o *opened) place(i int) []Fault {
	var out []Fault
	p := o.pieces[i]
	if part := o.parts[i]; part != nil && !slices.Equal(p.Place.Apply(o.ring(part)), p.Outline) {
		out = append(out, o.fault(OtherOutline, i))
	}
	if !o.onCloth(p.Outline) {
		out = append(out, o.fault(OffCloth, i))
	}
	for _, h := range o.c.Cloth.Outline.Holes {
		flaw := h.Reverse()
		if !shape.Clear(p.Outline, flaw, o.gap) {
			out = append(out, o.against(i, -1, flaw, "", OverFlaw, o.gap))
		}
	}
	return out
}

// onCloth says whether an outline lies on what can be cut: within the selvedges and raw
// ends, of unwashed cloth within what will be there after washing, and within the
// outline of a leftover by the clearance.
func (o *opened) onCloth(r shape.Ring) bool {
	b, u := r.Bounds(), o.u.box
	if o.c.Cloth.Plain() {
		u.Max = u.Min.Add(shape.Point{X: o.u.length, Y: o.u.width})
		return b.Min.X >= u.Min.X && b.Min.Y >= u.Min.Y && b.Max.X <= u.Max.X && b.Max.Y <= u.Max.Y
	}
	if b.Min.Y < u.Min.Y || b.Max.X > u.Max.X || b.Max.Y > u.Max.Y {
		return false
	}
	return shape.InsideBy(r, shape.Polygon{Outer: o.c.Cloth.Outline.Outer}, o.gap)
}

// against is what is wrong between a piece and an outline that it is not clear of.
func (o *opened) against(i, other int, r shape.Ring, with string, over FaultKind, gap int64) Fault {
	f := o.fault(over, i)
	f.Other, f.With, f.Over = other, with, r
	if o.brief {
		return f
	}
	if f.By = measure.Length(shape.Depth(o.pieces[i].Outline, r)); f.By == 0 && !shape.Overlaps(o.pieces[i].Outline, r) {
		f.Kind, f.By = TooNear, measure.Length(gap)
	}
	return f
}

// neighbours compares a piece with every other and with what is reserved.
func (o *opened) neighbours(i int) []Fault {
	var out []Fault
	p := o.pieces[i]
	box := p.Outline.Bounds()
	for k, q := range o.pieces {
		gap := o.between(i, k)
		if k != i && box.Grown(gap).Meets(q.Outline.Bounds()) && !shape.Clear(p.Outline, q.Outline, gap) {
			out = append(out, o.against(i, k, q.Outline, q.Name, OverPiece, gap))
		}
	}
	for _, r := range o.reserved {
		if box.Grown(o.gap).Meets(r.Bounds()) && !shape.Clear(p.Outline, r, o.gap) {
			out = append(out, o.against(i, -1, r, "", OverReserved, o.gap))
		}
	}
	return out
}

// between is the least distance of two pieces: none across a fold, and none between
// strips that lie row by row.
func (o *opened) between(i, k int) int64 {
	a, b := o.pieces[i], o.pieces[k]
	switch {
	case o.parts[i] == nil && o.parts[k] == nil:
		if o.b.strips == 0 {
			return 0
		}
	case o.b.fold > 0 && a.Layer != b.Layer && o.parts[i] != nil && o.parts[k] != nil && !o.onFold(o.parts[i]) && !o.onFold(o.parts[k]):
		return 0
	}
	return o.gap
}

// bandsOf says whether a box of the laid frame lies within a part of the cloth that has so
// many layers, any number for 0.
func (o *opened) bandsOf(layers int, box shape.Box) bool {
	for _, band := range o.b.bands() {
		if box.Min.Y >= band.From && box.Max.Y <= band.To && (layers == 0 || layers == band.Layers) {
			return true
		}
	}
	return false
}

// foldLine says whether y, in the laid frame, is a fold with its double band around box.
func (o *opened) foldLine(y int64, box shape.Box) bool {
	return slices.ContainsFunc(o.b.bands(), func(band nest.Band) bool {
		half := max(box.Max.Y-y, y-box.Min.Y)
		return band.FoldLow && y == band.From && y+half <= band.To || band.FoldHigh && y == band.To && y-half >= band.From
	})
}
