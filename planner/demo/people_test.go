package demo_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// TestPeopleOfTheStudio: a person is added, measured again as she grows, gets a size of the
// demo tank in a fabric, is taken off the list and put back; each act is undone by one step.
func TestPeopleOfTheStudio(t *testing.T) {
	ctx := context.Background()
	s := studio(t)
	const cm = measure.Centimetre
	there, err := s.People(ctx)
	if err != nil {
		t.Fatal(err)
	}
	ida, err := s.SavePerson(ctx, sizing.Person{Name: " Wren "})
	if err != nil || ida.ID == stash.NoID || ida.Name != "Wren" {
		t.Fatalf("%+v, %v", ida, err)
	}
	if _, err := s.MeasurePerson(ctx, ida.ID, sizing.Taken{Date: "2025-01-01", Body: map[string]measure.Length{pattern.Bust: 80 * cm, pattern.Hip: 86 * cm}}); err != nil {
		t.Fatal(err)
	}
	// 36 in is the bust of size 4 in the table of 1967/68, 40 in the hip of size 5.
	got, err := s.MeasurePerson(ctx, ida.ID, sizing.Taken{Body: map[string]measure.Length{pattern.Bust: 36 * measure.Inch, pattern.Hip: 40 * measure.Inch}})
	if err != nil || len(got.Taken) != 2 || got.Taken[1].Date != s.Today() {
		t.Fatalf("%+v, %v", got, err)
	}
	ps, err := s.Patterns(ctx)
	if err != nil {
		t.Fatal(err)
	}
	tank := ps[slices.IndexFunc(ps, func(p pattern.Pattern) bool { return p.Kind == "tank" })]
	fs, err := s.Fabrics(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range append([]stash.Fabric{{}}, fs...) {
		c, err := s.SizeFor(ctx, tank.ID, ida.ID, f.ID)
		if err != nil || c.Size != "4" || !slices.Contains(c.Why, sizing.LevelsDiffer) || len(c.Options) != 3 || c.Assumed != (f.ID != stash.NoID && !f.Crosswise.Stretch.Known) {
			t.Errorf("in %q: %+v, %v", f.Name, c, err)
		}
	}
	if err := s.DropPerson(ctx, ida.ID); err != nil {
		t.Fatal(err)
	}
	if left, _ := s.People(ctx); len(left) != len(there) {
		t.Errorf("%d people, %d before", len(left), len(there))
	}
	for range 4 {
		if _, err := s.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := s.Person(ctx, ida.ID); !errors.Is(err, stash.ErrNotFound) {
		t.Errorf("after undoing: %v", err)
	}
	for _, b := range []map[string]measure.Length{nil, {pattern.Bust: cm}} {
		if _, err := s.MeasurePerson(ctx, ida.ID, sizing.Taken{Body: b}); err == nil {
			t.Errorf("kept %v", b)
		}
	}
	if _, err := s.SavePerson(ctx, sizing.Person{}); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("nobody: %v", err)
	}
}
