package planner

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// MeasureStretch keeps bench tests with their fabric, dated today. What the fabric is
// known for is the mean of all tests of the latest day along that grain.
func (s *Studio) MeasureStretch(ctx context.Context, fabricID stash.ID, tests ...StretchTest) (stash.Fabric, error) {
	f, err := s.Fabric(ctx, fabricID)
	if err != nil {
		return stash.Fabric{}, fmt.Errorf("keeping a stretch test: %w", err)
	}
	if len(tests) == 0 {
		return f, invalid("Test it along one grain at least", "There is no reading yet")
	}
	var readings []stash.BenchReading
	for _, t := range tests {
		readings = append(readings, stash.BenchReading{Date: s.today(), Crosswise: t.Crosswise, StretchTest: t.bench()})
	}
	after, err := f.WithReadings(readings...)
	if err != nil {
		return stash.Fabric{}, err
	}
	err = s.act(ctx, fmt.Sprintf("Measured that %s stretches %s", f.Name, stretches(after, readings)), func(tx Tx) error {
		now, err := tx.Fabric(ctx, fabricID)
		if err != nil {
			return err
		}
		if after, err = now.WithReadings(readings...); err != nil {
			return err
		}
		return tx.PutFabric(ctx, after)
	})
	return after, err
}

// stretches says what was measured, each grain once.
func stretches(f stash.Fabric, readings []stash.BenchReading) string {
	var said []string
	for _, crosswise := range []bool{false, true} {
		g, name := f.Lengthwise, "lengthwise"
		if crosswise {
			g, name = f.Crosswise, "crosswise"
		}
		if slices.ContainsFunc(readings, func(r stash.BenchReading) bool { return r.Crosswise == crosswise }) {
			said = append(said, measure.FormatPercent(g.Stretch.Value)+" "+name)
		}
	}
	return strings.Join(said, ", ")
}

func (t StretchTest) bench() stash.StretchTest {
	return stash.StretchTest{Before: t.Before, Stretched: t.Stretched, After: t.After,
		WidthBefore: t.WidthBefore, WidthStretched: t.WidthStretched}
}

// SaveFabric keeps a fabric as it is given; one without an ID is new.
func (s *Studio) SaveFabric(ctx context.Context, f stash.Fabric) error {
	verb := "Changed "
	if f.ID == stash.NoID {
		f.ID, verb = s.newID(), "Added "
	}
	if err := f.Validate(); err != nil {
		return err
	}
	return s.act(ctx, verb+f.Name, func(tx Tx) error { return tx.PutFabric(ctx, f) })
}

// SavePattern keeps a pattern as it is given; one without an ID is new.
func (s *Studio) SavePattern(ctx context.Context, p pattern.Pattern) (pattern.Pattern, error) {
	verb := "Changed the pattern "
	if p.ID == stash.NoID {
		p.ID, verb = s.newID(), "Added the pattern "
	} else if _, err := s.Pattern(ctx, p.ID); err != nil {
		verb = "Added the pattern "
	}
	if err := p.Validate(); err != nil {
		return pattern.Pattern{}, err
	}
	err := s.act(ctx, verb+p.Name, func(tx Tx) error { return tx.PutPattern(ctx, p) })
	return p, err
}

// NewGarment adds a garment that is wanted. An empty name takes the pattern's with the size.
func (s *Studio) NewGarment(ctx context.Context, patternID stash.ID, size, name, who string) (garment.Garment, error) {
	p, err := s.Pattern(ctx, patternID)
	if err != nil {
		return garment.Garment{}, fmt.Errorf("adding a garment: %w", err)
	}
	if _, ok := p.Size(size); !ok {
		return garment.Garment{}, invalid("Choose one of its sizes", "%s has no size %q", p.Name, size)
	}
	if strings.TrimSpace(name) == "" {
		name = p.Name + ", size " + size
	}
	g := s.changed(garment.Garment{ID: s.newID(), Name: name, PatternID: patternID, Size: size, For: who}, garment.Wanted)
	err = s.act(ctx, "Wants "+name, func(tx Tx) error { return tx.PutGarment(ctx, g) })
	return g, err
}

// SaveGarment keeps a garment as it is given. Its state may go on as garments do, see
// garment.State.CanBecome, with two exceptions: reserving and cutting have methods of
// their own. Giving a garment up, or wanting it again, gives its cloth back in the
// same act.
func (s *Studio) SaveGarment(ctx context.Context, g garment.Garment) error {
	was, err := s.Garment(ctx, g.ID)
	if err != nil {
		return fmt.Errorf("keeping a garment: %w", err)
	}
	if _, err := s.Pattern(ctx, g.PatternID); err != nil {
		return fmt.Errorf("keeping a garment: %w", err)
	}
	return s.act(ctx, saidOf(was, g), func(tx Tx) error {
		now, err := tx.Garment(ctx, g.ID)
		if err != nil {
			return err
		}
		if err := mayBecome(now.State, g.State); err != nil {
			return err
		}
		if now.State != g.State && (g.State == garment.GivenUp || g.State == garment.Wanted) {
			if _, err := s.giveBack(ctx, tx, g.ID); err != nil {
				return err
			}
		}
		after := g
		after.State = now.State
		return tx.PutGarment(ctx, s.changed(after, g.State))
	})
}

func mayBecome(from, to garment.State) error {
	if from == to {
		return nil
	}
	if to == garment.Reserved || to == garment.Cut {
		return refused("Reserve its cloth, or mark it cut", "A garment becomes %s with its cloth only", to)
	}
	return from.CanBecome(to)
}

// saidOf is the sentence for what changed about a garment.
func saidOf(was, now garment.Garment) string {
	switch {
	case was.State == now.State:
		return "Changed " + now.Name
	case now.State == garment.GivenUp:
		return "Gave up " + now.Name
	case now.State == garment.Wanted:
		return "Wants " + now.Name + " again"
	}
	return fmt.Sprintf("Marked %s as %s", now.Name, now.State)
}
