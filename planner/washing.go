package planner

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"tallycloth/planner/binding"
	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Sizing is a cloth's new size: after washing, or measured again.
type Sizing struct {
	ClothID       stash.ID
	Length, Width measure.Length
	Note          string
	// Sure says that the size was looked at again: then a change by more than OddChange is believed.
	Sure bool
}

// OddChange is by how much more, longer or shorter, a size is asked about again: cloth seldom
// changes by a quarter (ours; knits shrink by 5 to 10 %, common practice).
const OddChange = 25 * measure.OnePercent

// Odd is a change of size that looks like a slip.
type Odd struct {
	From, To measure.Length
	Across   bool // it is the width
}

func (o *Odd) Error() string {
	what := "length"
	if o.Across {
		what = "width"
	}
	return fmt.Sprintf("the %s changes from %d to %d mm", what, o.From/measure.Millimetre, o.To/measure.Millimetre)
}

// Check refuses a change that looks like a slip, with an Odd, unless it was looked at again.
func (z Sizing) Check(c stash.Cloth) error {
	if z.Sure {
		return nil
	}
	for _, of := range []struct {
		from, to measure.Length
		across   bool
	}{{c.Length, z.Length, false}, {c.Width, z.Width, true}} {
		change, err := stash.DimensionalChange(of.from, of.to)
		if err != nil {
			return err
		}
		if max(change, -change) > OddChange {
			return &Odd{of.from, of.to, of.across}
		}
	}
	return nil
}

// Resized says what became of a cloth whose size changed, and of what was reserved on it.
type Resized struct {
	Cloth stash.ClothState // after
	Held  []Share          // lie as they did
	Again []Share          // laid again at the new size
	Lost  []Share          // found no room and were released
	// Taught is the change in washing that the fabric learned, lengthwise and
	// crosswise; zero where nothing was washed.
	Lengthwise, Crosswise measure.Percent
}

// Share is one garment's part of a cloth.
type Share struct {
	Garment garment.Garment
	UsedFor string
}

// What washing may do to a length or a width and still be meant (ours): felted wool loses near half, hardly any
// cloth relaxes by a quarter.
const (
	mostShrinking = 50 * measure.OnePercent
	mostGrowing   = 25 * measure.OnePercent
)

// Wash notes that a cloth was washed and what it measures since. The fabric learns how
// it changes, which other cloth of it, not yet washed, counts with from now on. What is
// reserved on the cloth is laid out again where it no longer lies whole; what finds no
// room is released. All of it is one act.
//
// A change that no washing makes is refused and asked about.
func (s *Studio) Wash(ctx context.Context, z Sizing) (Resized, error) {
	c, err := s.Cloth(ctx, z.ClothID)
	if err != nil {
		return Resized{}, fmt.Errorf("washing cloth: %w", err)
	}
	line, after, err := stash.Wash(c.Cloth, z.Length, z.Width, z.Note)
	if err != nil {
		return Resized{}, err
	}
	f := c.Fabric
	var out Resized
	if out.Lengthwise, err = stash.DimensionalChange(c.Cloth.Length, z.Length); err != nil {
		return Resized{}, err
	}
	if out.Crosswise, err = stash.DimensionalChange(c.Cloth.Width, z.Width); err != nil {
		return Resized{}, err
	}
	for _, change := range []measure.Percent{out.Lengthwise, out.Crosswise} {
		if change < -mostShrinking || change > mostGrowing {
			return Resized{}, invalid("Are both in the unit that is meant? If the library had it wrong before, measure it again first, then wash it",
				"From %s × %s to %s × %s no cloth changes in washing", s.long(ctx, c.Cloth.Length), s.style(ctx, measure.Width).Format(c.Cloth.Width),
				s.long(ctx, z.Length), s.style(ctx, measure.Width).Format(z.Width))
		}
	}
	f.Lengthwise.Shrinkage, f.Crosswise.Shrinkage = stash.Measured(out.Lengthwise), stash.Measured(out.Crosswise)
	if err := f.Validate(); err != nil {
		return Resized{}, err
	}
	wide := s.style(ctx, measure.Width)
	sentence := fmt.Sprintf("Washed %s, %s × %s now", c.Cloth.Code, s.long(ctx, z.Length), wide.Format(z.Width))
	err = s.resize(ctx, c, after, f, line, sentence, &out, !after.Plain())
	return out, err
}

