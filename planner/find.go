package planner

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sync"

	"tallycloth/planner/adjust"
	"tallycloth/planner/binding"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// FindFabric compares every cloth on the shelf with what a pattern asks. Results
// are reported as they come (report may be nil; it is called from one goroutine at
// a time), the most promising cloth first. The list returned is sorted, best verdict
// first and of equal ones the smallest cloth, so that leftovers are used before
// lengths are cut into; after an error it holds what was found until then.
func (s *Studio) FindFabric(ctx context.Context, q Search, report func(Finding)) ([]Finding, error) {
	question, err := s.question(ctx, q)
	if err != nil {
		return nil, err
	}
	cloths, err := s.Cloths(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking through the shelf: %w", err)
	}
	verdicts, err := question.Sweep(ctx, cloths, s.workers, func(i int, v match.Verdict) {
		if report != nil {
			report(Finding{cloths[i], v})
		}
	})
	var out []Finding
	for i, v := range verdicts {
		if v.ClothID != stash.NoID {
			out = append(out, Finding{cloths[i], v})
		}
	}
	slices.SortStableFunc(out, func(a, b Finding) int {
		return cmp.Or(match.Compare(a.Verdict, b.Verdict), cmp.Compare(a.Cloth.FreeArea, b.Cloth.FreeArea))
	})
	if err != nil {
		return out, fmt.Errorf("looking through the shelf: %w", err)
	}
	return out, nil
}

// CheckCloth compares one cloth with what a pattern asks.
func (s *Studio) CheckCloth(ctx context.Context, clothID stash.ID, q Search) (Finding, error) {
	question, err := s.question(ctx, q)
	if err != nil {
		return Finding{}, err
	}
	c, err := s.Cloth(ctx, clothID)
	if err != nil {
		return Finding{}, fmt.Errorf("looking whether cloth is enough: %w", err)
	}
	v, err := question.Check(ctx, c)
	return Finding{c, v}, err
}

// Layout returns the checked layout of a pattern on a cloth. The error says why there is none.
func (s *Studio) Layout(ctx context.Context, clothID stash.ID, q Search) (match.Layout, error) {
	f, err := s.CheckCloth(ctx, clothID, q)
	if err != nil {
		return match.Layout{}, err
	}
	if f.Verdict.Layout == nil {
		return match.Layout{}, refused("Look at its verdict for what is missing", "There is no layout on %s", f.Cloth.Cloth.Code)
	}
	return *f.Verdict.Layout, nil
}

// WhatCanItMake compares one cloth with every pattern, size and role that asks for
// cloth. Results are reported as they come; the list returned is sorted, best first.
func (s *Studio) WhatCanItMake(ctx context.Context, clothID stash.ID, report func(Making)) ([]Making, error) {
	c, err := s.Cloth(ctx, clothID)
	if err != nil {
		return nil, fmt.Errorf("looking what cloth can make: %w", err)
	}
	return s.uses(ctx, c, report)
}

// uses compares a cloth with everything that could be made.
func (s *Studio) uses(ctx context.Context, c stash.ClothState, report func(Making)) ([]Making, error) {
	patterns, err := s.Patterns(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking what cloth can make: %w", err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking what cloth can make: %w", err)
	}
	out, err := s.makings(ctx, c, possible(patterns), set, s.workers, report)
	order := map[stash.ID]int{}
	for i, p := range patterns {
		order[p.ID] = i
	}
	slices.SortStableFunc(out, func(a, b Making) int {
		return cmp.Or(match.Compare(a.Verdict, b.Verdict), cmp.Compare(order[a.Pattern.ID], order[b.Pattern.ID]))
	})
	if err != nil {
		return out, fmt.Errorf("looking what %s can make: %w", c.Cloth.Code, err)
	}
	return out, nil
}

// possible lists what could be made of any cloth: by pattern, role and size.
func possible(patterns []pattern.Pattern) []Making {
	var out []Making
	for _, p := range patterns {
		for _, r := range p.Roles {
			for _, size := range p.Sizes {
				if asksFor(p, r.Name, size.Name) {
					out = append(out, Making{Pattern: p, Size: size.Name, Role: r.Name})
				}
			}
		}
	}
	return out
}

