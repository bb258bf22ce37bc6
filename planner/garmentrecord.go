package planner

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// GarmentRecord is all that is known of a garment, with what follows from it.
type GarmentRecord struct {
	Garment garment.Garment
	Pattern pattern.Pattern
	CopyOf  string // the garment it was copied from, or ""
	Fabrics []GarmentFabric
	Notions []GarmentNotion
	Steps   []garment.StepState
	Seams   []garment.MadeSeam
	Thread  garment.Thread
	Breaks  []string // seams with a plain lockstitch where the fabric stretches
	Blend   garment.Blend
	// Cost is what it takes at what was paid; Costed is false while it has neither cloth nor
	// notions.
	Cost     GarmentCost
	Costed   bool
	Cautions []garment.Caution
	Fit      GarmentFit
}

// GarmentFabric is fabric in a garment by what it is used for.
type GarmentFabric struct {
	Fabric  stash.Fabric
	ClothID stash.ID
	Code    string
	UsedFor string
	Area    measure.Area
	Planned bool // reserved, not cut yet
}

// GarmentNotion is what was used of a notion for a garment.
type GarmentNotion struct {
	Notion stash.Notion
	Used   float64
}

// GarmentFit is how the size of a garment sits on whom it is for.
type GarmentFit struct {
	Known  bool // somebody of that name is measured, and the pattern has sizes to compare
	Choice sizing.Choice
	Chosen sizing.Option // the size of the garment
	Fabric string        // the fabric that was looked at, or "": what the pattern asks
}

// GarmentRecord reads the record of a garment.
func (s *Studio) GarmentRecord(ctx context.Context, id stash.ID) (GarmentRecord, error) {
	var r GarmentRecord
	for _, read := range []func() error{
		func() (err error) { r.Garment, err = s.Garment(ctx, id); return },
		func() (err error) { r.Pattern, err = s.Pattern(ctx, r.Garment.PatternID); return },
		func() error { return s.recordFabrics(ctx, &r) },
		func() error { return s.recordNotions(ctx, &r) },
		func() error { return s.recordCost(ctx, &r) },
		func() error { return s.recordFit(ctx, &r) },
	} {
		if err := read(); err != nil {
			return GarmentRecord{}, fmt.Errorf("reading the record of a garment: %w", err)
		}
	}
	if from := r.Garment.Record.CopyOf; from != stash.NoID {
		if g, err := s.Garment(ctx, from); err == nil {
			r.CopyOf = g.Name
		}
	}
	r.follows()
	return r, nil
}

// follows adds what follows from what was read.
func (r *GarmentRecord) follows() {
	main := r.mainFabric()
	sewn, err := adjusted(r.Pattern, r.Garment.Size, r.Garment.Adjustments)
	if err != nil {
		sewn = r.Pattern // its outlines changed since
	}
	r.Seams = r.Garment.Seams(sewn, main.Construction.Knit())
	r.Steps = r.Garment.Steps(r.Pattern)
	r.Thread = garment.ThreadFor(r.Seams, garment.ThreadWaste)
	for _, seam := range r.Seams {
		if seam.Breaks(main) {
			r.Breaks = append(r.Breaks, seam.Name)
		}
	}
	caution := garment.Cautious{Pattern: r.Pattern, Garment: r.Garment}
	var parts []garment.OfFabric
	for _, f := range r.Fabrics {
		parts = append(parts, garment.OfFabric{Fabric: f.Fabric, Area: f.Area})
		caution.Fabrics = append(caution.Fabrics, f.Fabric)
	}
	for _, n := range r.Notions {
		caution.Notions = append(caution.Notions, n.Notion)
	}
	r.Blend = garment.BlendOf(parts)
	r.Cautions = garment.CautionsFor(caution)
}

