package planner

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/leftover"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// ClothCut is one cloth of a garment: what is cut from it, and what of the rest is worth
// keeping.
type ClothCut struct {
	Cloth  stash.ClothState    // before
	Cut    []stash.Reservation // the garment's
	Others []stash.Reservation // of other garments; they go on lying on what is kept
	Left   []leftover.Leftover // the largest first
}

// Waste returns what is neither cut nor, if everything proposed is, kept.
func (c ClothCut) Waste() measure.Area {
	a := c.Cloth.Cloth.Area()
	for _, r := range c.Cut {
		a -= r.Area()
	}
	for _, l := range c.Left {
		a -= l.Area()
	}
	return a
}

// outlines are what is cut.
func (c ClothCut) outlines() []shape.Ring {
	var out []shape.Ring
	for _, r := range c.Cut {
		for _, p := range r.Pieces {
			out = append(out, p.Outline)
		}
	}
	return out
}

// Kept is a leftover that the person keeps: as proposed, trimmed, or drawn by hand.
type Kept struct {
	Outline shape.Polygon // in the frame of the cloth it is cut from
	Place   string        // where it is put; "" is where the cloth was
	Notes   string
}

// Keeping says what is kept of each cloth. A cloth it does not name is discarded but
// for what is cut.
type Keeping map[stash.ID][]Kept

// CutPlan returns what marking a garment cut would do, cloth by cloth, with the
// leftovers that are worth keeping.
func (s *Studio) CutPlan(ctx context.Context, garmentID stash.ID) ([]ClothCut, error) {
	g, err := s.Garment(ctx, garmentID)
	if err == nil {
		err = cuttable(g)
	}
	if err != nil {
		return nil, fmt.Errorf("looking what is left over: %w", err)
	}
	out, err := cutPlan(ctx, s.Store, garmentID)
	if err != nil {
		return nil, fmt.Errorf("looking what is left over: %w", err)
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking what is left over: %w", err)
	}
	for i := range out {
		if ctx.Err() != nil {
			return nil, context.Cause(ctx)
		}
		out[i].Left = leftover.Of(out[i].Cloth.Cloth, out[i].outlines(), set.Leftovers())
	}
	return out, nil
}

func cuttable(g garment.Garment) error {
	if g.State != garment.Reserved {
		return refused("Reserve its cloth first", "%s is %s", g.Name, g.State)
	}
	return nil
}

// cutPlan lists the cloths of a garment, in the order they were reserved.
func cutPlan(ctx context.Context, r stash.Reader, garmentID stash.ID) ([]ClothCut, error) {
	live, err := r.Reservations(ctx, garmentID)
	if err != nil {
		return nil, err
	}
	var out []ClothCut
	done := map[stash.ID]bool{}
	for _, first := range live {
		if done[first.ClothID] {
			continue
		}
		done[first.ClothID] = true
		c, err := r.Cloth(ctx, first.ClothID)
		if err != nil {
			return nil, err
		}
		k := ClothCut{Cloth: c}
		for _, res := range c.Reservations {
			if res.GarmentID == garmentID {
				k.Cut = append(k.Cut, res)
			} else {
				k.Others = append(k.Others, res)
			}
		}
		out = append(out, k)
	}
	return out, nil
}

// AllLeft keeps everything that is worth keeping.
func AllLeft(plan []ClothCut) Keeping {
	out := Keeping{}
	for _, c := range plan {
		for _, l := range c.Left {
			out[c.Cloth.Cloth.ID] = append(out[c.Cloth.Cloth.ID], Kept{Outline: l.Outline})
		}
	}
	return out
}

// MarkCut notes that what was reserved for a garment is cut, and keeps leftovers as
// cloths of their own, each with its code; it returns those. What is neither cut nor
// kept is discarded, so that before = cut + kept + discarded. What is reserved for other
// garments moves onto the leftover it lies on; where it would lie on none, or where a
// leftover reaches out of the cloth or into what is cut, the whole is refused. The stitch
// notes of its fabrics, with their photos, are from now on the garment's own.
func (s *Studio) MarkCut(ctx context.Context, garmentID stash.ID, keep Keeping) ([]stash.Cloth, error) {
	g, err := s.Garment(ctx, garmentID)
	if err != nil {
		return nil, fmt.Errorf("marking a garment cut: %w", err)
	}
	n := 0
	for _, k := range keep {
		n += len(k)
	}
	var kept []stash.Cloth
	err = s.act(ctx, fmt.Sprintf("Cut %s, %s kept", g.Name, countedLeftovers(n)), func(tx Tx) error {
		kept = kept[:0]
		now, err := tx.Garment(ctx, garmentID)
		if err == nil {
			err = cuttable(now)
		}
		if err != nil {
			return err
		}
		plan, err := cutPlan(ctx, tx, garmentID)
		if err != nil {
			return err
		}
		for _, c := range plan {
			made, err := s.cutUp(ctx, tx, c, keep[c.Cloth.Cloth.ID])
			if err != nil {
				return err
			}
			kept = append(kept, made...)
		}
		if now, err = s.withStitches(ctx, tx, now, plan); err != nil {
			return err
		}
		return tx.PutGarment(ctx, s.changed(now, garment.Cut))
	})
	return kept, err
}

func countedLeftovers(n int) string {
	switch n {
	case 0:
		return "nothing"
	case 1:
		return "one leftover"
	}
	return fmt.Sprintf("%d leftovers", n)
}

