package planner

import (
	"context"
	"fmt"
	"slices"

	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// ReserveAll makes the garments of a plan and reserves their cloth as it was planned, in one
// act. The library is looked at again in that act: if a cloth or a pattern has changed since,
// or a layout does not hold beside what was reserved meanwhile, nothing is reserved at all
// and the reason is said. One undo releases everything.
func (s *Studio) ReserveAll(ctx context.Context, b Batch, p BatchPlan) ([]garment.Garment, error) {
	if len(p.Made) == 0 {
		return nil, refused("Allow more cloth, or buy some", "The plan makes no garment")
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return nil, fmt.Errorf("reserving for %s: %w", b.title(), err)
	}
	var made []garment.Garment
	sentence := fmt.Sprintf("Reserved cloth for %s of %s", countedGarments(len(p.Made)), b.title())
	err = s.act(ctx, sentence, func(tx Tx) error {
		made = made[:0]
		for _, m := range p.Made {
			g, err := s.batchGarment(ctx, tx, b, m)
			if err != nil {
				return err
			}
			made = append(made, g)
			if err := tx.PutGarment(ctx, g); err != nil {
				return err
			}
		}
		for _, c := range p.Cuts {
			if err := s.reserveCut(ctx, tx, set, c, made); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return made, nil
}

func countedGarments(n int) string {
	if n == 1 {
		return "one garment"
	}
	return fmt.Sprintf("%d garments", n)
}

// batchGarment is a garment that a plan makes.
func (s *Studio) batchGarment(ctx context.Context, tx Tx, b Batch, m PlannedGarment) (garment.Garment, error) {
	p, err := b.patternOf(ctx, tx, m)
	if err != nil {
		return garment.Garment{}, err
	}
	g := b.garment(p, m)
	g.ID, g.State, g.Changed = s.newID(), garment.Reserved, s.today()
	return g, nil
}

// patternOf reads the pattern of a garment that a plan of the batch makes.
func (b Batch) patternOf(ctx context.Context, r interface {
	Pattern(ctx context.Context, id stash.ID) (pattern.Pattern, error)
}, m PlannedGarment) (pattern.Pattern, error) {
	if m.Row >= len(b.Rows) {
		return pattern.Pattern{}, refused("Plan the batch again", "The rows have changed since the plan was made")
	}
	return r.Pattern(ctx, b.Rows[m.Row].PatternID)
}

// garment is one that a plan of the batch makes of a pattern, wanted so far.
func (b Batch) garment(p pattern.Pattern, m PlannedGarment) garment.Garment {
	row := b.Rows[m.Row]
	name := p.Name + ", size " + row.Size
	if row.Variant != "" {
		name += ", " + row.Variant
	}
	if row.For != "" {
		name += ", for " + row.For
	}
	if row.count() > 1 {
		name += fmt.Sprintf(" (%d of %d)", m.Number, row.count())
	}
	return garment.Garment{Name: name, PatternID: p.ID, Size: row.Size, Variant: row.Variant, For: row.For, State: garment.Wanted, Wanted: row.Date,
		Adjustments: slices.Clone(row.Adjustments)}
}

// reserveCut reserves what is planned on one cloth.
func (s *Studio) reserveCut(ctx context.Context, tx Tx, set Settings, c PlannedCut, made []garment.Garment) error {
	if err := unchanged(ctx, tx, c.Cloth); err != nil {
		return err
	}
	if err := nothingNew(ctx, tx, c.Cloth); err != nil {
		return err
	}
	for _, part := range c.Parts {
		g := made[part.Garment]
		f := Finding{Cloth: c.Cloth, Verdict: match.Verdict{ClothID: c.Cloth.Cloth.ID, Keep: part.Keep}}
		if len(part.Keep) == 0 {
			f.Verdict.Layout = &part.Layout
		}
		if err := holds(ctx, tx, set, f, g, part.Role); err != nil {
			return err
		}
		for _, r := range s.reservations(g.ID, f, part.Role) {
			if err := keep(ctx, tx, r); err != nil {
				return err
			}
		}
	}
	return nil
}

// nothingNew refuses cloth on which something was reserved since it was planned on.
func nothingNew(ctx context.Context, tx Tx, seen stash.ClothState) error {
	now, err := tx.Cloth(ctx, seen.Cloth.ID)
	if err != nil {
		return err
	}
	return reservedSince(seen, now)
}

func reservedSince(seen, now stash.ClothState) error {
	for _, r := range now.Reservations {
		if !slices.ContainsFunc(seen.Reservations, func(s stash.Reservation) bool { return s.ID == r.ID }) {
			return refused("Plan the batch again", "A part of %s was reserved since the plan was made", seen.Cloth.Code)
		}
	}
	return nil
}

// Outdated says why a plan does not go with the cloth on the shelf any more: some of it is gone, was cut,
// washed or measured, or something else is reserved on it. nil where nothing of that stands against it.
func (p BatchPlan) Outdated(shelf []stash.ClothState) error {
	for _, c := range p.Cuts {
		code := c.Cloth.Cloth.Code
		i := slices.IndexFunc(shelf, func(s stash.ClothState) bool { return s.Cloth.ID == c.Cloth.Cloth.ID })
		switch {
		case i < 0 || shelf[i].Cloth.Gone:
			return refused("Plan the batch again", "%s is gone since the plan was made", code)
		case changedSince(c.Cloth, shelf[i]) != nil:
			return refused("Plan the batch again", "%s has changed since the plan was made", code)
		}
		if err := reservedSince(c.Cloth, shelf[i]); err != nil {
			return err
		}
	}
	return nil
}

// NearestMiss is the cloth that comes nearest to serving a use of a row that a plan cannot make.
type NearestMiss struct {
	Row     int
	Role    string
	Finding Finding
	None    bool // no cloth may be used for it at all
	// Allowed is the nearest among the cloth that may be used, nil where there is none.
	Allowed *Finding
}

// NearestMisses says for each row that a plan does not make in full which cloth comes nearest
// for each use of fabric, with the plan's own layouts reserved, and what is missing.
func (s *Studio) NearestMisses(ctx context.Context, b Batch, p BatchPlan) ([]NearestMiss, error) {
	w, err := s.bench(ctx, b)
	if err != nil {
		return nil, err
	}
	cloths, err := s.Cloths(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking for the nearest miss: %w", err)
	}
	cloths = slices.DeleteFunc(cloths, func(c stash.ClothState) bool { return c.Cloth.Gone || slices.Contains(b.May.Never, c.Cloth.ID) })
	for i := range cloths {
		cloths[i] = p.onto(cloths[i])
	}
	var out []NearestMiss
	for _, m := range p.Missing {
		if m.Row >= len(w.uses) {
			return nil, refused("Plan the batch again", "The rows have changed since the plan was made")
		}
		for k, u := range w.uses[m.Row] {
			verdicts, err := w.asks[m.Row][k].Sweep(ctx, cloths, s.workers, nil)
			if err != nil {
				return nil, fmt.Errorf("looking for the nearest miss: %w", err)
			}
			out = append(out, w.nearest(m.Row, u, cloths, verdicts))
		}
	}
	return out, nil
}

// onto is a cloth with what a plan lays on it reserved.
func (p BatchPlan) onto(c stash.ClothState) stash.ClothState {
	for _, cut := range p.Cuts {
		if cut.Cloth.Cloth.ID != c.Cloth.ID {
			continue
		}
		r := stash.Reservation{ClothID: c.Cloth.ID, Live: true}
		for _, o := range cut.outlines() {
			r.Pieces = append(r.Pieces, stash.ReservedPiece{Outline: o})
		}
		c.Reservations = append(slices.Clone(c.Reservations), r)
		c.FreeArea -= r.Area()
	}
	return c
}

// nearest picks the best verdict among the cloths that the rules of a use allow.
func (w *bench) nearest(row int, u use, cloths []stash.ClothState, verdicts []match.Verdict) NearestMiss {
	out := NearestMiss{Row: row, Role: u.role, None: true}
	for i, v := range verdicts {
		c := cloths[i]
		switch {
		case u.role == pattern.Main && !w.ask.Rows[row].wishes(c.Fabric):
			continue
		case u.rule.From == NamedFabric && !slices.Contains(u.rule.Fabrics, c.Fabric.ID):
			continue
		}
		if out.None || match.Compare(v, out.Finding.Verdict) < 0 {
			out.Finding, out.None = Finding{c, v}, false
		}
		if w.ask.May.Allows(c) && (out.Allowed == nil || match.Compare(v, out.Allowed.Verdict) < 0) {
			out.Allowed = &Finding{c, v}
		}
	}
	return out
}
