package verb_test

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type (
	patternLine struct {
		Name, Maker, Kind string
		Sizes             []string
		Uses              []struct {
			UsedFor  string  `json:"used_for"`
			Knit     bool    `json:"knit_only"`
			Around   float64 `json:"stretch_around_percent"`
			Along    float64 `json:"stretch_along_percent"`
			Recovery float64 `json:"recovery_percent"`
			Optional bool
		}
		Pieces []struct {
			Code, Name string
			UsedFor    string `json:"used_for"`
			Cut        int
			Pairs      bool `json:"mirrored_pairs"`
			OnFold     bool `json:"on_fold"`
			Sizes      int  `json:"sizes_with_outline"`
		}
		Edges       []string `json:"edges_to_finish"`
		Approximate bool
	}
	brought struct {
		Pattern patternLine
		Unit    float64 `json:"unit_mm"`
		Scale   string  `json:"scale_from"`
		Squares []struct {
			Side   float64 `json:"side_mm"`
			Likely float64 `json:"likely_mm"`
		}
		Warnings []struct{ Reason, Name, What, Do string }
		Marks    []struct {
			Piece, Size, Kind, Why string
			Number                 int
			Taken                  bool
		}
	}
)

// drawing writes an SVG file of a page of 500 × 500 mm and returns its name.
func drawing(t *testing.T, body string) string {
	return drawingOf(t, `width="500mm" height="500mm" viewBox="0 0 500 500"`, body)
}

