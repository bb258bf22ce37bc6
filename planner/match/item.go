package match

import (
	"tallycloth/planner/nest"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// item is a nest.Item with what it stands for.
type item struct {
	item   nest.Item
	part   *part     // the pattern piece, or nil for a strip
	strip  *StripAsk // the strip, or nil
	double bool      // one laid outline is cut from two layers: a mirrored pair
}

// scale makes outlines larger, so that they are as asked after washing: as they
// lie, lengthwise and crosswise. The zero scale changes nothing.
type scale struct{ along, across measure.Percent }

func (s scale) apply(r shape.Ring) shape.Ring {
	if s == (scale{}) {
		return r
	}
	out := make(shape.Ring, len(r))
	for i, p := range r {
		out[i] = shape.Point{X: grown(p.X, s.along), Y: grown(p.Y, s.across)}
	}
	return out
}

func grown(v int64, dc measure.Percent) int64 {
	if v < 0 {
		return -grown(-v, dc)
	}
	return int64(stash.BeforeWashing(measure.Length(v), dc))
}

// items lists what is to be laid on a bed: folded pattern pieces on folded cloth,
// whole ones in one layer; strips where the bed says so.
func (q *Question) items(b bed, s scale) []item {
	var out []item
	for i := range q.parts {
		if b.fold > 0 {
			out = append(out, foldedItems(&q.parts[i], b)...)
		} else {
			out = append(out, openItems(&q.parts[i], b)...)
		}
	}
	for i := range out {
		q.finish(&out[i], b, s)
	}
	if b.strips > 0 {
		out = append(out, q.stripItems(b, s)...)
	}
	return out
}

// foldedItems: a piece on the fold lies there with its half; a mirrored pair is one
// outline in the double layer, and so are two of a piece that is its own mirror
// image or of any piece in fabric without a distinct face. What is cut once is laid
// wherever there is room.
func foldedItems(p *part, b bed) []item {
	n := max(p.piece.Cut, 1)
	if p.half != nil && p.piece.Grain == pattern.Lengthwise {
		return []item{{part: p, item: nest.Item{Outline: p.half, Count: n, OnFold: true, Layers: 2}}}
	}
	var out []item
	pairs := 0
	if p.piece.Pairs || p.twin || b.anyFace {
		pairs = n / 2
	}
	if pairs > 0 {
		out = append(out, item{part: p, double: true,
			item: nest.Item{Outline: p.whole, Count: pairs, Layers: 2, Mirror: nest.EitherFace}})
	}
	if rest := n - 2*pairs; rest > 0 {
		out = append(out, item{part: p, item: nest.Item{Outline: p.whole, Count: rest, Mirror: face(p, b)}})
	}
	return out
}

// openItems: in one layer every piece is laid whole, of a pair one as drawn and one
// mirrored.
func openItems(p *part, b bed) []item {
	n := max(p.piece.Cut, 1)
	if !p.piece.Pairs || p.twin || b.anyFace {
		return []item{{part: p, item: nest.Item{Outline: p.whole, Count: n, Mirror: face(p, b)}}}
	}
	out := []item{{part: p, item: nest.Item{Outline: p.whole, Count: n - n/2}}}
	if n > 1 {
		out = append(out, item{part: p, item: nest.Item{Outline: p.whole, Count: n / 2, Mirror: nest.Mirrored}})
	}
	return out
}

// face: fabric without a distinct face lets a mirrored piece be one turned over.
func face(p *part, b bed) nest.Mirror {
	if b.anyFace && !p.twin {
		return nest.EitherFace
	}
	return nest.AsDrawn
}

// finish gives an item its turns, its repeat and its size before washing.
func (q *Question) finish(it *item, b bed, s scale) {
	base := baseAngle(it.part.piece.Grain, b)
	it.item.Group = nest.NoGroup
	it.item.Angles = []shape.Angle{base}
	switch b.direction {
	case stash.EitherWay:
		it.item.Angles = append(it.item.Angles, (base + shape.Turn180).Norm())
	case stash.SameWayInGarment:
		it.item.Group = 0
	}
	if marks := it.part.piece.Outlines[q.ask.Size].MatchMarks; b.repeat > 0 && len(marks) > 0 {
		// The match mark meets the repeat: x of the origin ≡ −x of the mark.
		it.item.Repeat, it.item.Phase = b.repeat, floorMod(-marks[0].X, b.repeat)
		it.item.Angles, it.item.Group = []shape.Angle{base}, nest.NoGroup
	}
	it.item.Tilt = q.tilt(it.part, b, it.item.OnFold)
	it.item.Outline = sized(it.item.Outline, base, s)
}

// tilt is how far a pattern piece may lie off its grain.
func (q *Question) tilt(p *part, b bed, onFold bool) shape.Angle {
	if p.piece.Fixed || onFold || b.repeat > 0 {
		return 0
	}
	return q.ask.Tilt
}

// sized grows an outline along the grains it will lie on.
func sized(r shape.Ring, base shape.Angle, s scale) shape.Ring {
	if base == shape.Turn90 || base == shape.Turn270 {
		s.along, s.across = s.across, s.along
	}
	return s.apply(r)
}

func baseAngle(g pattern.GrainRule, b bed) shape.Angle {
	a := shape.Turn0
	switch g {
	case pattern.Crosswise:
		a = shape.Turn90
	case pattern.Bias:
		a = 45_000
	}
	if b.turned {
		a += shape.Turn90
	}
	return a.Norm()
}

func floorMod(a, n int64) int64 { return ((a % n) + n) % n }

// stripItems are strips laid among the pattern pieces, each cut into parts where it
// may be joined. A strip follows the greatest stretch: across the cloth, or along it
// when the garment is cut crosswise.
func (q *Question) stripItems(b bed, s scale) []item {
	var out []item
	for i := range q.ask.Strips {
		st := &q.ask.Strips[i]
		n := b.strips
		if !st.MayJoin {
			n = 1
		}
		length := int64(st.Length+measure.Length(n-1)*st.JoinLoss) / int64(n)
		box := shape.Box{Max: shape.Point{X: int64(st.Width), Y: length + 1}}
		base := baseAngle(pattern.Lengthwise, b)
		out = append(out, item{strip: st, item: nest.Item{Outline: sized(box.Ring(), base, s),
			Count: n * max(st.Count, 1), Angles: []shape.Angle{base}, Group: nest.NoGroup}})
	}
	return out
}

// instance is the question to the layout engine.
func (q *Question) instance(b bed, items []item, f nest.Fabric, ask nest.Ask) nest.Instance {
	in := nest.Instance{Fabrics: []nest.Fabric{f}, Clearance: int64(q.ask.Clearance), Ask: ask}
	for _, it := range items {
		in.Items = append(in.Items, it.item)
	}
	if b.direction == stash.SameWayInGarment {
		in.Groups = []nest.Group{{Angles: []shape.Angle{shape.Turn0, shape.Turn180}}}
	}
	return in
}
