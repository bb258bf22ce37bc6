package sheet_test

import (
	"bytes"
	"strings"
	"testing"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
)

// TestRowsOnPaper: a layout of 12 m takes rows, whose names are read, with nothing in the margins of the sheet.
func TestRowsOnPaper(t *testing.T) {
	box := func(x, y, w, h int64) shape.Ring {
		return shape.Box{Min: shape.Point{X: x * 1000, Y: y * 1000}, Max: shape.Point{X: (x + w) * 1000, Y: (y + h) * 1000}}.Ring()
	}
	l := scene.Layout{Cloth: shape.Polygon{Outer: box(0, 0, 12_000, 1500)}}
	for _, x := range []int64{0, 2_700, 5_900, 11_000} {
		l.Pieces = append(l.Pieces, scene.Placed{ID: "p", Name: "yoke", Size: "size 4", Outline: box(x, 300, 700, 600)})
	}
	d := printer(t).Lay(sheet.A4, sheet.Report{Title: "Long", Parts: []sheet.Part{{Heading: "A long cloth", Rows: l.Rows(3_000_000)}}})
	file := write(t, func(b *bytes.Buffer) error { return d.PDF(b) })
	if n := strings.Count(poppler(t, "pdftotext", "-layout", file, "-"), "yoke"); n < 4 {
		t.Errorf("%d of 4 names are read", n)
	}
	for i := range d.Sheets() {
		img, err := d.Picture(i, 1485) // 5 dots to the mm
		if err != nil {
			t.Fatal(err)
		}
		for y := 5 * 12; y < 5*280; y++ { // above the foot
			for _, x := range []int{0, 10, 40, 55, 1050 - 55, 1050 - 20, 1049} {
				if r, g, b, _ := img.At(x, y).RGBA(); min(r, g, b) < 0xf000 {
					t.Fatalf("sheet %d has something in its margin at %d, %d", i+1, x/5, y/5)
				}
			}
		}
	}
}
