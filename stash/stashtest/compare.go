package stashtest

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// Compare drives two empty stores through the same random acts, undo and redo
// included, and stops when they differ: in what they refuse, or in anything a reader
// can see. Both must have the same clock and source of IDs (IDs, Clock). Against a
// plain reading of the records it also checks what must always hold.
func Compare(t *rapid.T, ctx context.Context, a, b stash.Store) {
	p := &pair{T: t, ctx: ctx, a: a, b: b, newID: idsFrom(0xEE)}
	t.Repeat(map[string]func(*rapid.T){
		"":             p.look,
		"fabric":       p.addFabric,
		"edit fabric":  p.editFabric,
		"buy":          p.buy,
		"leftover":     p.addLeftover,
		"reserve":      p.reserve,
		"reserve more": p.reserve,
		"release":      p.release,
		"wash":         p.wash,
		"true":         p.trueEnds,
		"give away":    p.giveAway,
		"cut":          p.cut,
		"notion":       p.countNotion,
		"photo":        p.photo,
		"broken":       p.broken,
		"unexplained":  p.unexplained,
		"undo":         p.undo,
		"undo more":    p.undo,
		"redo":         p.redo,
		"undo one":     p.undoAny,
	})
	p.alike(t)
}

// lookEvery is after how many acts the stores are compared in full, besides the end.
const lookEvery = 5

// look compares the stores now and then.
func (p *pair) look(t *rapid.T) {
	if p.looks++; p.looks%lookEvery == 0 {
		p.alike(t)
	}
}

// pair is two stores that should be alike.
type pair struct {
	*rapid.T
	ctx   context.Context
	a, b  stash.Store
	newID func() stash.ID
	count int // acts tried
	looks int
}

// both runs an act on both stores and compares how they take it.
func (p *pair) both(sentence string, f func(stash.Tx) error) {
	p.count++
	sentence = fmt.Sprintf("%s (%d)", sentence, p.count)
	actA, errA := p.a.Write(p.ctx, sentence, f)
	actB, errB := p.b.Write(p.ctx, sentence, f)
	p.sameOutcome(sentence, actA, actB, errA, errB)
}

func (p *pair) sameOutcome(what string, actA, actB stash.Act, errA, errB error) {
	if kindOf(errA) != kindOf(errB) {
		p.Fatalf("%s: one says %v, the other %v", what, errA, errB)
	}
	if actA != actB {
		p.Fatalf("%s: one writes %+v, the other %+v", what, actA, actB)
	}
}

// kindOf names an error by what a caller can tell of it.
func kindOf(err error) string {
	var e *stash.Error
	switch {
	case err == nil:
		return "fine"
	case errors.Is(err, stash.ErrNothing):
		return "nothing"
	case errors.As(err, &e):
		return fmt.Sprint("kind ", e.Kind)
	}
	return "other"
}

// alike compares all that readers see, and checks the invariants on it.
func (p *pair) alike(t *rapid.T) {
	textA, errA := Snapshot(p.ctx, p.a)
	textB, errB := Snapshot(p.ctx, p.b)
	if errA != nil || errB != nil || textA != textB {
		t.Fatalf("the stores differ (%v, %v): %s", errA, errB, firstDifference(textA, textB))
	}
	for _, s := range p.cloths() {
		lines, err := p.b.Movements(p.ctx, s.Cloth.ID)
		if err != nil {
			t.Fatal(err)
		}
		area, length := stash.Balance(lines, s.Cloth.ID)
		if area != s.Cloth.Area() || length != s.Cloth.Length || s.Area != area {
			t.Fatalf("%s has %d, its history says %d", s.Cloth.Code, s.Cloth.Area(), area)
		}
		p.fits(t, s)
	}
}

// fits checks that reserved outlines lie on their cloth without overlap.
func (p *pair) fits(t *rapid.T, s stash.ClothState) {
	var laid []shape.Ring
	for _, r := range s.Reservations {
		for _, piece := range r.Pieces {
			if !shape.Inside(piece.Outline, s.Cloth.Polygon()) {
				t.Fatalf("%q is not on %s", piece.Name, s.Cloth.Code)
			}
			for _, o := range laid {
				if shape.Overlaps(o, piece.Outline) {
					t.Fatalf("%q overlaps another on %s", piece.Name, s.Cloth.Code)
				}
			}
			laid = append(laid, piece.Outline)
		}
	}
}

func (p *pair) cloths() []stash.ClothState {
	cs, err := p.b.Cloths(p.ctx)
	if err != nil {
		p.Fatal(err)
	}
	return cs
}

// some draws one of a list; ok is false when it is empty.
func some[T any](t *rapid.T, what string, list []T) (v T, ok bool) {
	if len(list) == 0 {
		return v, false
	}
	return list[rapid.IntRange(0, len(list)-1).Draw(t, what)], true
}

func (p *pair) someCloth(t *rapid.T) (stash.ClothState, bool) { return some(t, "cloth", p.cloths()) }

