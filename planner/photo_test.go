package planner_test

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/trace/tracetest"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// swatchFile is a PNG file of one colour.
func swatchFile(t testing.TB, c color.Color) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 40, 30))
	for y := range 30 {
		for x := range 40 {
			img.Set(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestPhotosOfEverything adds a photo to each kind of record, takes one away and back.
func TestPhotosOfEverything(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 2*100*cm)
	g := garment.Garment{ID: s.NewID(), Name: "Fern tank", State: garment.Wanted}
	if _, err := s.Write(ctx, "Wanted a tank", func(tx planner.Tx) error { return tx.PutGarment(ctx, g) }); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		of   stash.PhotoOf
		id   stash.ID
		kind stash.PhotoKind
		says string
	}{
		{stash.OfFabric, c.Fabric.ID, stash.Swatch, "of Fern rib"},
		{stash.OfCloth, c.Cloth.ID, stash.ClothSeen, "of " + c.Cloth.Code},
		{stash.OfPurchase, c.Cloth.PurchaseID, stash.Receipt, "of the purchase of 2026-05-04 a stall"},
		{stash.OfGarment, g.ID, stash.Worn, "of Fern tank"},
	} {
		p, err := s.AddPhoto(ctx, planner.PhotoForm{Of: tt.of, OfID: tt.id, File: swatchFile(t, color.RGBA{60, 90, 60, 255})})
		if err != nil || p.Kind != tt.kind || p.Width != 40 || p.At != "2026-05-04" {
			t.Errorf("%s: %+v, %v", tt.of, p, err)
		}
		all, err := s.Photos(ctx, tt.id)
		if err != nil || len(all) != 1 || all[0] != p {
			t.Errorf("%s: %+v, %v", tt.of, all, err)
		}
		if thumb, err := s.Picture(ctx, p.Digest, false); err != nil || !bytes.HasPrefix(thumb, []byte{0xFF, 0xD8}) {
			t.Errorf("%s: no thumbnail, %v", tt.of, err)
		}
		removeAndBack(t, s, p, tt.says)
	}
}

func removeAndBack(t *testing.T, s *planner.Studio, p stash.Photo, says string) {
	t.Helper()
	if err := s.RemovePhoto(ctx, p.ID); err != nil {
		t.Fatal(err)
	}
	if all, err := s.Photos(ctx, p.OfID); err != nil || len(all) != 0 {
		t.Errorf("after removing: %v, %v", all, err)
	}
	if err := s.RemovePhoto(ctx, p.ID); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("removed twice: %v", err)
	}
	if a, err := s.Undo(ctx); err != nil || !strings.HasSuffix(a.Sentence, "Removed a photo "+says) {
		t.Errorf("%q, %v", a.Sentence, err)
	}
	if all, err := s.Photos(ctx, p.OfID); err != nil || len(all) != 1 {
		t.Errorf("after Undo: %v, %v", all, err)
	}
}

func TestNewestSwatch(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 100*cm)
	if _, ok, err := s.SwatchOf(ctx, c.Fabric.ID); ok || err != nil {
		t.Error(ok, err)
	}
	for _, kind := range []stash.PhotoKind{stash.Swatch, stash.Swatch, stash.Scrap} {
		if _, err := s.AddPhoto(ctx, planner.PhotoForm{Of: stash.OfFabric, OfID: c.Fabric.ID, Kind: kind, Note: string(kind), File: swatchFile(t, color.Black)}); err != nil {
			t.Fatal(err)
		}
	}
	all, err := s.Photos(ctx, c.Fabric.ID)
	if err != nil || len(all) != 3 {
		t.Fatal(all, err)
	}
	if p, ok, err := s.SwatchOf(ctx, c.Fabric.ID); !ok || err != nil || p != all[1] {
		t.Errorf("%+v, %v", p, err)
	}
}

func TestPhotosRefused(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 100*cm)
	good := swatchFile(t, color.White)
	for name, tt := range map[string]struct {
		form planner.PhotoForm
		kind error
	}{
		"of nothing":      {planner.PhotoForm{Of: "shelf", File: good}, stash.ErrInvalid},
		"of no fabric":    {planner.PhotoForm{Of: stash.OfFabric, OfID: s.NewID(), File: good}, stash.ErrNotFound},
		"no picture":      {planner.PhotoForm{Of: stash.OfFabric, OfID: c.Fabric.ID, File: []byte("a note")}, stash.ErrUnsupported},
		"half a picture":  {planner.PhotoForm{Of: stash.OfFabric, OfID: c.Fabric.ID, File: good[:40]}, stash.ErrUnsupported},
		"no such stitch":  {planner.PhotoForm{Of: stash.OfFabric, OfID: c.Fabric.ID, Kind: stash.Scrap, Stitch: 4, File: good}, stash.ErrInvalid},
		"no kind":         {planner.PhotoForm{Of: stash.OfFabric, OfID: c.Fabric.ID, Kind: "portrait", File: good}, stash.ErrInvalid},
		"too long a note": {planner.PhotoForm{Of: stash.OfFabric, OfID: c.Fabric.ID, Note: strings.Repeat("x", 3000), File: good}, stash.ErrInvalid},
	} {
		if _, err := s.AddPhoto(ctx, tt.form); !errors.Is(err, tt.kind) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if all, err := s.Photos(ctx, c.Fabric.ID); err != nil || len(all) != 0 {
		t.Errorf("%v, %v", all, err)
	}
}

// TestLeftoverFromPhoto goes the whole way: a drawn photo, its outline, a leftover whose
// area is right within 2 %.
func TestLeftoverFromPhoto(t *testing.T) {
	s := studio(t)
	fab := bought(t, s, 100*cm).Fabric
	photo, err := tracetest.Take(tracetest.NewScene(3))
	if err != nil {
		t.Fatal(err)
	}
	a, err := s.TracePhoto(ctx, photo.Picture, photo.Marked)
	if err != nil || !a.Sure() {
		t.Fatalf("%v, %v", a.Doubts, err)
	}
	laid, err := planner.Laid(a.Outline, 17_000)
	if err != nil {
		t.Fatal(err)
	}
	c, err := s.AddLeftover(ctx, planner.LeftoverForm{FabricID: fab.ID, Outline: laid})
	if err != nil {
		t.Fatal(err)
	}
	if off := float64(c.Area)/float64(photo.Truth.Area()) - 1; math.Abs(off) > 0.02 {
		t.Errorf("the area is off by %+.2f %%", 100*off)
	}
}

// TestLaid: an arrow that pointed along the grain points along x, and areas stay.
func TestLaid(t *testing.T) {
	r := shape.Ring{{X: 0, Y: 0}, {X: 300_000, Y: 300_000}, {X: 200_000, Y: 400_000}, {X: -100_000, Y: 100_000}}
	laid, err := planner.Laid(shape.Polygon{Outer: r}, 45_000)
	if err != nil {
		t.Fatal(err)
	}
	b := laid.Bounds()
	if b.Min != (shape.Point{}) || math.Abs(float64(b.Length())-300_000*math.Sqrt2) > 2 || math.Abs(float64(b.Width())-100_000*math.Sqrt2) > 2 {
		t.Errorf("%+v", b)
	}
	if _, err := planner.Laid(shape.Polygon{Outer: r[:2]}, 0); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("%v", err)
	}
}
