package stashtest

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"tallycloth/stash"
)

// Tx is one act while it is being written.
type Tx struct {
	View
	core    *Core
	act     act
	lines   []stash.Movement
	touched map[Ref]bool
}

var _ stash.Tx = (*Tx)(nil)

// Put inserts or replaces a record of any kind the Core keeps.
func (t *Tx) Put(kind string, id stash.ID, v any) error {
	doc, err := encode(v)
	if err != nil {
		return err
	}
	t.put(Ref{kind, id}, doc)
	return nil
}

// put gives a record a document, or takes it away for nil.
func (t *Tx) put(r Ref, doc []byte) {
	before := t.s.records[r]
	t.touched[r] = true
	if bytes.Equal(before, doc) {
		return
	}
	t.act.changes = append(t.act.changes, change{r, before, doc})
	if doc == nil {
		delete(t.s.records, r)
	} else {
		t.s.records[r] = doc
	}
}

// PutFabric inserts or replaces a fabric; of its readings the measured ones are kept.
func (t *Tx) PutFabric(ctx context.Context, f stash.Fabric) error {
	if err := firstError(ctx.Err(), f.Validate()); err != nil {
		return err
	}
	return t.Put(fabric, f.ID, stash.Known(f))
}

// PutCloth inserts or replaces a cloth.
func (t *Tx) PutCloth(ctx context.Context, c stash.Cloth) error {
	if err := firstError(ctx.Err(), c.Validate()); err != nil {
		return err
	}
	return t.Put(cloth, c.ID, c)
}

// PutPurchase inserts or replaces a purchase.
func (t *Tx) PutPurchase(ctx context.Context, p stash.Purchase) error {
	if err := firstError(ctx.Err(), p.Validate()); err != nil {
		return err
	}
	return t.Put(purchase, p.ID, p)
}

// PutNotion inserts or replaces a notion.
func (t *Tx) PutNotion(ctx context.Context, n stash.Notion) error {
	if err := firstError(ctx.Err(), n.Validate()); err != nil {
		return err
	}
	return t.Put(notion, n.ID, n)
}

// PutPhoto inserts or replaces a photo; its picture must be kept.
func (t *Tx) PutPhoto(ctx context.Context, p stash.Photo) error {
	if err := firstError(ctx.Err(), p.Validate()); err != nil {
		return err
	}
	if _, ok := t.s.pictures[p.Digest]; !ok {
		return &stash.Error{Kind: stash.Conflict, What: "The photo names a picture that is not in the library", Do: "Add that one first"}
	}
	return t.Put(photo, p.ID, p)
}

// PutPicture keeps a picture under its digest.
func (t *Tx) PutPicture(ctx context.Context, p stash.Picture) error {
	if err := firstError(ctx.Err(), p.Validate()); err != nil {
		return err
	}
	p.Full, p.Thumb = bytes.Clone(p.Full), bytes.Clone(p.Thumb)
	t.s.pictures[p.Digest()] = p
	return nil
}

// PutReservation inserts or replaces a reservation; a live one must lie on its
// cloth, clear of the other live ones.
func (t *Tx) PutReservation(ctx context.Context, r stash.Reservation) error {
	state, err := t.Cloth(ctx, r.ClothID)
	if err != nil {
		return fmt.Errorf("reserving cloth: %w", err)
	}
	if err := stash.CheckReservation(r, state.Cloth, state.Reservations); err != nil {
		return fmt.Errorf("reserving %s: %w", state.Cloth.Code, err)
	}
	if was, err := t.Reservation(ctx, r.ID); err == nil && was.ClothID != r.ClothID {
		return &stash.Error{Kind: stash.Conflict, What: "A reservation stays on its cloth; release it and make a new one"}
	}
	t.touched[Ref{cloth, r.ClothID}] = true
	r.At = stash.Stamp(r.At)
	return t.Put(reservation, r.ID, r)
}

// Append adds a line of history.
func (t *Tx) Append(ctx context.Context, m stash.Movement) error {
	if err := firstError(ctx.Err(), stash.CheckMovement(m)); err != nil {
		return fmt.Errorf("adding a line of history: %w", err)
	}
	m.Reverses = stash.NoID
	t.append(m)
	return nil
}

func (t *Tx) append(m stash.Movement) {
	if m.ID == stash.NoID {
		m.ID = t.core.newID()
	}
	m.ActID, m.At, m.Seq = t.act.ID, t.act.At, int64(len(t.s.lines)+1)
	t.touched[Ref{cloth, m.ClothID}] = true
	t.s.lines = append(t.s.lines, m)
	t.lines = append(t.lines, m)
}

// reverse takes back what an act changed, unless a later act built on it.
func (t *Tx) reverse(a act, sentence string) error {
	leaving := map[Ref]bool{}
	checked := map[Ref]bool{}
	for _, c := range slices.Backward(a.changes) {
		if !checked[c.Ref] && !bytes.Equal(t.s.records[c.Ref], c.after) {
			return stash.BuiltOn(sentence, t.lastToChange(c.Ref))
		}
		checked[c.Ref], leaving[c.Ref] = true, c.before == nil
	}
	for r, doc := range t.s.records {
		for _, to := range t.refs(r, doc) {
			if leaving[to] && !leaving[r] {
				return stash.BuiltOn(sentence, t.lastToChange(r))
			}
		}
	}
	for _, c := range slices.Backward(a.changes) {
		t.put(c.Ref, c.before)
		if c.Kind == reservation {
			t.touchClothOf(c)
		}
	}
	for _, m := range slices.Backward(slices.Clone(t.s.lines)) {
		if m.ActID == a.ID {
			t.append(stash.Reversal(m))
		}
	}
	return nil
}

// touchClothOf has the cloth of a changed reservation checked.
func (t *Tx) touchClothOf(c change) {
	for _, doc := range [][]byte{c.before, c.after} {
		if r, err := decode[stash.Reservation](doc); err == nil {
			t.touched[Ref{cloth, r.ClothID}] = true
		}
	}
}

// lastToChange returns the sentence of the last act that changed a record.
func (t *Tx) lastToChange(r Ref) string {
	for _, a := range slices.Backward(t.s.acts) {
		for _, c := range a.changes {
			if c.Ref == r {
				return a.Sentence
			}
		}
	}
	return ""
}

func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