// MeasureAgain notes that a cloth measures something else than the library says. What is
// reserved on it is treated as in Wash.
func (s *Studio) MeasureAgain(ctx context.Context, z Sizing) (Resized, error) {
	c, err := s.Cloth(ctx, z.ClothID)
	if err != nil {
		return Resized{}, fmt.Errorf("measuring cloth again: %w", err)
	}
	if c.Cloth.Gone {
		return Resized{}, refused("Look at its history", "%s is gone already", c.Cloth.Code)
	}
	if z.Length <= 0 || z.Width <= 0 {
		return Resized{}, invalid("Measure both", "Length and width of %s must be more than zero", c.Cloth.Code)
	}
	if !c.Cloth.Plain() {
		return Resized{}, invalid("Draw its outline again as a new leftover, and discard this one", "%s has an outline of its own", c.Cloth.Code)
	}
	if err := z.Check(c.Cloth); err != nil {
		return Resized{}, err
	}
	after := c.Cloth
	after.Length, after.Width = z.Length, z.Width
	if err := after.Validate(); err != nil {
		return Resized{}, fmt.Errorf("measuring %s again: %w", c.Cloth.Code, err)
	}
	var out Resized
	wide := s.style(ctx, measure.Width)
	sentence := fmt.Sprintf("Measured %s again, %s × %s", c.Cloth.Code, s.long(ctx, z.Length), wide.Format(z.Width))
	err = s.resize(ctx, c, after, c.Fabric, stash.Resized(stash.MeasuredAgain, c.Cloth, after, z.Note), sentence, &out, false)
	return out, err
}

// reservedAsSeen refuses a cloth that changed, or on which other things are reserved, since it was looked at.
func reservedAsSeen(ctx context.Context, tx Tx, c stash.ClothState) error {
	if err := unchanged(ctx, tx, c); err != nil {
		return err
	}
	now, err := tx.Cloth(ctx, c.Cloth.ID)
	if err != nil {
		return err
	}
	if !sameReservations(now.Reservations, c.Reservations) {
		return refused("Do it again", "What is reserved on %s changed meanwhile", c.Cloth.Code)
	}
	return nil
}

// resize gives a cloth its new size in one act, with what is reserved on it laid again:
// all of it, or what does not lie whole any more.
func (s *Studio) resize(ctx context.Context, c stash.ClothState, after stash.Cloth, f stash.Fabric, line stash.Movement, sentence string, out *Resized, all bool) error {
	plan, err := s.layAgain(ctx, c, after, f, all)
	if err != nil {
		return err
	}
	err = s.act(ctx, sentence, func(tx Tx) error {
		if err := reservedAsSeen(ctx, tx, c); err != nil {
			return err
		}
		if err := tx.PutFabric(ctx, f); err != nil {
			return err
		}
		if err := s.releaseAll(ctx, tx, append(slices.Clone(plan.lost), plan.replaced...)); err != nil {
			return err
		}
		if err := tx.PutCloth(ctx, after); err != nil {
			return err
		}
		if err := tx.Append(ctx, line); err != nil {
			return err
		}
		for _, r := range plan.made {
			if err := keep(ctx, tx, r); err != nil {
				return err
			}
		}
		return s.wantedAgain(ctx, tx, plan.lost)
	})
	if err != nil {
		return err
	}
	for _, of := range []struct {
		from []stash.Reservation
		to   *[]Share
	}{{plan.held, &out.Held}, {plan.replaced, &out.Again}, {plan.lost, &out.Lost}} {
		if *of.to, err = s.shares(ctx, of.from); err != nil {
			return err
		}
	}
	out.Cloth, err = s.Cloth(ctx, c.Cloth.ID)
	return err
}

func sameReservations(a, b []stash.Reservation) bool {
	return slices.EqualFunc(a, b, func(x, y stash.Reservation) bool { return x.ID == y.ID })
}

func (s *Studio) shares(ctx context.Context, rs []stash.Reservation) ([]Share, error) {
	var out []Share
	for _, r := range rs {
		g, err := s.Garment(ctx, r.GarmentID)
		if err != nil {
			return nil, err
		}
		out = append(out, Share{g, r.UsedFor})
	}
	return out, nil
}

// laidAgain parts what was reserved on a cloth whose size changes.
type laidAgain struct {
	held           []stash.Reservation // lie on it as they are
	replaced, made []stash.Reservation // those that were laid again, before and after
	lost           []stash.Reservation
}

// layAgain finds room at the new size for what does not lie on the cloth any more, in
// the order it was reserved. A washed outline is stretched or shrunk everywhere: there
// everything is laid again.
func (s *Studio) layAgain(ctx context.Context, c stash.ClothState, after stash.Cloth, f stash.Fabric, all bool) (laidAgain, error) {
	var plan laidAgain
	off := c.Reservations
	if !all {
		plan.held, off = stash.StillHold(after, c.Reservations)
	}
	if len(off) == 0 {
		return plan, nil
	}
	set, err := s.Settings(ctx)
	if err != nil {
		return plan, err
	}
	live := slices.Clone(plan.held)
	for _, r := range off {
		state := stash.StateOf(after, f, live, after.Area())
		g, err := s.Garment(ctx, r.GarmentID)
		if err != nil {
			return plan, err
		}
		made, ok, err := s.roomFor(ctx, state, g, r, set)
		if err != nil {
			return plan, err
		}
		live = plan.note(live, r, made, ok)
	}
	return plan, nil
}

// note notes what becomes of one reservation: what was made of it, or that there is no room. It returns what
// lies on its cloth then.
func (p *laidAgain) note(live []stash.Reservation, was, made stash.Reservation, ok bool) []stash.Reservation {
	if !ok {
		p.lost = append(p.lost, was)
		return live
	}
	p.replaced, p.made = append(p.replaced, was), append(p.made, made)
	return append(live, made)
}

