package planner_test

import (
	"errors"
	"image/color"
	"math"
	"slices"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// record reads the record of a garment.
func record(t *testing.T, s *planner.Studio, id stash.ID) planner.GarmentRecord {
	t.Helper()
	r, err := s.GarmentRecord(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A tank from the wish to the last stop: its record has fabric by use, cost, blend, thread,
// cautions and how it sits on whom it is for, and what was noted at the stops.
func TestRecordOfATank(t *testing.T) {
	s := studio(t)
	c := bought(t, s, 250*cm)
	f := c.Fabric
	var err error
	if f.Fibres, err = stash.ParseFibres("96% cotton 4% elastane"); err != nil {
		t.Fatal(err)
	}
	if err := s.SaveFabric(ctx, f); err != nil {
		t.Fatal(err)
	}
	p := tank(t, s)
	size, _ := p.Size("4")
	if _, err := s.SavePerson(ctx, sizing.Person{Name: "Ida", Taken: []sizing.Taken{{Date: "2026-05-01", Body: size.Body}}}); err != nil {
		t.Fatal(err)
	}
	g := reservedOn(t, s, c.Cloth.ID, "First")
	form := planner.FormOf(g)
	form.For, form.Purpose, form.Variant, form.Wanted = "ida", " dancing ", "cropped", "2026-06-01"
	if g, err = s.ChangeGarment(ctx, g.ID, form); err != nil || g.Record.Purpose != "dancing" || g.Variant != "cropped" {
		t.Fatalf("%+v, %v", g, err)
	}
	r := record(t, s, g.ID)
	if len(r.Fabrics) == 0 || r.Fabrics[0].UsedFor != pattern.Main || !r.Fabrics[0].Planned || r.Blend.Fibres.String() != "96 % cotton, 4 % elastane" {
		t.Fatalf("while reserved: %+v, %s", r.Fabrics, r.Blend.Fibres)
	}
	want := r.Fabrics[0].Area
	if !r.Fit.Known || r.Fit.Choice.Size != "4" || r.Fit.Chosen.Size != g.Size || r.Fit.Fabric != f.Name {
		t.Errorf("on her it is %+v", r.Fit)
	}
	if _, err := s.NoteStep(ctx, g.ID, 1, garment.Done{}); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("a step before cutting: %v", err)
	}
	form.Size = "5"
	if _, err := s.ChangeGarment(ctx, g.ID, form); !errors.Is(err, stash.ErrConflict) {
		t.Errorf("another size with fabric reserved: %v", err)
	}
	plan, err := s.CutPlan(ctx, g.ID)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.MarkCut(ctx, g.ID, planner.AllLeft(plan)); err != nil {
		t.Fatal(err)
	}
	for n := 1; n <= 8; n++ {
		d := garment.Done{}
		if n == 6 {
			d.Value = 31 * cm
		}
		if g, err = s.NoteStep(ctx, g.ID, n, d); err != nil {
			t.Fatal(err)
		}
	}
	r = record(t, s, g.ID)
	if r.Garment.State != garment.Fitted || r.Garment.ReachedOn(garment.Sewing) != "2026-05-04" || r.Garment.ReachedOn(garment.Fitted) != "2026-05-04" {
		t.Errorf("it is %s: %+v", r.Garment.State, r.Garment.Record.Reached)
	}
	if l, ok := r.Garment.Noted(garment.AsksStrap); !ok || l != 31*cm {
		t.Errorf("the strap is %d", l)
	}
	if r.Fabrics[0].UsedFor != pattern.Main || r.Fabrics[0].Planned || r.Fabrics[0].Area != want {
		t.Errorf("once cut: %+v, reserved was %d", r.Fabrics, want)
	}
	if grams := want.SquareMetres() * 215; len(r.Fabrics) == 1 && math.Abs(r.Blend.Grams-grams) > 0.01 {
		t.Errorf("%.2f g, want %.2f", r.Blend.Grams, grams)
	}
	if !r.Costed || len(r.Cost.Totals) != 1 || r.Cost.Totals[0].Minor <= 0 || r.Cost.Totals[0].Minor >= 1300 {
		t.Errorf("it cost %+v", r.Cost)
	}
	if len(r.Thread.Seams) != 5 || r.Thread.Total <= 0 || len(r.Breaks) > 0 {
		t.Errorf("thread %+v, %v", r.Thread, r.Breaks)
	}
	if !slices.Contains(r.Cautions, garment.BladesAndIron) {
		t.Errorf("cautions %v", r.Cautions)
	}
	if _, err := s.StepNotDone(ctx, g.ID, 8); err != nil {
		t.Fatal(err)
	}
	if r = record(t, s, g.ID); r.Steps[7].Done() || r.Garment.State != garment.Fitted {
		t.Error("step 8 is still done")
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if r = record(t, s, g.ID); !r.Steps[7].Done() {
		t.Error("Undo did not do it again")
	}
}

// A plain lockstitch noted on a seam of a knit is told; saying that it need not stretch ends that.
func TestRecordWarnsOfALockstitch(t *testing.T) {
	s := studio(t)
	p := tank(t, s)
	g, err := s.NewGarment(ctx, p.ID, "3", "plain", "")
	if err != nil {
		t.Fatal(err)
	}
	before := record(t, s, g.ID).Thread.Total
	if err := s.KeepSeam(ctx, g.ID, garment.Seam{Name: "side seams", Class: 301}); err != nil {
		t.Fatal(err)
	}
	if r := record(t, s, g.ID); !slices.Equal(r.Breaks, []string{"side seams"}) || r.Thread.Total >= before {
		t.Errorf("%v, %d of %d", r.Breaks, r.Thread.Total, before)
	}
	if err := s.KeepSeam(ctx, g.ID, garment.Seam{Name: "side seams", Class: 301, Still: true}); err != nil {
		t.Fatal(err)
	}
	if r := record(t, s, g.ID); len(r.Breaks) > 0 {
		t.Errorf("%v", r.Breaks)
	}
	if err := s.DropSeam(ctx, g.ID, "side seams"); err != nil {
		t.Fatal(err)
	}
	if r := record(t, s, g.ID); r.Thread.Total != before {
		t.Errorf("%d, was %d", r.Thread.Total, before)
	}
}

// A fitting is noted with its photo, in one act.
func TestNoteAFitting(t *testing.T) {
	s := studio(t)
	p := tank(t, s)
	g, err := s.NewGarment(ctx, p.ID, "3", "plain", "")
	if err != nil {
		t.Fatal(err)
	}
	if g, err = s.NoteFitting(ctx, g.ID, planner.FittingForm{Text: "gapes at the back", Photo: swatchFile(t, color.White)}); err != nil {
		t.Fatal(err)
	}
	photos, err := s.Photos(ctx, g.ID)
	if err != nil || len(photos) != 1 || len(g.Record.Fittings) != 1 || !slices.Equal(g.Record.Fittings[0].Photos, []stash.ID{photos[0].ID}) || g.Record.Fittings[0].On != "2026-05-04" {
		t.Fatalf("%+v, %+v, %v", g.Record.Fittings, photos, err)
	}
	if _, err := s.NoteFitting(ctx, g.ID, planner.FittingForm{Text: "x", Photo: []byte("no picture")}); err == nil {
		t.Error("a file that is no picture was kept")
	}
	if err := s.DropFitting(ctx, g.ID, 2); err == nil {
		t.Error("there is no second one")
	}
	if err := s.DropFitting(ctx, g.ID, 1); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if _, err := s.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if photos, _ := s.Photos(ctx, g.ID); len(photos) != 0 || len(record(t, s, g.ID).Garment.Record.Fittings) != 0 {
		t.Errorf("after two undos %+v", photos)
	}
}

// A garment is copied to be made again, in another size: what was typed for the first size is
// left out.
func TestCopyAGarment(t *testing.T) {
	s := studio(t)
	p := tank(t, s)
	g, err := s.NewGarment(ctx, p.ID, "3", "First", "Ida")
	if err != nil {
		t.Fatal(err)
	}
	if err := s.KeepSeam(ctx, g.ID, garment.Seam{Name: "hems", Class: 406, Length: 90 * cm}); err != nil {
		t.Fatal(err)
	}
	again, err := s.CopyGarment(ctx, g.ID, "", "")
	if err != nil || again.Name != "First, again" || again.Size != "3" || again.State != garment.Wanted || again.Record.Seams[0].Length != 90*cm {
		t.Errorf("%+v, %v", again, err)
	}
	other, err := s.CopyGarment(ctx, g.ID, "5", "Second")
	if err != nil || other.Size != "5" || other.Record.Seams[0].Length != 0 || other.Record.Seams[0].Class != 406 || other.For != "Ida" {
		t.Errorf("%+v, %v", other, err)
	}
	if r := record(t, s, other.ID); r.CopyOf != "First" || r.Thread.Total == 0 {
		t.Errorf("copy of %q", r.CopyOf)
	}
	if _, err := s.CopyGarment(ctx, g.ID, "99", ""); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("in a size it has not: %v", err)
	}
	first, _ := s.Garment(ctx, g.ID)
	if first.Record.Seams[0].Length != measure.Length(90*cm) {
		t.Error("the copy changed the first")
	}
}