// mainFabric is the fabric used as main, else the first; one without a name where there is
// none: then what the pattern asks for counts.
func (r *GarmentRecord) mainFabric() stash.Fabric {
	for _, f := range r.Fabrics {
		if f.UsedFor == pattern.Main {
			return f.Fabric
		}
	}
	if len(r.Fabrics) > 0 {
		return r.Fabrics[0].Fabric
	}
	f := stash.Fabric{Construction: stash.WovenPlain}
	if role, ok := r.Pattern.Role(pattern.Main); ok && role.Knit {
		f.Construction = stash.Jersey
	}
	return f
}

// mostCutLines bounds how many lines of cutting are read of one garment.
const mostCutLines = 500

// recordFabrics reads what was cut for the garment and what is reserved for it, by use.
func (s *Studio) recordFabrics(ctx context.Context, r *GarmentRecord) error {
	id := r.Garment.ID
	lines, err := s.Past(ctx, Past{GarmentID: id, Kinds: []stash.MovementKind{stash.Cut}}, 0, mostCutLines)
	if err != nil {
		return err
	}
	fabrics, err := s.Fabrics(ctx)
	if err != nil {
		return err
	}
	add := func(fabricID, clothID stash.ID, code, use string, area measure.Area, planned bool) {
		for i := range r.Fabrics {
			if f := &r.Fabrics[i]; f.ClothID == clothID && f.UsedFor == use && f.Planned == planned {
				f.Area += area
				return
			}
		}
		at := slices.IndexFunc(fabrics, func(f stash.Fabric) bool { return f.ID == fabricID })
		if at >= 0 {
			r.Fabrics = append(r.Fabrics, GarmentFabric{fabrics[at], clothID, code, use, area, planned})
		}
	}
	for _, l := range slices.Backward(lines) {
		if l.TakenBack {
			continue
		}
		kept, err := s.Reservation(ctx, l.ReservationID)
		if err != nil {
			return err
		}
		add(l.FabricID, l.ClothID, l.Code, kept.UsedFor, -l.Area, false)
	}
	live, err := s.Reservations(ctx, id)
	if err != nil {
		return err
	}
	for _, k := range live {
		c, err := s.Cloth(ctx, k.ClothID)
		if err != nil {
			return err
		}
		add(c.Fabric.ID, k.ClothID, c.Cloth.Code, k.UsedFor, k.Area(), true)
	}
	return nil
}

func (s *Studio) recordNotions(ctx context.Context, r *GarmentRecord) error {
	all, err := s.Notions(ctx)
	for _, n := range all {
		if q := n.UsedFor(r.Garment.ID); q > 0 {
			r.Notions = append(r.Notions, GarmentNotion{n, q})
		}
	}
	return err
}

func (s *Studio) recordCost(ctx context.Context, r *GarmentRecord) error {
	all, err := s.GarmentCosts(ctx)
	for _, c := range all {
		if c.Garment.ID == r.Garment.ID {
			r.Cost, r.Costed = c, true
		}
	}
	return err
}

// recordFit compares the size with whom it is for, in the fabric it has.
func (s *Studio) recordFit(ctx context.Context, r *GarmentRecord) error {
	who := strings.TrimSpace(r.Garment.For)
	people, err := s.People(ctx)
	if err != nil {
		return err
	}
	at := slices.IndexFunc(people, func(p sizing.Person) bool { return strings.EqualFold(p.Name, who) })
	if _, ok := r.Pattern.Size(r.Garment.Size); at < 0 || !ok {
		return nil
	}
	day := r.Garment.ReachedOn(garment.Cut) // as she was measured when it was cut
	a := sizing.Ask{Pattern: r.Pattern, Body: people[at].Latest(day)}
	if len(r.Fabrics) > 0 {
		main := r.mainFabric()
		a.Chosen, a.Stretch, r.Fit.Fabric = true, stretchAround(main), main.Name
	}
	choice, err := sizing.Choose(a)
	if err != nil {
		return nil // nothing of her is measured that the pattern says a size by
	}
	r.Fit.Known, r.Fit.Choice, r.Fit.Chosen = true, choice, a.Option(asSewn(r.Pattern, r.Garment))
	return nil
}
