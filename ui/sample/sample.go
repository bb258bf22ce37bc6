package sample

import (
	"context"
	"fmt"
	"time"

	"tallycloth/planner"
	"tallycloth/planner/draft"
	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/plannertest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/stash/stashtest"
)

// Empty returns a studio over an empty library in memory, with a clock that starts on
// 5 January 2026.
func Empty() *planner.Studio {
	s, _ := Kept()
	return s
}

// Kept is Empty with the store that its library lies in.
func Kept() (*planner.Studio, *plannertest.Store) {
	now := clock()
	ids := stashtest.IDs()
	store := plannertest.New(now, ids)
	return planner.NewStudio(planner.Config{Store: store, Now: now, NewID: ids, Workers: 1}), store
}

// clock goes on by a quarter of an hour at each look.
func clock() func() time.Time {
	t := time.Date(2026, 1, 5, 9, 0, 0, 0, time.UTC)
	return func() time.Time {
		t = t.Add(15 * time.Minute)
		return t
	}
}

// New returns a studio with the sample in it.
func New(ctx context.Context) (*planner.Studio, error) {
	s := Empty()
	f := filler{Studio: s, fabrics: map[string]stash.ID{}}
	for _, step := range []func(context.Context) error{f.lengths, f.leftovers, f.patterns, f.garments} {
		if err := step(ctx); err != nil {
			return nil, fmt.Errorf("filling the sample: %w", err)
		}
	}
	return s, nil
}

type filler struct {
	*planner.Studio
	fabrics map[string]stash.ID
}

const (
	cm = measure.Centimetre
	pc = measure.OnePercent
)

// bought is a length of a fabric, and the fabric where it is the first of it.
type bought struct {
	name, colour, hue string
	made              stash.Construction
	fibres            string
	weight            int64
	width, length     measure.Length
	across, along     measure.Percent // measured stretch, 0: not measured
	place, lot        string
	washed, trued     bool
	price             int64
}

func (f filler) lengths(ctx context.Context) error {
	for _, b := range []bought{
		{"Moss jersey", "moss", "#7d8a4e", stash.Jersey, "95% cotton 5% elastane", 190, 155 * cm, 180 * cm, 55 * pc, 25 * pc, "hall cupboard", "A3", true, true, 2340},
		{"Moss jersey", "moss", "#7d8a4e", stash.Jersey, "", 0, 0, 74 * cm, 0, 0, "hall cupboard", "A3", true, false, 0},
		{"Brick rib", "brick", "#a0513c", stash.Rib, "92% cotton 8% elastane", 240, 110 * cm, 95 * cm, 85 * pc, 30 * pc, "hall cupboard", "", true, true, 1480},
		{"Oat interlock", "oat", "#d8c7a3", stash.Interlock, "100% cotton", 220, 165 * cm, 240 * cm, 0, 0, "work room shelf 1", "", false, false, 3120},
		{"Night French terry", "night blue", "#2f3b59", stash.FrenchTerry, "100% cotton", 260, 180 * cm, 210 * cm, 22 * pc, 10 * pc, "work room shelf 1", "17", true, false, 2990},
		{"Fern ponte", "fern", "#3f6b4f", stash.Ponte, "68% viscose 27% polyamide 5% elastane", 300, 150 * cm, 130 * cm, 0, 0, "work room shelf 2", "", false, false, 2200},
		{"Lagoon swim tricot", "lagoon", "#2f8f9a", stash.SwimKnit, "80% polyamide 20% elastane", 200, 150 * cm, 85 * cm, 60 * pc, 70 * pc, "drawer", "", true, true, 1870},
		{"Chalk mesh", "chalk", "#eae6dc", stash.Mesh, "100% polyester", 110, 145 * cm, 100 * cm, 0, 0, "drawer", "", false, false, 760},
		{"Plum velour", "plum", "#6d3b5e", stash.Velour, "80% cotton 20% polyester", 250, 160 * cm, 145 * cm, 35 * pc, 12 * pc, "work room shelf 2", "", true, false, 2610},
		{"Saffron jersey", "saffron", "#d9992f", stash.Jersey, "100% cotton", 160, 150 * cm, 120 * cm, 30 * pc, 12 * pc, "hall cupboard", "", true, false, 1350},
		{"Blue-grey twill", "blue grey", "#6f8093", stash.WovenTwill, "100% cotton", 250, 145 * cm, 200 * cm, 0, 0, "work room shelf 3", "", true, true, 2480},
		{"Poppy lawn", "poppy", "#c8473b", stash.WovenPlain, "100% cotton", 80, 140 * cm, 160 * cm, 0, 0, "work room shelf 3", "", false, false, 1920},
	} {
		if err := f.buy(ctx, b); err != nil {
			return fmt.Errorf("%s: %w", b.name, err)
		}
	}
	return nil
}

