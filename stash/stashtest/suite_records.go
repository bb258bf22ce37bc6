package stashtest

import (
	"context"
	"errors"
	"math"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

func lengthOf(um int64) measure.Length { return measure.Length(um) }

func euros(cents int64) measure.Money { return measure.Money{Minor: cents, Currency: "EUR"} }

func emptyLibrary(b *bench) {
	none := b.NewID()
	_, e1 := b.Store.Fabric(b.ctx, none)
	_, e2 := b.Store.Cloth(b.ctx, none)
	_, e3 := b.Store.ClothByCode(b.ctx, "A1")
	_, e4 := b.Store.Purchase(b.ctx, none)
	_, e5 := b.Store.Reservation(b.ctx, none)
	for i, err := range []error{e1, e2, e3, e4, e5} {
		if !errors.Is(err, stash.ErrNotFound) {
			b.Errorf("question %d about what is not there: %v", i+1, err)
		}
	}
	if _, err := b.Store.Redo(b.ctx); !errors.Is(err, stash.ErrNothing) {
		b.Errorf("redo: %v", err)
	}
	if rs, err := b.Store.Reservations(b.ctx, none); err != nil || len(rs) > 0 {
		b.Errorf("reservations for nothing: %v, %v", rs, err)
	}
}

func roundTrips(b *bench) {
	f, c := b.buy("A1", 2*m)
	bare := stash.Fabric{ID: b.NewID(), Name: "unknown knit", FullWidth: lengthOf(m), Tubular: true}
	left := SampleLeftover(b.NewID(), f.ID, "B2")
	n := stash.Notion{ID: b.NewID(), Name: "elastic 8 mm", Kind: "elastic", Quantity: 7.25, Unit: "m", Reorder: 2, Lines: []stash.NotionLine{
		{On: "2026-01-04", Move: stash.NotionBought, Change: 9, After: 9, Paid: euros(540), Note: "corner stall"}, {On: "2026-01-05", Move: stash.NotionUsed, Change: -1.75, After: 7.25}}}
	b.write("Added a leftover", func(t stash.Tx) error {
		return firstError(t.PutFabric(b.ctx, bare), t.PutCloth(b.ctx, left), t.PutNotion(b.ctx, n), t.Append(b.ctx, stash.Arrived(stash.Added, left, "from before")))
	})
	r := b.reserve(left, SamplePiece("pocket", 20*cm, 5*cm, 15*cm, 12*cm))

	got, err := b.Store.Fabric(b.ctx, f.ID)
	b.must(err)
	b.same("fabric", got, f)
	got, err = b.Store.Fabric(b.ctx, bare.ID)
	b.must(err)
	b.same("fabric with nothing known", got, bare)
	b.write("Gave the assumed values to the store", func(t stash.Tx) error {
		assumed := stash.Assumed(bare)
		assumed.Weight, assumed.Notes = 0, "looks like jersey"
		return t.PutFabric(b.ctx, assumed)
	})
	got, err = b.Store.Fabric(b.ctx, bare.ID)
	b.must(err)
	bare.Notes = "looks like jersey"
	b.same("assumed values are not kept as measured", got, bare)
	state := b.cloth(left.ID)
	b.same("leftover", state.Cloth, left)
	b.same("its fabric", state.Fabric, f)
	b.same("its reservations", state.Reservations, []stash.Reservation{r})
	if want := measure.Area(left.Outline.Area()); state.Area != want || state.FreeArea != want-measure.Area(15*cm*12*cm) {
		b.Errorf("leftover has %d, free %d", state.Area, state.FreeArea)
	}
	byCode, err := b.Store.ClothByCode(b.ctx, "A1")
	b.must(err)
	of, err := b.Store.ClothsOf(b.ctx, f.ID)
	b.must(err)
	all, err := b.Store.Cloths(b.ctx)
	b.must(err)
	b.same("all cloth is of the one fabric that has any", of, all)
	if of, err = b.Store.ClothsOf(b.ctx, bare.ID); err != nil || len(of) != 0 {
		b.Errorf("cloth of a fabric without any: %v, %v", of, err)
	}
	for code, want := range map[string]bool{"A1": true, "A1 ": false, "none": false} {
		if has, err := b.Store.HasCode(b.ctx, code); err != nil || has != want {
			b.Errorf("whether a cloth has the code %q: %v, %v", code, has, err)
		}
	}
	p, err := b.Store.Purchase(b.ctx, byCode.Cloth.PurchaseID)
	b.must(err)
	c.PurchaseID = p.ID
	b.same("length", byCode.Cloth, c)
	b.same("what the purchase's line says", p.Lines, []stash.PurchaseLine{{FabricID: f.ID, ClothID: c.ID, Quantity: c.Length, Price: euros(1250)}})
	if p.Postage != euros(490) || p.Tax != euros(331) || p.Date != "2026-01-05" || p.Notes != "two for one" {
		b.Errorf("purchase: %+v", p)
	}
	ns, err := b.Store.Notions(b.ctx)
	b.must(err)
	b.same("notions", ns, []stash.Notion{n})
	again, err := b.Store.Reservation(b.ctx, r.ID)
	b.must(err)
	b.same("reservation", again, r)
	forGarment, err := b.Store.Reservations(b.ctx, r.GarmentID)
	b.must(err)
	b.same("reservations of the garment", forGarment, []stash.Reservation{r})
}

func orderOfLists(b *bench) {
	for _, code := range []string{"b2", "A1", "C3"} {
		b.buy(code, m)
	}
	fs, err := b.Store.Fabrics(b.ctx)
	b.must(err)
	cs, err := b.Store.Cloths(b.ctx)
	b.must(err)
	for i, want := range []string{"A1", "b2", "C3"} {
		if fs[i].Name != "jersey "+want || cs[i].Cloth.Code != want {
			b.Errorf("place %d: fabric %q, cloth %q, want %q", i, fs[i].Name, cs[i].Cloth.Code, want)
		}
	}
	line := stash.PurchaseLine{FabricID: fs[0].ID, ClothID: cs[0].Cloth.ID, Quantity: 1}
	b.write("Older and newer purchases", func(t stash.Tx) error {
		old := stash.Purchase{ID: b.NewID(), Date: "2024-03-01", Lines: []stash.PurchaseLine{line}}
		recent := stash.Purchase{ID: b.NewID(), Date: "2026-02-01"}
		return firstError(t.PutPurchase(b.ctx, old), t.PutPurchase(b.ctx, recent))
	})
	ps, err := b.Store.Purchases(b.ctx)
	b.must(err)
	if len(ps) != 5 || ps[0].Date != "2026-02-01" || ps[4].Date != "2024-03-01" || len(ps[4].Lines) != 1 {
		b.Errorf("purchases: %+v", ps)
	}
	ms, err := b.Store.Movements(b.ctx, stash.NoID)
	b.must(err)
	for i := range ms {
		if i > 0 && ms[i].Seq <= ms[i-1].Seq {
			b.Errorf("line %d has number %d after %d", i, ms[i].Seq, ms[i-1].Seq)
		}
	}
}

func acts(b *bench) {
	before, err := b.Store.Acts(b.ctx, 0)
	b.must(err)
	f := SampleFabric(b.NewID(), "ponte")
	first := b.write("Added a fabric", func(t stash.Tx) error { return t.PutFabric(b.ctx, f) })
	f.Notes = "shelf 9"
	second := b.write("Noted its place", func(t stash.Tx) error { return t.PutFabric(b.ctx, f) })
	if second.Seq <= first.Seq || !second.At.After(first.At) || second.Sentence != "Noted its place" {
		b.Errorf("first %+v, second %+v", first, second)
	}
	none := b.write("Changed nothing", func(t stash.Tx) error { return t.PutFabric(b.ctx, f) })
	if none != (stash.Act{}) {
		b.Errorf("an act that changed nothing was kept: %+v", none)
	}
	as, err := b.Store.Acts(b.ctx, 2)
	b.must(err)
	b.same("acts", as, []stash.Act{second, first})
	as, err = b.Store.Acts(b.ctx, 0)
	if err != nil || len(as) != len(before)+2 {
		b.Errorf("all acts: %d, %v", len(as), err)
	}
	b.refused(stash.ErrInvalid, "", func(t stash.Tx) error { return t.PutFabric(b.ctx, stash.Fabric{}) })
	if _, err := b.Store.Write(b.ctx, " ", func(stash.Tx) error { return nil }); !errors.Is(err, stash.ErrInvalid) {
		b.Errorf("an act without a sentence: %v", err)
	}
}

func noTrace(b *bench) {
	_, c := b.buy("A1", 2*m)
	before := b.snapshot()
	broken := errors.New("the rule found something")
	_, err := b.Store.Write(b.ctx, "Half an act", func(t stash.Tx) error {
		c.Length += lengthOf(cm)
		if err := firstError(t.PutCloth(b.ctx, c), t.PutNotion(b.ctx, stash.Notion{ID: b.NewID(), Name: "rings"}),
			t.Append(b.ctx, stash.Movement{Kind: stash.MeasuredAgain, ClothID: c.ID, Length: lengthOf(cm)})); err != nil {
			return err
		}
		return broken
	})
	if !errors.Is(err, broken) {
		b.Errorf("the rule's error became %v", err)
	}
	if b.snapshot() != before {
		b.Error("the act left a trace")
	}
	func() {
		defer func() { _ = recover() }()
		_, _ = b.Store.Write(b.ctx, "An act that panics", func(t stash.Tx) error {
			b.must(t.PutNotion(b.ctx, stash.Notion{ID: b.NewID(), Name: "hooks"}))
			panic("in the rule")
		})
	}()
	if b.snapshot() != before {
		b.Error("the act that panicked left a trace")
	}
	b.write("The next act", func(t stash.Tx) error { return t.PutNotion(b.ctx, stash.Notion{ID: b.NewID(), Name: "rings"}) })
	ctx, cancel := context.WithCancel(b.ctx)
	cancel()
	if _, err := b.Store.Write(ctx, "Too late", func(t stash.Tx) error { return nil }); !errors.Is(err, context.Canceled) {
		b.Errorf("cancelled before it began: %v", err)
	}
}

func isolation(b *bench) {
	f, c := b.buy("A1", 2*m)
	c2 := SampleLength(b.NewID(), f.ID, "B2", lengthOf(m))
	b.write("Add another", func(t stash.Tx) error {
		b.must(firstError(t.PutCloth(b.ctx, c2), t.Append(b.ctx, stash.Arrived(stash.Added, c2, ""))))
		inside, err := t.Cloths(b.ctx)
		b.must(err)
		one, err := t.Cloth(b.ctx, c2.ID)
		b.must(err)
		ms, err := t.Movements(b.ctx, c2.ID)
		b.must(err)
		if len(inside) != 2 || one.Area != c2.Area() || len(ms) != 1 || ms[0].Kind != stash.Added {
			b.Errorf("inside: %d cloths, area %d, %d lines", len(inside), one.Area, len(ms))
		}
		outside, err := b.Store.Cloths(b.ctx)
		b.must(err)
		if len(outside) != 1 {
			b.Errorf("outside: %d cloths before the act is committed", len(outside))
		}
		return nil
	})
	s := b.cloth(c.ID)
	s.Fabric.Tags[0] = "spoilt"
	s.Fabric.Fibres[0].Name = "spoilt"
	b.same("fabric after a reader wrote on its copy", b.cloth(c.ID).Fabric, f)
}

func badRecords(b *bench) {
	f, c := b.buy("A1", 2*m)
	put := func(change func(*stash.Fabric)) func(stash.Tx) error {
		g := f
		change(&g)
		return func(t stash.Tx) error { return t.PutFabric(b.ctx, g) }
	}
	b.refused(stash.ErrInvalid, "no name", put(func(f *stash.Fabric) { f.Name = "  " }))
	b.refused(stash.ErrInvalid, "more than zero", put(func(f *stash.Fabric) { f.FullWidth = 0 }))
	b.refused(stash.ErrInvalid, "more than zero", put(func(f *stash.Fabric) { f.FullWidth = -5 }))
	b.refused(stash.ErrInvalid, "nothing of its width", put(func(f *stash.Fabric) { f.SelvedgeLoss = f.FullWidth / 2 }))
	b.refused(stash.ErrInvalid, "3 % is missing", put(func(f *stash.Fabric) {
		f.Fibres = stash.Fibres{{Name: "cotton", Share: 9000}, {Name: "elastane", Share: 700}}
	}))
	b.refused(stash.ErrInvalid, "recovery", put(func(f *stash.Fabric) { f.Crosswise.Recovery = stash.Measured(10001) }))
	b.refused(stash.ErrInvalid, "colour", put(func(f *stash.Fabric) { f.Colour = "red" }))
	cloth := func(change func(*stash.Cloth)) func(stash.Tx) error {
		d := c
		change(&d)
		return func(t stash.Tx) error { return t.PutCloth(b.ctx, d) }
	}
	b.refused(stash.ErrInvalid, "no code", cloth(func(c *stash.Cloth) { c.Code = "" }))
	b.refused(stash.ErrInvalid, "more than zero", cloth(func(c *stash.Cloth) { c.Width = 0 }))
	b.refused(stash.ErrInvalid, "536 m", cloth(func(c *stash.Cloth) { c.Length = lengthOf(600 * m) }))
	b.refused(stash.ErrInvalid, "crosses itself", cloth(func(c *stash.Cloth) {
		c.Outline.Outer = shape.Ring{{X: 0, Y: 0}, {X: 2000, Y: 2000}, {X: 2000, Y: 0}, {X: 0, Y: 1000}}
	}))
	b.refused(stash.ErrInvalid, "do not match its outline", cloth(func(c *stash.Cloth) {
		c.Outline.Outer = shape.Ring{{X: 0, Y: 0}, {X: 2000, Y: 0}, {X: 0, Y: 2000}}
	}))
	b.refused(stash.ErrInvalid, "not a day", func(t stash.Tx) error {
		return t.PutPurchase(b.ctx, stash.Purchase{ID: b.NewID(), Date: "2026-02-30"})
	})
	b.refused(stash.ErrInvalid, "not a currency", func(t stash.Tx) error {
		return t.PutPurchase(b.ctx, stash.Purchase{ID: b.NewID(), Date: "2026-02-28", Tax: measure.Money{Minor: 1, Currency: "QQQ"}})
	})
	b.refused(stash.ErrInvalid, "negative", func(t stash.Tx) error {
		return t.PutNotion(b.ctx, stash.Notion{ID: b.NewID(), Name: "thread", Quantity: math.NaN()})
	})
	b.refused(stash.ErrInvalid, "does not add up", func(t stash.Tx) error {
		return t.PutNotion(b.ctx, stash.Notion{ID: b.NewID(), Name: "thread", Quantity: 3, Lines: []stash.NotionLine{{On: "2026-01-05", Move: stash.NotionBought, Change: 4, After: 4}}})
	})
	b.refused(stash.ErrInvalid, "no kind of movement", func(t stash.Tx) error {
		return t.Append(b.ctx, stash.Movement{Kind: "lost", ClothID: c.ID})
	})
	b.refused(stash.ErrInvalid, "taking its act back", func(t stash.Tx) error {
		return t.Append(b.ctx, stash.Movement{Kind: stash.Reversed, ClothID: c.ID})
	})
}
