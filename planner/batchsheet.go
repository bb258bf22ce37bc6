package planner

import (
	"context"
	"fmt"

	"tallycloth/planner/match"
	"tallycloth/stash"
)

// BatchSheet puts the cutting sheet of a batch together from its plan: every cloth that is cut
// into, as it was planned on, with the garments on it in the order in which the plan makes them.
// Nothing has to be reserved. It is refused where the plan makes nothing.
func (s *Studio) BatchSheet(ctx context.Context, b Batch) (CuttingSheet, error) {
	if b.Plan == nil || len(b.Plan.Made) == 0 {
		return CuttingSheet{}, refused("Plan it first, with more cloth if need be", "Nothing is planned for %s", b.title())
	}
	sheet := CuttingSheet{Title: b.title(), Planned: true}
	for _, m := range b.Plan.Made {
		p, err := b.patternOf(ctx, s.Store, m)
		if err != nil {
			return CuttingSheet{}, fmt.Errorf("putting the sheet of %s together: %w", b.title(), err)
		}
		if _, err := s.addGarment(ctx, &sheet, b.garment(p, m), p); err != nil {
			return CuttingSheet{}, fmt.Errorf("putting the sheet of %s together: %w", b.title(), err)
		}
	}
	for _, c := range b.Plan.Cuts {
		out, err := s.plannedCloth(ctx, sheet, c)
		if err != nil {
			return CuttingSheet{}, fmt.Errorf("putting the sheet of %s together: %w", b.title(), err)
		}
		sheet.Cloths = append(sheet.Cloths, out)
	}
	return sheet, nil
}

// plannedCloth is a cloth with what a plan lays on it, and what was reserved on it before.
func (s *Studio) plannedCloth(ctx context.Context, sheet CuttingSheet, c PlannedCut) (SheetCloth, error) {
	out, err := s.sheetCloth(ctx, c.Cloth)
	if err != nil {
		return out, err
	}
	for _, r := range c.Cloth.Reservations {
		if err := s.addOther(ctx, &out, r); err != nil {
			return out, err
		}
	}
	for _, part := range c.Parts {
		f := Finding{Cloth: c.Cloth, Verdict: match.Verdict{Keep: part.Keep}}
		if len(part.Keep) == 0 {
			f.Verdict.Layout = &part.Layout
		}
		for _, r := range s.reservations(stash.NoID, f, part.Role) {
			out.add(part.Garment, sheet.Garments[part.Garment], r)
		}
	}
	out.finish()
	return out, nil
}
