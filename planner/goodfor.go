package planner

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"slices"

	"tallycloth/planner/garment"
	"tallycloth/planner/leftover"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// Use is a pattern, role and size that a cloth is enough for.
type Use struct {
	PatternID stash.ID
	Role      string
	Size      string
	Grade     match.Grade // Enough, Tight or EnoughIf
	Proof     match.Proof
}

// Proved says whether it rests on a layout that was checked; else it is an estimate.
func (u Use) Proved() bool { return u.Proof == match.ByLayout }

// UsesKeeper remembers what cloth is good for. It is a memory and no record: what is kept or
// forgotten is no act and changes nothing that a person noted.
type UsesKeeper interface {
	// KnownUses returns what was kept for a cloth, by the Key of the pattern. A pattern that
	// is not in it was not looked at yet; one with no Use serves for nothing.
	KnownUses(ctx context.Context, cloth Key) (map[Key][]Use, error)
	// KeepUses keeps what was found out for a cloth and patterns. A library that is read-only
	// keeps nothing, which is no error.
	KeepUses(ctx context.Context, cloth Key, uses map[Key][]Use) error
	// UsesKept lists for which cloth something is kept, with the patterns it is kept for.
	UsesKept(ctx context.Context) (map[Key][]Key, error)
	// ForgetUses drops what is kept for cloth that is not wanted, and for patterns that are not.
	ForgetUses(ctx context.Context, cloths, patterns map[Key]bool) error
}

// GoodFor is what is known of what a leftover is still good for.
type GoodFor struct {
	Uses    []PatternUse
	Unknown int // so many patterns were not looked at yet
}

// PatternUse is a pattern and role that a cloth is enough for, in these sizes.
type PatternUse struct {
	Pattern pattern.Pattern
	Role    string
	Proved  bool
	Sizes   []Use // in the pattern's order
}

// GoodFor returns what is known already of what a cloth is still good for, the uses that are
// proved first. It works nothing out.
func (s *Studio) GoodFor(ctx context.Context, c stash.ClothState) (GoodFor, error) {
	w, err := s.workshop(ctx)
	if err == nil {
		var known map[Key][]Use
		if known, err = s.KnownUses(ctx, ClothKey(c, w.set)); err == nil {
			return w.answer(known), nil
		}
	}
	return GoodFor{}, fmt.Errorf("looking what %s is good for: %w", c.Cloth.Code, err)
}

// WorkOutUses finds out what is not known yet of what a cloth is good for, keeps it and
// returns all of it. It asks turn before each pattern, works with one worker then, and ends
// when that says false; with nil it goes on with all workers. What was found out is kept.
func (s *Studio) WorkOutUses(ctx context.Context, c stash.ClothState, turn func() bool) (GoodFor, error) {
	w, err := s.workshop(ctx)
	if err == nil {
		var known map[Key][]Use
		if known, err = s.workOut(ctx, w, c, turn); err == nil {
			return w.answer(known), nil
		}
	}
	return GoodFor{}, fmt.Errorf("looking what %s is good for: %w", c.Cloth.Code, err)
}

func (s *Studio) workOut(ctx context.Context, w workshop, c stash.ClothState, turn func() bool) (map[Key][]Use, error) {
	key := ClothKey(c, w.set)
	known, err := s.KnownUses(ctx, key)
	if err != nil {
		return nil, err
	}
	fresh, workers := map[Key][]Use{}, s.workers
	if turn != nil {
		workers = 1
	}
	for i, p := range w.patterns {
		if _, have := known[w.keys[i]]; have {
			continue
		}
		if turn != nil && !turn() {
			err = cmp.Or(ctx.Err(), context.Canceled)
			break
		}
		var found []Making
		if found, err = s.makings(ctx, c, possible([]pattern.Pattern{p}), w.set, workers, nil); err != nil {
			break
		}
		fresh[w.keys[i]] = usesIn(found)
	}
	if len(fresh) > 0 {
		if known == nil {
			known = map[Key][]Use{}
		}
		for k, u := range fresh {
			known[k] = u
		}
		err = cmp.Or(err, s.KeepUses(context.WithoutCancel(ctx), key, fresh))
	}
	return known, err
}

// usesIn are the answers that say yes.
func usesIn(found []Making) []Use {
	out := []Use{}
	for _, m := range found {
		if m.Verdict.Grade <= match.EnoughIf {
			out = append(out, Use{m.Pattern.ID, m.Role, m.Size, m.Verdict.Grade, m.Verdict.Proof})
		}
	}
	return out
}

