package paper_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/paper"
	"tallycloth/ui/sample"
	"tallycloth/ui/say"
)

// printed is what poppler reads in a report on A4, and the file.
func printed(t *testing.T, r sheet.Report) (text, path string) {
	t.Helper()
	return printedOn(t, r, sheet.A4)
}

func printedOn(t *testing.T, r sheet.Report, on sheet.Paper) (text, path string) {
	t.Helper()
	d, err := paper.Report(r, on)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := d.PDF(&b); err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "list.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("pdftotext (poppler-utils): %v\n%s", err, out)
	}
	return string(out), path
}

// studio is the sample with a garment that is reserved.
func studio(t *testing.T) (*planner.Studio, garment.Garment) {
	t.Helper()
	s, err := sample.New(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	all, err := s.Garments(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range all {
		if g.State == garment.Reserved {
			return s, g
		}
	}
	t.Fatal("nothing is reserved in the sample studio")
	return nil, garment.Garment{}
}

// The cut list has each pattern piece once, its counts adding up to what lies on the cloth; spoiled
// outlines are not cut again.
func TestCutList(t *testing.T) {
	s, g := studio(t)
	made, err := s.CuttingSheet(context.Background(), g.ID)
	if err != nil {
		t.Fatal(err)
	}
	r := paper.CutList(say.Voice{}, made)
	for i, c := range made.Cloths {
		table := r.Parts[i].Table
		whole := 0
		names := map[string]bool{}
		for _, row := range table.Rows {
			var n int
			if _, err := fmt.Sscan(row[1], &n); err != nil || names[row[2]+row[4]] || row[0] != sheet.Box {
				t.Errorf("%v, %v", row, err)
			}
			names[row[2]+row[4]] = true
			whole += n
		}
		if whole != len(c.Pieces) || table.Totals[0][1] != fmt.Sprint(whole) {
			t.Errorf("%d outlines of %d on %s, %v", whole, len(c.Pieces), c.State.Cloth.Code, table.Totals)
		}
	}
	made.Cloths[0].Pieces[0].Spoiled = true
	if got := paper.CutList(say.Voice{}, made).Parts[0].Table.Totals[0][1]; got != fmt.Sprint(len(made.Cloths[0].Pieces)-1) {
		t.Errorf("%s to cut with one spoiled", got)
	}
	text, _ := printed(t, r)
	for _, want := range []string{"Cut list: " + g.Name, "cut 1 on the fold", "Rotary cutters"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

// A batch cloth by cloth: every garment of the plan stands where its cloth is, by its number, and what
// finds no cloth is said.
func TestBatchByCloth(t *testing.T) {
	s, _ := studio(t)
	ctx := context.Background()
	all, err := s.Patterns(ctx)
	if err != nil {
		t.Fatal(err)
	}
	b := planner.Batch{Name: "Two and a queue", May: planner.MayUse{WholeLengths: true}, Rows: []planner.Wanted{
		{PatternID: all[0].ID, Size: all[0].Sizes[0].Name, Count: 2, For: "the class"}, {PatternID: all[0].ID, Size: all[0].Sizes[0].Name, Count: 40, Priority: 2}}}
	plan, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 1}, nil)
	if err != nil || len(plan.Made) < 2 || len(plan.Missing) == 0 {
		t.Fatalf("%d made, %v", len(plan.Made), err)
	}
	b.Plan = &plan
	made, err := s.BatchSheet(ctx, b)
	if err != nil {
		t.Fatal(err)
	}
	names := func(stash.ID) string { return all[0].Name }
	r := paper.ByCloth(say.Voice{}, b, made, names)
	text, _ := printed(t, r)
	for k := range made.Garments {
		if n := strings.Count(text, fmt.Sprintf("no. %d\n", k+1)) + strings.Count(text, fmt.Sprintf("no. %d ", k+1)) + strings.Count(text, fmt.Sprintf("no. %d,", k+1)); n < 3 {
			t.Errorf("garment %d is named %d times", k+1, n)
		}
	}
	for _, want := range []string{"Batch by cloth: Two and a queue", "reserve the cloth before you cut", "No cloth for these", "for the class", made.Cloths[0].State.Cloth.Code} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	for name, r := range map[string]sheet.Report{"cut list": paper.CutList(say.Voice{}, made), "cutting sheet": paper.Cutting(say.Voice{Units: measure.Imperial}, made)} {
		if text, _ := printed(t, r); !strings.Contains(text, "Two and a queue") || !strings.Contains(text, "no. 2") {
			t.Errorf("the %s says\n%s", name, text)
		}
	}
}

// A project sheet has photos, the person's measurements with the ease they give, fabric, steps and cost.
func TestProjectSheet(t *testing.T) {
	s, g := studio(t)
	ctx := context.Background()
	if _, err := s.SavePerson(ctx, sizing.Person{Name: "Runa", Taken: []sizing.Taken{{Date: "2026-01-02", Body: map[string]measure.Length{pattern.Bust: 91 * measure.Centimetre}}}}); err != nil {
		t.Fatal(err)
	}
	g.For = "Runa"
	if err := s.SaveGarment(ctx, g); err != nil {
		t.Fatal(err)
	}
	picture := image.NewRGBA(image.Rect(0, 0, 900, 600))
	for i := range picture.Pix {
		picture.Pix[i] = uint8(i % 251)
	}
	picture.Set(1, 1, color.White)
	var file bytes.Buffer
	if err := jpeg.Encode(&file, picture, nil); err != nil {
		t.Fatal(err)
	}
	var other bytes.Buffer
	if err := jpeg.Encode(&other, picture.SubImage(image.Rect(0, 0, 300, 600)), nil); err != nil {
		t.Fatal(err)
	}
	if _, err := s.AddPhoto(ctx, planner.PhotoForm{Of: stash.OfGarment, OfID: g.ID, Note: "tried on", File: file.Bytes()}); err != nil {
		t.Fatal(err)
	}
	seen, err := s.AddPhoto(ctx, planner.PhotoForm{Of: stash.OfGarment, OfID: g.ID, Note: "back view", File: other.Bytes()})
	if err != nil {
		t.Fatal(err)
	}
	tank, err := s.Pattern(ctx, g.PatternID)
	if err != nil {
		t.Fatal(err)
	}
	first := garment.Work(tank)[0].Text
	g.Record = garment.Record{Purpose: "dancing", Fittings: []garment.Fitting{{On: "2026-03-04", Text: "Ripples under the arm.", Photos: []stash.ID{seen.ID}}},
		Done: []garment.Done{{Step: first, On: "2026-03-02"}, {Step: garment.Work(tank)[2].Text, On: "2026-03-03", Asked: garment.AsksStrap, Value: 412 * measure.Millimetre}}}
	g.Adjustments = []adjust.Step{{Kind: adjust.Hem, Amount: 3 * measure.Centimetre}}
	if err := s.SaveGarment(ctx, g); err != nil {
		t.Fatal(err)
	}
	made, err := s.ProjectSheet(ctx, g.ID)
	if err != nil || len(made.Photos) != 2 || len(made.Fabrics) == 0 {
		t.Fatalf("%d photos, %d fabrics, %v", len(made.Photos), len(made.Fabrics), err)
	}
	r := paper.Project(say.Voice{}, made)
	text, path := printed(t, r)
	size, _ := made.Pattern.Size(g.Size)
	ease := say.Voice{}.Signed(size.Finished[pattern.Bust] - 91*measure.Centimetre)
	for _, want := range []string{"Project sheet: " + g.Name, "tried on", "Runa", "91 cm", ease, made.Fabrics[0].Code, "Order of work", "Cloth and notions", "licensed",
		"What it is for: dancing.", "Adjustments", "Fitting, 4 March 2026", "Ripples under the arm.", "back view", "Done 2 March 2026.",
		"Final strap length, as noted at the try-on: 41.2 cm.", "Thread by seam", "in all", made.Record.Thread.Seams[0].Name, say.Voice{}.LongThread(made.Record.Thread.Total)} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if strings.Count(text, "back view") != 1 {
		t.Errorf("the photo of the fitting does not stand with it alone:\n%s", text)
	}
	out, err := exec.Command("pdfimages", "-list", path).CombinedOutput()
	if err != nil || !strings.Contains(string(out), "720   480") {
		t.Errorf("pictures: %v\n%s", err, out)
	}
	made.Photos[0].JPEG = []byte("no picture")
	if text, _ := printed(t, paper.Project(say.Voice{}, made)); !strings.Contains(text, "cannot be read") {
		t.Errorf("a broken photo:\n%s", text)
	}
}
