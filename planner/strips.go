package planner

import (
	"context"
	"errors"
	"fmt"
	"slices"

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
	strips, err := WorkStrips(ask.Jobs, f, set.UsableStretch)
	if err != nil {
		return BindingAnswer{}, err
	}
	var cloths []stash.ClothState
	for _, id := range ask.ClothIDs {
		c, err := s.Cloth(ctx, id)
		if err != nil {
			return BindingAnswer{}, fmt.Errorf("working out strips: %w", err)
		}
		cloths = append(cloths, c)
	}
	return LayStrips(ctx, strips, cloths, set)
}

// LayStrips plans strips that are worked out on cloth as it was read: a person who types asks often,
// and ReserveStrips refuses where the shelf changed since.
func LayStrips(ctx context.Context, strips []binding.Strip, cloths []stash.ClothState, set Settings) (BindingAnswer, error) {
	a := BindingAnswer{Strips: strips, Cloths: cloths}
	if len(cloths) == 0 {
		return a, nil
	}
	if err := a.lay(ctx, set); err != nil {
		return BindingAnswer{}, fmt.Errorf("working out strips: %w", err)
	}
	return a, nil
}

// lay plans the strips of each grain by themselves, around what the others took.
func (a *BindingAnswer) lay(ctx context.Context, set Settings) error {
	n := len(a.Cloths)
	a.Where = make([][]shape.Ring, n)
	a.Plan = binding.CutPlan{Joins: map[int][]measure.Length{}, Taken: make([]measure.Length, n), Strips: make([]int, n), Proved: true}
	for _, grain := range grainsOf(a.Strips) {
		some, numbers := ofGrain(a.Strips, grain)
		sheets, grounds := a.sheets(set, grain)
		part, err := binding.PlanOn(ctx, some, sheets)
		if err != nil && !(part.Short > 0 && errors.Is(err, stash.ErrConflict)) {
			return err
		}
		a.add(part, numbers, grounds)
	}
	a.Short = a.Plan.Short
	return nil
}

func grainsOf(strips []binding.Strip) []binding.Grain {
	var out []binding.Grain
	for _, s := range strips {
		if !slices.Contains(out, s.Job.Grain) {
			out = append(out, s.Job.Grain)
		}
	}
	return out
}

// ofGrain returns the strips of a grain, and what their numbers are among all.
func ofGrain(strips []binding.Strip, grain binding.Grain) (some []binding.Strip, numbers []int) {
	no := 0
	for _, s := range strips {
		if s.Job.Grain == grain {
			some = append(some, s)
		}
		for range max(1, s.Job.Count) {
			if s.Job.Grain == grain {
				numbers = append(numbers, no)
			}
			no++
		}
	}
	return some, numbers
}

// sheets are the cloths as strips of a grain see them, around what is reserved and what was
// laid already.
func (a *BindingAnswer) sheets(set Settings, grain binding.Grain) ([]binding.Sheet, []*match.Ground) {
	sheets, grounds := make([]binding.Sheet, len(a.Cloths)), make([]*match.Ground, len(a.Cloths))
	for i, c := range a.Cloths {
		if len(a.Where[i]) > 0 {
			r := stash.Reservation{Live: true}
			for _, w := range a.Where[i] {
				r.Pieces = append(r.Pieces, stash.ReservedPiece{Outline: w})
			}
			c.Reservations = append(slices.Clip(c.Reservations), r)
		}
		sheets[i].Name = c.Cloth.Code
		if g, ok := match.GroundOf(c, set.EndLoss, set.Clearance, grain); ok {
			grounds[i], sheets[i] = g, g.Sheet(c.Cloth.Code)
		}
	}
	return sheets, grounds
}

// add joins a plan for some of the strips to the whole.
func (a *BindingAnswer) add(part binding.CutPlan, numbers []int, grounds []*match.Ground) {
	for no, joins := range part.Joins {
		a.Plan.Joins[numbers[no]] = joins
	}
	for _, no := range part.Missing {
		a.Plan.Missing = append(a.Plan.Missing, numbers[no])
	}
	before := slices.Clone(a.Plan.Strips)
	for i := range part.Taken {
		a.Plan.Taken[i] += part.Taken[i]
		a.Plan.Strips[i] += part.Strips[i]
	}
	a.Plan.Short += part.Short
	a.Plan.Fewest += part.Fewest
	a.Plan.Proved = a.Plan.Proved && part.Proved
	for _, p := range part.Pieces {
		a.Where[p.Source] = append(a.Where[p.Source], grounds[p.Source].Outline(p))
		p.StripNo = numbers[p.StripNo]
		p.Index += before[p.Source]
		a.Plan.Pieces = append(a.Plan.Pieces, p)
	}
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
