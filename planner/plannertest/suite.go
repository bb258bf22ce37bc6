package plannertest

import (
	"context"
	"encoding/json"
	"errors"
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/binding"
	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Run checks what a planner.Store promises beyond a stash.Store. open returns a new
// empty store and a source of IDs.
func Run(t *testing.T, open func(t *testing.T) (planner.Store, func() stash.ID)) {
	t.Run("records come back whole", func(t *testing.T) { store, ids := open(t); roundTrips(t, store, ids) })
	t.Run("names refer to what is there", func(t *testing.T) { store, ids := open(t); references(t, store, ids) })
	t.Run("what cloth is good for", func(t *testing.T) { store, _ := open(t); remembers(t, store) })
	t.Run("listeners", func(t *testing.T) { store, ids := open(t); listeners(t, store, ids) })
}

// SamplePattern returns a pattern with every kind of content.
func SamplePattern(id stash.ID, name string) pattern.Pattern {
	cut := shape.Ring{{X: 0, Y: 0}, {X: 620_000, Y: 0}, {X: 600_000, Y: 240_000}, {X: 30_000, Y: 250_000}}
	return pattern.Pattern{
		ID: id, Name: name, Maker: "the studio", Kind: "tank", Notes: "bound neck",
		Sizes: []pattern.Size{
			{Name: "S", Front: "B", Body: map[string]measure.Length{pattern.Bust: 880_000}, Finished: map[string]measure.Length{pattern.Bust: 840_000}},
			{Name: "M", Body: map[string]measure.Length{pattern.Bust: 920_000, pattern.Hip: 980_000}},
		},
		Levels: []pattern.Level{{Name: pattern.Bust, Girth: true}, {Name: pattern.BodyLen}},
		Roles:  []pattern.Role{{Name: pattern.Main, StretchAround: 3500, Recovery: 9000, WeightMin: 140_000, Knit: true}, {Name: pattern.Binding, Optional: true}},
		Yards:  []pattern.YardageRow{{Role: pattern.Main, Sizes: []string{"S", "M"}, Width: 1_500_000, WithNap: true, Length: 900_000}},
		Pieces: []pattern.Piece{{
			Code: "A", Name: "front", Role: pattern.Main, Cut: 1, OnFold: true, Fixed: true,
			Outlines: map[string]pattern.Outline{"M": {
				Cut: cut, Notches: []pattern.Notch{{At: cut[1], Kind: "double"}}, Dots: []shape.Point{{X: 5, Y: 7}}, Inner: [][]shape.Point{{{X: 1, Y: 1}, {X: 2, Y: 2}}},
				GrainFoot: shape.Point{X: 500_000, Y: 100_000}, GrainTop: shape.Point{X: 100_000, Y: 100_000},
				MatchMarks: []pattern.MatchMark{{Name: "stripe", X: 300_000}},
				Edges:      []pattern.EdgePath{{Name: "neck front", Points: cut[2:], Turn: 1.5707963267948966, Halved: true}},
			}},
		}},
		Edges: []pattern.Edge{{
			Name: "neck", Count: 1, Closed: true, Passes: "head", Finish: "band", Width: 9525,
			Segments: []pattern.EdgeSegment{{Name: "front", Piece: "A", Path: "neck front", Times: 2, MarkEnd: "shoulder", NoJoin: true}, {Name: "strap", Times: 1, Free: map[string]measure.Length{"M": 250_000}}},
		}},
		SeamAllowance: 9525, HemAllowance: 25_400,
		Notions: []pattern.NotionNeed{{Name: "thread", Kind: "thread", Quantity: map[string]float64{"": 120.5}, Unit: "m"}},
		Work:    []pattern.Step{{Text: "Sew the side seams"}, {Text: "Try it on", TryOn: true, Asks: "take-in"}},
	}
}

func roundTrips(t *testing.T, store planner.Store, ids func() stash.ID) {
	ctx := t.Context()
	if got, err := store.Settings(ctx); err != nil || got != planner.DefaultSettings() {
		t.Errorf("settings of a new library: %+v, %v", got, err)
	}
	p := SamplePattern(ids(), "Harbour tank")
	other := SamplePattern(ids(), "a first draft")
	older := garment.Garment{ID: ids(), Name: "first tank", PatternID: p.ID, State: garment.Finished, Changed: "2025-06-01"}
	g := garment.Garment{
		ID: ids(), Name: "blue tank", PatternID: p.ID, Size: "M", Variant: "cropped", For: "Ines", State: garment.Wanted, Wanted: "2026-06-01",
		Changed: "2026-01-05", Notes: "soon", Strips: []garment.StripRecord{{Edge: "neck", Strip: binding.Strip{}, FromID: ids()}},
		Stitches: []garment.StitchNote{{StitchNote: stash.StitchNote{Seam: "hem", Stitch: "cover stitch", Tension: "4"}, FabricID: ids()}},
		Adjustments: []adjust.Step{{Kind: adjust.TakeIn, Amount: 12_700, At: adjust.Place{Level: adjust.Waist, Below: -5000}, To: adjust.Place{Level: adjust.HipLevel}, AfterCut: true},
			{Kind: adjust.Panels, Line: []shape.Point{{X: 0, Y: 400}, {X: 1000, Y: 550}}, Pieces: []string{"A"}}},
		Record: garment.Record{Purpose: "dancing", Reached: []garment.Reached{{State: garment.Wanted, On: "2026-01-02"}},
			Done:     []garment.Done{{Step: "Try on.", On: "2026-01-04", Asked: garment.AsksStrap, Value: 310_000, Note: "snug"}},
			Seams:    []garment.Seam{{Name: "hems", Class: 406, Length: 90_000, Rows: 2, Ratio: 1800, Still: true, Out: true}},
			Fittings: []garment.Fitting{{On: "2026-01-05", Text: "gapes", Photos: []stash.ID{ids()}}}, CopyOf: ids()},
	}
	chosen := planner.DefaultSettings()
	if classes, err := stash.ParseStretchClasses("firm up to 12.5 %, lively up to 40 %, wild"); err == nil {
		chosen.Classes = classes
	}
	chosen.Units, chosen.Currency, chosen.TextPercent = measure.Imperial, "SEK", 120
	chosen.Rates = chosen.Rates.With(stash.Rate{Unit: "USD", Value: 10 * stash.OneRate, In: "SEK", Typed: "2026-01-05"})
	kept := planner.Batch{ID: ids(), Name: "spring class", Changed: "2026-01-05",
		Rows: []planner.Wanted{{PatternID: p.ID, Size: "M", Count: 3, Colours: []string{"#336699"}, Uses: []planner.UseRule{{Role: "binding", From: planner.GoesWith, Within: 12.5}}, Adjustments: []adjust.Step{{Kind: adjust.Hem, Amount: 20_000}}}},
		May:  planner.MayUse{WholeLengths: true, Never: []stash.ID{ids()}}, Pins: []planner.BatchPin{{Role: "main", Cloth: ids(), Count: 1}},
		Plan: &planner.BatchPlan{Classes: []int{1}, AtMost: []int{3}, Missing: []planner.MissingGarment{{Count: 3}}, Best: true}}
	who := sizing.Person{ID: ids(), Name: "Ines", Notes: "likes it loose", Adjustments: []sizing.Kept{{Step: adjust.Step{Kind: adjust.Hem, Amount: 20_000}, On: "2026-01-05"}}}.With(sizing.Taken{Date: "2026-01-05", Body: map[string]measure.Length{pattern.Bust: 92 * measure.Centimetre}})
	gone := sizing.Person{ID: ids(), Name: "Ada", Removed: true}
	dropped := planner.Batch{ID: ids(), Name: "given up", Changed: "2026-01-06", Dropped: true}
	_, err := store.Write(ctx, "Brought a pattern in", func(tx planner.Tx) error {
		return errors.Join(tx.PutPerson(ctx, who), tx.PutPerson(ctx, gone), tx.PutBatch(ctx, kept), tx.PutBatch(ctx, dropped), tx.PutPattern(ctx, p), tx.PutPattern(ctx, other), tx.PutGarment(ctx, older), tx.PutGarment(ctx, g), tx.PutSettings(ctx, chosen), sees(ctx, tx, p, g))
	})
	if err != nil {
		t.Fatal(err)
	}
	check := func(what string, got, want any, err error) {
		t.Helper()
		if g, w := text(got), text(want); err != nil || g != w {
			t.Errorf("%s: %v; got\n%s\nwant\n%s", what, err, g, w)
		}
	}
	gotP, err := store.Pattern(ctx, p.ID)
	check("pattern", gotP, p, err)
	patterns, err := store.Patterns(ctx)
	check("patterns by name", patterns, []pattern.Pattern{other, p}, err)
	gotG, err := store.Garment(ctx, g.ID)
	check("garment", gotG, g, err)
	garments, err := store.Garments(ctx)
	check("garments, newest change first", garments, []garment.Garment{g, older}, err)
	gotW, err := store.Person(ctx, who.ID)
	check("person", gotW, who, err)
	people, err := store.People(ctx)
	check("people on the list", people, []sizing.Person{who}, err)
	gotB, err := store.Batch(ctx, kept.ID)
	check("batch", gotB, kept, err)
	batches, err := store.Batches(ctx)
	check("batches, without those dropped", batches, []planner.Batch{kept}, err)
	set, err := store.Settings(ctx)
	check("settings", set, chosen, err)

	if _, err := store.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	set, err = store.Settings(ctx)
	check("settings taken back", set, planner.DefaultSettings(), err)
	if _, err := store.Pattern(ctx, p.ID); !errors.Is(err, stash.ErrNotFound) {
		t.Errorf("pattern taken back: %v", err)
	}
	if _, err := store.Garment(ctx, g.ID); !errors.Is(err, stash.ErrNotFound) {
		t.Errorf("garment taken back: %v", err)
	}
	if _, err := store.Batch(ctx, kept.ID); !errors.Is(err, stash.ErrNotFound) {
		t.Errorf("batch taken back: %v", err)
	}
	if _, err := store.Person(ctx, who.ID); !errors.Is(err, stash.ErrNotFound) {
		t.Errorf("person taken back: %v", err)
	}
	if _, err := store.Redo(ctx); err != nil {
		t.Fatal(err)
	}
	gotP, err = store.Pattern(ctx, p.ID)
	check("pattern again", gotP, p, err)
	set, err = store.Settings(ctx)
	check("settings again", set, chosen, err)
}

// sees says whether an act sees what it wrote.
func sees(ctx context.Context, tx planner.Tx, p pattern.Pattern, g garment.Garment) error {
	gotP, err1 := tx.Pattern(ctx, p.ID)
	gotG, err2 := tx.Garment(ctx, g.ID)
	patterns, err3 := tx.Patterns(ctx)
	garments, err4 := tx.Garments(ctx)
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return err
	}
	if text(gotP) != text(p) || text(gotG) != text(g) || len(patterns) != 2 || len(garments) != 2 {
		return errors.New("the act does not see what it wrote")
	}
	return nil
}

