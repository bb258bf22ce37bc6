package stashtest

import (
	"context"
	"errors"
	"reflect"
	"strings"

	"tallycloth/stash"
)

func undoRedo(b *bench) {
	f, c := b.buy("A1", 2*m)
	start := b.facts()
	r := b.reserve(c, SamplePiece("front", 0, 0, 60*cm, 50*cm))
	reserved := b.facts()
	f.Notes = "soft"
	note := b.write("Noted that it is soft", func(t stash.Tx) error { return t.PutFabric(b.ctx, f) })
	noted := b.facts()

	back := b.undo("Noted that it is soft")
	if back.Undoes != note.ID || back.Sentence != stash.UndoSentence(note.Sentence) {
		b.Errorf("undo wrote %+v for %+v", back, note)
	}
	b.same("after one undo", b.facts(), reserved)
	b.undo("Reserved A1")
	b.same("after two", b.facts(), start)
	if _, err := b.Store.Reservation(b.ctx, r.ID); !errors.Is(err, stash.ErrNotFound) {
		b.Errorf("the reservation that was taken back: %v", err)
	}
	b.redo()
	b.same("after one redo", b.facts(), reserved)
	b.redo()
	b.same("after two redos", b.facts(), noted)
	if _, err := b.Store.Redo(b.ctx); !errors.Is(err, stash.ErrNothing) {
		b.Errorf("a redo too many: %v", err)
	}
	b.undo("Noted that it is soft") // what was done again can be taken back again
	b.undo("Reserved A1")
	b.same("after undo, redo, undo", b.facts(), start)
	b.redo()
	b.same("and redo", b.facts(), reserved)

	b.write("Added a notion", func(t stash.Tx) error { return t.PutNotion(b.ctx, stash.Notion{ID: b.NewID(), Name: "rings"}) })
	if _, err := b.Store.Redo(b.ctx); !errors.Is(err, stash.ErrNothing) {
		b.Errorf("a redo after something was written: %v", err)
	}
	b.undo("Added a notion")
	b.undo("Reserved A1")
	b.undo("Bought A1")
	if fs, err := b.Store.Fabrics(b.ctx); err != nil || len(fs) != 0 {
		b.Errorf("%d fabrics after all was taken back, %v", len(fs), err)
	}
	b.historyBalances()
	b.redo()
	b.same("the purchase again", b.facts(), start)
}

// undo takes back the last act, which must have the sentence given.
func (b *bench) undo(sentence string) stash.Act {
	b.Helper()
	a, err := b.Store.Undo(b.ctx)
	b.must(err)
	if a.Sentence != stash.UndoSentence(sentence) {
		b.Fatalf("undo says %q, want it about %q", a.Sentence, sentence)
	}
	all, err := b.Store.Acts(b.ctx, 0)
	b.must(err)
	for _, x := range all {
		if x.ID == a.Undoes && !x.Undone {
			b.Errorf("%q does not count as undone", x.Sentence)
		}
	}
	return a
}

func (b *bench) redo() {
	b.Helper()
	_, err := b.Store.Redo(b.ctx)
	b.must(err)
}

// facts is what is there now, without its history.
func (b *bench) facts() []any {
	b.Helper()
	fabrics, err1 := b.Store.Fabrics(b.ctx)
	cloths, err2 := b.Store.Cloths(b.ctx)
	purchases, err3 := b.Store.Purchases(b.ctx)
	notions, err4 := b.Store.Notions(b.ctx)
	b.must(errors.Join(err1, err2, err3, err4))
	return []any{fabrics, cloths, purchases, notions}
}

// historyBalances checks that reversing lines mirror what they reverse, each once.
func (b *bench) historyBalances() {
	b.Helper()
	ms, err := b.Store.Movements(b.ctx, stash.NoID)
	b.must(err)
	byID, reversed := map[stash.ID]stash.Movement{}, map[stash.ID]bool{}
	for _, x := range ms {
		byID[x.ID] = x
		if x.Kind != stash.Reversed {
			continue
		}
		of, ok := byID[x.Reverses]
		if !ok || reversed[x.Reverses] || of.Area != -x.Area || of.Length != -x.Length || of.ClothID != x.ClothID {
			b.Errorf("line %+v does not reverse %+v", x, of)
		}
		reversed[x.Reverses] = true
	}
}

// undoer is a Store that can take back an act other than the last.
type undoer interface {
	UndoAct(ctx context.Context, id stash.ID) (stash.Act, error)
}

func undoInTheMiddle(b *bench) {
	u, ok := b.Store.(undoer)
	if !ok {
		b.Fatal("the store cannot take back an act in the middle")
	}
	f := SampleFabric(b.NewID(), "ponte")
	added := b.write("Added ponte", func(t stash.Tx) error { return t.PutFabric(b.ctx, f) })
	rings := stash.Notion{ID: b.NewID(), Name: "rings", Quantity: 4}
	counted := b.write("Counted rings", func(t stash.Tx) error { return t.PutNotion(b.ctx, rings) })
	c := SampleLength(b.NewID(), f.ID, "A1", lengthOf(m))
	b.write("Found a length of ponte", func(t stash.Tx) error {
		return firstError(t.PutCloth(b.ctx, c), t.Append(b.ctx, stash.Arrived(stash.Added, c, "")))
	})
	before := b.snapshot()
	_, err := u.UndoAct(b.ctx, added.ID)
	if !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "Found a length of ponte") {
		b.Errorf("taking back a fabric that has cloth: %v", err)
	}
	f.Notes = "heavy"
	b.write("Noted that it is heavy", func(t stash.Tx) error { return t.PutFabric(b.ctx, f) })
	if _, err = u.UndoAct(b.ctx, added.ID); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "Noted that it is heavy") {
		b.Errorf("taking back a fabric that was changed: %v", err)
	}
	b.undo("Noted that it is heavy")
	if _, err = u.UndoAct(b.ctx, counted.ID); err != nil {
		b.Errorf("taking back an act nothing built on: %v", err)
	}
	if _, err = u.UndoAct(b.ctx, counted.ID); !errors.Is(err, stash.ErrNothing) {
		b.Errorf("taking it back twice: %v", err)
	}
	if ns, err := b.Store.Notions(b.ctx); err != nil || len(ns) != 0 {
		b.Errorf("notions: %v, %v", ns, err)
	}
	b.redo()
	if ns, err := b.Store.Notions(b.ctx); err != nil || len(ns) != 1 || !reflect.DeepEqual(ns[0], rings) {
		b.Errorf("notions after redo: %v, %v", ns, err)
	}
	if len(before) == 0 {
		b.Error("nothing was there")
	}
	b.historyBalances()
}
