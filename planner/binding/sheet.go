package binding

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Sheet is cloth of any outline that strips are cut from: a rectangle, or where Lanes is
// set whatever Lanes says is free. Places on it are counted from its own corner.
type Sheet struct {
	Source
	// Lanes lists, in order of At, where a strip of a width may begin and what is free there
	// over that whole width, clear of what is taken already. lengths are what is to be cut, for places where
	// just so much is free, counts how many of each.
	Lanes func(width measure.Length, lengths, counts []measure.Length, taken []Piece) []Lane
}

// Lane is a place for strips: one strip wide, from At on.
type Lane struct {
	At   measure.Length
	Free []Reach // in order, apart
}

// Reach is a stretch of a lane.
type Reach struct{ From, To measure.Length }

// Long is its length.
func (r Reach) Long() measure.Length { return r.To - r.From }

// PlanOn is Plan over cloth of any outline. A length of a lane counts as fabric as a length
// across a rectangle does. On rectangles alone it is Plan. Else strips of each cut width, the
// widest first, are laid without joins wherever lanes allow it, in the least fabric and then on the earlier
// sheet: exactly, over the lanes that the sheets name (see laneTable). Strips that do
// not all find a lane in one are joined from the lanes that give most length, or most long ones,
// whichever plan is better. Proved is false then: other lanes might do with fewer joins, unless Fewest
// says that none can.
//
// Errors: as Plan.
func PlanOn(ctx context.Context, strips []Strip, sheets []Sheet) (CutPlan, error) {
	if !slices.ContainsFunc(sheets, func(s Sheet) bool { return s.Lanes != nil }) {
		sources := make([]Source, len(sheets))
		for i, s := range sheets {
			sources[i] = s.Source
		}
		return Plan(ctx, strips, sources)
	}
	kinds, err := kindsOf(strips)
	if err != nil {
		return CutPlan{}, err
	}
	plan := CutPlan{Joins: map[int][]measure.Length{}, Taken: make([]measure.Length, len(sheets)), Strips: make([]int, len(sheets))}
	sources := make([]Source, len(sheets))
	for i, s := range sheets {
		sources[i] = s.Source // of an odd outline its box: no stretch is longer
	}
	plan.Fewest = fewest(kinds, sources)
	for len(kinds) > 0 {
		n := 1
		for n < len(kinds) && kinds[n].width == kinds[0].width {
			n++
		}
		if err := plan.onLanes(ctx, kinds[:n], sheets); err != nil {
			return CutPlan{}, fmt.Errorf("planning the strips: %w", err)
		}
		kinds = kinds[n:]
	}
	slices.Sort(plan.Missing)
	plan.order()
	if plan.Short > 0 {
		return plan, &stash.Error{Kind: stash.Conflict,
			What: fmt.Sprintf("there is no cloth for %s of strip", measure.Style{System: strips[0].Job.Units}.Format(plan.Short)),
			Do:   "Add another length or leftover, make the finish narrower, or allow joins in more places."}
	}
	return plan, nil
}

// onLanes adds strips of one width to a plan.
func (plan *CutPlan) onLanes(ctx context.Context, kinds []kind, sheets []Sheet) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	width := kinds[0].width
	var lengths, counts []measure.Length
	for _, k := range kinds {
		lengths, counts = append(lengths, k.length), append(counts, measure.Length(len(k.numbers)))
	}
	lanes := make([][]Lane, len(sheets))
	for i, s := range sheets {
		taken := plan.on(i)
		if s.Lanes == nil {
			lanes[i] = s.rows(width, taken)
			continue
		}
		lanes[i] = s.Lanes(width, lengths, counts, taken)
	}
	if cuts, ok := newLaneTable(kinds, lanes).best(); ok {
		plan.put(cuts, kinds, lanes)
		return nil
	}
	return plan.joined(ctx, kinds, sheets, lanes)
}

// on lists the pieces that lie on a sheet.
func (plan *CutPlan) on(sheet int) []Piece {
	var out []Piece
	for _, p := range plan.Pieces {
		if p.Source == sheet {
			out = append(out, p)
		}
	}
	return out
}

// rows are the lanes of a rectangle, side by side behind what is taken.
func (s Sheet) rows(width measure.Length, taken []Piece) []Lane {
	at := measure.Length(0)
	for _, p := range taken {
		at = max(at, p.At+p.Width)
	}
	var out []Lane
	for ; at+width <= s.Along && len(out) < mostCells/100; at += width {
		out = append(out, Lane{At: at, Free: []Reach{{0, s.Across}}})
	}
	return out
}

