package planner

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
)

// proposed is what sizes the person of a row takes. Where the main fabric is one named
// fabric its stretch counts, else what the pattern asks.
func (w Wanted) proposed(p pattern.Pattern, who sizing.Person, fabrics []stash.Fabric) (sizing.Choice, error) {
	a := sizing.Ask{Pattern: p, Body: who.Latest("")}
	if main := w.rule(pattern.Main); main.From == NamedFabric && len(main.Fabrics) == 1 {
		if i := slices.IndexFunc(fabrics, func(f stash.Fabric) bool { return f.ID == main.Fabrics[0] }); i >= 0 {
			a.Chosen, a.Stretch = true, stretchAround(fabrics[i])
		}
	}
	return sizing.Choose(a)
}

// RowSize is the size proposed for the person of a row of a batch.
type RowSize struct {
	Row    int
	Person sizing.Person
	Choice sizing.Choice
}

// Between says that she lies between sizes, so that a blend would fit better.
func (r RowSize) Between() bool { return slices.Contains(r.Choice.Why, sizing.LevelsDiffer) }

// RowSizes proposes sizes for the rows that have a person; rows for which nothing can be
// proposed, or whose person or pattern is gone, are left out.
func (s *Studio) RowSizes(ctx context.Context, rows []Wanted) ([]RowSize, error) {
	if !slices.ContainsFunc(rows, func(w Wanted) bool { return w.PersonID != stash.NoID }) {
		return nil, nil
	}
	known, err := s.known(ctx)
	if err != nil {
		return nil, err
	}
	var out []RowSize
	for i, w := range rows {
		who := slices.IndexFunc(known.People, func(p sizing.Person) bool { return p.ID == w.PersonID })
		what := slices.IndexFunc(known.Patterns, func(p pattern.Pattern) bool { return p.ID == w.PatternID })
		if w.PersonID == stash.NoID || who < 0 || what < 0 {
			continue
		}
		if c, err := w.proposed(known.Patterns[what], known.People[who], known.Fabrics); err == nil {
			out = append(out, RowSize{i, known.People[who], c})
		}
	}
	return out, nil
}

// RowOffers lists what is kept for the person of a row and may be taken over in it: what the
// outlines of its size allow.
func (s *Studio) RowOffers(ctx context.Context, w Wanted) ([]Offer, error) {
	if w.PersonID == stash.NoID {
		return nil, nil
	}
	who, err := s.Person(ctx, w.PersonID)
	if err != nil {
		return nil, fmt.Errorf("looking for adjustments: %w", err)
	}
	p, err := s.Pattern(ctx, w.PatternID)
	if err != nil {
		return nil, fmt.Errorf("looking for adjustments: %w", err)
	}
	return allowed(p, w.Size, nil, keptFor(who)), nil
}

// allowed are those offers that the outlines of a size, adjusted so far, allow one by one.
func allowed(p pattern.Pattern, size string, steps []adjust.Step, offers []Offer) []Offer {
	return slices.DeleteFunc(offers, func(o Offer) bool {
		_, err := adjust.Apply(p, size, append(slices.Clone(steps), o.Step))
		return err != nil
	})
}

// BlendRows keeps a blend as a size of the pattern for every row that takes the size
// proposed for a person who lies between sizes, and gives the rows these sizes. Sentences say
// what was blended and what could not be.
func (s *Studio) BlendRows(ctx context.Context, rows []Wanted) ([]Wanted, []string, error) {
	before, err := s.RowSizes(ctx, rows)
	if err != nil {
		return nil, nil, err
	}
	rows = slices.Clone(rows)
	var told []string
	for _, was := range before {
		row := &rows[was.Row]
		if row.Size != was.Choice.Size {
			continue // another size was chosen for her
		}
		now, err := s.RowSizes(ctx, []Wanted{*row}) // a row before may have blended it already
		if err != nil {
			return nil, nil, err
		}
		if len(now) == 0 {
			continue
		}
		if !now[0].Between() {
			row.Size = now[0].Choice.Size
			continue
		}
		text, err := s.blendRow(ctx, row, now[0])
		if err != nil {
			return nil, nil, err
		}
		told = append(told, text)
	}
	return rows, told, nil
}

// blendRow gives a row a blend for its person, or says why its size stays.
func (s *Studio) blendRow(ctx context.Context, row *Wanted, size RowSize) (string, error) {
	b, err := s.KeepBlend(ctx, row.PatternID, size.Choice)
	var known *stash.Error
	switch {
	case errors.As(err, &known) && known.Kind == stash.Invalid:
		return fmt.Sprintf("Size %s stays for %s: %s", row.Size, size.Person.Name, known.What), nil
	case err != nil:
		return "", err
	}
	row.Size = b.Size
	text := fmt.Sprintf("%s has size %s now, for %s", b.Pattern.Name, b.Size, size.Person.Name)
	if len(b.Kept) > 0 {
		text += "; not blended: " + strings.Join(b.Kept, ", ")
	}
	return text, nil
}
