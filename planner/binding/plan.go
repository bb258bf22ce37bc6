package binding

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Plan cuts strips from sources, each strip Job.Count times; strips that are bought are
// numbered and left out. Best means, in this order:
//
//  1. as little strip length as possible without cloth;
//  2. fewest joins;
//  3. least fabric, the area of the strips cut across (width × Across);
//  4. older leftovers first: least sum of width × source index.
//
// Joins fall only where their segments allow it, at a wished mark where that costs
// nothing, else so that no length is needlessly short. Strips of one cut width
// share the strips cut across; all share a source's length.
//
// The plan is exact (see search.go) unless Proved is false: for jobs far beyond a garment's,
// and where forbidden places make more joins or fabric necessary than joins anywhere would. Then
// it is the best found.
//
// Errors: cancelled; a source or strip without size; and, with the plan for what can be
// cut, a conflict that says how much strip length found no cloth.
func Plan(ctx context.Context, strips []Strip, sources []Source) (CutPlan, error) {
	kinds, err := kindsOf(strips)
	if err != nil {
		return CutPlan{}, err
	}
	for _, s := range sources {
		if s.Across < 0 || s.Along < 0 {
			return CutPlan{}, invalid(fmt.Sprintf("%s has a negative size", named(s.Name)), "Measure it again.")
		}
	}
	found, proved, err := search(ctx, kinds, sources)
	if err != nil {
		return CutPlan{}, fmt.Errorf("planning the strips: %w", err)
	}
	plan := assemble(found, kinds, sources)
	plan.Proved, plan.Fewest = proved, fewest(kinds, sources)
	if plan.Short > 0 {
		units := strips[0].Job.Units
		return plan, &stash.Error{Kind: stash.Conflict,
			What: fmt.Sprintf("there is no cloth for %s of strip", measure.Style{System: units}.Format(plan.Short)),
			Do:   "Add another length or leftover, make the finish narrower, or allow joins in more places."}
	}
	return plan, nil
}

// kind is strips that are cut alike.
type kind struct {
	width, length, take measure.Length
	joinable            []span           // where a join may fall, from the strip's start, in order
	wished              []measure.Length // where it should
	numbers             []int            // strip numbers
}

// span is a stretch of a strip, both ends included.
type span struct{ from, to measure.Length }

// kindsOf numbers the strips in order of jobs and counts, and sorts the kinds by width,
// longest first: what is hardest to place comes first.
func kindsOf(strips []Strip) ([]kind, error) {
	var out []kind
	n := 0
	for _, s := range strips {
		if s.CutLength <= 0 || s.CutWidth <= 0 {
			return nil, invalid(fmt.Sprintf("%s has no size", named(s.Job.Name)), "Work it out first: it needs an edge and a finish.")
		}
		k := kind{width: s.CutWidth, length: s.CutLength, take: s.Job.JoinTake(s.CutWidth), joinable: s.joinable()}
		for _, p := range s.Parts {
			if p.Segment.JoinHere {
				k.wished = append(k.wished, p.From+p.Length)
			}
		}
		if s.Job.Finish.Technique.Bought() {
			n += max(1, s.Job.Count)
			continue
		}
		for range max(1, s.Job.Count) {
			k.numbers = append(k.numbers, n)
			n++
		}
		out = append(out, k)
	}
	slices.SortStableFunc(out, func(a, b kind) int {
		return cmp.Or(cmp.Compare(b.width, a.width), cmp.Compare(b.length, a.length))
	})
	return out, nil
}

// fewest bounds the joins of all strips from below: a strip of length l with joins that take t each, from
// lengths of at most a, has n joins with l + nt ≤ (n + 1)a, whatever else is cut. No plan over the same cloth does
// with less; it says nothing of strips that have to share what is long.
func fewest(kinds []kind, sources []Source) int {
	reach := measure.Length(0)
	for _, s := range sources {
		reach = max(reach, s.Across)
	}
	n := 0
	for _, k := range kinds {
		n += len(k.numbers) * int(k.leastJoins(reach))
	}
	return n
}

// JoinsProved says whether no plan has fewer joins: the plan is proved, or has as few as any strips of these
// lengths must have on this cloth.
func (p CutPlan) JoinsProved() bool {
	n := 0
	for _, j := range p.Joins {
		n += len(j)
	}
	return p.Proved || n <= p.Fewest
}

// joinable returns where a join may fall: on segments that do not forbid it.
func (s Strip) joinable() []span {
	if len(s.Parts) == 0 {
		return []span{{0, s.CutLength}}
	}
	var out []span
	for _, p := range s.Parts {
		if p.Segment.NoJoin {
			continue
		}
		to := p.From + p.Length
		if n := len(out); n > 0 && out[n-1].to == p.From {
			out[n-1].to = to
			continue
		}
		out = append(out, span{p.From, to})
	}
	return out
}

// assemble turns groups into pieces with their place on each source.
func assemble(a answer, kinds []kind, sources []Source) CutPlan {
	plan := CutPlan{Joins: map[int][]measure.Length{}, Taken: make([]measure.Length, len(sources)), Strips: make([]int, len(sources))}
	used := make([]int, len(kinds))
	for _, g := range a.groups {
		plan.add(g, kinds, used)
	}
	for i, k := range kinds {
		for _, no := range k.numbers[used[i]:] {
			plan.Missing = append(plan.Missing, no)
			plan.Short += k.length
		}
	}
	slices.Sort(plan.Missing)
	plan.number()
	return plan
}

// add lays one group's pieces out; used counts the strips of each kind done so far.
func (plan *CutPlan) add(g group, kinds []kind, used []int) {
	type raw struct {
		index    int
		at, fill measure.Length
	}
	bins := make([]raw, len(g.bins))
	width := kinds[g.chunks[0].kind].width
	for b, src := range g.bins {
		bins[b] = raw{index: plan.Strips[src], at: plan.Taken[src]}
		plan.Strips[src]++
		plan.Taken[src] += width
	}
	for _, c := range g.chunks {
		b := &bins[c.bin]
		length := c.cutLength(kinds[c.kind])
		no := kinds[c.kind].numbers[used[c.kind]+c.copy]
		plan.Pieces = append(plan.Pieces, Piece{Source: g.bins[c.bin], Index: b.index, From: b.fill, To: b.fill + length,
			At: b.at, Width: width, StripNo: no, Part: int(c.from)})
		if c.from > 0 {
			plan.Joins[no] = append(plan.Joins[no], c.from)
		}
		b.fill += length
	}
	for i, n := range g.counts {
		used[i] += n
	}
}

// number sorts pieces by source and place, and counts the parts of each strip
// in order of where they begin, which add left in Part.
func (plan *CutPlan) number() {
	for _, joins := range plan.Joins {
		slices.Sort(joins)
	}
	for i := range plan.Pieces {
		p := &plan.Pieces[i]
		begins := measure.Length(p.Part)
		p.Part = 0
		for _, j := range plan.Joins[p.StripNo] {
			if j <= begins {
				p.Part++
			}
		}
	}
	slices.SortFunc(plan.Pieces, func(a, b Piece) int {
		return cmp.Or(cmp.Compare(a.Source, b.Source), cmp.Compare(a.Index, b.Index), cmp.Compare(a.From, b.From))
	})
}