func drawingOf(t *testing.T, page, body string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "drawing.svg")
	text := `<svg xmlns="http://www.w3.org/2000/svg" ` + page + `>` + body + `</svg>`
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// TestBringInWhatAnEditorSaved: a drawing that Inkscape saved becomes a pattern whose
// pieces can be laid, and what was not understood is told.
func TestBringInWhatAnEditorSaved(t *testing.T) {
	d := newDesk(t)
	var b brought
	d.answer(&b, "bring-in", filepath.Join("..", "..", "..", "testdata", "svg", "saved_layers.svg"),
		"--name", "Small things", "--size", "3", "--cut", "Cuff=2 pairs", "--knit", "--stretch-around", "20%", "--recovery", "80%")
	if b.Pattern.Name != "Small things" || len(b.Pattern.Pieces) != 4 || len(b.Warnings) == 0 || len(b.Squares) != 1 || b.Squares[0].Side != 50 {
		t.Fatalf("brought in %+v", b)
	}
	if u := b.Pattern.Uses; len(u) != 1 || !u[0].Knit || u[0].Around != 20 || u[0].Recovery != 80 {
		t.Errorf("asks %+v", u)
	}
	if c := b.Pattern.Pieces[1]; c.Name != "Cuff" || c.Cut != 2 || !c.Pairs {
		t.Errorf("the cuff: %+v", c)
	}
	code := d.log(jersey, "40 cm", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%")
	var f finding
	if d.answer(&f, "check", code, "--pattern", "Small", "--size", "3"); f.Proof != "layout" {
		t.Errorf("the pieces on 40 cm: %+v", f)
	}
	d.done("undo")
	d.done("undo")
	var all []patternLine
	if d.answer(&all, "list", "patterns"); len(all) != 0 {
		t.Errorf("after taking it back: %+v", all)
	}
}

// TestSizesInLayers: each layer is a size, outlines of one name are one pattern piece.
func TestSizesInLayers(t *testing.T) {
	layer := func(name string, side int) string {
		return fmt.Sprintf(`<g id=%q><rect width="%d" height="%d"><title>Front</title></rect></g>`, name, side, side+20)
	}
	d := newDesk(t)
	var b brought
	d.answer(&b, "bring-in", drawing(t, layer("8", 100)+layer("10", 120)), "--name", "Bib", "--layers", "--as-drawn", "--cut", "Front=1 left-fold")
	if strings.Join(b.Pattern.Sizes, " ") != "8 10" || len(b.Pattern.Pieces) != 1 || b.Pattern.Pieces[0].Sizes != 2 || !b.Pattern.Pieces[0].OnFold {
		t.Errorf("%+v", b.Pattern)
	}
}

// TestSquareConfirmsTheSize: a test square of 9.6 cm is asked about, not taken; said
// to be 10 cm it scales the drawing.
func TestSquareConfirmsTheSize(t *testing.T) {
	d := newDesk(t)
	file := drawing(t, `<rect width="96" height="96"/><rect x="200" width="96" height="192"><title>Pocket</title></rect>`)
	d.refused(verb.Mistyped, []string{"96 mm", "10 cm", "--square"}, "bring-in", file)
	d.refused(verb.Mistyped, []string{"--square", "more than zero"}, "bring-in", file, "--square", "0")
	var b brought
	d.answer(&b, "bring-in", file, "--square", "10 cm")
	if b.Unit < 1.0416 || b.Unit > 1.0417 || len(b.Pattern.Pieces) != 1 {
		t.Errorf("one unit is %g mm, pieces %+v", b.Unit, b.Pattern.Pieces)
	}
	d.answer(&b, "bring-in", file, "--as-drawn", "--name", "as drawn")
	if b.Unit != 1 {
		t.Errorf("as drawn one unit is %g mm", b.Unit)
	}
}

// TestDrawingsThatCannotBe: each is refused in a sentence, and nothing is kept.
func TestDrawingsThatCannotBe(t *testing.T) {
	shop := filepath.Join(t.TempDir(), "list.svg")
	if err := os.WriteFile(shop, []byte("elastic, thread, tea"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		file  string
		code  int
		words []string
		args  []string
	}{
		"not there":       {filepath.Join(t.TempDir(), "no.svg"), verb.Mistyped, []string{"no file"}, nil},
		"not SVG":         {shop, verb.Failed, []string{"SVG"}, nil},
		"200 MB":          {large(t), verb.Failed, []string{"larger than 50 MB", "pictures"}, nil},
		"a million":       {crowded(t), verb.Failed, []string{"points", "Simplify"}, nil},
		"only open paths": {drawing(t, `<path d="M0 0h200v300"/>`), verb.Mistyped, []string{"no outline", "Join its ends"}, nil},
		"crosses itself":  {drawing(t, `<polygon points="0,0 300,300 300,0 0,300"/>`), verb.Mistyped, []string{"no outline", "cross"}, nil},
		"no units":        {drawingOf(t, `viewBox="0 0 500 500"`, `<rect width="300" height="200"/>`), verb.Mistyped, []string{"how large", "--unit"}, nil},
		"a unit of text":  {drawing(t, `<rect width="300" height="200"/>`), verb.Mistyped, []string{"--unit"}, []string{"--unit", "thumb"}},
		"a cut of text":   {drawing(t, `<rect width="300" height="200"><title>Front</title></rect>`), verb.Mistyped, []string{"--cut", "pairs"}, []string{"--cut", "Front=many"}},
		"a cut of none":   {drawing(t, `<rect width="300" height="200"><title>Front</title></rect>`), verb.Mistyped, []string{"Sleeve"}, []string{"--cut", "Sleeve=2 pairs"}},
		"an odd pair":     {drawing(t, `<rect width="300" height="200"><title>Front</title></rect>`), verb.Mistyped, []string{"even"}, []string{"--cut", "Front=3 pairs"}},
	} {
		t.Run(name, func(t *testing.T) {
			d := newDesk(t).made()
			d.refused(c.code, c.words, append([]string{"bring-in", c.file}, c.args...)...)
			var left []act
			if d.answer(&left, "list", "history"); len(left) > 0 {
				t.Errorf("something was kept: %+v", left)
			}
		})
	}
}

// TestUnitSaid: a drawing without units is read once its unit is said.
func TestUnitSaid(t *testing.T) {
	d := newDesk(t)
	var b brought
	d.answer(&b, "bring-in", drawingOf(t, `viewBox="0 0 50 50"`, `<rect width="30" height="20"/>`), "--unit", "1 cm")
	if b.Unit != 10 || len(b.Pattern.Pieces) != 1 {
		t.Errorf("%+v", b)
	}
}

// written writes a drawing piece by piece, as long as more says so.
func written(t *testing.T, head, tail string, more func(n int64) string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "drawing.svg")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriterSize(f, 1<<20)
	var n int64
	put := func(s string) {
		k, err := w.WriteString(s)
		if err != nil {
			t.Fatal(err)
		}
		n += int64(k)
	}
	put(head)
	for s := more(n); s != ""; s = more(n) {
		put(s)
	}
	put(tail)
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return name
}

const head = `<svg xmlns="http://www.w3.org/2000/svg" width="500mm" height="500mm" viewBox="0 0 500 500">`

// large is a drawing of 200 MB, most of it spaces.
func large(t *testing.T) string {
	const size = 200 << 20
	spaces := strings.Repeat(" ", 1<<20)
	return written(t, head+`<rect width="300" height="200"/>`, `</svg>`, func(n int64) string {
		if n < size {
			return spaces
		}
		return ""
	})
}

// crowded is one outline of more than a million points.
func crowded(t *testing.T) string {
	points := 0
	return written(t, head+`<path d="M0 0`, `z"/></svg>`, func(int64) string {
		if points++; points > 1_000_500 {
			return ""
		}
		return fmt.Sprintf("L%d %d", points%499, points/499)
	})
}

// TestHalfOnTheFold: a half with its fold on the right comes in turned over; one that is
// straight on both sides asks which.
func TestHalfOnTheFold(t *testing.T) {
	d := newDesk(t)
	half := drawing(t, `<path d="M0 0 H100 V200 H20 Z"><title>Front</title></path>`)
	var b brought
	d.answer(&b, "bring-in", half, "--as-drawn", "--name", "Half", "--cut", "Front=1 fold")
	if len(b.Pattern.Pieces) != 1 || !b.Pattern.Pieces[0].OnFold {
		t.Errorf("%+v", b.Pattern)
	}
	plain := drawing(t, `<rect width="100" height="200"><title>Front</title></rect>`)
	d.refused(verb.Mistyped, []string{"straight on both sides", "left or its right"}, "bring-in", plain, "--as-drawn", "--name", "Plain", "--cut", "Front=1 fold")
}
