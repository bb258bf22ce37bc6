package planner

import (
	"context"
	"errors"
	"fmt"

	"tallycloth/planner/binding"
	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Strips works strips out, and how they are cut from the cloth named, which may be
// none. It writes nothing. A strip that finds no cloth is told by Short, not by an error.
func (s *Studio) Strips(ctx context.Context, ask BindingAsk) (BindingAnswer, error) {
	set, err := s.Settings(ctx)
	if err != nil {
		return BindingAnswer{}, fmt.Errorf("working out strips: %w", err)
	}
	var f stash.Fabric
	if ask.FabricID != stash.NoID {
		if f, err = s.Fabric(ctx, ask.FabricID); err != nil {
			return BindingAnswer{}, fmt.Errorf("working out strips: %w", err)
		}
	}
	var a BindingAnswer
	if a.Strips, err = WorkStrips(ask.Jobs, f, set.UsableStretch); err != nil {
		return a, err
	}
	if len(ask.ClothIDs) == 0 {
		return a, nil
	}
	sources, rooms, err := s.sources(ctx, ask.ClothIDs, set, &a)
	if err != nil {
		return BindingAnswer{}, fmt.Errorf("working out strips: %w", err)
	}
	a.Plan, err = binding.Plan(ctx, a.Strips, sources)
	a.Short = a.Plan.Short
	if a.Short > 0 && errors.Is(err, stash.ErrConflict) {
		err = nil
	}
	a.Where = placed(a.Plan, rooms)
	return a, err
}

// WorkStrips works jobs out in the order they are sewn, each with what earlier finishes add
// to it; those finished alike are cut alike wide. f is the fabric of the strips, or one without
// an ID where none is chosen, share how much of bench stretch is used.
func WorkStrips(jobs []binding.Job, f stash.Fabric, share measure.Percent) ([]binding.Strip, error) {
	var out []binding.Strip
	for _, j := range binding.Cross(jobs) {
		facts := binding.FabricFacts{}
		if f.ID != stash.NoID {
			facts = StripFacts(f, j.Grain, share)
		}
		strip, err := binding.Work(j, facts)
		if err != nil {
			return nil, err
		}
		out = append(out, strip)
	}
	return binding.Alike(out), nil
}

// sources lists the free rectangles of the cloth named, in its order, with the cloth
// each belongs to in a.Cloths.
func (s *Studio) sources(ctx context.Context, ids []stash.ID, set Settings, a *BindingAnswer) ([]binding.Source, []shape.Box, error) {
	var sources []binding.Source
	var rooms []shape.Box
	for _, id := range ids {
		c, err := s.Cloth(ctx, id)
		if err != nil {
			return nil, nil, err
		}
		for _, box := range match.Rooms(c, set.EndLoss, set.Clearance) {
			a.Cloths = append(a.Cloths, c)
			rooms = append(rooms, box)
			sources = append(sources, binding.Source{Name: c.Cloth.Code,
				Across: measure.Length(box.Width()), Along: measure.Length(box.Length())})
		}
	}
	return sources, rooms, nil
}

// placed lays the pieces of a plan in the cloths' frames, by source.
func placed(plan binding.CutPlan, rooms []shape.Box) [][]shape.Ring {
	out := make([][]shape.Ring, len(rooms))
	for _, p := range plan.Pieces {
		at := rooms[p.Source].Min
		box := shape.Box{
			Min: at.Add(shape.Point{X: int64(p.At), Y: int64(p.From)}),
			Max: at.Add(shape.Point{X: int64(p.At + p.Width), Y: int64(p.To)}),
		}
		out[p.Source] = append(out[p.Source], box.Ring())
	}
	return out
}

// ReserveStrips keeps the cloth of worked-out strips for a garment, and the strips with
// it. It is refused with a reason when the shelf changed since they were worked out.
func (s *Studio) ReserveStrips(ctx context.Context, garmentID stash.ID, a BindingAnswer) ([]stash.Reservation, error) {
	g, err := s.Garment(ctx, garmentID)
	switch {
	case err != nil:
		return nil, fmt.Errorf("reserving strips: %w", err)
	case a.Short > 0:
		return nil, refused("Add another cloth to cut them from", "There is not cloth for all of the strips")
	case len(a.Plan.Pieces) == 0:
		return nil, refused("Choose the cloth they are cut from", "The strips are not laid on any cloth yet")
	}
	made := s.stripReservations(garmentID, a)
	err = s.act(ctx, fmt.Sprintf("Reserved strips of %s for %s", a.Cloths[a.Plan.Pieces[0].Source].Fabric.Name, g.Name), func(tx Tx) error {
		now, err := tx.Garment(ctx, garmentID)
		if err != nil {
			return err
		}
		if now.State == garment.Finished || now.State == garment.GivenUp {
			return refused("Want it again first", "%s is %s", now.Name, now.State)
		}
		for _, p := range a.Plan.Pieces {
			if err := unchanged(ctx, tx, a.Cloths[p.Source]); err != nil {
				return err
			}
		}
		for _, r := range made {
			if err := keep(ctx, tx, r); err != nil {
				return err
			}
		}
		now.Strips = append(now.Strips, stripRecords(a)...)
		return tx.PutGarment(ctx, s.changed(now, now.State))
	})
	if err != nil {
		return nil, err
	}
	return made, nil
}

// stripReservations makes one reservation for each cloth.
func (s *Studio) stripReservations(garmentID stash.ID, a BindingAnswer) []stash.Reservation {
	var out []stash.Reservation
	at := map[stash.ID]int{}
	next := make([]int, len(a.Where))
	for _, p := range a.Plan.Pieces {
		cloth := a.Cloths[p.Source].Cloth.ID
		i, ok := at[cloth]
		if !ok {
			i = len(out)
			at[cloth] = i
			out = append(out, stash.Reservation{ID: s.newID(), ClothID: cloth, GarmentID: garmentID,
				UsedFor: pattern.Binding, Live: true, At: s.now()})
		}
		ring := a.Where[p.Source][next[p.Source]]
		next[p.Source]++
		out[i].Pieces = append(out[i].Pieces, stash.ReservedPiece{Name: stripName(a, p.StripNo), Outline: ring, GrainTo: grainTop(shape.Placement{})})
	}
	return out
}

// stripName names the n-th strip in order of jobs and counts.
func stripName(a BindingAnswer, n int) string {
	for _, s := range a.Strips {
		if n < max(s.Job.Count, 1) {
			return "strip " + s.Job.Name
		}
		n -= max(s.Job.Count, 1)
	}
	return "strip"
}

// stripRecords keep each strip with the cloth that the first of it is cut from.
func stripRecords(a BindingAnswer) []garment.StripRecord {
	var out []garment.StripRecord
	first := 0
	for _, s := range a.Strips {
		r := garment.StripRecord{Edge: s.Job.Name, Strip: s}
		for _, p := range a.Plan.Pieces {
			if p.StripNo == first {
				r.FromID = a.Cloths[p.Source].Cloth.ID
				break
			}
		}
		first += max(s.Job.Count, 1)
		out = append(out, r)
	}
	return out
}
