package planner_test

import (
	"image/color"
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
)

var (
	sideSeam = stash.StitchNote{Seam: "side", Stitch: "narrow zigzag", Width: "0.5", Length: "2.5", Feed: "1.3", Needle: "stretch 75/11", Tension: "3"}
	hemSeam  = stash.StitchNote{Seam: "hem", Stitch: "twin needle", Needle: "twin stretch 4.0/75", Note: "slowly"}
)

func keepStitch(t *testing.T, s *planner.Studio, f planner.StitchForm) int {
	t.Helper()
	at, err := s.KeepStitch(ctx, f)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

func stitchesOf(t *testing.T, s *planner.Studio, g stash.ID) []garment.StitchNote {
	t.Helper()
	now, err := s.Garment(ctx, g)
	if err != nil {
		t.Fatal(err)
	}
	return now.Stitches
}

// scraps are the scrap photos of a record, as the notes they belong to.
func scraps(t *testing.T, s *planner.Studio, of stash.ID) (out []int) {
	t.Helper()
	all, err := s.Photos(ctx, of)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range all {
		out = append(out, p.Stitch)
	}
	return out
}

// TestStitchesGoToTheGarment: notes of a fabric, with their photos, are a garment's own once
// it is cut: neither changes the other from then on. One undo takes it all back.
func TestStitchesGoToTheGarment(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	tank(t, s)
	fab := c.Fabric.ID
	keepStitch(t, s, planner.StitchForm{Of: stash.OfFabric, OfID: fab, Note: sideSeam})
	if at := keepStitch(t, s, planner.StitchForm{Of: stash.OfFabric, OfID: fab, Note: hemSeam, Scrap: swatchFile(t, color.White)}); at != 2 {
		t.Fatalf("the second note is at %d", at)
	}
	g := reservedOn(t, s, c.Cloth.ID, "First")
	own := stash.StitchNote{Seam: "neck", Stitch: "zigzag"}
	keepStitch(t, s, planner.StitchForm{Of: stash.OfGarment, OfID: g.ID, Note: own})
	if len(stitchesOf(t, s, g.ID)) != 1 {
		t.Fatal("a garment that is only reserved has the notes of the fabric already")
	}
	if _, err := s.MarkCut(ctx, g.ID, nil); err != nil {
		t.Fatal(err)
	}
	want := []garment.StitchNote{{StitchNote: own}, {StitchNote: sideSeam, FabricID: fab}, {StitchNote: hemSeam, FabricID: fab}}
	if got := stitchesOf(t, s, g.ID); !slices.Equal(got, want) {
		t.Fatalf("%+v", got)
	}
	if got := scraps(t, s, g.ID); !slices.Equal(got, []int{3}) {
		t.Errorf("scraps of notes %v", got)
	}
	// The fabric changes, the garment does not, and the other way round.
	changed := sideSeam
	changed.Needle = "ball point 80"
	keepStitch(t, s, planner.StitchForm{Of: stash.OfFabric, OfID: fab, At: 1, Note: changed})
	if err := s.DropStitch(ctx, stash.OfFabric, fab, 2); err != nil {
		t.Fatal(err)
	}
	if got := stitchesOf(t, s, g.ID); !slices.Equal(got, want) {
		t.Errorf("after a change of the fabric: %+v", got)
	}
	if got := scraps(t, s, g.ID); !slices.Equal(got, []int{3}) {
		t.Errorf("scraps of notes %v", got)
	}
	keepStitch(t, s, planner.StitchForm{Of: stash.OfGarment, OfID: g.ID, At: 3, Note: sideSeam, FabricID: fab})
	f, err := s.Fabric(ctx, fab)
	if err != nil || !slices.Equal(f.Stitches, []stash.StitchNote{changed}) {
		t.Errorf("the fabric has %+v, %v", f.Stitches, err)
	}
	for range 4 { // both changes, the removal and the cut
		if _, err := s.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if got := stitchesOf(t, s, g.ID); !slices.Equal(got, want[:1]) || len(scraps(t, s, g.ID)) != 0 {
		t.Errorf("undone: %+v", got)
	}
	if got := scraps(t, s, fab); !slices.Equal(got, []int{2}) {
		t.Errorf("undone, the fabric's scraps are of notes %v", got)
	}
}

// TestDropStitchKeepsPhotosRight: a photo of the note taken away stays, of none in
// particular; those of later notes go on belonging to them, on fabric and garment alike.
func TestDropStitchKeepsPhotosRight(t *testing.T) {
	for _, of := range []stash.PhotoOf{stash.OfFabric, stash.OfGarment} {
		s := studio(t)
		c := bought(t, s, 250*cm)
		tank(t, s)
		id, fab := c.Fabric.ID, stash.NoID
		if of == stash.OfGarment {
			all, _ := s.Patterns(ctx)
			g, err := s.NewGarment(ctx, all[0].ID, "3", "Tank", "")
			if err != nil {
				t.Fatal(err)
			}
			id, fab = g.ID, c.Fabric.ID
		}
		for i, n := range []stash.StitchNote{sideSeam, hemSeam, {Stitch: "overlock"}} {
			file := swatchFile(t, color.RGBA{uint8(80 * i), 0, 0, 255})
			keepStitch(t, s, planner.StitchForm{Of: of, OfID: id, Note: n, FabricID: fab, Scrap: file})
		}
		if err := s.DropStitch(ctx, of, id, 2); err != nil {
			t.Fatal(err)
		}
		if got := scraps(t, s, id); !slices.Equal(got, []int{1, 0, 2}) {
			t.Errorf("%s: photos of notes %v", of, got)
		}
		if of == stash.OfGarment {
			if got := stitchesOf(t, s, id); len(got) != 2 || got[1].Stitch != "overlock" || got[1].FabricID != fab {
				t.Errorf("%+v", got)
			}
		}
		if err := s.DropStitch(ctx, of, id, 3); err == nil {
			t.Error("a note that is not there was removed")
		}
	}
}

// A note that says nothing, a picture that is none, and a record that carries no stitches
// are refused, and leave no trace.
func TestStitchesRefused(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 100*cm)
	before := lastAct(t, s)
	for name, f := range map[string]planner.StitchForm{
		"nothing said": {Of: stash.OfFabric, OfID: c.Fabric.ID, Note: stash.StitchNote{Seam: "side"}},
		"no picture":   {Of: stash.OfFabric, OfID: c.Fabric.ID, Note: sideSeam, Scrap: []byte("GIF89a")},
		"on a cloth":   {Of: stash.OfCloth, OfID: c.Cloth.ID, Note: sideSeam},
		"on nothing":   {Of: stash.OfFabric, OfID: s.NewID(), Note: sideSeam},
		"not there":    {Of: stash.OfFabric, OfID: c.Fabric.ID, At: 1, Note: sideSeam},
	} {
		if _, err := s.KeepStitch(ctx, f); err == nil {
			t.Errorf("%s was kept", name)
		}
	}
	if lastAct(t, s) != before {
		t.Errorf("it wrote %q", lastAct(t, s))
	}
}