func (p *pair) someFabric(t *rapid.T) (stash.Fabric, bool) {
	fs, err := p.b.Fabrics(p.ctx)
	if err != nil {
		p.Fatal(err)
	}
	return some(t, "fabric", fs)
}

func (p *pair) addFabric(t *rapid.T) {
	f := SampleFabric(p.newID(), rapid.StringMatching(`[A-Za-z]{1,3}`).Draw(t, "name"))
	p.both("Added a fabric", func(tx stash.Tx) error { return tx.PutFabric(p.ctx, f) })
}

func (p *pair) editFabric(t *rapid.T) {
	f, ok := p.someFabric(t)
	if !ok {
		return
	}
	f.Notes = rapid.StringMatching(`[a-c]?`).Draw(t, "notes")
	f.Crosswise.Stretch.Known = rapid.Bool().Draw(t, "known")
	p.both("Edited a fabric", func(tx stash.Tx) error { return tx.PutFabric(p.ctx, f) })
}

func (p *pair) code(t *rapid.T) string { return rapid.StringMatching(`[A-F][1-4]`).Draw(t, "code") } // clashes now and then

func (p *pair) buy(t *rapid.T) {
	f, ok := p.someFabric(t)
	if !ok {
		return
	}
	c := SampleLength(p.newID(), f.ID, p.code(t), measure.Length(rapid.Int64Range(cm, 3*m).Draw(t, "length")))
	purchase := stash.Purchase{ID: p.newID(), Date: "2026-01-05", Lines: []stash.PurchaseLine{{FabricID: f.ID, ClothID: c.ID, Quantity: c.Length, Price: euros(900)}}}
	c.PurchaseID = purchase.ID
	p.both("Bought "+c.Code, func(tx stash.Tx) error {
		return firstError(tx.PutCloth(p.ctx, c), tx.PutPurchase(p.ctx, purchase), tx.Append(p.ctx, stash.Arrived(stash.Bought, c, "")))
	})
}

func (p *pair) addLeftover(t *rapid.T) {
	f, ok := p.someFabric(t)
	if !ok {
		return
	}
	c := SampleLeftover(p.newID(), f.ID, p.code(t))
	c.Washed = false
	p.both("Added "+c.Code, func(tx stash.Tx) error {
		return firstError(tx.PutCloth(p.ctx, c), tx.Append(p.ctx, stash.Arrived(stash.Added, c, "")))
	})
}

func (p *pair) reserve(t *rapid.T) {
	s, ok := p.someCloth(t)
	if !ok {
		return
	}
	r := stash.Reservation{ID: p.newID(), ClothID: s.Cloth.ID, UsedFor: "main", Live: true, At: Clock()()}
	for range rapid.IntRange(1, 2).Draw(t, "pieces") {
		x, y := rapid.Int64Range(0, int64(s.Cloth.Length)).Draw(t, "x"), rapid.Int64Range(0, int64(s.Cloth.Width)).Draw(t, "y")
		r.Pieces = append(r.Pieces, SamplePiece("piece", x, y, rapid.Int64Range(1, 40*cm).Draw(t, "long"), rapid.Int64Range(1, 40*cm).Draw(t, "wide")))
	}
	p.both("Reserved "+s.Cloth.Code, func(tx stash.Tx) error {
		return firstError(tx.PutReservation(p.ctx, r), tx.Append(p.ctx, stash.ReservedLine(r, "")))
	})
}

func (p *pair) release(t *rapid.T) {
	s, _ := p.someCloth(t)
	r, ok := some(t, "reservation", s.Reservations)
	if !ok {
		return
	}
	line, free := stash.ReleasedLine(r, "")
	p.both("Released "+s.Cloth.Code, func(tx stash.Tx) error {
		return firstError(tx.PutReservation(p.ctx, free), tx.Append(p.ctx, line))
	})
}

func (p *pair) wash(t *rapid.T) {
	s, ok := p.someCloth(t)
	if !ok {
		return
	}
	dc := measure.Percent(rapid.Int64Range(-900, 100).Draw(t, "change"))
	line, after, err := stash.Wash(s.Cloth, max(1, stash.AfterWashing(s.Cloth.Length, dc)), max(1, stash.AfterWashing(s.Cloth.Width, dc)), "")
	if err != nil {
		return
	}
	_, lost := stash.StillHold(after, s.Reservations)
	p.both("Washed "+after.Code, func(tx stash.Tx) error {
		for _, r := range lost {
			line, free := stash.ReleasedLine(r, "no longer holds")
			if err := firstError(tx.PutReservation(p.ctx, free), tx.Append(p.ctx, line)); err != nil {
				return err
			}
		}
		return firstError(tx.PutCloth(p.ctx, after), tx.Append(p.ctx, line))
	})
}

