package match_test

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// shares draws one to three kinds of garment, one or two of each.
func shares(t *rapid.T, patterns []pattern.Pattern) []match.Share {
	var out []match.Share
	for range rapid.IntRange(1, 3).Draw(t, "kinds") {
		p := rapid.SampledFrom(patterns).Draw(t, "pattern")
		a := askFor(p, p.Sizes[0].Name)
		if rapid.Bool().Draw(t, "strips") {
			a.Strips = stripsFor()
		}
		q, err := match.New(a)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, match.Share{Q: q, N: rapid.IntRange(1, 2).Draw(t, "count"), Crosswise: rapid.IntRange(0, 4).Draw(t, "crosswise") == 0})
	}
	return out
}

// Garments laid together keep every rule of cutting, each by itself with the others
// reserved beside it; what a bound calls impossible is not found by a search either.
func TestLayTogether(t *testing.T) {
	tank, _, shorts := demo(t)
	lies, impossible, several := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		c := anyCloth(t)
		if c.Cloth.Plain() {
			c.Cloth.Length *= measure.Length(rapid.IntRange(1, 4).Draw(t, "times"))
		}
		all := shares(t, []pattern.Pattern{slab(), lopsided(), tank, shorts})
		if c.Fabric.Direction != stash.EitherWay {
			for i := range all {
				all[i].Crosswise = false
			}
		}
		got, outcome, err := match.LayTogether(context.Background(), c, all, 0, 1)
		if err != nil {
			t.Fatal(err)
		}
		switch outcome {
		case match.Impossible:
			impossible++
			if _, again, err := match.LayTogether(context.Background(), c, all, 1, 2); err != nil || again != match.Impossible {
				t.Fatalf("impossible, then %d (%v)", again, err)
			}
			return
		case match.NotFound:
			return
		}
		lies++
		if len(got.Layouts) > 1 {
			several++
		}
		keepsRules(t, c, all, got)
		for i, g := range match.NewGauger().Of(c, all) {
			sum := int64(0)
			for k, s := range all {
				sum += int64(s.N) * g.Takes[k]
			}
			if sum > g.Have {
				t.Fatalf("gauge %d says that %d of %d are taken, and it lies", i, sum, g.Have)
			}
		}
	})
	if lies < 15 || impossible < 3 || several < 8 {
		t.Errorf("%d lie, %d impossible, %d of several garments", lies, impossible, several)
	}
}

func keepsRules(t *rapid.T, c stash.ClothState, all []match.Share, got match.Together) {
	g := 0
	for _, s := range all {
		for range s.N {
			beside := c
			for k, l := range got.Layouts {
				var r stash.Reservation
				for _, p := range l.Pieces {
					r.Pieces = append(r.Pieces, stash.ReservedPiece{Name: p.Name, Outline: p.Outline})
				}
				if k != g {
					beside.Reservations = append(beside.Reservations[:len(beside.Reservations):len(beside.Reservations)], r)
				}
			}
			if f := s.Q.Faults(beside, got.Layouts[g]); len(f) > 0 {
				t.Fatalf("garment %d: %+v", g, f[0])
			}
			g++
		}
	}
	if g != len(got.Layouts) {
		t.Fatalf("%d layouts of %d garments", len(got.Layouts), g)
	}
}

// Two garments that turn against each other share what each alone would need more of:
// wedges of one way within a garment, each garment its own way.
func TestGarmentsOpposeEachOther(t *testing.T) {
	wedge := shape.Ring{{X: 0, Y: 0}, {X: 600_000, Y: 0}, {X: 600_000, Y: 100_000}, {X: 0, Y: 400_000}}
	p := pattern.Pattern{Name: "Wedge", Sizes: []pattern.Size{{Name: "1"}}, Roles: []pattern.Role{{Name: pattern.Main}},
		Pieces: []pattern.Piece{{Code: "A", Name: "Panel", Role: pattern.Main, Cut: 1, Outlines: map[string]pattern.Outline{"1": {Cut: wedge}}}}}
	for d, want := range map[stash.Direction]match.Outcome{stash.SameWayInGarment: match.Lies, stash.SameWayForAll: match.Impossible} {
		f := stash.Fabric{Name: "cloth", Construction: stash.Jersey, FullWidth: 51 * measure.Centimetre, Direction: d}
		c := stash.ClothState{Fabric: f, Cloth: stash.Cloth{Code: "W", Length: 66 * measure.Centimetre, Width: f.FullWidth, Washed: true}}
		q, err := match.New(match.Ask{Pattern: p, Size: "1", Clearance: 3 * measure.Millimetre})
		if err != nil {
			t.Fatal(err)
		}
		got, outcome, err := match.LayTogether(context.Background(), c, []match.Share{{Q: q, N: 2}}, 20, 1)
		if err != nil || outcome != want {
			t.Errorf("direction %d: outcome %d, want %d (%v)", d, outcome, want, err)
		}
		if outcome == match.Lies && got.Layouts[0].Pieces[0].Place.Angle == got.Layouts[1].Pieces[0].Place.Angle {
			t.Error("they point one way")
		}
	}
}

// Garments that have only a yardage table take lengths side by side.
func TestYardageTogether(t *testing.T) {
	p := pattern.Pattern{Name: "Poncho", Sizes: []pattern.Size{{Name: "1"}}, Roles: []pattern.Role{{Name: pattern.Main}},
		Yards: []pattern.YardageRow{{Role: pattern.Main, Width: 150 * measure.Centimetre, Length: measure.Metre, WithNap: true}}}
	q, err := match.New(match.Ask{Pattern: p, Size: "1"})
	if err != nil {
		t.Fatal(err)
	}
	f := stash.Fabric{Name: "cloth", Construction: stash.Jersey, FullWidth: 150 * measure.Centimetre}
	for length, want := range map[measure.Length]match.Outcome{199 * measure.Centimetre: match.NotFound, 2 * measure.Metre: match.Lies} {
		c := stash.ClothState{Fabric: f, Cloth: stash.Cloth{Code: "P", Length: length, Width: f.FullWidth, Washed: true}}
		got, outcome, err := match.LayTogether(context.Background(), c, []match.Share{{Q: q, N: 2}}, 0, 1)
		if err != nil || outcome != want {
			t.Errorf("%d: outcome %d, want %d (%v)", length, outcome, want, err)
		}
		if outcome == match.Lies && (len(got.Keep) != 2 || shape.Overlaps(got.Keep[0], got.Keep[1]) || got.Used != 2*measure.Metre) {
			t.Errorf("%+v", got)
		}
	}
}