// cutUp cuts all that is reserved on one cloth for the garment.
func (s *Studio) cutUp(ctx context.Context, tx Tx, c ClothCut, keep []Kept) ([]stash.Cloth, error) {
	if err := checkKept(c, keep); err != nil {
		return nil, err
	}
	cutting := stash.Cutting{Cloth: c.Cloth.Cloth, Cut: c.Cut}
	for _, k := range keep {
		left := leftover.Cloth(c.Cloth.Cloth, k.Outline)
		left.ID, left.Notes = s.newID(), k.Notes
		if k.Place != "" {
			left.Place = k.Place
		}
		code, err := stash.NewCode(ctx, tx, left.ID)
		if err != nil {
			return nil, err
		}
		left.Code = code
		if err := tx.PutCloth(ctx, left); err != nil { // its code is taken from here on
			return nil, err
		}
		cutting.Leftovers = append(cutting.Leftovers, left)
	}
	lines, cloth, cut, err := stash.CutUp(cutting)
	if err != nil {
		return nil, err
	}
	for _, r := range cut {
		if err := tx.PutReservation(ctx, r); err != nil {
			return nil, err
		}
	}
	for _, l := range lines {
		if err := tx.Append(ctx, l); err != nil {
			return nil, err
		}
	}
	for _, r := range c.Others {
		if err := s.moveOn(ctx, tx, r, c, keep, cutting.Leftovers); err != nil {
			return nil, err
		}
	}
	return cutting.Leftovers, tx.PutCloth(ctx, cloth)
}

// checkKept refuses leftovers that reach out of the cloth, into what is cut or into
// each other.
func checkKept(c ClothCut, keep []Kept) error {
	code := c.Cloth.Cloth.Code
	for i, k := range keep {
		if err := k.Outline.Validate(); err != nil {
			return &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf("The outline of a leftover of %s is not closed and simple", code), Do: "Draw it again", Err: err}
		}
		if !within(k.Outline, c.Cloth.Cloth.Polygon()) {
			return invalid("Draw it within the cloth", "A leftover of %s reaches out of it", code)
		}
		for _, o := range c.outlines() {
			if shape.OverlapsPolygon(o, k.Outline) {
				return invalid("Draw it without what is cut", "A leftover of %s reaches into what is cut from it", code)
			}
		}
		for _, o := range keep[:i] {
			if overlap(o.Outline, k.Outline) {
				return invalid("Draw them apart", "Two leftovers of %s overlap", code)
			}
		}
	}
	return nil
}

// within says whether one polygon lies within another.
func within(in, out shape.Polygon) bool {
	if !shape.Inside(in.Outer, shape.Polygon{Outer: out.Outer}) {
		return false
	}
	for _, h := range out.Holes {
		if shape.OverlapsPolygon(h.Reverse(), in) {
			return false
		}
	}
	return true
}

// overlap says whether two polygons share area. The outer ring of one lies in the
// other, in one of its holes, or over an edge.
func overlap(a, b shape.Polygon) bool {
	return shape.OverlapsPolygon(a.Outer, b) && shape.OverlapsPolygon(b.Outer, a)
}

// moveOn brings what another garment has on the cloth onto the leftovers its pieces lie on: onto one, or
// where what is cut lies between them onto several.
func (s *Studio) moveOn(ctx context.Context, tx Tx, r stash.Reservation, c ClothCut, kept []Kept, left []stash.Cloth) error {
	on := make([]stash.Reservation, len(kept)) // the pieces on each leftover
	var codes []string
	homes := 0
	for i, k := range kept {
		for _, p := range r.Pieces {
			if shape.Inside(p.Outline, k.Outline) {
				on[i].Pieces = append(on[i].Pieces, p)
				homes++
			}
		}
		if len(on[i].Pieces) > 0 {
			codes = append(codes, left[i].Code)
		}
	}
	if homes == len(r.Pieces) { // leftovers do not overlap
		line, gone := stash.ReleasedLine(r, "lies on "+strings.Join(codes, ", ")+" now")
		if err := tx.PutReservation(ctx, gone); err != nil {
			return err
		}
		if err := tx.Append(ctx, line); err != nil {
			return err
		}
		for i, part := range on {
			if len(part.Pieces) == 0 {
				continue
			}
			whole := r
			whole.Pieces = part.Pieces
			if err := keep(ctx, tx, s.onto(whole, left[i].ID, leftover.Moved(kept[i].Outline))); err != nil {
				return err
			}
		}
		return nil
	}
	other, err := tx.Garment(ctx, r.GarmentID)
	if err != nil {
		return err
	}
	return refused("Keep the leftover it lies on, or release it first", "What is reserved on %s for %s would not lie whole on a leftover", c.Cloth.Cloth.Code, other.Name)
}

// onto is a reservation of the same pieces on another cloth, whose frame lies so far off.
func (s *Studio) onto(r stash.Reservation, cloth stash.ID, off shape.Point) stash.Reservation {
	moved := movedBy(r, off)
	moved.ID, moved.ClothID, moved.At = s.newID(), cloth, s.now()
	return moved
}

// movedBy is a reservation in a frame that lies so far off.
func movedBy(r stash.Reservation, off shape.Point) stash.Reservation {
	moved := r
	moved.Pieces = nil
	for _, p := range r.Pieces {
		p.Outline = p.Outline.Move(shape.Point{X: -off.X, Y: -off.Y})
		moved.Pieces = append(moved.Pieces, p)
	}
	return moved
}
