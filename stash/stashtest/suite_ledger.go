package stashtest

import (
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

func balance(b *bench) {
	f, c := b.buy("A1", 2*m)
	longer := c
	longer.Length += lengthOf(10 * cm)
	b.refused(stash.ErrConflict, "history of A1", func(t stash.Tx) error { return t.PutCloth(b.ctx, longer) })
	b.refused(stash.ErrConflict, "history of A1", func(t stash.Tx) error {
		return t.Append(b.ctx, stash.Movement{Kind: stash.Trued, ClothID: c.ID, Area: -1})
	})
	b.refused(stash.ErrConflict, "history of A1", func(t stash.Tx) error { // right area, wrong length
		line := stash.Resized(stash.MeasuredAgain, c, longer, "")
		line.Length++
		return firstError(t.PutCloth(b.ctx, longer), t.Append(b.ctx, line))
	})
	b.refused(stash.ErrConflict, "history of B2", func(t stash.Tx) error {
		return t.PutCloth(b.ctx, SampleLength(b.NewID(), f.ID, "B2", lengthOf(m)))
	})
	b.refused(stash.ErrConflict, "", func(t stash.Tx) error { // nobody's history
		return t.Append(b.ctx, stash.Movement{Kind: stash.Added, ClothID: b.NewID(), Area: 1, Length: 1})
	})
	b.write("Measured again", func(t stash.Tx) error {
		return firstError(t.PutCloth(b.ctx, longer), t.Append(b.ctx, stash.Resized(stash.MeasuredAgain, c, longer, "")))
	})
	if s := b.cloth(c.ID); s.Area != longer.Area() || s.FreeArea != longer.Area() {
		b.Errorf("measured again: %d there, %d free, want %d", s.Area, s.FreeArea, longer.Area())
	}
	line, moved := stash.Move(longer, "under the stairs")
	b.write("Moved it", func(t stash.Tx) error { return firstError(t.PutCloth(b.ctx, moved), t.Append(b.ctx, line)) })
	line, flawed, err := stash.Flaw(moved, stash.FlawAt(shape.Point{X: m, Y: 50 * cm}, lengthOf(4*cm), lengthOf(2*cm)), "a ladder")
	b.must(err)
	b.write("Found a flaw", func(t stash.Tx) error { return firstError(t.PutCloth(b.ctx, flawed), t.Append(b.ctx, line)) })
	if s := b.cloth(c.ID); s.Area != flawed.Area() || s.Area >= longer.Area() || s.Cloth.Place != "under the stairs" {
		b.Errorf("with a flaw: %+v", s)
	}
	longer = flawed
	b.write("Gave it away", func(t stash.Tx) error {
		line, gone := stash.Left(stash.GivenAway, longer, "to a friend")
		return firstError(t.PutCloth(b.ctx, gone), t.Append(b.ctx, line))
	})
	if s := b.cloth(c.ID); !s.Cloth.Gone || s.Area != 0 || s.Cloth.Length != longer.Length {
		b.Errorf("given away: %+v", s)
	}
	if cs, err := b.Store.Cloths(b.ctx); err != nil || len(cs) != 0 {
		b.Errorf("%d cloths on the shelf after all were given away, %v", len(cs), err)
	}
	if ms, err := b.Store.Movements(b.ctx, c.ID); err != nil || len(ms) != 5 {
		b.Errorf("%d lines of history, %v", len(ms), err)
	}
}

func reservations(b *bench) {
	f, c := b.buy("A1", 2*m)
	b.reserve(c, SamplePiece("front", 0, 0, 60*cm, 50*cm), SamplePiece("back", 60*cm, 0, 60*cm, 50*cm))
	try := func(kind *stash.Error, words string, on stash.Cloth, pieces ...stash.ReservedPiece) {
		b.Helper()
		r := b.reservation(on, pieces...)
		b.refused(kind, words, func(t stash.Tx) error {
			return firstError(t.PutReservation(b.ctx, r), t.Append(b.ctx, stash.ReservedLine(r, "")))
		})
	}
	try(stash.ErrConflict, "overlaps", c, SamplePiece("sleeve", 60*cm-1, 50*cm-1, 10*cm, 10*cm)) // by 1 µm
	try(stash.ErrConflict, "overlap on", c, SamplePiece("cuff", m+50*cm, 0, 10*cm, 10*cm), SamplePiece("cuff 2", m+55*cm, 0, 10*cm, 10*cm))
	try(stash.ErrConflict, "reaches out of A1", c, SamplePiece("sleeve", 2*m-10*cm, 0, 10*cm+1, 10*cm))
	try(stash.ErrConflict, "reaches out of A1", c, SamplePiece("sleeve", m+50*cm, 155*cm, 10*cm, 10*cm))
	try(stash.ErrInvalid, "keeps nothing", c)
	try(stash.ErrInvalid, "fewer than three points", c, stash.ReservedPiece{Name: "dot", Outline: shape.Ring{{X: 1, Y: 1}}})
	try(stash.ErrNotFound, "", SampleLength(b.NewID(), f.ID, "Z9", lengthOf(m)), SamplePiece("front", 0, 0, cm, cm))
	b.reserve(c, SamplePiece("sleeve", 60*cm, 50*cm, 10*cm, 10*cm)) // touching is allowed

	left := SampleLeftover(b.NewID(), f.ID, "B2")
	b.write("Added a leftover", func(t stash.Tx) error {
		return firstError(t.PutCloth(b.ctx, left), t.Append(b.ctx, stash.Arrived(stash.Added, left, "")))
	})
	try(stash.ErrConflict, "reaches out of B2", left, SamplePiece("pocket", 5*cm, 5*cm, 10*cm, 10*cm)) // over the flaw
	try(stash.ErrConflict, "reaches out of B2", left, SamplePiece("pocket", 50*cm, 30*cm, 5*cm, 5*cm)) // beyond the slant
	b.reserve(left, SamplePiece("pocket", 12*cm, 10*cm, 10*cm, 10*cm))                                 // along the flaw

	b.refused(stash.ErrConflict, "", func(t stash.Tx) error { // shortened under its reservations
		short := c
		short.Length = lengthOf(m)
		return firstError(t.PutCloth(b.ctx, short), t.Append(b.ctx, stash.Resized(stash.MeasuredAgain, c, short, "")))
	})
	b.refused(stash.ErrConflict, "", func(t stash.Tx) error { // given away under its reservations
		line, gone := stash.Left(stash.GivenAway, c, "")
		return firstError(t.PutCloth(b.ctx, gone), t.Append(b.ctx, line))
	})
	s := b.cloth(c.ID)
	if want := c.Area() - measure.Area(2*60*cm*50*cm+10*cm*10*cm); s.FreeArea != want || len(s.Reservations) != 2 {
		b.Errorf("%d free in %d reservations, want %d", s.FreeArea, len(s.Reservations), want)
	}
}

func turnsAreTold(b *bench) {
	_, c := b.buy("A1", 2*m)
	r := b.reservation(c, SamplePiece("front", 0, 0, 60*cm, 50*cm))
	b.refused(stash.ErrConflict, "reserved without a line", func(t stash.Tx) error { return t.PutReservation(b.ctx, r) })
	r = b.reserve(c, r.Pieces...)
	line, free := stash.ReleasedLine(r, "changed her mind")
	b.refused(stash.ErrConflict, "free without a line", func(t stash.Tx) error { return t.PutReservation(b.ctx, free) })
	b.write("Released", func(t stash.Tx) error {
		return firstError(t.PutReservation(b.ctx, free), t.Append(b.ctx, line))
	})
	s := b.cloth(c.ID)
	if s.FreeArea != s.Area || len(s.Reservations) != 0 {
		b.Errorf("after release %d of %d is free", s.FreeArea, s.Area)
	}
	if rs, err := b.Store.Reservations(b.ctx, r.GarmentID); err != nil || len(rs) != 0 {
		b.Errorf("live reservations after release: %v, %v", rs, err)
	}
	if again, err := b.Store.Reservation(b.ctx, r.ID); err != nil || again.Live || len(again.Pieces) != 1 {
		b.Errorf("the released reservation is kept: %+v, %v", again, err)
	}
	b.reserve(c, r.Pieces...) // its place is free again
}

func cutting(b *bench) {
	f, c := b.buy("A1", m)
	r := b.reserve(c, SamplePiece("front", 0, 0, 60*cm, 50*cm))
	rest := SampleLength(b.NewID(), f.ID, "B2", lengthOf(40*cm))
	rest.CutFrom = c.ID
	lines, gone, cut, err := stash.CutUp(stash.Cutting{Cloth: c, Cut: []stash.Reservation{r}, Leftovers: []stash.Cloth{rest}, Note: "cut"})
	b.must(err)
	all := func(t stash.Tx, lines []stash.Movement) error {
		err := firstError(t.PutCloth(b.ctx, rest), t.PutReservation(b.ctx, cut[0]), t.PutCloth(b.ctx, gone))
		for _, l := range lines {
			err = firstError(err, t.Append(b.ctx, l))
		}
		return err
	}
	b.refused(stash.ErrConflict, "no cloth loses", func(t stash.Tx) error {
		forged := append([]stash.Movement(nil), lines...)
		for i := range forged {
			if forged[i].ClothID == c.ID && forged[i].Kind == stash.LeftOver {
				forged[i].Kind = stash.Discarded
			}
		}
		return all(t, forged)
	})
	b.write("Cut it", func(t stash.Tx) error { return all(t, lines) })
	if s := b.cloth(rest.ID); s.Area != rest.Area() || s.Cloth.CutFrom != c.ID {
		b.Errorf("leftover: %+v", s)
	}
	if s := b.cloth(c.ID); s.Area != 0 || !s.Cloth.Gone || len(s.Reservations) != 0 {
		b.Errorf("what was cut: %+v", s)
	}
}

func washing(b *bench) {
	_, c := b.buy("A1", 2*m)
	r := b.reserve(c, SamplePiece("front", m+35*cm, 0, 60*cm, 50*cm))
	washed := c
	washed.Length, washed.Washed = lengthOf(190*cm), true
	line := stash.Resized(stash.Washed, c, washed, "40 °C")
	b.refused(stash.ErrConflict, "reaches out of A1", func(t stash.Tx) error {
		return firstError(t.PutCloth(b.ctx, washed), t.Append(b.ctx, line))
	})
	r.Pieces = []stash.ReservedPiece{SamplePiece("front", m, 0, 60*cm, 50*cm)}
	b.write("Washed, laid again", func(t stash.Tx) error {
		return firstError(t.PutCloth(b.ctx, washed), t.PutReservation(b.ctx, r), t.Append(b.ctx, line))
	})
	b.same("reservation after washing", b.cloth(c.ID).Reservations, []stash.Reservation{r})
	_, err := b.Store.Undo(b.ctx)
	b.must(err)
	if s := b.cloth(c.ID); s.Cloth.Washed || s.Area != c.Area() || s.Reservations[0].Pieces[0].Outline[0].X != m+35*cm {
		b.Errorf("after undo: %+v", s)
	}
}

func references(b *bench) {
	f, c := b.buy("A1", 2*m)
	b.refused(stash.ErrConflict, "not in the library", func(t stash.Tx) error {
		d := SampleLength(b.NewID(), b.NewID(), "B2", lengthOf(m))
		return firstError(t.PutCloth(b.ctx, d), t.Append(b.ctx, stash.Arrived(stash.Added, d, "")))
	})
	b.refused(stash.ErrConflict, "not in the library", func(t stash.Tx) error {
		d := c
		d.PurchaseID = b.NewID()
		return t.PutCloth(b.ctx, d)
	})
	b.refused(stash.ErrConflict, "not in the library", func(t stash.Tx) error {
		d := c
		d.CutFrom = b.NewID()
		return t.PutCloth(b.ctx, d)
	})
	b.refused(stash.ErrConflict, "not in the library", func(t stash.Tx) error {
		return t.PutPurchase(b.ctx, stash.Purchase{ID: b.NewID(), Date: "2026-01-06", Lines: []stash.PurchaseLine{{FabricID: f.ID, ClothID: b.NewID(), Quantity: 1}}})
	})
	b.refused(stash.ErrConflict, "has this code", func(t stash.Tx) error {
		d := SampleLength(b.NewID(), f.ID, "A1", lengthOf(m))
		return firstError(t.PutCloth(b.ctx, d), t.Append(b.ctx, stash.Arrived(stash.Added, d, "")))
	})
}
