package verb_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
	"tallycloth/planner/trace"
	"tallycloth/planner/trace/tracetest"
)

// photoFile is a small picture on disk.
func photoFile(t *testing.T) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 90, 60))
	for i := range img.Pix {
		img.Pix[i] = uint8(i)
	}
	return pictureFile(t, img)
}

func pictureFile(t *testing.T, img image.Image) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "picture.jpg")
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// photoLine is a photo as photo list tells it.
type photoLine struct {
	Number, Stitch  int
	Of, Name, Kind  string
	Note, Added, ID string
	Width, Height   int
}

// TestPhotoVerbs adds photos of a fabric, a cloth and a receipt, writes one out, takes it
// away and back.
func TestPhotoVerbs(t *testing.T) {
	d := newDesk(t)
	code := d.log("Moss", "2 m", "--width", "150 cm", "--from", "the corner stall")
	file := photoFile(t)
	d.done("photo", "add", file, "--fabric", "moss", "--note", "by the window")
	d.done("photo", "add", file, "--fabric", "moss", "--kind", "scrap")
	d.done("photo", "add", file, "--cloth", code)
	d.done("photo", "add", file, "--purchase", "corner stall")
	var all []photoLine
	for _, of := range [][]string{{"--cloth", code}, {"--purchase", "corner"}, {"--fabric", "Moss"}} {
		d.answer(&all, append([]string{"photo", "list"}, of...)...)
		if len(all) == 0 || all[0].Width != 90 || all[0].Number != 1 {
			t.Errorf("%v: %+v", of, all)
		}
	}
	if len(all) != 2 || all[0].Kind != "swatch" || all[0].Note != "by the window" || all[1].Kind != "scrap" {
		t.Errorf("%+v", all)
	}
	out := filepath.Join(t.TempDir(), "out.jpg")
	d.done("photo", "save", "1", out, "--fabric", "Moss")
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	if c, err := jpeg.DecodeConfig(bytes.NewReader(data)); err != nil || c.Width != 90 || c.Height != 60 {
		t.Errorf("%+v, %v", c, err)
	}
	d.refused(verb.Failed, []string{"already", "another name"}, "photo", "save", "1", out, "--fabric", "Moss")
	d.done("photo", "remove", "1", "--fabric", "Moss")
	if d.answer(&all, "photo", "list", "--fabric", "Moss"); len(all) != 1 || all[0].Kind != "scrap" {
		t.Errorf("after removing: %+v", all)
	}
	d.done("undo")
	if d.answer(&all, "photo", "list", "--fabric", "Moss"); len(all) != 2 {
		t.Errorf("after undo: %+v", all)
	}
}

