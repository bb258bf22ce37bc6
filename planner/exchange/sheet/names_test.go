package sheet_test

import (
	"bytes"
	"image"
	"strings"
	"testing"
	"unicode"

	"tallycloth/planner/exchange/sheet"

	"golang.org/x/text/unicode/norm"
)

// reads is what poppler's pdftotext reads of one line of words on paper, without marks of direction, joined
// letters as single ones (NFKC of UAX #15).
func reads(t *testing.T, words string) string {
	t.Helper()
	file := write(t, func(b *bytes.Buffer) error {
		return printer(t).Lay(sheet.A4, sheet.Report{Notes: []string{words}}).PDF(b)
	})
	text, _, _ := strings.Cut(poppler(t, "pdftotext", "-l", "1", file, "-"), "\n")
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, norm.NFKC.String(text))
}

// TestNamesInAnyScript: names come out of the file as they were written, from right to left too; letters
// that no font has become boxes.
func TestNamesInAnyScript(t *testing.T) {
	for words, want := range map[string]string{
		"office fit, AVATAR, ½ naïve Łódź": "office fit, AVATAR, 1⁄2 naïve Łódź",
		"Ёлка Ωμέγα Գարուն თბილისი":        "Ёлка Ωμέγα Գարուն თბილისი",
		"חולצה קדמית":                      "חולצה קדמית",
		"قميص صيفي":                        "قميص صيفي",
		"夏 tank 🧵\ufe0f":                   "□ tank □",
		"line\nend\tand \u200bnothing":     "line end and nothing",
	} {
		if got := reads(t, words); got != want {
			t.Errorf("%q is read as %q", words, got)
		}
	}
	if got := reads(t, "Ida, חולצה קיץ, size 4"); !strings.HasPrefix(got, "Ida") || !strings.Contains(got, "חולצה קיץ") || !strings.HasSuffix(got, "size 4") {
		t.Errorf("among others it is read as %q", got) // where its commas go, readers guess
	}
	if long := strings.Repeat("wide name ", 30); strings.TrimSpace(long) == "" || !strings.HasPrefix(reads(t, long), "wide name wide name") {
		t.Error("a name of 300 letters is lost")
	}
}

// TestTitlesKeepNames: where a name stands in boxes on paper, the title of the file has it letter by letter, for
// the window of whatever shows it and for searching (pdfinfo, of poppler).
func TestTitlesKeepNames(t *testing.T) {
	for _, name := range []string{"夏 tank 🧵", "कमीज", "حمالة", "Łódź (front)", `back\slash`} {
		file := write(t, func(b *bytes.Buffer) error {
			return printer(t).Lay(sheet.A4, sheet.Report{Title: name}).PDF(b)
		})
		if info := poppler(t, "pdfinfo", "-enc", "UTF-8", file); !strings.Contains(info, name) {
			t.Errorf("%q is not the title in\n%s", name, info)
		}
	}
}

// TestRightToLeft: in a line that begins from right to left, a number read first stands to the right
// (UAX #9, rules P2, W7 and L2): the picture of "1 ש" is that of "ש" with "1" beside it on the right.
func TestRightToLeft(t *testing.T) {
	p := printer(t)
	columns := func(words string) []bool {
		d := p.Lay(sheet.A4, sheet.Report{Notes: []string{words}})
		img, err := d.Picture(0, 2000)
		if err != nil {
			t.Fatal(err)
		}
		out := make([]bool, img.Rect.Dx())
		for x := range out {
			for y := range 150 { // the line alone, not the foot
				if r, _, _, _ := img.At(x, y).RGBA(); r < 0x9000 {
					out[x] = true
				}
			}
		}
		return out
	}
	extent := func(c []bool) (from, to int) {
		from = len(c)
		for x, dark := range c {
			if dark {
				from, to = min(from, x), max(to, x)
			}
		}
		return from, to
	}
	_, alone := extent(columns("ש"))
	from, both := extent(columns("1 ש"))
	letter := columns("ש")
	line := columns("1 ש")
	for x := from; x <= alone; x++ {
		if letter[x] != line[x] {
			t.Fatalf("the letter does not begin the line on the left: column %d", x)
		}
	}
	if both < alone+5 {
		t.Errorf("the number does not stand to the right: %d and %d", both, alone)
	}
}

// TestBoxesHaveNumbers: a box for a letter that no font has is not empty, and not the same for another.
func TestBoxesHaveNumbers(t *testing.T) {
	p := printer(t)
	picture := func(words string) image.Image {
		img, err := p.Lay(sheet.A4, sheet.Report{Notes: []string{words}}).Picture(0, 3000)
		if err != nil {
			t.Fatal(err)
		}
		return img
	}
	differ := func(a, b image.Image) (n int) {
		for y := range 200 {
			for x := range a.Bounds().Dx() {
				r, _, _, _ := a.At(x, y).RGBA()
				s, _, _, _ := b.At(x, y).RGBA()
				if max(r, s)-min(r, s) > 0x4000 {
					n++
				}
			}
		}
		return n
	}
	empty, one, other := picture("□"), picture("夏"), picture("🧵")
	if differ(empty, one) < 20 || differ(one, other) < 10 {
		t.Errorf("%d dots are in a box, %d differ from another's", differ(empty, one), differ(one, other))
	}
}