func text(v any) string {
	b, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		return err.Error()
	}
	return string(b)
}

func references(t *testing.T, store planner.Store, ids func() stash.ID) {
	ctx := t.Context()
	for what, f := range map[string]func(planner.Tx) error{
		"a garment of no pattern": func(tx planner.Tx) error {
			return tx.PutGarment(ctx, garment.Garment{ID: ids(), Name: "x", State: garment.Wanted, PatternID: ids()})
		},
		"a garment without a name": func(tx planner.Tx) error {
			return tx.PutGarment(ctx, garment.Garment{ID: ids(), State: garment.Wanted})
		},
		"a pattern without a name": func(tx planner.Tx) error { return tx.PutPattern(ctx, pattern.Pattern{ID: ids()}) },
		"a reservation for no garment": func(tx planner.Tx) error {
			return reserve(ctx, tx, ids, ids())
		},
	} {
		var e *stash.Error
		if _, err := store.Write(ctx, "Try what cannot be", f); !errors.As(err, &e) {
			t.Errorf("%s: %v", what, err)
		}
	}
	if acts, err := store.Acts(ctx, 0); err != nil || len(acts) != 0 {
		t.Errorf("acts that were refused are kept: %v, %v", acts, err)
	}
	usedFor := func(g stash.ID) stash.Notion {
		return stash.Notion{ID: ids(), Name: "rings", Lines: []stash.NotionLine{{On: "2026-01-05", Move: stash.NotionUsed, GarmentID: g}}}
	}
	if _, err := store.Write(ctx, "Used rings for no garment", func(tx planner.Tx) error { return tx.PutNotion(ctx, usedFor(ids())) }); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("rings used for no garment: %v", err)
	}
	g := garment.Garment{ID: ids(), Name: "tank", State: garment.Reserved}
	_, err := store.Write(ctx, "Reserved all in one act, the garment last", func(tx planner.Tx) error {
		return errors.Join(reserve(ctx, tx, ids, g.ID), tx.PutGarment(ctx, g))
	})
	if err != nil {
		t.Fatal(err)
	}
	if rs, err := store.Reservations(ctx, g.ID); err != nil || len(rs) != 1 {
		t.Errorf("reservations: %v, %v", rs, err)
	}
	if _, err := store.Undo(ctx); err != nil {
		t.Errorf("taking it back: %v", err)
	}
	if cs, err := store.Cloths(ctx); err != nil || len(cs) != 0 {
		t.Errorf("cloths: %v, %v", cs, err)
	}
}

