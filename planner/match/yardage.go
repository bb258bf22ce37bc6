package match

import (
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// An estimate adds a quarter of a yard where a row does not allow for direction or
// stands at a very different width (printed note of the width conversion chart).
const (
	quarterYard = measure.Length(yard / 4)
	// largeDifference in width is ours: about two columns of the chart.
	largeDifference = 10 * inch
)

// Estimate is how much a pattern takes of a fabric by its yardage table.
type Estimate struct {
	Row pattern.YardageRow
	// Converted is the row's length at the fabric's width, Added what direction, a
	// large difference in width and a print repeat add, Ends the loss at raw ends.
	Converted, Added, Ends measure.Length
	// Needed is what is to be there before washing, not rounded up to what a shop sells.
	Needed measure.Length
}

// EstimateYardage converts the yardage table to a fabric, in this order: the same
// area by usable widths, or the chart if that is longer; a repeat; 1/4 yd for one
// direction or a large difference in width; the loss at raw ends; the change in
// washing. ends counts raw ends, dc is the change in washing (0 when washed). It is
// false when the table has no row for the size and role.
func EstimateYardage(p pattern.Pattern, size, role string, f stash.Fabric, ends measure.Length, dc measure.Percent) (Estimate, bool) {
	rows := rowsFor(p.Yards, size, role)
	if len(rows) == 0 {
		return Estimate{}, false
	}
	best := Estimate{Needed: far}
	for _, r := range rows {
		if e := estimate(r, f, ends, dc); e.Needed < best.Needed {
			best = e
		}
	}
	return best, true
}

func rowsFor(rows []pattern.YardageRow, size, role string) []pattern.YardageRow {
	var out []pattern.YardageRow
	for _, r := range rows {
		same := r.Role == role || r.Role == "" && role == pattern.Main
		if same && r.Width > 0 && r.Length > 0 && (len(r.Sizes) == 0 || slices.Contains(r.Sizes, size)) {
			out = append(out, r)
		}
	}
	return out
}

func estimate(r pattern.YardageRow, f stash.Fabric, ends measure.Length, dc measure.Percent) Estimate {
	e := Estimate{Row: r, Converted: Convert(r.Length, r.Width, f.UsableWidth()+2*f.SelvedgeLoss, f.SelvedgeLoss), Ends: ends}
	e.Added = f.RepeatAlong
	difference := r.Width - f.OpenWidth()
	if f.Direction != stash.EitherWay && !r.WithNap || max(difference, -difference) > largeDifference {
		e.Added += quarterYard
	}
	if r.Shrinkage {
		dc = 0
	}
	e.Needed = stash.BeforeWashing(e.Converted+e.Added, dc) + e.Ends
	return e
}

// Convert returns how much is needed at another width: the same area by usable widths,
// L·(W1 − 2s)/(W2 − 2s), or what the handbook chart says if that is longer. Widths
// are full ones, loss is that at one selvedge. Nothing usable gives a length that
// no cloth has.
func Convert(length, from, to, loss measure.Length) measure.Length {
	if from == to {
		return length
	}
	a, b := from-2*loss, to-2*loss
	if a <= 0 || b <= 0 {
		return far
	}
	out := measure.Length(float64(length) * float64(a) / float64(b))
	if c, ok := byChart(length, from, to); ok {
		out = max(out, c)
	}
	return out
}

// byYardage compares a cloth with the estimate: a plain length by what is free of
// it over its whole width, a leftover only as far as its area says no.
func (q *Question) byYardage(c stash.ClothState, u usable) quantity {
	e, ok := EstimateYardage(q.ask.Pattern, q.ask.Size, q.ask.Role, c.Fabric, 0, u.dcLength)
	if !ok {
		return quantity{grade: CannotTell, proof: NoProof, reasons: []Reason{{What: Outline, Bad: true, Missing: true}}}
	}
	u.length, u.width = u.box.Length(), u.box.Width() // before washing, as the estimate
	part := stretchOf{}
	if free := u.freeStretches(c.Reservations, int64(q.ask.Clearance)); len(free) > 0 {
		part = free[0]
	}
	have := part.to - part.from
	lie := quantity{grade: Enough, proof: ByYardage,
		reasons: []Reason{{What: Yardage, Grain: lengthwise, Asked: int64(e.Needed), Has: have}}}
	short := e.Needed - measure.Length(have)
	switch {
	case !c.Cloth.Plain() && short <= 0:
		lie.grade, lie.proof = CannotTell, NoProof
		lie.reasons = append(lie.reasons, Reason{What: Outline, Bad: true, Missing: true})
	case short > 0:
		lie.grade, lie.short, lie.reasons[0].Bad = NotEnough, short, true
	case -short < q.ask.Tight.Length:
		lie.grade, lie.spare = Tight, -short
	default:
		lie.spare = -short
	}
	if lie.grade <= Tight {
		from := u.box.Min.Add(shape.Point{X: part.from})
		lie.keep = shape.Box{Min: from, Max: from.Add(shape.Point{X: int64(e.Needed), Y: u.width})}.Ring()
	}
	return lie
}