// UnworkedCloth lists leftovers for which something is not known yet, those that are proposed
// for garments to be cut first, then the latest on the shelf; and forgets what is kept for
// cloth and patterns that are no more.
func (s *Studio) UnworkedCloth(ctx context.Context) ([]stash.ClothState, error) {
	w, err := s.workshop(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking which leftovers are to be worked out: %w", err)
	}
	all, err := s.leftovers(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking which leftovers are to be worked out: %w", err)
	}
	kept, err := s.UsesKept(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking which leftovers are to be worked out: %w", err)
	}
	wanted, patterns := map[Key]bool{}, map[Key]bool{}
	for _, k := range w.keys {
		patterns[k] = true
	}
	var out []stash.ClothState
	for _, c := range all {
		key := ClothKey(c, w.set)
		if !wanted[key] && !w.all(kept[key]) {
			out = append(out, c)
		}
		wanted[key] = true
	}
	if stale(kept, wanted, patterns) {
		err = s.ForgetUses(ctx, wanted, patterns)
	}
	return out, err
}

func stale(kept map[Key][]Key, cloths, patterns map[Key]bool) bool {
	for c, ps := range kept {
		if !cloths[c] || slices.ContainsFunc(ps, func(p Key) bool { return !patterns[p] }) {
			return true
		}
	}
	return false
}

// soonCut is for how many reserved garments leftovers are worked out before they are cut: those
// changed last (ours).
const soonCut = 20

// leftovers are those proposed for garments to be cut, and those on the shelf, latest first.
func (s *Studio) leftovers(ctx context.Context) ([]stash.ClothState, error) {
	garments, err := s.Garments(ctx)
	if err != nil {
		return nil, err
	}
	var out []stash.ClothState
	garments = slices.DeleteFunc(garments, func(g garment.Garment) bool { return g.State != garment.Reserved })
	for _, g := range garments[:min(len(garments), soonCut)] {
		plan, err := s.CutPlan(ctx, g.ID)
		if err != nil {
			return nil, err
		}
		for _, c := range plan {
			for _, l := range c.Left {
				out = append(out, LeftoverState(c.Cloth, l.Outline))
			}
		}
	}
	shelf, err := s.Cloths(ctx)
	if err != nil {
		return nil, err
	}
	shelf = slices.DeleteFunc(shelf, func(c stash.ClothState) bool { return !c.Cloth.Leftover() })
	slices.SortFunc(shelf, func(a, b stash.ClothState) int { return bytes.Compare(b.Cloth.ID[:], a.Cloth.ID[:]) })
	return append(out, shelf...), nil
}

// LeftoverState is what a leftover will be that is cut from a cloth with an outline: with what
// is reserved on it for others. It has the cloth's code until it has one of its own.
func LeftoverState(from stash.ClothState, outline shape.Polygon) stash.ClothState {
	c := leftover.Cloth(from.Cloth, outline)
	c.ID, c.Code = from.Cloth.ID, from.Cloth.Code
	off := leftover.Moved(outline)
	var live []stash.Reservation
	for _, r := range from.Reservations {
		whole := !slices.ContainsFunc(r.Pieces, func(p stash.ReservedPiece) bool { return !shape.Inside(p.Outline, outline) })
		if whole {
			live = append(live, movedBy(r, off))
		}
	}
	return stash.StateOf(c, from.Fabric, live, c.Area())
}

// workshop is what the uses of cloth are worked out with.
type workshop struct {
	set      Settings
	patterns []pattern.Pattern
	keys     []Key
}

func (s *Studio) workshop(ctx context.Context) (workshop, error) {
	set, err := s.Settings(ctx)
	if err != nil {
		return workshop{}, err
	}
	patterns, err := s.Patterns(ctx)
	w := workshop{set: set, patterns: patterns}
	for _, p := range patterns {
		w.keys = append(w.keys, PatternKey(p))
	}
	return w, err
}

// all says whether every pattern is among those given.
func (w workshop) all(known []Key) bool {
	return !slices.ContainsFunc(w.keys, func(k Key) bool { return !slices.Contains(known, k) })
}

// answer puts what is known into order: what is proved first, each by pattern and role.
func (w workshop) answer(known map[Key][]Use) GoodFor {
	var out GoodFor
	for _, proved := range []bool{true, false} {
		for i, p := range w.patterns {
			for _, r := range p.Roles {
				u := PatternUse{Pattern: p, Role: r.Name, Proved: proved, Sizes: sizesOf(p, r.Name, proved, known[w.keys[i]])}
				if len(u.Sizes) > 0 {
					out.Uses = append(out.Uses, u)
				}
			}
		}
	}
	for _, k := range w.keys {
		if _, have := known[k]; !have {
			out.Unknown++
		}
	}
	return out
}

// sizesOf are the uses of one role, in the order of the pattern's sizes.
func sizesOf(p pattern.Pattern, role string, proved bool, uses []Use) []Use {
	var out []Use
	for _, size := range p.Sizes {
		at := slices.IndexFunc(uses, func(u Use) bool { return u.Role == role && u.Size == size.Name && u.Proved() == proved })
		if at >= 0 {
			out = append(out, uses[at])
		}
	}
	return out
}
