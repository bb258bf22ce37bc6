package planner_test

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// counted is a Studio whose store counts what was found out anew.
type counted struct {
	planner.Store
	patterns int
}

func (c *counted) KeepUses(_ context.Context, cloth planner.Key, uses map[planner.Key][]planner.Use) error {
	c.patterns += len(uses)
	return c.Store.KeepUses(ctx, cloth, uses)
}

// workAll works out all that is not known and says for how many pairs of cloth and pattern.
func workAll(t *testing.T, s *planner.Studio) int {
	t.Helper()
	c := &counted{Store: s.Store}
	s = planner.NewStudio(planner.Config{Store: c, Workers: 2})
	cloths, err := s.UnworkedCloth(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, cloth := range cloths {
		if _, err := s.WorkOutUses(ctx, cloth, func() bool { return true }); err != nil {
			t.Fatal(err)
		}
	}
	if again, err := s.UnworkedCloth(ctx); err != nil || len(again) != 0 {
		t.Errorf("%d leftovers are still not known, %v", len(again), err)
	}
	return c.patterns
}

// odd adds a leftover of a fabric, a trapezoid.
func odd(t *testing.T, s *planner.Studio, fabric stash.ID, length, width int64) stash.ClothState {
	t.Helper()
	ring := shape.Ring{{X: 0, Y: 0}, {X: length, Y: 0}, {X: length - 40_000, Y: width}, {X: 0, Y: width}}
	c, err := s.AddLeftover(ctx, planner.LeftoverForm{FabricID: fabric, Outline: shape.Polygon{Outer: ring}, Washed: true})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// What is kept is what asking would say, and it stays until something changes that it rests on.
func TestGoodForIsKeptUntilSomethingChanges(t *testing.T) {
	s := studio(t)
	fabric := bought(t, s, 250*cm).Fabric
	p := tank(t, s)
	big, small := odd(t, s, fabric.ID, 1_150_000, 1_380_000), odd(t, s, fabric.ID, 300_000, 200_000)
	if g, err := s.GoodFor(ctx, big); err != nil || g.Unknown != 1 || len(g.Uses) != 0 {
		t.Fatalf("before anything is worked out: %+v, %v", g, err)
	}
	if n := workAll(t, s); n != 2 {
		t.Fatalf("%d pairs of leftover and pattern worked out, there are 2; a whole length is none", n)
	}
	sameAsAsked(t, s, big)
	sameAsAsked(t, s, small)

	after := func(what string, want int, do func() error) {
		t.Helper()
		if err := do(); err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		if n := workAll(t, s); n != want {
			t.Errorf("%s: %d pairs worked out again, want %d", what, n, want)
		}
	}
	after("nothing", 0, func() error { return nil })
	after("moved", 0, func() error { return s.MoveCloth(ctx, big.Cloth.ID, "attic") })
	after("a note on the fabric", 0, func() error { f := fabric; f.Notes, f.Colour = "soft", "#102030"; return s.SaveFabric(ctx, f) })
	after("another name of the pattern", 0, func() error { p.Name = "Fern tank"; _, err := s.SavePattern(ctx, p); return err })
	after("another theme", 0, func() error {
		return s.SaveSettings(ctx, settingsWith(t, s, func(c *planner.Settings) { c.DarkTheme = "dark" }))
	})
	after("what the pattern asks", 2, func() error {
		p.Roles = slices.Clone(p.Roles)
		p.Roles[0].StretchAround = 60 * pc
		_, err := s.SavePattern(ctx, p)
		return err
	})
	after("a flaw", 1, func() error {
		_, err := s.FlawFound(ctx, planner.Flaw{ClothID: small.Cloth.ID, Along: 10 * cm, Across: 10 * cm, Length: 2 * cm, Width: 2 * cm})
		return err
	})
	after("the stretch of the fabric", 2, func() error { f := fabric; f.Crosswise.Stretch = stash.Measured(50 * pc); return s.SaveFabric(ctx, f) })
	after("more room between pattern pieces", 2, func() error {
		return s.SaveSettings(ctx, settingsWith(t, s, func(c *planner.Settings) { c.Clearance = 6 * mm }))
	})
	after("given away", 0, func() error { return s.GiveAway(ctx, small.Cloth.ID, "") })
	if kept, err := s.UsesKept(ctx); err != nil || len(kept) != 1 {
		t.Errorf("something is kept for %d leftovers, one is there; %v", len(kept), err)
	}
}

func settingsWith(t *testing.T, s *planner.Studio, change func(*planner.Settings)) planner.Settings {
	t.Helper()
	set, err := s.Settings(ctx)
	if err != nil {
		t.Fatal(err)
	}
	change(&set)
	return set
}

// sameAsAsked compares what is kept with the answers of What can it make.
func sameAsAsked(t *testing.T, s *planner.Studio, c stash.ClothState) {
	t.Helper()
	g, err := s.GoodFor(ctx, c)
	if err != nil || g.Unknown != 0 {
		t.Fatalf("%+v, %v", g, err)
	}
	made, err := s.WhatCanItMake(ctx, c.Cloth.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	yes := map[[2]string]match.Verdict{}
	for _, m := range made {
		if m.Verdict.Grade <= match.EnoughIf {
			yes[[2]string{m.Role, m.Size}] = m.Verdict
		}
	}
	n := 0
	for _, u := range g.Uses {
		for _, size := range u.Sizes {
			n++
			v, ok := yes[[2]string{u.Role, size.Size}]
			if !ok || v.Grade != size.Grade || v.Proof != size.Proof || u.Proved != (v.Proof == match.ByLayout) {
				t.Errorf("%s %s: kept %+v, asked %v %v", u.Role, size.Size, size, v.Grade, v.Proof)
			}
		}
	}
	if n != len(yes) {
		t.Errorf("%d uses are kept, %d are there", n, len(yes))
	}
}

// Leftovers that are proposed for a garment are worked out before it is cut, what is reserved
// on them for others left alone, and are known at once when they are kept.
func TestProposedLeftoversAreKnownWhenKept(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	first, _ := reservedOn(t, s, c.Cloth.ID, "First"), reservedOn(t, s, c.Cloth.ID, "Second")
	if n := workAll(t, s); n == 0 {
		t.Fatal("nothing was worked out for two garments to be cut")
	}
	plan, err := s.CutPlan(ctx, first.ID)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range plan[0].Left {
		if g, err := s.GoodFor(ctx, planner.LeftoverState(plan[0].Cloth, l.Outline)); err != nil || g.Unknown != 0 {
			t.Errorf("a leftover that is proposed is not known: %+v, %v", g, err)
		}
	}
	kept, err := s.MarkCut(ctx, first.ID, planner.AllLeft(plan))
	if err != nil || len(kept) == 0 {
		t.Fatalf("%d kept, %v", len(kept), err)
	}
	for _, k := range kept {
		on, err := s.Cloth(ctx, k.ID)
		if err != nil {
			t.Fatal(err)
		}
		if g, err := s.GoodFor(ctx, on); err != nil || g.Unknown != 0 {
			t.Errorf("%s with %d reservations is not known once it is kept: %+v, %v", k.Code, len(on.Reservations), g, err)
		}
		sameAsAsked(t, s, on)
	}
}

// Each field of a cloth, its fabric and a pattern either changes the key or is named here.
func TestKeysKnowEveryField(t *testing.T) {
	free := map[string][]string{
		"Cloth":   {"ID", "FabricID", "Code", "Lot", "Place", "CutFrom", "PurchaseID", "Notes"},
		"Fabric":  {"ID", "Name", "Buy", "BuyFor", "Colour", "ColourName", "Care", "Supplier", "Notes", "Stitches", "Bench", "Strips", "Tags"},
		"Pattern": {"Name", "Maker", "Kind", "Notes", "Notions", "Work"},
	}
	set := planner.DefaultSettings()
	everyField[stash.Cloth](t, free["Cloth"], func(c stash.Cloth) planner.Key { return planner.ClothKey(stash.ClothState{Cloth: c}, set) })
	everyField[stash.Fabric](t, free["Fabric"], func(f stash.Fabric) planner.Key { return planner.ClothKey(stash.ClothState{Fabric: f}, set) })
	everyField[pattern.Pattern](t, free["Pattern"], planner.PatternKey)
	everyField[planner.Settings](t, []string{"UsableStretch", "ShopIncrement", "Seam", "Hem", "KeepSquare", "KeepStrip", "Backups", "Currency", "DarkTheme", "TextPercent", "Paper", "FullPaper", "Folder", "Rates", "Classes"},
		func(s planner.Settings) planner.Key { return planner.ClothKey(stash.ClothState{}, s) })
	r := stash.Reservation{Pieces: []stash.ReservedPiece{{Outline: shape.Ring{{X: 1}, {X: 5}, {Y: 7}}}}}
	if planner.ClothKey(stash.ClothState{Reservations: []stash.Reservation{r}}, set) == planner.ClothKey(stash.ClothState{}, set) {
		t.Error("what is reserved does not change the key")
	}
}

func everyField[T any](t *testing.T, free []string, key func(T) planner.Key) {
	t.Helper()
	var none T
	of := reflect.TypeFor[T]()
	for i := range of.NumField() {
		var v T
		f := reflect.ValueOf(&v).Elem().Field(i)
		other(f)
		if f.IsZero() && !slices.Contains(free, of.Field(i).Name) {
			t.Fatalf("%s.%s was not changed", of.Name(), of.Field(i).Name)
		}
		changes := key(v) != key(none)
		if want := !slices.Contains(free, of.Field(i).Name); changes != want {
			t.Errorf("%s.%s changes the key: %t, want %t", of.Name(), of.Field(i).Name, changes, want)
		}
	}
}

// other gives a value that is not zero.
func other(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(true)
	case reflect.String:
		v.SetString("x")
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		other(v.Index(0))
	case reflect.Array:
		other(v.Index(0))
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				other(v.Field(i))
			}
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
	case reflect.Float64:
		v.SetFloat(1)
	case reflect.Uint8:
		v.SetUint(1)
	case reflect.Int, reflect.Int32, reflect.Int64:
		v.SetInt(1)
	}
}
