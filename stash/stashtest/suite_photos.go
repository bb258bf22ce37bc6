package stashtest

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"tallycloth/stash"

	"pgregory.net/rapid"
)

// SamplePicture is a picture that no store can tell from a true one: its bytes begin as a
// JPEG file does.
func SamplePicture(n int) stash.Picture {
	return stash.Picture{Full: fmt.Appendf(nil, "\xFF\xD8full %d", n), Thumb: fmt.Appendf(nil, "\xFF\xD8small %d", n), Width: 80, Height: 60}
}

// SamplePhoto is a photo of a fabric with the picture given.
func SamplePhoto(id, of stash.ID, p stash.Picture) stash.Photo {
	return stash.Photo{ID: id, Of: stash.OfFabric, OfID: of, Kind: stash.Swatch, Digest: p.Digest(), Width: p.Width, Height: p.Height, Note: "by the window", At: "2026-01-05"}
}

// photos: they come back whole, leave when they are taken away, and their pictures stay
// for whoever undoes that.
func photos(b *bench) {
	f, c := b.buy("P1", 2*m)
	pic := SamplePicture(1)
	p := SamplePhoto(b.NewID(), f.ID, pic)
	seen := SamplePhoto(b.NewID(), c.ID, pic)
	seen.Of, seen.Kind = stash.OfCloth, stash.ClothSeen
	worn := SamplePhoto(b.NewID(), b.Garment(), pic)
	worn.Of, worn.Kind = stash.OfGarment, stash.Worn
	b.refused(stash.ErrConflict, "", func(t stash.Tx) error { return t.PutPhoto(b.ctx, p) }) // without its picture
	b.write("Added photos", func(t stash.Tx) error {
		return firstError(t.PutPicture(b.ctx, pic), t.PutPhoto(b.ctx, p), t.PutPhoto(b.ctx, seen), t.PutPhoto(b.ctx, worn))
	})
	for _, want := range []stash.Photo{p, seen, worn} {
		got, err := b.Store.Photos(b.ctx, want.OfID)
		b.must(err)
		b.same("the photos of a "+string(want.Of), got, []stash.Photo{want})
	}
	b.picture(pic)
	p.Gone = true
	b.write("Removed a photo", func(t stash.Tx) error { return t.PutPhoto(b.ctx, p) })
	if got, err := b.Store.Photos(b.ctx, f.ID); err != nil || len(got) != 0 {
		b.Errorf("a removed photo is listed: %v, %v", got, err)
	}
	for _, undo := range []string{"Removed a photo", "Added photos"} {
		a, err := b.Store.Undo(b.ctx)
		b.must(err)
		if a.Sentence != stash.UndoSentence(undo) {
			b.Errorf("undone: %s", a.Sentence)
		}
		b.picture(pic)
	}
	if _, err := b.Store.Photo(b.ctx, p.ID); !errors.Is(err, stash.ErrNotFound) {
		b.Errorf("a photo that was taken back: %v", err)
	}
	for range 2 {
		_, err := b.Store.Redo(b.ctx)
		b.must(err)
	}
	got, err := b.Store.Photo(b.ctx, p.ID)
	b.must(err)
	b.same("a photo that is gone", got, p)
	b.photosRefused(f, pic)
}

// picture looks that a picture is there, and that no other is.
func (b *bench) picture(p stash.Picture) {
	b.Helper()
	full, err := b.Store.Picture(b.ctx, p.Digest(), true)
	b.must(err)
	thumb, err := b.Store.Picture(b.ctx, p.Digest(), false)
	b.must(err)
	if !bytes.Equal(full, p.Full) || !bytes.Equal(thumb, p.Thumb) {
		b.Errorf("the picture came back as %q and %q", full, thumb)
	}
	if _, err := b.Store.Picture(b.ctx, strings.Repeat("0", 64), true); !errors.Is(err, stash.ErrNotFound) {
		b.Errorf("a picture that is not there: %v", err)
	}
}

// photosRefused tries photos that cannot be.
func (b *bench) photosRefused(f stash.Fabric, pic stash.Picture) {
	for _, change := range []func(*stash.Photo){
		func(p *stash.Photo) { p.ID = stash.NoID },
		func(p *stash.Photo) { p.OfID = stash.NoID },
		func(p *stash.Photo) { p.Of = "shelf" },
		func(p *stash.Photo) { p.Kind = "portrait" },
		func(p *stash.Photo) { p.Digest = "12" },
		func(p *stash.Photo) { p.At = "yesterday" },
		func(p *stash.Photo) { p.Width = 0 },
		func(p *stash.Photo) { p.Note = strings.Repeat("x", 3000) },
	} {
		p := SamplePhoto(b.NewID(), f.ID, pic)
		change(&p)
		b.refused(stash.ErrInvalid, "", func(t stash.Tx) error { return t.PutPhoto(b.ctx, p) })
	}
	b.refused(stash.ErrConflict, "", func(t stash.Tx) error { return t.PutPhoto(b.ctx, SamplePhoto(b.NewID(), b.NewID(), pic)) })
	b.refused(stash.ErrInvalid, "", func(t stash.Tx) error { return t.PutPicture(b.ctx, stash.Picture{Full: pic.Full}) })
	b.refused(stash.ErrInvalid, "", func(t stash.Tx) error {
		return t.PutPicture(b.ctx, stash.Picture{Full: make([]byte, stash.MostPicture+1), Thumb: pic.Thumb, Width: 1, Height: 1})
	})
}

// photo adds one to a fabric, or takes one away.
func (p *pair) photo(t *rapid.T) {
	fs, err := p.b.Fabrics(p.ctx)
	if err != nil {
		t.Fatal(err)
	}
	f, ok := some(t, "fabric", fs)
	if !ok {
		return
	}
	shown, err := p.b.Photos(p.ctx, f.ID)
	if err != nil {
		t.Fatal(err)
	}
	if old, ok := some(t, "photo", shown); ok && rapid.Bool().Draw(t, "remove") {
		old.Gone = true
		p.both("Removed a photo", func(tx stash.Tx) error { return tx.PutPhoto(p.ctx, old) })
		return
	}
	pic := SamplePicture(rapid.IntRange(0, 3).Draw(t, "picture"))
	ph := SamplePhoto(p.newID(), f.ID, pic)
	p.both("Added a photo", func(tx stash.Tx) error {
		return firstError(tx.PutPicture(p.ctx, pic), tx.PutPhoto(p.ctx, ph))
	})
}