// put adds strips without joins.
func (plan *CutPlan) put(cuts []laneCut, kinds []kind, lanes [][]Lane) {
	used := make([]int, len(kinds))
	for _, c := range cuts {
		lane := lanes[c.sheet][c.lane]
		for i, counts := range c.counts {
			at := lane.Free[i].From
			for k, n := range counts {
				for range n {
					plan.Pieces = append(plan.Pieces, Piece{Source: c.sheet, Index: plan.Strips[c.sheet], From: at, To: at + kinds[k].length,
						At: lane.At, Width: kinds[k].width, StripNo: kinds[k].numbers[used[k]]})
					at += kinds[k].length
					used[k]++
				}
			}
		}
		plan.Strips[c.sheet]++
		plan.Taken[c.sheet] += kinds[0].width
	}
}

// joined adds the best of the plans over a few choices of lanes that lie apart.
func (plan *CutPlan) joined(ctx context.Context, kinds []kind, sheets []Sheet, lanes [][]Lane) error {
	longest, take := kinds[0].length, kinds[0].take
	var best *laneChoice
	for _, worth := range []func(measure.Length) int64{
		func(l measure.Length) int64 { return int64(l) },
		func(l measure.Length) int64 { return int64(l/longest)*1_000_000_000 + int64(l) },
		func(l measure.Length) int64 { return int64(l) * int64(l/measure.Millimetre) },
	} {
		c := chooseLanes(lanes, kinds[0].width, 3*take+measure.Centimetre, worth)
		found, _, err := search(ctx, kinds, c.sources)
		if err != nil {
			return err
		}
		c.cost, c.plan = found.cost, assemble(found, kinds, c.sources)
		c.cost.short = int64(c.plan.Short) // nothing found costs nothing, and leaves all without cloth
		if best == nil || c.cost.compare(best.cost) < 0 {
			best = &c
		}
	}
	plan.take(best)
	return nil
}

// take adds what was planned on chosen lanes.
func (plan *CutPlan) take(c *laneChoice) {
	for no, joins := range c.plan.Joins {
		plan.Joins[no] = joins
	}
	index := map[[2]measure.Length]int{}
	for _, p := range c.plan.Pieces {
		b := c.bins[p.Source]
		at := b.at[p.At/p.Width]
		key := [2]measure.Length{measure.Length(b.sheet), at}
		i, ok := index[key]
		if !ok {
			i = plan.Strips[b.sheet]
			index[key] = i
			plan.Strips[b.sheet]++
			plan.Taken[b.sheet] += p.Width
		}
		p.Source, p.Index, p.At, p.From, p.To = b.sheet, i, at, p.From+b.from, p.To+b.from
		plan.Pieces = append(plan.Pieces, p)
	}
	plan.Missing, plan.Short = append(plan.Missing, c.plan.Missing...), plan.Short+c.plan.Short
}

// order sorts pieces by sheet and place.
func (plan *CutPlan) order() {
	slices.SortFunc(plan.Pieces, func(a, b Piece) int {
		return cmp.Or(cmp.Compare(a.Source, b.Source), cmp.Compare(a.At, b.At), cmp.Compare(a.From, b.From))
	})
}

// laneChoice is lanes that lie apart, sources for their reaches, and the best plan over them.
type laneChoice struct {
	sources []Source
	bins    []bin
	plan    CutPlan
	cost    cost
}

// bin is where the lengths of a source lie.
type bin struct {
	sheet int
	at    []measure.Length
	from  measure.Length
}

// add adds a reach of a lane, to the source of others like it where there is one.
func (c *laneChoice) add(sheet int, at, width measure.Length, r Reach) {
	for i := range c.sources {
		if c.bins[i].sheet == sheet && c.bins[i].from == r.From && c.sources[i].Across == r.Long() {
			c.sources[i].Along += width
			c.bins[i].at = append(c.bins[i].at, at)
			return
		}
	}
	c.sources = append(c.sources, Source{Across: r.Long(), Along: width, Rank: sheet + 1})
	c.bins = append(c.bins, bin{sheet, []measure.Length{at}, r.From})
}

// chooseLanes takes, on each sheet, the lanes apart from each other that are worth most
// together; reaches shorter than least are left out.
func chooseLanes(lanes [][]Lane, width, least measure.Length, worth func(measure.Length) int64) laneChoice {
	var out laneChoice
	for sheet, all := range lanes {
		n := len(all)
		sum, next := make([]int64, n+1), make([]int, n)
		take := make([]bool, n)
		for i := n - 1; i >= 0; i-- {
			next[i], _ = slices.BinarySearchFunc(all, all[i].At+width, func(l Lane, at measure.Length) int { return cmp.Compare(l.At, at) })
			v := int64(0)
			for _, r := range all[i].Free {
				if r.Long() >= least {
					v += worth(r.Long())
				}
			}
			sum[i] = sum[i+1]
			if v > 0 && v+sum[next[i]] > sum[i] {
				sum[i], take[i] = v+sum[next[i]], true
			}
		}
		for i := 0; i < n; {
			if !take[i] {
				i++
				continue
			}
			for _, r := range all[i].Free {
				if r.Long() >= least {
					out.add(sheet, all[i].At, width, r)
				}
			}
			i = next[i]
		}
	}
	return out
}
