package planner

import (
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"tallycloth/planner/adjust"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// personNamed finds somebody on the list by her name; capitals do not count.
func personNamed(people []sizing.Person, name string) (sizing.Person, bool) {
	name = strings.TrimSpace(name)
	at := slices.IndexFunc(people, func(p sizing.Person) bool { return strings.EqualFold(p.Name, name) })
	if at < 0 || name == "" {
		return sizing.Person{}, false
	}
	return people[at], true
}

// KeepAdjustment keeps an adjustment of a garment, counted from 1, for whom it is for, so that
// it is offered at their next garments.
func (s *Studio) KeepAdjustment(ctx context.Context, garmentID stash.ID, at int) (sizing.Person, error) {
	g, err := s.Garment(ctx, garmentID)
	if err != nil {
		return sizing.Person{}, fmt.Errorf("keeping an adjustment: %w", err)
	}
	if at < 1 || at > len(g.Adjustments) {
		return sizing.Person{}, invalid("Choose one of them", "%s has no adjustment %d", g.Name, at)
	}
	step := adjust.NextTime(g.Adjustments[at-1 : at])[0]
	if !step.Keeps() {
		return sizing.Person{}, refused("Copy the garment to make it again so", "Panels and mirrored pattern pieces belong to one garment")
	}
	people, err := s.People(ctx)
	if err != nil {
		return sizing.Person{}, fmt.Errorf("keeping an adjustment: %w", err)
	}
	who, known := personNamed(people, g.For)
	switch {
	case strings.TrimSpace(g.For) == "":
		return who, refused("Say in its record whom it is for", "%s is for nobody in particular", g.Name)
	case !known:
		return who, refused("Add them under People first", "%s is not on the list of people", g.For)
	case has(who.Steps(), step):
		return who, refused("Nothing is to be done", "It is kept for %s already", who.Name)
	}
	words := step.Words(s.style(ctx, measure.PieceLength).Exact)
	err = s.act(ctx, fmt.Sprintf("Kept for %s: %s", who.Name, words), func(tx Tx) error {
		now, err := tx.Person(ctx, who.ID)
		if err != nil {
			return err
		}
		now.Adjustments = append(slices.Clone(now.Adjustments), sizing.Kept{Step: step, On: s.today()})
		who = now
		return tx.PutPerson(ctx, now)
	})
	return who, err
}

// ForgetAdjustment takes an adjustment that is kept for a person away, counted from 1.
func (s *Studio) ForgetAdjustment(ctx context.Context, personID stash.ID, at int) (sizing.Person, error) {
	who, err := s.Person(ctx, personID)
	if err != nil {
		return who, fmt.Errorf("forgetting an adjustment: %w", err)
	}
	if at < 1 || at > len(who.Adjustments) {
		return who, invalid("Choose one of them", "%d adjustments are kept for %s", len(who.Adjustments), who.Name)
	}
	err = s.act(ctx, "Keeps an adjustment for "+who.Name+" no longer", func(tx Tx) error {
		now, err := tx.Person(ctx, personID)
		if err != nil {
			return err
		}
		if !reflect.DeepEqual(now.Adjustments, who.Adjustments) {
			return refused("Look at them again", "What is kept for %s changed meanwhile", who.Name)
		}
		now.Adjustments = slices.Delete(slices.Clone(now.Adjustments), at-1, at)
		who = now
		return tx.PutPerson(ctx, now)
	})
	return who, err
}

// offers lists what may be taken over for a garment: what is kept for its person, what was
// found and noted on the garment that it was copied from or on earlier ones for her of the same pattern, and what
// was noted at its own fitting; without what it has already, and without what its outlines do not allow.
func (s *Studio) offers(ctx context.Context, p pattern.Pattern, a *Adjusted) error {
	g := a.Garment
	if g.State == garment.GivenUp {
		return nil
	}
	var all []Offer
	people, err := s.People(ctx)
	if err != nil {
		return err
	}
	if who, ok := personNamed(people, g.For); ok {
		a.Person = who
		all = append(all, keptFor(who)...)
	}
	if !isCut(g.State) {
		found, err := s.foundEarlier(ctx, g)
		if err != nil {
			return err
		}
		all = append(all, found...)
	}
	if step, ok := notedTakeIn(g); ok && isCut(g.State) {
		all = append(all, Offer{step, "noted at the try-on"})
	}
	for _, o := range all {
		if o.Step.Kind == adjust.StrapLength && strapKnown(a.Sewn, g, o.Step.Length) {
			continue
		}
		steps, err := WithStep(g, p, 0, o.Step)
		if err != nil || has(g.Adjustments, o.Step) || slices.ContainsFunc(a.Offers, func(b Offer) bool { return reflect.DeepEqual(b.Step, o.Step) }) {
			continue
		}
		if _, err := adjust.Apply(p, g.Size, steps); err == nil {
			a.Offers = append(a.Offers, o)
		}
	}
	return nil
}

// notedTakeIn is what was noted at the try-on as an adjustment; false where nothing is to be taken in.
func notedTakeIn(g garment.Garment) (adjust.Step, bool) {
	by, ok := g.Noted(garment.AsksTakeIn)
	return adjust.Step{Kind: adjust.TakeIn, Amount: by, At: adjust.Place{Level: adjust.Underarm}, To: adjust.Place{Level: adjust.HipLevel}}, ok
}

// strapKnown says whether a garment has said its strap length already, or its pattern has that length.
func strapKnown(sewn pattern.Pattern, g garment.Garment, long measure.Length) bool {
	if slices.ContainsFunc(g.Adjustments, func(s adjust.Step) bool { return s.Kind == adjust.StrapLength }) {
		return true
	}
	for _, e := range sewn.Edges {
		for _, s := range e.Segments {
			if l := s.Free[g.Size]; s.Piece == "" && l > 0 && l != long {
				return false
			}
		}
	}
	return true
}

// keptFor offers what is kept for a person.
func keptFor(who sizing.Person) []Offer {
	var out []Offer
	for _, k := range who.Steps() {
		out = append(out, Offer{k, "kept for " + who.Name})
	}
	return out
}

// has says whether a step is there already, whenever it was found.
func has(steps []adjust.Step, s adjust.Step) bool {
	s.AfterCut = false
	return slices.ContainsFunc(adjust.NextTime(steps), func(k adjust.Step) bool { return reflect.DeepEqual(k, s) })
}

// foundEarlier are the adjustments of the garment that it was copied from, or of the last one of the same pattern
// for the same person, once that was cut; with what was noted when it was tried on: what to take in, if no
// adjustment says it, and how long the strap was.
func (s *Studio) foundEarlier(ctx context.Context, g garment.Garment) ([]Offer, error) {
	all, err := s.Garments(ctx)
	if err != nil {
		return nil, err
	}
	who := strings.TrimSpace(g.For)
	for _, goesOn := range []func(garment.Garment) bool{
		func(o garment.Garment) bool { return o.ID == g.Record.CopyOf },
		func(o garment.Garment) bool { return who != "" && strings.EqualFold(who, strings.TrimSpace(o.For)) },
	} {
		for _, o := range all {
			if o.ID == g.ID || o.PatternID != g.PatternID || !isCut(o.State) || !goesOn(o) {
				continue
			}
			if out := lastTime(o); len(out) > 0 {
				return out, nil
			}
		}
	}
	return nil, nil
}

// lastTime offers what was found and noted on a garment.
func lastTime(o garment.Garment) []Offer {
	var out []Offer
	for _, k := range adjust.NextTime(o.Adjustments) {
		out = append(out, Offer{k, "found on " + o.Name})
	}
	if step, ok := notedTakeIn(o); ok && !o.TakenIn() {
		out = append(out, Offer{step, "noted when " + o.Name + " was tried on"})
	}
	if long, _ := o.Strap(); long > 0 {
		out = append(out, Offer{adjust.Step{Kind: adjust.StrapLength, Length: long}, "as pinned on " + o.Name})
	}
	return out
}