func (p *pair) trueEnds(t *rapid.T) {
	s, ok := p.someCloth(t)
	if !ok {
		return
	}
	line, after, err := stash.True(s.Cloth, s.Cloth.UsableLength(stash.RawEndLoss), "")
	if err != nil {
		return
	}
	p.both("Trued "+after.Code, func(tx stash.Tx) error { // refused when something is reserved at the end
		return firstError(tx.PutCloth(p.ctx, after), tx.Append(p.ctx, line))
	})
}

func (p *pair) giveAway(t *rapid.T) {
	s, ok := p.someCloth(t)
	if !ok {
		return
	}
	line, after := stash.Left(stash.GivenAway, s.Cloth, "")
	p.both("Gave away "+after.Code, func(tx stash.Tx) error { // refused when something is reserved
		return firstError(tx.PutCloth(p.ctx, after), tx.Append(p.ctx, line))
	})
}

func (p *pair) cut(t *rapid.T) {
	s, ok := p.someCloth(t)
	if !ok {
		return
	}
	rest := SampleLength(p.newID(), s.Cloth.FabricID, p.code(t), max(1, s.Cloth.Length/10))
	rest.CutFrom, rest.Width = s.Cloth.ID, max(1, s.Cloth.Width/10)
	lines, gone, cut, err := stash.CutUp(stash.Cutting{Cloth: s.Cloth, Cut: s.Reservations, Leftovers: []stash.Cloth{rest}})
	if err != nil {
		return
	}
	p.both("Cut "+gone.Code, func(tx stash.Tx) error {
		err := tx.PutCloth(p.ctx, rest)
		for _, r := range cut {
			err = firstError(err, tx.PutReservation(p.ctx, r))
		}
		err = firstError(err, tx.PutCloth(p.ctx, gone))
		for _, l := range lines {
			err = firstError(err, tx.Append(p.ctx, l))
		}
		return err
	})
}

func (p *pair) countNotion(t *rapid.T) {
	ns, err := p.b.Notions(p.ctx)
	if err != nil {
		t.Fatal(err)
	}
	n, ok := some(t, "notion", ns)
	if !ok || len(ns) < 3 {
		n = stash.Notion{ID: p.newID(), Name: "rings"}
	}
	change := float64(rapid.IntRange(-6, 5).Draw(t, "change")) / 4
	if moved, err := n.Moved(stash.NotionLine{On: "2026-01-05", Move: stash.NotionCounted, Change: change, Note: "by hand"}); err == nil {
		n = moved
	} else {
		n.Quantity = -1 // refused, as is a quantity that the history does not explain
	}
	p.both("Counted rings", func(tx stash.Tx) error { return tx.PutNotion(p.ctx, n) })
}

var errRule = errors.New("the rule says no")

func (p *pair) broken(t *rapid.T) {
	f := SampleFabric(p.newID(), "never seen")
	p.both("Half an act", func(tx stash.Tx) error {
		return firstError(tx.PutFabric(p.ctx, f), errRule)
	})
}

func (p *pair) unexplained(t *rapid.T) {
	s, ok := p.someCloth(t)
	if !ok {
		return
	}
	p.both("Changed without a line", func(tx stash.Tx) error {
		return tx.Append(p.ctx, stash.Movement{Kind: stash.MeasuredAgain, ClothID: s.Cloth.ID, Area: 1})
	})
}

func (p *pair) undo(*rapid.T) {
	a, errA := p.a.Undo(p.ctx)
	b, errB := p.b.Undo(p.ctx)
	p.sameOutcome("undo", a, b, errA, errB)
}

func (p *pair) redo(*rapid.T) {
	a, errA := p.a.Redo(p.ctx)
	b, errB := p.b.Redo(p.ctx)
	p.sameOutcome("redo", a, b, errA, errB)
}

// undoAny takes back any act, which may be refused because others built on it.
func (p *pair) undoAny(t *rapid.T) {
	acts, err := p.b.Acts(p.ctx, 0)
	if err != nil {
		t.Fatal(err)
	}
	act, ok := some(t, "act", acts)
	ua, okA := p.a.(undoer)
	ub, okB := p.b.(undoer)
	if !ok || !okA || !okB {
		return
	}
	a, errA := ua.UndoAct(p.ctx, act.ID)
	b, errB := ub.UndoAct(p.ctx, act.ID)
	p.sameOutcome("undo of "+act.Sentence, a, b, errA, errB)
}

// firstDifference shows where two texts part, with the lines before.
func firstDifference(a, b string) string {
	as, bs := strings.SplitAfter(a, ","), strings.SplitAfter(b, ",")
	for i := range as {
		if i >= len(bs) || as[i] != bs[i] {
			from := max(0, i-6)
			return fmt.Sprintf("one has\n%s\nthe other\n%s", strings.Join(as[from:i+1], "\n"), strings.Join(bs[min(from, len(bs)):min(i+1, len(bs))], "\n"))
		}
	}
	return "the other goes on: " + bs[len(as)-1]
}
