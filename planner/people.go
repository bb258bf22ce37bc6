package planner

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// PeopleReader answers who garments are made for.
type PeopleReader interface {
	People(ctx context.Context) ([]sizing.Person, error) // by name, without those taken off the list
	Person(ctx context.Context, id stash.ID) (sizing.Person, error)
}

// SavePerson keeps a person as she is given; one without an ID is new.
func (s *Studio) SavePerson(ctx context.Context, p sizing.Person) (sizing.Person, error) {
	p.Name = strings.TrimSpace(p.Name)
	verb := "Changed "
	if p.ID == stash.NoID {
		p.ID, verb = s.newID(), "Added "
	}
	if err := p.Validate(); err != nil {
		return sizing.Person{}, err
	}
	err := s.act(ctx, verb+p.Name, func(tx Tx) error { return tx.PutPerson(ctx, p) })
	return p, err
}

// MeasurePerson keeps measurements taken on a day; no day is today.
func (s *Studio) MeasurePerson(ctx context.Context, id stash.ID, t sizing.Taken) (sizing.Person, error) {
	if t.Date == "" {
		t.Date = s.today()
	}
	if len(t.Body) == 0 {
		return sizing.Person{}, invalid("Type one at least", "Nothing was measured")
	}
	before, err := s.Person(ctx, id)
	if err != nil {
		return sizing.Person{}, fmt.Errorf("measuring somebody: %w", err)
	}
	var after sizing.Person
	err = s.act(ctx, "Measured "+before.Name, func(tx Tx) error {
		now, err := tx.Person(ctx, id)
		if err != nil {
			return err
		}
		after = now.With(t)
		if err := after.Validate(); err != nil {
			return err
		}
		return tx.PutPerson(ctx, after)
	})
	return after, err
}

// DropPerson takes a person off the list; what was measured stays in the history.
func (s *Studio) DropPerson(ctx context.Context, id stash.ID) error {
	p, err := s.Person(ctx, id)
	if err != nil {
		return err
	}
	p.Removed = true
	return s.act(ctx, "Took "+p.Name+" off the list", func(tx Tx) error { return tx.PutPerson(ctx, p) })
}

// SizeFor proposes a size of a pattern for a person, in a fabric if one is chosen. What the
// fabric is not measured for is assumed by its construction.
func (s *Studio) SizeFor(ctx context.Context, patternID, personID, fabricID stash.ID) (sizing.Choice, error) {
	fail := func(err error) (sizing.Choice, error) {
		return sizing.Choice{}, fmt.Errorf("choosing a size: %w", err)
	}
	p, err := s.Pattern(ctx, patternID)
	if err != nil {
		return fail(err)
	}
	who, err := s.Person(ctx, personID)
	if err != nil {
		return fail(err)
	}
	a := sizing.Ask{Pattern: p, Body: who.Latest("")}
	if fabricID != stash.NoID {
		f, err := s.Fabric(ctx, fabricID)
		if err != nil {
			return fail(err)
		}
		a.Chosen, a.Stretch, a.Assumed = true, stretchAround(f), !f.Crosswise.Stretch.Known
	}
	return sizing.Choose(a)
}

// stretchAround is how far a fabric stretches crosswise, measured or assumed.
func stretchAround(f stash.Fabric) measure.Percent {
	if f.Crosswise.Stretch.Known {
		return f.Crosswise.Stretch.Value
	}
	return stash.Assumed(f).Crosswise.Stretch.Value
}

// KeepBlend adds a size to a pattern that is, level by level, what a choice proposed, and says
// which pattern pieces could not be blended.
func (s *Studio) KeepBlend(ctx context.Context, patternID stash.ID, c sizing.Choice) (sizing.Blended, error) {
	p, err := s.Pattern(ctx, patternID)
	if err != nil {
		return sizing.Blended{}, fmt.Errorf("blending sizes: %w", err)
	}
	b, err := sizing.BlendLevels(p, c.AtLevels())
	if err != nil {
		return sizing.Blended{}, err
	}
	return s.keepBlend(ctx, p, b)
}

// BlendSizes adds a size to a pattern that is another of its sizes at each level, see
// sizing.BlendLevels.
func (s *Studio) BlendSizes(ctx context.Context, patternID stash.ID, at map[string]string) (sizing.Blended, error) {
	p, err := s.Pattern(ctx, patternID)
	if err != nil {
		return sizing.Blended{}, fmt.Errorf("blending sizes: %w", err)
	}
	b, err := sizing.BlendLevels(p, at)
	if err != nil {
		return sizing.Blended{}, err
	}
	return s.keepBlend(ctx, p, b)
}

func (s *Studio) keepBlend(ctx context.Context, p pattern.Pattern, b sizing.Blended) (sizing.Blended, error) {
	if err := b.Pattern.Validate(); err != nil {
		return sizing.Blended{}, err
	}
	return b, s.act(ctx, "Blended size "+b.Size+" of "+p.Name, func(tx Tx) error { return tx.PutPattern(ctx, b.Pattern) })
}