// roomFor lays one reservation again. Strips keep their outlines and are looked room
// for as they are; pattern pieces are laid by their pattern.
func (s *Studio) roomFor(ctx context.Context, c stash.ClothState, g garment.Garment, r stash.Reservation, set Settings) (stash.Reservation, bool, error) {
	p, err := s.Pattern(ctx, g.PatternID)
	if err != nil {
		return r, false, err
	}
	if p, err = asCut(p, g); err != nil {
		return r, false, err
	}
	if r.UsedFor == pattern.Binding {
		return s.stripsAgain(ctx, c, r, set)
	}
	q, err := questionOf(p, Search{PatternID: p.ID, Size: g.Size, Role: r.UsedFor}, set)
	if err != nil {
		return r, false, nil // the pattern asks for nothing of this use any more
	}
	v, err := q.Check(ctx, c)
	if err != nil || v.Grade > match.EnoughIf || v.Layout == nil && len(v.Keep) == 0 {
		return r, false, err
	}
	made := s.reservations(r.GarmentID, Finding{Cloth: c, Verdict: v}, r.UsedFor)
	return made[0], len(made) == 1, nil
}

// stripsAgain lays strips again as they were cut, along the grain each lay on, wherever the true outline
// of the cloth has room for them around what else is reserved. Their lengths are not joined anew.
func (s *Studio) stripsAgain(ctx context.Context, c stash.ClothState, r stash.Reservation, set Settings) (stash.Reservation, bool, error) {
	strips := make([]binding.Strip, len(r.Pieces))
	for i, p := range r.Pieces {
		strips[i] = stripLaid(p)
	}
	a, err := LayStrips(ctx, strips, []stash.ClothState{c}, set)
	if err != nil || a.Short > 0 || len(a.Plan.Pieces) != len(r.Pieces) {
		return r, false, err
	}
	made := r
	made.ID, made.At, made.Pieces = s.newID(), s.now(), slices.Clone(r.Pieces)
	for i, p := range a.Plan.Pieces {
		made.Pieces[p.StripNo].Outline = a.Where[0][i]
	}
	return made, true, nil
}

// stripLaid is a strip in one length as it was laid: its width is that of the end it is counted from, the
// first two corners of its outline.
func stripLaid(p stash.ReservedPiece) binding.Strip {
	ring := p.Outline
	if len(ring) != 4 {
		ring = ring.Bounds().Ring()
	}
	long := ring[2].Sub(ring[1])
	out := binding.Strip{Job: binding.Job{Name: p.Name}}
	switch dx, dy := math.Abs(float64(long.X)), math.Abs(float64(long.Y)); {
	case dx < dy/10:
		out.Job.Grain = binding.Crosswise
	case dy < dx/10:
		out.Job.Grain = binding.Lengthwise
	default:
		out.Job.Grain = binding.Bias
	}
	far := func(a, b shape.Point) measure.Length {
		return measure.Length(math.Round(math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))))
	}
	out.CutWidth, out.CutLength = far(ring[0], ring[1]), far(ring[1], ring[2])
	out.Parts = []binding.StripPart{{Segment: binding.Segment{NoJoin: true}, Length: out.CutLength}}
	return out
}

// releaseAll gives reservations back inside an act, on cloth that changed its size.
func (s *Studio) releaseAll(ctx context.Context, tx Tx, rs []stash.Reservation) error {
	return s.releaseFor(ctx, tx, rs, "the cloth changed its size")
}

// releaseFor gives reservations back inside an act, with the reason.
func (s *Studio) releaseFor(ctx context.Context, tx Tx, rs []stash.Reservation, why string) error {
	for _, r := range rs {
		line, gone := stash.ReleasedLine(r, why)
		if err := tx.PutReservation(ctx, gone); err != nil {
			return err
		}
		if err := tx.Append(ctx, line); err != nil {
			return err
		}
	}
	return nil
}

// wantedAgain makes garments wanted that have no cloth any more.
func (s *Studio) wantedAgain(ctx context.Context, tx Tx, lost []stash.Reservation) error {
	for _, r := range lost {
		live, err := tx.Reservations(ctx, r.GarmentID)
		if err != nil {
			return err
		}
		g, err := tx.Garment(ctx, r.GarmentID)
		if err != nil {
			return err
		}
		if len(live) == 0 && g.State == garment.Reserved {
			if err := tx.PutGarment(ctx, s.changed(g, garment.Wanted)); err != nil {
				return err
			}
		}
	}
	return nil
}

// Words says in a sentence or two what became of what was reserved.
func (r Resized) Words() string {
	var out []string
	for _, of := range []struct {
		shares []Share
		one    string
	}{{r.Held, "holds as it lies"}, {r.Again, "was laid out again"}, {r.Lost, "finds no room any more and was released"}} {
		for _, s := range of.shares {
			out = append(out, fmt.Sprintf("%s for %s %s.", capital(cmp.Or(s.UsedFor, pattern.Main)), s.Garment.Name, of.one))
		}
	}
	return strings.Join(out, " ")
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
