package planner

import (
	"context"
	"fmt"
	"reflect"
	"slices"

	"tallycloth/planner/batch"
	"tallycloth/planner/leftover"
	"tallycloth/planner/match"
	"tallycloth/planner/nest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// FillIn adds garments that a plan does not make and that find cloth beside it, folded cloth
// too, each use as *Is it enough?* lays it with all that is planned reserved. It returns the
// plan with them and how many they are.
func (s *Studio) FillIn(ctx context.Context, b Batch, p BatchPlan) (BatchPlan, int, error) {
	w, err := s.bench(ctx, b)
	if err != nil {
		return p, 0, err
	}
	rows := slices.Clone(p.Missing)
	slices.SortStableFunc(rows, func(x, y MissingGarment) int {
		return b.Rows[min(x.Row, len(b.Rows)-1)].priority() - b.Rows[min(y.Row, len(b.Rows)-1)].priority()
	})
	added := 0
	for _, m := range rows {
		if m.Row >= len(w.uses) {
			return p, 0, refused("Plan the batch again", "The rows have changed since the plan was made")
		}
		for range m.Count {
			more, ok, err := w.oneMore(ctx, p, m.Row, s.workers)
			if err != nil {
				return p, added, fmt.Errorf("filling in %s: %w", b.title(), err)
			}
			if !ok {
				break
			}
			p, added = more, added+1
		}
	}
	return p, added, nil
}

// oneMore adds a garment of a row to a plan, if each of its uses finds cloth.
func (w *bench) oneMore(ctx context.Context, p BatchPlan, row, workers int) (BatchPlan, bool, error) {
	out := p
	out.Cuts = slices.Clone(p.Cuts)
	number := 1
	for _, m := range p.Made {
		if m.Row == row {
			number++
		}
	}
	g := PlannedGarment{Row: row, Number: number}
	main := -1
	for k := range w.uses[row] {
		at, part, err := w.place(ctx, out, row, k, main, workers)
		if err != nil || at < 0 {
			return p, false, err
		}
		if k == 0 {
			main = at
		}
		part.Garment = len(p.Made)
		out.Cuts = w.with(out.Cuts, at, part)
		g.Cloths = append(g.Cloths, w.cloths[at].Cloth.ID)
	}
	out.Made = append(slices.Clone(p.Made), g)
	out.Missing = nil
	for _, m := range p.Missing {
		if m.Row == row {
			m.Count--
		}
		if m.Count > 0 {
			out.Missing = append(out.Missing, m)
		}
	}
	out.Score = w.score(out)
	out.Best = out.AtMostMore() == 0 && len(out.Missing) == 0
	return out, true, nil
}

// place finds cloth for a use of a row beside a plan: the best verdict, on cloth that is cut
// already or a leftover first. main is the cloth of the main use, -1 for that itself.
func (w *bench) place(ctx context.Context, p BatchPlan, row, k, main, workers int) (int, PlannedPart, error) {
	var at []int
	var cloths []stash.ClothState
	for i, c := range w.cloths {
		if w.suits[i][row][k].ok && (main < 0 || w.goes(row, k, w.lot[i], w.lot[main])) {
			at, cloths = append(at, i), append(cloths, p.onto(c))
		}
	}
	verdicts, err := w.asks[row][k].Sweep(ctx, cloths, workers, nil)
	if err != nil {
		return -1, PlannedPart{}, err
	}
	best := -1
	whole := func(i int) bool { return WholeLength(w.cloths[at[i]]) && !p.cuts(w.cloths[at[i]].Cloth.ID) }
	for i, v := range verdicts {
		if v.Grade > match.EnoughIf || v.Layout == nil && len(v.Keep) == 0 {
			continue
		}
		if best < 0 || !whole(i) && whole(best) || whole(i) == whole(best) && match.Compare(v, verdicts[best]) < 0 {
			best = i
		}
	}
	if best < 0 {
		return -1, PlannedPart{}, nil
	}
	v := verdicts[best]
	part := PlannedPart{Role: w.uses[row][k].role, Keep: v.Keep, Ifs: v.Ifs}
	if v.Layout != nil {
		part.Layout = *v.Layout
		part.Layout.Instance, part.Layout.Solution = nest.Instance{}, nest.Solution{}
	}
	return at[best], part, nil
}

// cuts says whether the plan cuts into a cloth.
func (p BatchPlan) cuts(id stash.ID) bool {
	return slices.ContainsFunc(p.Cuts, func(c PlannedCut) bool { return c.Cloth.Cloth.ID == id })
}

// with adds a part to what is cut from a cloth.
func (w *bench) with(cuts []PlannedCut, cloth int, part PlannedPart) []PlannedCut {
	c := w.cloths[cloth]
	i := slices.IndexFunc(cuts, func(x PlannedCut) bool { return x.Cloth.Cloth.ID == c.Cloth.ID })
	if i < 0 {
		i, cuts = len(cuts), append(cuts, PlannedCut{Cloth: c, Whole: WholeLength(c)})
	}
	cuts[i].Parts = append(slices.Clone(cuts[i].Parts), part)
	cuts[i].Left, cuts[i].Waste = remains(c, cuts[i].outlines(), w.keep)
	for _, r := range cuts[i].outlines() {
		cuts[i].Used = max(cuts[i].Used, measure.Length(r.Bounds().Max.X))
	}
	return cuts
}

// score is what a plan comes to, as the solver counts.
func (w *bench) score(p BatchPlan) batch.Score {
	out := batch.Score{Pins: p.Score.Pins, Made: make([]int, len(p.Classes))}
	for _, m := range p.Made {
		if k := slices.Index(p.Classes, w.ask.Rows[m.Row].priority()); k >= 0 {
			out.Made[k]++
		}
	}
	for _, c := range p.Cuts {
		out.Cloths++
		if c.Whole {
			out.Whole++
		}
		if slices.Contains(w.ask.May.First, c.Cloth.Cloth.ID) {
			out.First++
		}
		all, rest := takenFrom(c.Cloth, c.outlines())
		out.Waste += int64(max(rest-leftover.KeptArea(c.Cloth.Cloth, all, w.keep), 0))
	}
	return out
}

// start is a plan made before as something to go on from: what it cuts, where row and cloth are
// still asked about.
func (w *bench) start(from *Batch) *batch.Plan {
	if from == nil || from.Plan == nil {
		return nil
	}
	rows := w.rowsOf(from.Rows)
	var out batch.Plan
	for _, c := range from.Plan.Cuts {
		at := slices.IndexFunc(w.cloths, func(x stash.ClothState) bool { return x.Cloth.ID == c.Cloth.Cloth.ID })
		var load batch.Load
		for _, part := range c.Parts {
			row := rows[from.Plan.Made[part.Garment].Row]
			if row < 0 {
				continue
			}
			if k := slices.IndexFunc(w.uses[row], func(u use) bool { return u.role == part.Role }); k >= 0 {
				load = load.With(batch.Task{Row: row, Role: k}, 1)
			}
		}
		if at >= 0 && len(load) > 0 {
			out.Cuts = append(out.Cuts, batch.Cut{Cloth: at, Load: load})
		}
	}
	return &out
}

// rowsOf finds rows of another batch among those asked for: of the same pattern, size and
// adjustments, each once; -1 for those that are not there.
func (w *bench) rowsOf(others []Wanted) []int {
	taken := make([]bool, len(w.ask.Rows))
	out := make([]int, len(others))
	for i, o := range others {
		out[i] = -1
		for k, r := range w.ask.Rows {
			if !taken[k] && r.PatternID == o.PatternID && r.Size == o.Size && reflect.DeepEqual(r.Adjustments, o.Adjustments) {
				taken[k], out[i] = true, k
				break
			}
		}
	}
	return out
}

// stands says whether a plan made before still answers what is asked, on the shelf as it is.
func (w *bench) stands(from *Batch) bool {
	if from == nil || from.Plan == nil {
		return false
	}
	now, was := w.ask, *from
	if !reflect.DeepEqual(now.Rows, was.Rows) || !reflect.DeepEqual(now.May, was.May) || !reflect.DeepEqual(now.Pins, was.Pins) || !slices.Equal(now.order(), was.order()) {
		return false
	}
	for _, c := range was.Plan.Cuts {
		i := slices.IndexFunc(w.cloths, func(x stash.ClothState) bool { return x.Cloth.ID == c.Cloth.Cloth.ID })
		if i < 0 {
			return false
		}
		a, b := c.Cloth, w.cloths[i]
		same := func(x, y stash.Reservation) bool { return x.ID == y.ID }
		if a.Cloth.Length != b.Cloth.Length || a.Cloth.Width != b.Cloth.Width || a.Cloth.Washed != b.Cloth.Washed ||
			!sameOutline(a.Cloth.Outline, b.Cloth.Outline) || !slices.EqualFunc(a.Reservations, b.Reservations, same) {
			return false
		}
	}
	return true
}