func (f filler) buy(ctx context.Context, b bought) error {
	form := planner.PurchaseForm{Date: "2025-11-14", Supplier: "Saturday market", Length: b.length, Lot: b.lot, Place: b.place, Washed: b.washed, Trued: b.trued}
	if b.price > 0 {
		form.Price = measure.Money{Minor: b.price, Currency: "EUR"}
	}
	if id, known := f.fabrics[b.name]; known {
		form.FabricID = id
	} else {
		fibres, err := stash.ParseFibres(b.fibres)
		if err != nil {
			return err
		}
		form.Fabric = stash.Fabric{Name: b.name, ColourName: b.colour, Colour: b.hue, Construction: b.made, Fibres: fibres,
			Weight: measure.Weight(b.weight) * measure.GramPerSquareMetre, FullWidth: b.width, SelvedgeLoss: cm, Direction: b.made.UsualDirection(), Supplier: "Saturday market"}
		if b.across > 0 {
			form.Fabric.Crosswise = stash.Grain{Stretch: stash.Measured(b.across), Recovery: stash.Measured(91 * pc)}
			form.Fabric.Lengthwise.Stretch = stash.Measured(b.along)
		}
	}
	c, err := f.LogPurchase(ctx, form)
	f.fabrics[b.name] = c.Fabric.ID
	return err
}

// leftovers adds odd pieces with true outlines, one with a flaw.
func (f filler) leftovers(ctx context.Context) error {
	at := func(x, y int64) shape.Point { return shape.Point{X: x * int64(cm), Y: y * int64(cm)} }
	for _, l := range []planner.LeftoverForm{
		{FabricID: f.fabrics["Moss jersey"], Place: "scrap drawer", Washed: true, SelvedgeLow: true, Outline: shape.Polygon{
			Outer: shape.Ring{at(0, 0), at(92, 0), at(74, 62), at(31, 62), at(26, 44), at(0, 40)}}},
		{FabricID: f.fabrics["Brick rib"], Place: "scrap drawer", Washed: true, Length: 30 * cm, Width: 106 * cm},
		{FabricID: f.fabrics["Oat interlock"], Place: "scrap drawer", Outline: shape.Polygon{
			Outer: shape.Ring{at(0, 0), at(88, 0), at(96, 70), at(0, 70)},
			Holes: []shape.Ring{{at(40, 30), at(40, 34), at(45, 34), at(45, 30)}}}},
		{FabricID: f.fabrics["Plum velour"], Place: "scrap drawer", Washed: true, Length: 48 * cm, Width: 55 * cm},
	} {
		if _, err := f.AddLeftover(ctx, l); err != nil {
			return err
		}
	}
	return nil
}

func (f filler) patterns(ctx context.Context) error {
	for _, p := range draft.DemoPatterns(func() stash.ID { return stash.NoID }) {
		if _, err := f.SavePattern(ctx, p); err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
	}
	return nil
}

// garments adds some in several states, one with its fabric reserved.
func (f filler) garments(ctx context.Context) error {
	ps, err := f.Patterns(ctx)
	if err != nil {
		return err
	}
	for i, g := range []struct {
		name, who string
		state     garment.State
	}{
		{"Morning tank", "", garment.Wanted}, {"Tank for the lake", "Ida", garment.Wanted}, {"Saturday shorts", "Noor", garment.Cut},
		{"Sleep shirt", "", garment.Sewing}, {"Summer tank", "Ida", garment.Finished},
	} {
		p := ps[i%len(ps)]
		made, err := f.NewGarment(ctx, p.ID, p.Sizes[len(p.Sizes)/2].Name, g.name, g.who)
		if err != nil {
			return err
		}
		if g.state != garment.Wanted {
			made.State = g.state
			// Past the studio's rules: its cloth was used up before the library began.
			if _, err := f.Write(ctx, "Noted "+g.name, func(tx planner.Tx) error { return tx.PutGarment(ctx, made) }); err != nil {
				return err
			}
		}
	}
	return f.reserve(ctx)
}

// reserve keeps the first cloth that is enough for the first garment wanted.
func (f filler) reserve(ctx context.Context) error {
	gs, err := f.Garments(ctx)
	if err != nil {
		return err
	}
	for _, g := range gs {
		if g.Name != "Morning tank" {
			continue
		}
		found, err := f.FindFabric(ctx, planner.Search{PatternID: g.PatternID, Size: g.Size}, nil)
		if err != nil {
			return err
		}
		for _, d := range found {
			if d.Verdict.Grade <= match.EnoughIf && d.Verdict.Layout != nil {
				_, err := f.Reserve(ctx, g.ID, d, "main")
				return err
			}
		}
	}
	return nil
}
