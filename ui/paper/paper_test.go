package paper_test

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"unicode/utf8"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/paper"
	"tallycloth/ui/sample"
	"tallycloth/ui/say"
)

const mm = int64(measure.Millimetre)

// box is an outline, or a grain arrow's end.
func box(x0, y0, x1, y1 int64) shape.Ring {
	return shape.Box{Min: shape.Point{X: x0 * mm, Y: y0 * mm}, Max: shape.Point{X: x1 * mm, Y: y1 * mm}}.Ring()
}

// folded is a cloth 1000 × 600 mm on a fold at 300 mm, its raw end trued at 20 mm.
func folded(low, high bool) planner.SheetCloth {
	c := planner.SheetCloth{Folds: []int64{300 * mm}, Trued: 20 * mm}
	c.State.Cloth = stash.Cloth{Code: "K7PD", Length: measure.Length(1000 * mm), Width: measure.Length(600 * mm), SelvedgeLow: low, SelvedgeHigh: high, RawStart: true}
	arrow := func(r shape.Ring, y int64) planner.SheetPiece {
		return planner.SheetPiece{Name: "piece", UsedFor: pattern.Main, Outline: r, GrainFoot: shape.Point{X: 220 * mm, Y: y * mm}, GrainTop: shape.Point{X: 120 * mm, Y: y * mm}}
	}
	c.Pieces = []planner.SheetPiece{arrow(box(20, 200, 320, 400), 350), arrow(box(350, 50, 500, 150), 100), arrow(box(350, 450, 500, 550), 500),
		{Name: "strip", UsedFor: pattern.Binding, Outline: box(950, 100, 990, 500)}, {Name: "gone", Spoiled: true, Outline: box(600, 0, 700, 100)}}
	return c
}

// Both ends of an arrow are measured from one edge: the fold a piece lies on, else the selvedge on its
// side; and from where the cloth is trued.
func TestArrows(t *testing.T) {
	for name, c := range map[string]struct {
		low, high bool
		from      [4]string
		across    [4]int64
	}{
		"two selvedges": {true, true, [4]string{"the fold", "the lower selvedge", "the upper selvedge", "the lower selvedge"}, [4]int64{50, 100, 100, 100}},
		"one selvedge":  {true, false, [4]string{"the fold", "the lower selvedge", "the lower selvedge", "the lower selvedge"}, [4]int64{50, 100, 500, 100}},
		"the upper one": {false, true, [4]string{"the fold", "the upper selvedge", "the upper selvedge", "the upper selvedge"}, [4]int64{50, 500, 100, 500}},
	} {
		got := paper.Arrows(folded(c.low, c.high))
		if len(got) != 4 {
			t.Fatalf("%s: %d arrows", name, len(got))
		}
		for i, a := range got {
			if a.From != c.from[i] || a.FootAcross != measure.Length(c.across[i]*mm) {
				t.Errorf("%s: %d is %d mm from %s", name, i, int64(a.FootAcross)/mm, a.From)
			}
			if !a.Corners && (a.FootAlong != measure.Length(200*mm) || a.HeadAlong != measure.Length(100*mm)) {
				t.Errorf("%s: %d along %d and %d mm", name, i, int64(a.FootAlong)/mm, int64(a.HeadAlong)/mm)
			}
		}
		if s := got[3]; !s.Corners || s.FootAlong != measure.Length(930*mm) || s.HeadAlong != measure.Length(970*mm) {
			t.Errorf("%s: the strip %+v", name, s)
		}
	}
}

// words are all sentences and cells of a report.
func words(r sheet.Report) string {
	out := append([]string{r.Title}, r.Notes...)
	for _, p := range r.Parts {
		out = append(append(append(out, p.Heading), p.Lines...), p.Boxes...)
		for _, row := range append(p.Table.Rows, p.Table.Totals...) {
			out = append(out, strings.Join(row, " "))
		}
	}
	return strings.Join(out, "\n")
}

