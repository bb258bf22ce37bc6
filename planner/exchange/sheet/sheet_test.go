package sheet_test

import (
	"bytes"
	"errors"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/scene"
)

// poppler runs one of the programs of Debian's poppler-utils, the outside reader of PDF.
func poppler(t *testing.T, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("%s is not installed; it is in the Debian package poppler-utils", name)
	}
	out, err := exec.Command(path, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

func write(t *testing.T, f func(*bytes.Buffer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := f(&b); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// TestPDFReadsBack: pages have the paper's size, and words can be read and searched.
func TestPDFReadsBack(t *testing.T) {
	p := printer(t)
	s := small(t)
	file := write(t, func(b *bytes.Buffer) error {
		return p.PDF(b, sheet.A4, []sheet.Page{{Title: "Cutting sheet", Scene: s["layout"], Notes: []string{"Mind the direction: 3⅜ in × 1½ yd"}}, {Title: "Strips", Scene: s["cut"]}})
	})
	info := poppler(t, "pdfinfo", "-f", "1", "-l", "2", file)
	for _, want := range []string{"Pages:           2", "Page    1 size:  841.89 x 595.276 pts (A4)", "Page    2 size:  595.276 x 841.89 pts (A4)", "Title:           Cutting sheet"} {
		if !strings.Contains(info, want) {
			t.Errorf("no %q in\n%s", want, info)
		}
	}
	text := poppler(t, "pdftotext", "-layout", file, "-")
	for _, want := range []string{"Cutting sheet", "Mind the direction: 3⅜ in × 1½ yd", "front", "M · cut 1 on the fold", "blue sleep shirt", "free 40 cm × 75 cm", "4 mm over", "not for measuring", "1 of 2", "Strips", "armhole 2"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

// TestFullSizeIsTrue: the square to check the printer by is 10 cm in the rendered page, to
// 0.2 mm.
func TestFullSizeIsTrue(t *testing.T) {
	p := printer(t)
	for paper, least := range map[sheet.Paper]int{sheet.A4: 4, sheet.Letter: 4, sheet.A3: 3, sheet.A0: 2} {
		file := write(t, func(b *bytes.Buffer) error {
			return p.FullSize(b, paper, sheet.Page{Title: "Armhole", Scene: small(t)["armhole"]})
		})
		if n := strings.Count(poppler(t, "pdfinfo", "-f", "1", "-l", "99", file), " size: "); n < least {
			t.Errorf("a strip of 60 cm takes %d pages of %.0f mm", n, paper.Width)
		}
		out := strings.TrimSuffix(file, ".pdf")
		poppler(t, "pdftoppm", "-r", "254", "-gray", "-f", "1", "-l", "1", "-singlefile", "-x", "0", "-y", "0", "-W", "1400", "-H", "1500", "-png", file, out)
		side := darkRun(t, out+".png")
		if side < 998 || side > 1002 { // 0.2 mm
			t.Errorf("10 cm at 254 dpi are %d pixels wide", side)
		}
	}
}

// darkRun returns the distance in pixels of the first and second upright dark line, from the left, in
// a row through the middle of the square.
func darkRun(t *testing.T, file string) int {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	const row = 450 // 45 mm from the top: in the square, above its words
	var lines []int
	dark := false
	for x := range img.Bounds().Dx() {
		g, _, _, _ := img.At(x, row).RGBA()
		if (g < 0xa000) != dark {
			if dark = !dark; dark {
				lines = append(lines, x)
			}
		}
	}
	if len(lines) < 2 {
		t.Fatalf("%d upright lines in row %d", len(lines), row)
	}
	return lines[1] - lines[0]
}

// TestSVGIsTrue: width, height and viewBox are the scene's millimetres.
func TestSVGIsTrue(t *testing.T) {
	p := printer(t)
	for name, s := range small(t) {
		var b bytes.Buffer
		if err := p.SVG(&b, s); err != nil {
			t.Fatal(err)
		}
		m := regexp.MustCompile(`<svg[^>]* width="([0-9.]+)mm" height="([0-9.]+)mm" viewBox="0 0 ([0-9.]+) ([0-9.]+)"`).FindStringSubmatch(b.String())
		if m == nil || m[1] != m[3] || m[2] != m[4] {
			t.Errorf("%s: %v", name, m)
			continue
		}
		if w, err := strconv.ParseFloat(m[1], 64); err != nil || w-s.Bounds.Width() > 0.01 || s.Bounds.Width()-w > 0.01 {
			t.Errorf("%s: %s mm wide of %f", name, m[1], s.Bounds.Width())
		}
	}
}

// TestWordsFit: what package scene takes words to be wide is no less than they are in the font.
func TestWordsFit(t *testing.T) {
	p := printer(t)
	for _, w := range []string{"front", "M · cut 1 on the fold", "three quarters 40.8 cm", "WWWMMM", "mmmm", "iiiilllljj", "free 22.5 cm × 58 cm", "3⅜ in", "0123456789",
		"Ärmel hinten ßöü", "trim after trying on", "strip cut 39 mm, seam 9 mm", "ABCDEFGHIJKLMNOPQRSTUVXYZ", "a–b—c…", "Q@%&#", "1  חולצה קדמית", "قميص صيفي", "夏のタンクトップ 🧵", "Ωμέγα Ёлка tank",
		"front – 夏 Mmwi 40.8 cm", "→ 3 #&æœ חזית"} {
		if got, bound := p.Width(w), scene.TextWidth(w); got > bound || got < bound/3 {
			t.Errorf("%q is %.2f wide, reckoned %.2f", w, got, bound)
		}
	}
}

// full is a writer that fails, as a full disk does.
type full struct{}

var errFull = errors.New("no room")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestRefuses(t *testing.T) {
	p := printer(t)
	s := small(t)["cut"]
	var b bytes.Buffer
	for name, err := range map[string]error{
		"empty svg": p.SVG(&b, scene.Scene{}), "empty png": p.PNG(&b, scene.Scene{}, 100), "no pages": p.PDF(&b, sheet.A4, nil),
		"empty page": p.PDF(&b, sheet.A4, []sheet.Page{{}}), "empty tiles": p.FullSize(&b, sheet.A4, sheet.Page{}),
		"too many": p.FullSize(&b, sheet.A4, sheet.Page{Scene: scene.Scene{Bounds: scene.Box{Max: scene.Point{X: 9000, Y: 9000}}}}),
	} {
		if err == nil {
			t.Errorf("%s was written", name)
		}
	}
	for name, err := range map[string]error{
		"svg": p.SVG(full{}, s), "png": p.PNG(full{}, s, 100), "pdf": p.PDF(full{}, sheet.A4, []sheet.Page{{Scene: s}}), "tiles": p.FullSize(full{}, sheet.A4, sheet.Page{Scene: s}),
	} {
		if !errors.Is(err, errFull) {
			t.Errorf("%s to a full disk: %v", name, err)
		}
	}
	if _, err := sheet.New([]byte("not a font")); err == nil {
		t.Error("a font that is none was taken")
	}
}
