package binding_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// TestRefuses: what cannot be worked out says what to do.
func TestRefuses(t *testing.T) {
	ok := tankNeck()
	for name, spoil := range map[string]func(*binding.Job){
		"no technique":      func(j *binding.Job) { j.Finish.Technique = "knotted" },
		"no width":          func(j *binding.Job) { j.Finish.Width = 0 },
		"no seam":           func(j *binding.Job) { j.Finish.Seam = 0 },
		"negative turn":     func(j *binding.Job) { j.Finish.Turn = -1 },
		"no edge":           func(j *binding.Job) { j.Segments = nil },
		"no length":         func(j *binding.Job) { j.Segments[0].Length = 0 },
		"crossed away":      func(j *binding.Job) { j.Segments[0].CrossEnd = -j.Segments[0].Length },
		"not a number":      func(j *binding.Job) { j.Segments[0].Turning = math.NaN() },
		"spiral":            func(j *binding.Job) { j.Segments[0].Turning = 20 },
		"finish over curve": func(j *binding.Job) { j.Segments[0].Length = 10 * mm },
		"ratio":             func(j *binding.Job) { j.Segments[0].Ratio = 9 },
		"share":             func(j *binding.Job) { j.Segments[0].Share = math.Inf(1) },
		"hold-in":           func(j *binding.Job) { j.HoldIn = 0.5 },
		"hold-in no number": func(j *binding.Job) { j.HoldIn = math.NaN() },
		"rule":              func(j *binding.Job) { j.Rule = 0.1 },
		"drawn":             func(j *binding.Job) { j.Drawn = -0.1 },
		"extra":             func(j *binding.Job) { j.EndExtra = -1 },
		"count":             func(j *binding.Job) { j.Count = -1 },
		"as long as a fence": func(j *binding.Job) {
			j.Segments[0].Length = 99 * measure.Metre
			j.Segments[1].Length = 2 * measure.Metre
		},
	} {
		j := ok
		j.Segments = append([]binding.Segment(nil), ok.Segments...)
		spoil(&j)
		_, err := binding.Work(j, jersey)
		var e *stash.Error
		if !errors.As(err, &e) || e.Kind != stash.Invalid || e.What == "" || e.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestPlanRefuses(t *testing.T) {
	ctx := context.Background()
	if _, err := binding.Plan(ctx, []binding.Strip{{}}, nil); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("a strip without size: %v", err)
	}
	one := []binding.Strip{strip(50*cm, 4*cm, cm, 3)}
	if _, err := binding.Plan(ctx, one, []binding.Source{{Across: -1}}); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("a source of negative size: %v", err)
	}
	if p, err := binding.Plan(ctx, nil, nil); err != nil || len(p.Pieces) != 0 || !p.Proved {
		t.Errorf("nothing to cut: %+v, %v", p, err)
	}
	p, err := binding.Plan(ctx, one, []binding.Source{{Across: 120 * cm, Along: 7 * cm}})
	if !errors.Is(err, stash.ErrConflict) || p.Short != 50*cm || len(p.Missing) != 1 || len(p.Pieces) != 2 {
		t.Errorf("cloth for two of three: %+v, %v", p, err)
	}
	gone, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := binding.Plan(gone, one, []binding.Source{{Across: 120 * cm, Along: 9 * cm}}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// TestPlanPreference: fewer joins first, then less fabric, then the earlier source.
func TestPlanPreference(t *testing.T) {
	ctx := context.Background()
	one := []binding.Strip{strip(50*cm, 4*cm, cm, 1)}
	for _, c := range []struct {
		why     string
		sources []binding.Source
		want    int
	}{
		{"one length before two leftovers", []binding.Source{{Across: 30 * cm, Along: 20 * cm}, {Across: 140 * cm, Along: 20 * cm}}, 1},
		{"the narrower takes less fabric", []binding.Source{{Across: 140 * cm, Along: 20 * cm}, {Across: 60 * cm, Along: 20 * cm}}, 1},
		{"the earlier of equals", []binding.Source{{Across: 60 * cm, Along: 20 * cm}, {Across: 60 * cm, Along: 20 * cm}}, 0},
	} {
		p, err := binding.Plan(ctx, one, c.sources)
		if err != nil || len(p.Pieces) != 1 || p.Pieces[0].Source != c.want {
			t.Errorf("%s: %+v, %v", c.why, p, err)
		}
	}
}

// TestForbiddenJoins: with 60 cm forbidden in the middle of 90 cm, sources of 50 cm cannot do.
func TestForbiddenJoins(t *testing.T) {
	j := binding.Job{JoinSeam: 0, Finish: binding.Finish{Technique: binding.FoldedBand, Width: cm, Seam: cm}, HoldIn: 1, Segments: []binding.Segment{
		{Length: 15 * cm}, {Length: 60 * cm, NoJoin: true}, {Length: 15 * cm}}}
	s, err := binding.Work(j, jersey)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := binding.Plan(context.Background(), []binding.Strip{s}, []binding.Source{{Across: 50 * cm, Along: 100 * cm}}); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("50 cm: %v", err)
	}
	p, err := binding.Plan(context.Background(), []binding.Strip{s}, []binding.Source{{Across: 50 * cm, Along: 4 * cm}, {Across: 80 * cm, Along: 4 * cm}})
	if err != nil || len(p.Joins[0]) != 1 || !allows(s, p.Joins[0][0]) {
		t.Errorf("80 and 50 cm: %+v, %v", p, err)
	}
}

func TestRecipe(t *testing.T) {
	r, err := binding.ParseRecipe("Two widths, two seams and 1 turn, stands above the edge")
	if err != nil || r != (binding.Recipe{Widths: 2, Seams: 2, Turns: 1, Lies: binding.Stands}) {
		t.Errorf("%+v, %v", r, err)
	}
	f := binding.Finish{Technique: "my own", Own: r, Width: cm, Seam: cm, Turn: 2 * mm}
	if w, err := f.CutWidth(); err != nil || w != 42*mm || f.Reach() != cm {
		t.Errorf("%d, %v", w, err)
	}
	for _, bad := range []string{"", "two seams", "twelve widths", "2 widths, 3 zips", "8 widths, 8 widths", "widths"} {
		if _, err := binding.ParseRecipe(bad); !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("%q: %v", bad, err)
		}
	}
}

func FuzzParseRecipe(f *testing.F) {
	for _, s := range []string{"two widths, two seams", "4 widths + 1 turn", "a width and a caught edge, turned in", ",,,", "9 widths"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := binding.ParseRecipe(text)
		if err != nil {
			return
		}
		if back, err := binding.ParseRecipe(r.String()); err != nil || back != r {
			t.Fatalf("%q reads as %+v, is written %q, reads as %+v, %v", text, r, r, back, err)
		}
	})
}