// A sheet says what a garment wants: washing, allowances, stitches with what speaks against them, notions,
// cautions that apply.
func TestCuttingSays(t *testing.T) {
	c := folded(true, true)
	c.State.Fabric = stash.Fabric{Name: "Fern jersey", Construction: stash.Jersey, Stitches: []stash.StitchNote{{Seam: "side", Stitch: "straight", Needle: "universal 80", Thread: "polyester"}}}
	s := planner.CuttingSheet{Title: "June", Cloths: []planner.SheetCloth{c}, Garments: []planner.SheetGarment{{
		Garment: garment.Garment{Name: "June", Size: "3", For: "Ida", Notes: "Longer by 2 cm."},
		Pattern: pattern.Pattern{Name: "Harbour sleep shirt", Kind: "sleep shirt", SeamAllowance: measure.Centimetre},
		Notions: []planner.NotionAsked{{Name: "clear elastic", Quantity: 2, Unit: "m", OnHand: 1, Known: true}}}}}
	got := words(paper.Cutting(say.Voice{}, s))
	for _, want := range []string{"June: Harbour sleep shirt, size 3, for Ida.", "K7PD is not washed yet", "2 cm from its raw end", "Rest the cloth flat", "Folded lengthwise 30 cm from the lower selvedge",
		"Nothing will be left", "Worked before: Side seam: straight", "polyester", "But: A plain lockstitch", "Needle: a ball point", "Seams: 10 mm. Hems: not said.", "clear elastic 2 m 1 m, too little",
		"4 outlines are cut", "catching fire", "latex", "Rotary cutters", "licensed", "Longer by 2 cm."} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// What the sample studio has reserved comes onto paper whole: every sheet can be laid out, in both
// systems of units.
func TestSampleOnPaper(t *testing.T) {
	ctx := context.Background()
	s, err := sample.New(ctx)
	if err != nil {
		t.Fatal(err)
	}
	all, err := s.Garments(ctx)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, g := range all {
		if g.State != garment.Reserved {
			continue
		}
		made, err := s.CuttingSheet(ctx, g.ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, units := range []measure.System{measure.Metric, measure.Imperial} {
			v := say.Voice{Units: units}
			d, err := paper.Sheet(v, made, sheet.Letter)
			if err != nil || d.Sheets() < 1 {
				t.Fatalf("%s: %v", g.Name, err)
			}
			if err := d.PDF(io.Discard); err != nil {
				t.Fatal(err)
			}
			for _, w := range paper.Ways() {
				d, err := paper.Document(paper.LayoutPage(v, made, made.Cloths[0]), w, sheet.Full{Paper: sheet.A0, Grid: 50})
				if err != nil {
					t.Fatalf("%s, %s: %v", g.Name, w, err)
				}
				if err := w.Write(d)(io.Discard); err != nil {
					t.Fatal(err)
				}
			}
			n++
		}
	}
	if n == 0 {
		t.Error("nothing is reserved in the sample studio")
	}
}

// Names of files read as the title, and are taken by any file system.
func TestFileName(t *testing.T) {
	for title, want := range map[string]string{
		"Front/back: June": "Front-back- June.pdf", "  ": "sheet.pdf", "../..": "sheet.pdf", "🧵 tank": "🧵 tank.pdf", "חולצה": "חולצה.pdf", "a\u202eb\tc\x00": "ab c.pdf",
	} {
		if got := paper.FileName(title, ".pdf"); got != want {
			t.Errorf("%q is called %q", title, got)
		}
	}
	long := paper.FileName(strings.Repeat("Ä👕", 300), ".svg")
	if len(long) > 255 || !utf8.ValidString(long) || !strings.HasSuffix(long, ".svg") {
		t.Errorf("%d bytes: %s", len(long), long)
	}
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "a.pdf"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if got := paper.Free(folder, "a.pdf"); got != filepath.Join(folder, "a 2.pdf") {
		t.Errorf("free is %s", got)
	}
}

// What keeps a file from being written is said in a sentence, and leaves no file.
func TestSaveSays(t *testing.T) {
	folder := t.TempDir()
	at := func(n string) string { return filepath.Join(folder, n) }
	for want, err := range map[string]error{
		"no room left":        paper.Save(at("a.pdf"), ".pdf", func(io.Writer) error { return fmt.Errorf("writing: %w", syscall.ENOSPC) }),
		"There is no folder":  paper.Save(filepath.Join(folder, "gone", "a.pdf"), ".pdf", func(io.Writer) error { return nil }),
		"does not end in":     paper.Save(at("a.txt"), ".pdf", func(io.Writer) error { return nil }),
		"name of the file is": paper.Save(at(strings.Repeat("x", 300)+".pdf"), ".pdf", func(io.Writer) error { return nil }),
		"may not write":       paper.Save(at("b.pdf"), ".pdf", func(io.Writer) error { return fs.ErrPermission }),
	} {
		if told := say.Error(err); !strings.Contains(told, want) {
			t.Errorf("no %q: %s", want, told)
		}
	}
	if files, err := os.ReadDir(folder); err != nil || len(files) != 0 {
		t.Errorf("%d files are left behind, %v", len(files), err)
	}
}