// reserve adds a length of a new fabric and keeps part of it for a garment.
func reserve(ctx context.Context, tx planner.Tx, ids func() stash.ID, garment stash.ID) error {
	f := stash.Fabric{ID: ids(), Name: "jersey", FullWidth: measure.Metre}
	c := stash.Cloth{ID: ids(), FabricID: f.ID, Code: "C" + f.ID.String()[30:], Length: measure.Metre, Width: measure.Metre}
	r := stash.Reservation{ID: ids(), ClothID: c.ID, GarmentID: garment, UsedFor: "main", Live: true, Pieces: []stash.ReservedPiece{
		{Name: "front", Outline: shape.Box{Max: shape.Point{X: 500_000, Y: 500_000}}.Ring()},
	}}
	return errors.Join(tx.PutFabric(ctx, f), tx.PutCloth(ctx, c), tx.Append(ctx, stash.Arrived(stash.Added, c, "")),
		tx.PutReservation(ctx, r), tx.Append(ctx, stash.ReservedLine(r, "")))
}

func listeners(t *testing.T, store planner.Store, ids func() stash.ID) {
	ctx := t.Context()
	var heard []stash.Act
	stop := store.OnChange(func(a stash.Act) {
		if _, err := store.Acts(ctx, 1); err != nil { // a listener may ask the store
			t.Error(err)
		}
		heard = append(heard, a)
	})
	note := func(q float64) func(planner.Tx) error {
		return func(tx planner.Tx) error {
			return tx.PutNotion(ctx, stash.Notion{ID: ids(), Name: "rings", Quantity: q})
		}
	}
	first, err := store.Write(ctx, "Counted", note(1))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := store.Write(ctx, "Counted wrong", note(-1)); err == nil {
		t.Error("minus one ring was accepted")
	}
	if _, err := store.Write(ctx, "Nothing", func(planner.Tx) error { return nil }); err != nil {
		t.Error(err)
	}
	undone, err := store.Undo(ctx)
	if err != nil {
		t.Fatal(err)
	}
	stop()
	if _, err := store.Redo(ctx); err != nil {
		t.Fatal(err)
	}
	if len(heard) != 2 || heard[0] != first || heard[1] != undone {
		t.Errorf("heard %+v, want %+v and %+v", heard, first, undone)
	}
	if store.ReadOnly() != "" {
		t.Errorf("read-only: %q", store.ReadOnly())
	}
}

