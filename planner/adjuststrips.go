package planner

import (
	"context"
	"fmt"
	"slices"

	"tallycloth/planner/binding"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// GarmentEdgeJobs lists the strips of every edge to finish of a garment, as EdgeJobs does for a
// pattern, measured on its outlines with all adjustments.
func (s *Studio) GarmentEdgeJobs(ctx context.Context, garmentID stash.ID) ([]binding.Job, error) {
	g, err := s.Garment(ctx, garmentID)
	if err != nil {
		return nil, fmt.Errorf("looking for edges to finish: %w", err)
	}
	p, err := s.Pattern(ctx, g.PatternID)
	if err != nil {
		return nil, fmt.Errorf("looking for edges to finish: %w", err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking for edges to finish: %w", err)
	}
	return garmentJobs(p, g, set)
}

func garmentJobs(p pattern.Pattern, g garment.Garment, set Settings) ([]binding.Job, error) {
	sewn, err := adjusted(p, g.Size, g.Adjustments)
	if err != nil {
		return nil, err
	}
	return edgeJobs(sewn, g.Size, set)
}

// followStrips works the strips kept with a garment out again where their edges changed. Parts
// whose length was typed otherwise stay as they are.
func (s *Studio) followStrips(ctx context.Context, p pattern.Pattern, was garment.Garment, out *Adjustment) error {
	if len(was.Strips) == 0 {
		return nil
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return err
	}
	before, err := garmentJobs(p, was, set)
	if err != nil {
		return nil // its edges could not be measured before: the strips were typed
	}
	after, err := garmentJobs(p, out.Garment, set)
	if err != nil {
		return err
	}
	write := measure.Style{System: set.Units, Kind: measure.StripLength}
	out.Garment.Strips = slices.Clone(was.Strips)
	for i, r := range was.Strips {
		job, changed := followed(r.Strip.Job, before, after)
		if !changed {
			continue
		}
		f, err := s.stripFabric(ctx, r)
		if err != nil {
			return err
		}
		made, err := WorkStrips([]binding.Job{job}, f, set.UsableStretch)
		if err != nil {
			return err
		}
		now := made[0]
		out.Garment.Strips[i].Strip = now
		said := fmt.Sprintf("The strip of %s is %s long now instead of %s", r.Edge, write.Format(now.CutLength), write.Format(r.Strip.CutLength))
		if now.CutLength > r.Strip.CutLength && r.FromID != stash.NoID {
			said += ": see that its cloth is enough"
		}
		out.Notes = append(out.Notes, said+".")
	}
	return nil
}

// stripFabric is the fabric a strip is cut from, or one without an ID.
func (s *Studio) stripFabric(ctx context.Context, r garment.StripRecord) (stash.Fabric, error) {
	if r.FromID == stash.NoID {
		return stash.Fabric{}, nil
	}
	c, err := s.Cloth(ctx, r.FromID)
	return c.Fabric, err
}

// followed is a job with the lengths that its edge has now.
func followed(j binding.Job, before, after []binding.Job) (binding.Job, bool) {
	at := func(all []binding.Job) (binding.Job, bool) {
		k := slices.IndexFunc(all, func(o binding.Job) bool { return o.Name == j.Name })
		if k < 0 {
			return binding.Job{}, false
		}
		return all[k], true
	}
	a, ok := at(before)
	b, ok2 := at(after)
	if !ok || !ok2 || len(a.Segments) != len(b.Segments) {
		return j, false
	}
	changed := false
	j.Segments = slices.Clone(j.Segments)
	for i, seg := range j.Segments {
		for k, was := range a.Segments {
			now := b.Segments[k]
			if was.Name != seg.Name || was.Length != seg.Length || now.Length == was.Length {
				continue
			}
			j.Segments[i].Length, j.Segments[i].Turning = now.Length, now.Turning
			changed = true
			break
		}
	}
	return j, changed
}
