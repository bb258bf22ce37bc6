package sheet_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/exchange/sheet"
)

// labelsOf are n labels with codes as the stash gives them, some with lines that are
// too long and in other scripts.
func labelsOf(n int) (out []sheet.Label, codes []string) {
	const signs = "CDFHJKLMNPRTVWXY2345679"
	for i := range n {
		code := fmt.Sprintf("%c%c%c%c", signs[i%23], signs[(i/23)%23], signs[(7*i)%23], signs[(3*i+1)%23])
		codes = append(codes, code)
		out = append(out, sheet.Label{Code: code, Lines: []string{"Heather rib, the one with the very long name", "1.5 m × 148 cm", "95 % cotton, 5 % elastane", "74 % across, Ærø Łódź"}})
	}
	slices.Sort(codes)
	return out, codes
}

// TestLabelsScan has zbar (Debian zbar-tools), an independent reader of QR codes, read
// every label of rendered sheets, one at a time as a phone does, at 150 dots an inch as a cheap printer prints.
func TestLabelsScan(t *testing.T) {
	p := printer(t)
	for _, tt := range []struct {
		name         string
		grid         sheet.Grid
		labels, skip int
		pages        int
	}{
		{"A4, the last of a sheet and on", sheet.LabelsA4, 30, 20, 3},
		{"Letter", sheet.LabelsLetter, 30, 0, 1},
	} {
		t.Run(tt.name, func(t *testing.T) {
			labels, want := labelsOf(tt.labels)
			file := write(t, func(b *bytes.Buffer) error { return p.Labels(b, tt.grid, labels, tt.skip) })
			if info := poppler(t, "pdfinfo", file); !strings.Contains(info, fmt.Sprintf("Pages:           %d\n", tt.pages)) {
				t.Errorf("not %d pages:\n%s", tt.pages, info)
			}
			if n := tt.grid.Sheets(tt.labels, tt.skip); n != tt.pages {
				t.Errorf("%d sheets are said", n)
			}
			base := filepath.Join(t.TempDir(), "page")
			poppler(t, "pdftoppm", "-r", "150", "-gray", "-png", file, base)
			pages, err := filepath.Glob(base + "*.png")
			if err != nil || len(pages) != tt.pages {
				t.Fatalf("%d pages rendered, %v", len(pages), err)
			}
			out, err := exec.Command("zbarimg", append([]string{"--raw", "-q", "-Sdisable", "-Sqrcode.enable"}, cropped(t, pages, tt.grid, tt.labels, tt.skip)...)...).Output()
			if err != nil {
				t.Fatalf("zbarimg, of the Debian package zbar-tools: %v", err)
			}
			got := strings.Fields(string(out))
			slices.Sort(got)
			if !slices.Equal(got, want) {
				t.Errorf("read %d codes %v, not %d", len(got), got, len(want))
			}
			text := poppler(t, "pdftotext", "-layout", file, "-")
			for _, w := range append([]string{"1.5 m × 148 cm", "Heather rib", "…"}, want[0], want[len(want)-1]) {
				if !strings.Contains(text, w) {
					t.Errorf("no %q on the labels", w)
				}
			}
		})
	}
}

// picture is an image of which a part can be taken.
type picture interface {
	image.Image
	SubImage(image.Rectangle) image.Image
}

// cropped are files with a picture of each label, cut out of the rendered sheets.
func cropped(t *testing.T, pages []string, g sheet.Grid, labels, skip int) []string {
	t.Helper()
	var sheets []picture
	for _, name := range pages {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		sheets = append(sheets, img.(picture))
	}
	folder := t.TempDir()
	px := func(mm float64) int { return int(mm / 25.4 * 150) }
	var out []string
	for i := range labels {
		at, k := (i+skip)/(g.Columns*g.Rows), (i+skip)%(g.Columns*g.Rows)
		x, y := g.Left+float64(k%g.Columns)*g.Across, g.Top+float64(k/g.Columns)*g.Down
		var b bytes.Buffer
		if err := png.Encode(&b, sheets[at].SubImage(image.Rect(px(x), px(y), px(x+g.Width), px(y+g.Height)))); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(folder, fmt.Sprintf("label%02d.png", i))
		if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out = append(out, name)
	}
	return out
}

func TestLabelsRefuse(t *testing.T) {
	p := printer(t)
	labels, _ := labelsOf(1)
	for name, f := range map[string]func(*bytes.Buffer) error{
		"no labels":           func(b *bytes.Buffer) error { return p.Labels(b, sheet.LabelsA4, nil, 0) },
		"a sheet left out":    func(b *bytes.Buffer) error { return p.Labels(b, sheet.LabelsA4, labels, 24) },
		"too many columns":    func(b *bytes.Buffer) error { g := sheet.LabelsA4; g.Columns = 4; return p.Labels(b, g, labels, 0) },
		"over each other":     func(b *bytes.Buffer) error { g := sheet.LabelsA4; g.Across = 60; return p.Labels(b, g, labels, 0) },
		"too small to read":   func(b *bytes.Buffer) error { g := sheet.LabelsA4; g.Height = 10; return p.Labels(b, g, labels, 0) },
		"a code without sign": func(b *bytes.Buffer) error { return p.Labels(b, sheet.LabelsA4, []sheet.Label{{}}, 0) },
	} {
		var b bytes.Buffer
		if err := f(&b); err == nil {
			t.Errorf("%s is not refused", name)
		}
	}
}