// remembers keeps, replaces and forgets what cloth is good for; none of it is an act.
func remembers(t *testing.T, store planner.Store) {
	ctx := t.Context()
	cloth, other, first, second := planner.Key{1}, planner.Key{2}, planner.Key{3}, planner.Key{4}
	use := planner.Use{Role: pattern.Main, Size: "M", Grade: match.EnoughIf, Proof: match.ByLayout}
	defer store.OnChange(func(stash.Act) { t.Error("listeners are told") })()
	keep := func(c planner.Key, uses map[planner.Key][]planner.Use) {
		t.Helper()
		if err := store.KeepUses(ctx, c, uses); err != nil {
			t.Fatal(err)
		}
	}
	want := func(c planner.Key, want map[planner.Key][]planner.Use) {
		t.Helper()
		got, err := store.KnownUses(ctx, c)
		if err != nil || len(got) != len(want) {
			t.Fatalf("kept is %v, want %v; %v", got, want, err)
		}
		for k, uses := range want {
			if has, ok := got[k]; !ok || !slices.Equal(has, uses) {
				t.Errorf("kept is %v, want %v", has, uses)
			}
		}
	}
	h := planner.Habits{Folder: "/somewhere", Paper: "Letter", FullPaper: "A3", InHand: "{}"}
	for _, h := range []planner.Habits{{}, {FullPaper: "A0"}, h} {
		if err := store.KeepHabits(ctx, h); err != nil {
			t.Fatal(err)
		}
		if got, err := store.Habits(ctx); err != nil || got != h {
			t.Errorf("habits are %+v, %v", got, err)
		}
	}
	want(cloth, nil)
	keep(cloth, map[planner.Key][]planner.Use{first: {use}, second: {}})
	keep(other, map[planner.Key][]planner.Use{first: {use}})
	want(cloth, map[planner.Key][]planner.Use{first: {use}, second: {}})
	keep(cloth, map[planner.Key][]planner.Use{first: {use, use}})
	want(cloth, map[planner.Key][]planner.Use{first: {use, use}, second: {}})
	if err := store.ForgetUses(ctx, map[planner.Key]bool{cloth: true}, map[planner.Key]bool{first: true}); err != nil {
		t.Fatal(err)
	}
	want(cloth, map[planner.Key][]planner.Use{first: {use, use}})
	want(other, nil)
	if kept, err := store.UsesKept(ctx); err != nil || len(kept) != 1 || !slices.Equal(kept[cloth], []planner.Key{first}) {
		t.Errorf("kept are %v, %v", kept, err)
	}
	if acts, err := store.Acts(ctx, 0); err != nil || len(acts) != 0 {
		t.Errorf("%d acts, %v", len(acts), err)
	}
}
