package match

import (
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Turns that a placed piece may be seen as: the way its piece is drawn, and end for end.
const (
	upward   = 1
	downward = 2
)

// turnsOf says which ways a piece points, as bits; 0 where it is off its grain. A
// mirrored piece lies at its angle or at the opposite one: the engine lays the first,
// the upper layer of folded cloth the second.
func (o *opened) turnsOf(i int) int {
	base := baseAngle(o.parts[i].piece.Grain, o.b)
	way, turns := o.pieces[i].Place.Angle, 0
	tilt := o.q.tilt(o.parts[i], o.b, o.b.fold > 0 && o.onFold(o.parts[i]))
	near := func(b shape.Angle) bool {
		off := (way - b).Norm()
		return off <= tilt || (-off).Norm() <= tilt
	}
	as := func(b shape.Angle) {
		if near(b) {
			turns |= upward
		}
		if near(b + shape.Turn180) {
			turns |= downward
		}
	}
	as(base)
	if o.pieces[i].Place.Mirror {
		as(-base)
	}
	return turns
}

// grain says whether a pattern piece lies on its grain, points as the fabric allows, and
// on folded cloth lies on the fold or on the double cloth.
func (o *opened) grain(i int) []Fault {
	var out []Fault
	turns := o.turnsOf(i)
	switch {
	case turns == 0:
		out = append(out, o.fault(OffGrain, i))
	case turns&o.allowed() == 0:
		out = append(out, o.fault(WrongWay, i))
	}
	if o.b.fold > 0 {
		out = append(out, o.fold(i)...)
	}
	return out
}

// allowed are the ways that pieces may point. Where all of a garment point one way it is
// the way of most of them.
func (o *opened) allowed() int {
	switch o.c.Fabric.Direction {
	case stash.EitherWay:
		return upward | downward
	case stash.SameWayInGarment:
		up, down := 0, 0
		for i := range o.pieces {
			if o.parts[i] == nil {
				continue
			}
			switch o.turnsOf(i) {
			case upward:
				up++
			case downward:
				down++
			}
		}
		if down > up {
			return downward
		}
	}
	return upward
}

// fold looks at a pattern piece on folded cloth.
func (o *opened) fold(i int) []Fault {
	p := o.pieces[i]
	place := o.laid(p)
	box := p.Outline.Move(shape.Point{X: -o.origin.X, Y: -o.origin.Y}).Bounds()
	switch {
	case o.onFold(o.parts[i]):
		if a := place.Angle.Norm(); a != shape.Turn0 && a != shape.Turn180 || !o.foldLine(place.At.Y, box) {
			return []Fault{o.fault(OffFold, i)}
		}
	case o.pair[i] >= 0 && p.Layer == 0:
		return nil // its lower layer is looked at
	case p.Layer == 0:
		return []Fault{o.fault(NotPaired, i)}
	case o.pair[i] >= 0:
		if !o.bandsOf(2, box) {
			return []Fault{o.fault(NotDouble, i)}
		}
	case !o.bandsOf(0, box):
		return []Fault{o.fault(OffCloth, i)}
	}
	return nil
}

// strip says whether a strip runs along the greatest stretch and has its width.
func (o *opened) strip(i int) []Fault {
	p := o.pieces[i]
	box := p.Outline.Bounds()
	width, dc := box.Length(), o.scale.along
	if o.b.turned {
		width, dc = box.Width(), o.scale.across
	}
	for k := range o.q.ask.Strips {
		if s := &o.q.ask.Strips[k]; s.Name == p.Piece && width == grown(int64(s.Width), dc) && len(p.Outline) == 4 {
			return nil
		}
	}
	return []Fault{o.fault(OtherOutline, i)}
}

// strips says which strips are missing: of each as many as asked, joined ones in parts.
func (o *opened) strips() []Fault {
	var out []Fault
	for k := range o.q.ask.Strips {
		s := &o.q.ask.Strips[k]
		there := map[int]bool{}
		for i, p := range o.pieces {
			if o.parts[i] == nil && p.Piece == s.Name {
				there[p.Copy] = true
			}
		}
		if n := max(s.Count, 1); len(there) < n {
			out = append(out, Fault{Kind: Missing, Piece: -1, Other: -1, Name: s.Name, Asked: n, Has: len(there)})
		}
	}
	return out
}

// faces: of a mirrored pair, half of the copies lie mirrored; of other pattern pieces
// none does. A piece that is its own mirror image, and fabric without a distinct face, ask nothing.
func (o *opened) faces() []Fault {
	var out []Fault
	for k := range o.q.parts {
		p := &o.q.parts[k]
		if p.twin || o.b.anyFace {
			continue
		}
		want, n := 0, 0
		if p.piece.Pairs {
			want = max(p.piece.Cut, 1) / 2
		}
		for i, q := range o.parts {
			if q == p && o.pieces[i].Place.Mirror {
				if n++; n > want {
					out = append(out, o.fault(NotMirrored, i))
				}
			}
		}
		for i := len(o.parts) - 1; i >= 0 && n < want; i-- {
			if o.parts[i] == p && !o.pieces[i].Place.Mirror {
				out = append(out, o.fault(NotMirrored, i))
				n++
			}
		}
	}
	return out
}

// marked is at which place of the print repeat the match mark of each piece lies, by
// piece; empty where nothing is to be matched.
func (o *opened) marked() map[int]int64 {
	rest := map[int]int64{}
	for i, p := range o.parts {
		if p == nil || o.b.repeat == 0 {
			continue
		}
		if marks := p.piece.Outlines[o.q.ask.Size].MatchMarks; len(marks) > 0 {
			rest[i] = floorMod(o.pieces[i].Place.At.X+marks[0].X, o.b.repeat)
		}
	}
	return rest
}

// repeatAt is the place of the print repeat at which most match marks lie, in the cloth's
// frame; of equals that of the first piece.
func (o *opened) repeatAt() (int64, bool) {
	rest, count := o.marked(), map[int64]int{}
	for _, r := range rest {
		count[r]++
	}
	most, at := 0, int64(0)
	for i := range o.pieces {
		if r, ok := rest[i]; ok && count[r] > most {
			most, at = count[r], r
		}
	}
	return at, most > 0
}

// repeats: where match marks must meet the print repeat, all of them lie at the same place
// of it, and their pieces upward.
func (o *opened) repeats() []Fault {
	var out []Fault
	at, _ := o.repeatAt()
	rest := o.marked()
	for i := range o.pieces {
		if r, ok := rest[i]; ok && (r != at || o.turnsOf(i)&upward == 0) {
			f := o.fault(OffRepeat, i)
			f.By = measure.Length(o.b.repeat)
			out = append(out, f)
		}
	}
	return out
}