func TestPhotoVerbsRefuse(t *testing.T) {
	d := newDesk(t)
	d.log("Moss", "2 m", "--width", "150 cm")
	file := photoFile(t)
	text := filepath.Join(t.TempDir(), "notes.jpg")
	if err := os.WriteFile(text, []byte("not a picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		code  int
		words []string
		args  []string
	}{
		{verb.Mistyped, []string{"add, list, save or remove"}, []string{"photo"}},
		{verb.Mistyped, []string{"--fabric"}, []string{"photo", "add", file}},
		{verb.Mistyped, []string{"--fabric"}, []string{"photo", "add", file, "--fabric", "Moss", "--garment", "June"}},
		{verb.Mistyped, []string{"Fennel"}, []string{"photo", "add", file, "--fabric", "Fennel"}},
		{verb.Mistyped, []string{"portrait", "scrap"}, []string{"photo", "add", file, "--fabric", "Moss", "--kind", "portrait"}},
		{verb.Mistyped, []string{"stitch notes"}, []string{"photo", "add", file, "--fabric", "Moss", "--stitch", "3"}},
		{verb.Failed, []string{"JPEG, PNG or WebP"}, []string{"photo", "add", text, "--fabric", "Moss"}},
		{verb.Failed, []string{"cannot be read"}, []string{"photo", "add", text + ".gone", "--fabric", "Moss"}},
		{verb.Mistyped, []string{"no photo", "photo list"}, []string{"photo", "remove", "1", "--fabric", "Moss"}},
		{verb.Mistyped, []string{"no photo"}, []string{"photo", "save", "first", "out.jpg", "--fabric", "Moss"}},
	} {
		d.refused(c.code, c.words, c.args...)
	}
}

// corners writes marks as --corners takes them.
func corners(r trace.Rectangle) string {
	var words []string
	for _, c := range r.Corners {
		words = append(words, fmt.Sprintf("%.1f,%.1f", c.X, c.Y))
	}
	return strings.Join(words, " ")
}

// TestLeftoverFromPhoto adds a leftover from a drawn photo of a true outline: its area is
// right within 2 %.
func TestLeftoverFromPhoto(t *testing.T) {
	d := newDesk(t)
	d.log("Moss", "2 m", "--width", "150 cm")
	s := tracetest.NewScene(1)
	s.Width, s.Height, s.Sheet = 210, 297, true
	photo, err := tracetest.Take(s)
	if err != nil {
		t.Fatal(err)
	}
	file := pictureFile(t, photo.Picture)
	var c cloth
	d.answer(&c, "leftover", "Moss", "--photo", file, "--corners", corners(photo.Marked), "--sheet", "a4", "--grain", "12")
	if off := c.Area/(float64(photo.Truth.Area())/1e12) - 1; math.Abs(off) > 0.02 {
		t.Errorf("the area is off by %+.2f %%", 100*off)
	}
	for _, tt := range []struct {
		words []string
		args  []string
	}{
		{[]string{"Four corners"}, []string{"--sheet", "a4"}},
		{[]string{"no corner"}, []string{"--corners", "1,2 3,4 5,6 seven", "--sheet", "a4"}},
		{[]string{"--rectangle"}, []string{"--corners", "1,2 3,4 5,6 7,8"}},
		{[]string{"a4 or letter"}, []string{"--corners", "1,2 3,4 5,6 7,8", "--sheet", "napkin"}},
		{[]string{"60 cm x 40 cm"}, []string{"--corners", "1,2 3,4 5,6 7,8", "--rectangle", "60 cm"}},
		{[]string{"--rectangle", "no number"}, []string{"--corners", "1,2 3,4 5,6 7,8", "--rectangle", "wide x 40"}},
		{[]string{"too close"}, []string{"--corners", "1,2 3,4 5,6 7,8", "--sheet", "letter"}},
		{[]string{"degrees"}, []string{"--corners", corners(photo.Marked), "--sheet", "a4", "--grain", "4000"}},
		{[]string{"one word too many"}, []string{"60 cm", "--corners", corners(photo.Marked), "--sheet", "a4"}},
	} {
		d.refused(verb.Mistyped, tt.words, append([]string{"leftover", "Moss", "--photo", file}, tt.args...)...)
	}
	d.refused(verb.Mistyped, []string{"--photo"}, "leftover", "Moss", "--sheet", "a4")
}

// TestUnsureOutlineIsNotAdded: a picture of nothing adds nothing.
func TestUnsureOutlineIsNotAdded(t *testing.T) {
	d := newDesk(t)
	d.log("Moss", "2 m", "--width", "150 cm")
	img := image.NewRGBA(image.Rect(0, 0, 600, 400))
	for i := range img.Pix {
		img.Pix[i] = 160
	}
	for y := 100; y < 300; y++ {
		for x := 100; x < 250; x++ {
			img.Set(x, y, color.White)
		}
	}
	args := []string{"leftover", "Moss", "--photo", pictureFile(t, img), "--corners", "100,100 250,100 250,300 100,300", "--rectangle", "21 cm × 28 cm"}
	d.refused(verb.Failed, []string{"not sure"}, args...)
	var all []cloth
	if d.answer(&all, "list", "cloth"); len(all) != 1 {
		t.Errorf("%+v", all)
	}
}