// asksFor says whether a role asks for cloth in a size: by outlines, by the yardage
// table or by strips.
func asksFor(p pattern.Pattern, role, size string) bool {
	if p.HasOutlines(role, size) || slices.ContainsFunc(p.Yards, func(y pattern.YardageRow) bool { return y.Role == role }) {
		return true
	}
	return role == pattern.Binding && len(p.Edges) > 0
}

// makings answers for each, with so many workers.
func (s *Studio) makings(ctx context.Context, c stash.ClothState, all []Making, set Settings, workers int, report func(Making)) ([]Making, error) {
	var mu sync.Mutex
	var out []Making
	var failed error
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	next := make(chan Making)
	var wait sync.WaitGroup
	for range workers {
		wait.Go(func() {
			for m := range next {
				v, err := makingVerdict(ctx, c, m, set)
				mu.Lock()
				if m.Verdict = v; err != nil {
					failed = cmp.Or(failed, err)
					stop()
				} else if out = append(out, m); report != nil {
					report(m)
				}
				mu.Unlock()
			}
		})
	}
	for _, m := range all {
		if ctx.Err() != nil {
			break
		}
		next <- m
	}
	close(next)
	wait.Wait()
	return out, cmp.Or(failed, ctx.Err())
}

func makingVerdict(ctx context.Context, c stash.ClothState, m Making, set Settings) (match.Verdict, error) {
	q, err := questionOf(m.Pattern, Search{Size: m.Size, Role: m.Role}, set)
	if err != nil {
		return match.Verdict{}, err
	}
	return q.Check(ctx, c)
}

// question makes a search ready.
func (s *Studio) question(ctx context.Context, q Search) (*match.Question, error) {
	p, err := s.Pattern(ctx, q.PatternID)
	if err != nil {
		return nil, fmt.Errorf("looking for fabric: %w", err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking for fabric: %w", err)
	}
	if q.For != stash.NoID {
		g, err := s.Garment(ctx, q.For)
		if err != nil {
			return nil, fmt.Errorf("looking for fabric: %w", err)
		}
		if p, err = adjusted(p, q.Size, adjust.BeforeCut(g.Adjustments)); err != nil {
			return nil, err
		}
	}
	return questionOf(p, q, set)
}

func questionOf(p pattern.Pattern, q Search, set Settings) (*match.Question, error) {
	a := match.Ask{Pattern: p, Size: q.Size, Role: cmp.Or(q.Role, pattern.Main), Clearance: set.Clearance, Fold: true,
		Tight: match.TightLimits{Length: set.TightLength, Width: set.TightWidth}, EndLoss: set.EndLoss, Tilt: set.Tilt}
	if q.Strips || a.Role == pattern.Binding && !p.HasOutlines(a.Role, q.Size) {
		strips, err := stripAsks(p, q.Size, set, stash.Fabric{})
		if err != nil {
			return nil, err
		}
		a.Strips = strips
		a.StripsOf = func(f stash.Fabric) []match.StripAsk {
			of, err := stripAsks(p, q.Size, set, f)
			if err != nil { // this fabric cannot be cut so: as where none is known
				return strips
			}
			return of
		}
	}
	return match.New(a)
}

// stripAsks are the strips of a pattern's edges as a search asks for them: worked out as for a
// person who chose the fabric, or without one where f has no ID.
func stripAsks(p pattern.Pattern, size string, set Settings, f stash.Fabric) ([]match.StripAsk, error) {
	jobs, err := edgeJobs(p, size, set)
	if err != nil {
		return nil, err
	}
	strips, err := WorkStrips(jobs, f, set.UsableStretch)
	if err != nil {
		return nil, fmt.Errorf("working out the strips of %s: %w", p.Name, err)
	}
	var out []match.StripAsk
	for _, strip := range strips {
		j := strip.Job
		out = append(out, match.StripAsk{Name: j.Name, Length: strip.CutLength, Width: strip.CutWidth,
			Count: max(j.Count, 1), MayJoin: mayJoin(j), JoinLoss: j.JoinTake(strip.CutWidth)})
	}
	return out, nil
}

// mayJoin says whether a join may fall somewhere on a strip.
func mayJoin(j binding.Job) bool {
	return slices.ContainsFunc(j.Segments, func(s binding.Segment) bool { return !s.NoJoin })
}
