package match

import (
	"context"
	"math"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// laying is one way to lay everything on a plain length, with what it rests on.
type laying struct {
	beds  []bed
	block block
	ifs   []If
}

// fit is a laying that was worked out: the length it takes in all.
type fit struct {
	bed   bed
	block block
	ifs   []If
	total int64
	index int // which stage of shelfLayout
}

// onLength answers for a plain length. What is reserved is avoided by laying in the
// longest stretch that is free over the whole width; where that is too short, around
// it. Nothing that would not lie on the whole length is looked for on part of it, so
// reserving never makes a verdict better.
func (q *Question) onLength(ctx context.Context, c stash.ClothState, u usable, turned bool) (quantity, error) {
	b := bedOf(u, c.Fabric)
	b.turned = turned
	bare := c // for comparison only: what is reserved would be in its way
	bare.Reservations = nil
	whole, err := q.inStretch(ctx, bare, u, b, stretchOf{0, u.length})
	if err != nil || len(c.Reservations) == 0 {
		return whole, err
	}
	part := stretchOf{}
	if free := u.freeStretches(c.Reservations, int64(q.ask.Clearance)); len(free) > 0 {
		part = free[0]
	}
	lie, err := q.inStretch(ctx, c, u, b, part)
	if err != nil || lie.grade <= EnoughIf || whole.grade > EnoughIf {
		return lie, err
	}
	around, err := q.around(ctx, c, u, b)
	if err != nil || around.grade > EnoughIf {
		return lie, err
	}
	around.grade = max(around.grade, whole.grade)
	return around, nil
}

// inStretch lays on a range of the length: first as at home, with what the limits of
// "tight" ask kept free; then using all of the width; then under conditions.
func (q *Question) inStretch(ctx context.Context, c stash.ClothState, u usable, b bed, s stretchOf) (quantity, error) {
	have := s.to - s.from
	tries := q.layings(b)
	if len(tries) == 0 {
		return q.stripsTooLong(u), nil
	}
	best := fit{total: far}
	for i, l := range tries {
		most := have
		if i == 0 {
			most -= int64(q.ask.Tight.Length)
		}
		f, err := q.shortest(ctx, l, most, u)
		if err != nil {
			return quantity{}, err
		}
		if f.total <= have {
			return q.enough(c, u, s, f)
		}
		if f.total < best.total {
			best = f
		}
	}
	return q.tooShort(c, u, have, best), nil
}

// home are the beds that need no condition: folded where that is asked, one layer else.
// Cloth cut crosswise is laid in one layer.
func (q *Question) home(b bed) []bed {
	if q.ask.Fold && !b.turned && len(q.parts) > 0 {
		return q.folded(b)
	}
	return []bed{b}
}

func withMargin(beds []bed, margin int64) []bed {
	out := make([]bed, len(beds))
	for i, b := range beds {
		b.margin = margin
		out[i] = b
	}
	return out
}

// layings are the ways to lay everything, the best first: with what the limits of
// "tight" ask kept free in width; using all of it; then those that ask something of the
// person, less first: strips joined, one layer, strips among the pattern pieces. None
// when a strip is too long for the cloth and may not be joined.
//
// Strips lie across, next to the pattern pieces. Those of a garment cut crosswise run along the cloth and
// lie among its pieces.
func (q *Question) layings(b bed) []laying {
	home := q.home(b)
	if b.turned && len(q.ask.Strips) > 0 {
		among := q.among(b, nil)
		return append([]laying{{withMargin(among[0].beds, int64(q.ask.Tight.Width)), block{}, nil}}, among...)
	}
	blocks := q.blocks(b.width)
	if len(blocks) == 0 {
		return nil
	}
	one, join := If{Condition: OneLayer}, If{Condition: StripsJoined}
	out := []laying{{withMargin(home, int64(q.ask.Tight.Width)), blocks[0], nil}, {home, blocks[0], nil}}
	for _, bl := range blocks[1:] {
		out = append(out, laying{home, bl, []If{join}})
	}
	var asks []If
	if home[0].fold > 0 {
		asks = []If{one}
		for i, bl := range blocks {
			out = append(out, laying{[]bed{b}, bl, []If{one, join}[:1+i]})
		}
	}
	if len(q.ask.Strips) > 0 && len(q.parts) > 0 {
		out = append(out, q.among(b, asks)...)
	}
	return out
}

// among lays strips among the pattern pieces in one layer, whole and then in two parts.
func (q *Question) among(b bed, asks []If) []laying {
	whole, parts := b, b
	whole.strips, parts.strips = 1, 2
	joined := append(slices.Clone(asks), If{Condition: StripsJoined})
	return []laying{{[]bed{whole}, block{}, asks}, {[]bed{parts}, block{}, joined}}
}

// shortest returns the bed of a laying that takes least. All first layouts are
// compared; only where they take more than most is the best searched further.
func (q *Question) shortest(ctx context.Context, l laying, most int64, u usable) (fit, error) {
	best := fit{total: far}
	for _, b := range l.beds {
		f, err := q.fitOn(ctx, b, l, false)
		if err != nil {
			return fit{}, err
		}
		if f.total < best.total {
			best = f
		}
	}
	worth := best.total > most && best.total < far && q.worthIt(best.total, most, u)
	if best.total > most && best.total < far && !worth {
		n, err := q.leastOfStricter(ctx, best.bed) // a stricter question was searched from there
		if err != nil {
			return fit{}, err
		}
		worth = q.worthIt(q.total(n, l.block), most, u)
	}
	if worth {
		f, err := q.fitOn(ctx, best.bed, l, true)
		if err != nil {
			return fit{}, err
		}
		if f.total < best.total {
			best = f
		}
	}
	joined := func(i If) bool { return i.Condition == StripsJoined }
	if best.block.joined && !slices.ContainsFunc(best.ifs, joined) {
		best.ifs = append(slices.Clone(best.ifs), If{Condition: StripsJoined})
	}
	return best, nil
}

// fitOn works one bed of a laying out, at once or with the search.
func (q *Question) fitOn(ctx context.Context, b bed, l laying, searched bool) (fit, error) {
	n, _, err := q.least(ctx, b, searched)
	f := fit{bed: b, block: l.block, ifs: l.ifs, total: q.total(n, l.block)}
	if searched {
		f.index = 1
	}
	return f, err
}

// worthIt says whether a search could bring a first layout under a length: the area
// allows it, and it is not far above.
func (q *Question) worthIt(first, most int64, u usable) bool {
	area := float64(q.area()) / densest
	return area <= float64(most)*float64(u.width) && float64(first) <= worthSearching*float64(most)
}

// total is the length that pattern pieces and a block of strips take together.
func (q *Question) total(pieces int64, b block) int64 {
	switch {
	case pieces >= far:
		return far
	case b.length == 0 || pieces == 0:
		return pieces + b.length
	}
	return pieces + int64(q.ask.Clearance) + b.length
}

// enough turns a fit into an answer with its layout.
func (q *Question) enough(c stash.ClothState, u usable, s stretchOf, f fit) (quantity, error) {
	lay, err := q.layOnLength(c, u, s, f)
	if err != nil {
		return quantity{}, err
	}
	lie := quantity{grade: Enough, proof: ByLayout, ifs: f.ifs, layout: lay}
	lie.spare = measure.Length(s.to - s.from - f.total)
	var wide measure.Length
	wide, lie.side = q.across(u, lay.Pieces)
	switch {
	case len(f.ifs) > 0:
		lie.grade = EnoughIf
	case f.bed.margin == 0 && q.ask.Tight.Width > 0 || lie.spare < q.ask.Tight.Length:
		lie.grade = Tight
	}
	lie.reasons = []Reason{u.along(f.total, s.to-s.from), u.across(int64(wide))}
	return lie, nil
}

// tooShort says by how much, in length to buy: what is missing before washing.
func (q *Question) tooShort(c stash.ClothState, u usable, have int64, best fit) quantity {
	lie := quantity{grade: NotEnough, proof: BySearch}
	if best.total >= far {
		lie.proof = ByBound
		lie.reasons = []Reason{against(u.across(q.widest(u, c.Fabric)))}
		return lie
	}
	missing := measure.Length(best.total - have)
	lie.short = stash.BeforeWashing(missing, u.dcLength)
	lie.reasons = []Reason{against(u.along(best.total, have))}
	if area := q.area(); float64(area) > float64(have)*float64(u.width) {
		lie.proof = ByBound
		lie.reasons = append(lie.reasons, Reason{What: Area, Asked: area / 1e6, Has: int64(float64(have) * float64(u.width) / 1e6), Bad: true})
	}
	return lie
}

// stripsTooLong: a strip is longer than the cloth is wide and may not be joined.
func (q *Question) stripsTooLong(u usable) quantity {
	longest := int64(0)
	for _, s := range q.ask.Strips {
		if !s.MayJoin {
			longest = max(longest, int64(s.Length))
		}
	}
	return quantity{grade: NotEnough, proof: ByBound,
		reasons: []Reason{{What: Strips, Grain: crosswise, Asked: longest, Has: u.width, Bad: true}}}
}

// widest is the greatest width of a pattern piece as it is laid in one layer, the
// narrower of its ways.
func (q *Question) widest(u usable, f stash.Fabric) int64 {
	var most int64
	for _, it := range q.items(bedOf(u, f), scale{}) {
		most = max(most, leastWidth(it))
	}
	return most
}

func leastWidth(it item) int64 {
	least := int64(math.MaxInt64)
	for _, a := range it.item.Angles {
		least = min(least, shape.Placement{Angle: a}.Apply(it.item.Outline).Bounds().Width())
	}
	return least
}
