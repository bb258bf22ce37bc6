package sheet_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/metrics"
	"strings"
	"testing"
	"time"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/scene"
)

// rendered are pages of a PDF as grey pictures, by pdftoppm (poppler).
func rendered(t *testing.T, file string, dpi int) []image.Image {
	t.Helper()
	out := strings.TrimSuffix(file, ".pdf")
	poppler(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-gray", file, out)
	names, err := filepath.Glob(out + "-*.pgm")
	if err != nil || len(names) == 0 {
		t.Fatalf("no pages: %v", err)
	}
	var pages []image.Image
	for _, n := range names {
		pages = append(pages, graymap(t, n))
	}
	return pages
}

// graymap reads a picture as pdftoppm writes grey ones, in eight bits: much quicker than PNG for
// large sheets.
func graymap(t *testing.T, file string) image.Image {
	t.Helper()
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var w, h, most int
	if _, err := fmt.Sscanf(string(b[:min(len(b), 40)]), "P5\n%d %d\n%d\n", &w, &h, &most); err != nil || most != 255 || len(b) < w*h {
		t.Fatalf("%s is no grey picture of eight bits: %v", file, err)
	}
	return &image.Gray{Pix: b[len(b)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
}

func decoded(t *testing.T, file string) image.Image {
	t.Helper()
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func dark(img image.Image, x, y int) bool { return grey(img, x, y) < 0x90 }

func grey(img image.Image, x, y int) uint8 {
	if g, ok := img.(*image.Gray); ok { // as pdftoppm writes
		return g.GrayAt(x, y).Y
	}
	r, _, _, _ := img.At(x, y).RGBA()
	return uint8(r >> 8)
}

// outlineScene is one closed outline with slants and curves, without words, whose lines are
// wholly its own, so many times as large as 53 × 50 cm.
func outlineScene(times float64) scene.Scene {
	var l scene.Line
	l.Closed = true
	for i := range 120 {
		a := float64(i) / 120 * 2 * math.Pi
		r := 190 + 40*math.Cos(3*a)
		l.Points = append(l.Points, scene.Point{X: times * (260 + 1.1*r*math.Cos(a)), Y: times * (250 + r*math.Sin(a))})
	}
	return scene.Scene{Bounds: scene.Box{Max: scene.Point{X: 530 * times, Y: 500 * times}}, Hair: 0.3, Items: []scene.Item{{Style: scene.Piece, Lines: []scene.Line{l}}}}
}

// nearest is how far a place lies from an outline, in mm.
func nearest(p scene.Point, l scene.Line) float64 {
	best := math.Inf(1)
	for i, a := range l.Points {
		b := l.Points[(i+1)%len(l.Points)]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := min(1, max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(dx*dx+dy*dy)))
		best = min(best, math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy))
	}
	return best
}

// TestTilesJoin puts the pages of a tiled drawing together again as a person does, by the
// frames: each point of an outline lies within 0.3 mm of ink and, where there is but one outline, all
// ink clear of marks within 0.3 mm of it. On every paper, and for a layout as it is cut from a fold.
func TestTilesJoin(t *testing.T) {
	laid := layoutScene()
	var cut []scene.Line
	for _, it := range laid.Items {
		if it.Style == scene.Piece {
			cut = append(cut, it.Lines...)
		}
	}
	if len(cut) != 2 {
		t.Fatalf("the layout has %d outlines", len(cut))
	}
	outline := func(times float64) (scene.Scene, []scene.Line) {
		s := outlineScene(times)
		return s, s.Items[0].Lines
	}
	for _, tt := range []struct {
		name  string
		full  sheet.Full
		times float64 // the outline; 0 is the layout
		dpi   int
		tiles int
	}{
		{"A4", sheet.Full{Paper: sheet.A4}, 1, 200, 6},
		{"Letter, 15 mm shared", sheet.Full{Paper: sheet.Letter, Overlap: 15}, 1, 200, 6},
		{"A3", sheet.Full{Paper: sheet.A3}, 1, 200, 4},
		{"A0", sheet.Full{Paper: sheet.A0}, 2.6, 127, 4},
		{"layout on A4", sheet.Full{Paper: sheet.A4}, 0, 200, 0},
		{"layout on A3", sheet.Full{Paper: sheet.A3, Weight: 0.4}, 0, 200, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, lines := laid, cut
			if tt.times > 0 {
				s, lines = outline(tt.times)
			}
			d, err := printer(t).Tiles(sheet.Page{Title: "Whole", Scene: s}, tt.full)
			if err != nil {
				t.Fatal(err)
			}
			if n := d.Sheets() - 1; tt.tiles > 0 && n != tt.tiles {
				t.Errorf("%d tiles, not %d", n, tt.tiles)
			}
			j := joined{full: tt.full, dpi: tt.dpi, scene: s}
			j.read(t, write(t, func(b *bytes.Buffer) error { return d.PDF(b) }))
			for _, l := range lines {
				j.inked(t, l)
			}
			if tt.times > 0 {
				j.clean(t, lines[0])
			}
		})
	}
}

// joined is the pages of a tiled drawing laid together by their frames.
type joined struct {
	full  sheet.Full
	dpi   int
	scene scene.Scene
	tiles []tilePicture
}

// tilePicture is a page with where the upper left corner of its frame lies in the scene, in mm.
type tilePicture struct {
	img       image.Image
	left, top float64
}

// tileMargin is what stays white round a page, in mm.
const tileMargin = 12.0

func (j *joined) shared() float64 {
	if j.full.Overlap > 0 {
		return j.full.Overlap
	}
	return 10
}

func (j *joined) window() (w, h float64) {
	return j.full.Paper.Width - 2*tileMargin, j.full.Paper.Height - 2*tileMargin
}

// read renders the pages, and lays each by the name at its foot.
func (j *joined) read(t *testing.T, file string) {
	t.Helper()
	pages := rendered(t, file, j.dpi)[1:]
	w, h := j.window()
	for i, name := range tileNames(t, file, len(pages)) {
		j.tiles = append(j.tiles, tilePicture{pages[i], j.scene.Bounds.Min.X + float64(name[0])*(w-j.shared()), j.scene.Bounds.Max.Y - float64(name[1])*(h-j.shared())})
	}
}

// clean fails where there is ink, clear of frames, crosses and diamonds, off an outline.
func (j *joined) clean(t *testing.T, line scene.Line) {
	t.Helper()
	w, h := j.window()
	px, edge := 25.4/float64(j.dpi), j.shared()+5
	for i, p := range j.tiles {
		for y := range p.img.Bounds().Dy() {
			for x := range p.img.Bounds().Dx() {
				sx, sy := (float64(x)+0.5)*px-tileMargin, (float64(y)+0.5)*px-tileMargin
				if sx < edge || sy < edge || sx > w-edge || sy > h-edge || !dark(p.img, x, y) {
					continue
				}
				at := scene.Point{X: p.left + sx, Y: p.top - sy}
				if off := nearest(at, line); off > 0.3 {
					t.Fatalf("tile %d: ink %.2f mm off the outline at %.1f, %.1f", i+1, off, at.X, at.Y)
				}
			}
		}
	}
}

// inked fails where there is no ink on an outline.
func (j *joined) inked(t *testing.T, line scene.Line) {
	t.Helper()
	const places = 4000
	w, h := j.window()
	px := 25.4 / float64(j.dpi)
	for k := range places {
		p := along(line, float64(k)/places)
		off := math.Inf(1)
		for _, tile := range j.tiles {
			sx, sy := p.X-tile.left, tile.top-p.Y
			if sx < 0.5 || sy < 0.5 || sx > w-0.5 || sy > h-0.5 {
				continue
			}
			fx, fy := (sx+tileMargin)/px, (sy+tileMargin)/px
			for x := int(fx) - 3; x <= int(fx)+3; x++ {
				for y := int(fy) - 3; y <= int(fy)+3; y++ {
					if dark(tile.img, x, y) {
						off = min(off, px*math.Hypot(float64(x)+0.5-fx, float64(y)+0.5-fy))
					}
				}
			}
		}
		if off > 0.3 {
			t.Fatalf("no ink within 0.3 mm of the outline at %v", p)
		}
	}
}

// along is the place at a share of the points of an outline.
func along(l scene.Line, share float64) scene.Point {
	f := share * float64(len(l.Points))
	i := int(f)
	a, b, t := l.Points[i], l.Points[(i+1)%len(l.Points)], f-float64(i)
	return scene.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
}

// tileNames are column and row of each page after the first, as it says at its foot.
func tileNames(t *testing.T, file string, n int) [][2]int {
	t.Helper()
	var out [][2]int
	for i := range n {
		words := strings.Fields(poppler(t, "pdftotext", "-f", fmt.Sprint(i+2), "-l", fmt.Sprint(i+2), "-layout", file, "-"))
		name := words[len(words)-1]
		col := 0
		if _, err := fmt.Sscanf(name[1:], "%d", &col); err != nil {
			t.Fatalf("page %d is called %q", i+2, name)
		}
		out = append(out, [2]int{col - 1, int(name[0] - 'A')})
	}
	return out
}

// TestOnePageIsTrue: pdftoppm and rsvg-convert (librsvg) draw the page and its square in true
// size, and the same within two levels of grey on average.
func TestOnePageIsTrue(t *testing.T) {
	d, err := printer(t).OnePage(sheet.Page{Title: "Whole", Scene: outlineScene(1), Notes: []string{"A note"}}, sheet.Full{Weight: 0.5, Grid: 50})
	if err != nil {
		t.Fatal(err)
	}
	file := write(t, func(b *bytes.Buffer) error { return d.PDF(b) })
	pdf := rendered(t, file, 127)[0]
	var b bytes.Buffer
	if err := d.SVG(&b, 0); err != nil {
		t.Fatal(err)
	}
	drawing := filepath.Join(t.TempDir(), "whole.svg")
	if err := os.WriteFile(drawing, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	picture := drawing + ".png"
	if out, err := exec.Command("rsvg-convert", "-d", "127", "-p", "127", "-b", "white", "-o", picture, drawing).CombinedOutput(); err != nil {
		t.Fatalf("rsvg-convert (Debian package librsvg2-bin): %v\n%s", err, out)
	}
	svg := decoded(t, picture)
	if a, b := pdf.Bounds(), svg.Bounds(); a.Dx()-b.Dx() > 1 || b.Dx()-a.Dx() > 1 || a.Dy()-b.Dy() > 1 || b.Dy()-a.Dy() > 1 {
		t.Fatalf("%v and %v", a, b)
	}
	for name, img := range map[string]image.Image{"pdf": pdf, "svg": svg} {
		if side := squareSide(img, 5, float64(img.Bounds().Dy())/5-10-50); math.Abs(side-100) > 0.4 {
			t.Errorf("%s: 10 cm are %.1f mm", name, side)
		}
		// both draw the outline where it is, to half a millimetre
		line := outlineScene(1).Items[0].Lines[0]
		missing := 0
		for k := range 500 {
			p := along(line, float64(k)/500)
			x, y := int((p.X+10)*5), int((500-p.Y+10)*5)
			found := false
			for dx := -2; dx <= 2; dx++ {
				for dy := -2; dy <= 2; dy++ {
					found = found || dark(img, x+dx, y+dy)
				}
			}
			if !found {
				missing++
			}
		}
		if missing > 0 {
			t.Errorf("%s: the outline is missing at %d of 500 places", name, missing)
		}
	}
	if len(pageImages(t, d)) != 1 {
		t.Error("it is not one page")
	}
}

// squareSide is the distance of the first two dark columns in a row, in mm.
func squareSide(img image.Image, dpmm, row float64) float64 {
	var at []int
	was := false
	for x := range img.Bounds().Dx() {
		is := grey(img, x, int(row*dpmm)) < 0xd0 // thin lines are grey
		if is && !was {
			at = append(at, x)
		}
		was = is
	}
	if len(at) < 2 {
		return 0
	}
	return float64(at[1]-at[0]) / dpmm
}

// pageImages draws every sheet of a document.
func pageImages(t *testing.T, d *sheet.Document) []*image.RGBA {
	t.Helper()
	var out []*image.RGBA
	for i := range d.Sheets() {
		img, err := d.Picture(i, 400)
		if err != nil {
			t.Fatal(err)
		}
		if p := d.Paper(i); img.Bounds().Dy() != 400 || math.Abs(float64(img.Bounds().Dx())-400*p.Width/p.Height) > 1 {
			t.Errorf("sheet %d is %v", i, img.Bounds())
		}
		out = append(out, img)
	}
	return out
}

// Names in any script, of any length: what is drawn can be read by poppler, fonts are embedded, and
// letters that the font lacks leave a mark.
func TestNamesOfAllKinds(t *testing.T) {
	p := printer(t)
	for _, name := range []string{"front/back\\side", "🧵 tank 👕", strings.Repeat("long name ", 30), "חולצה", "قميص صيفي", "Ärmel ßöü", "a\tb\u202ec"} {
		s := scene.Pieces{Pieces: []scene.Placed{placed(name, 0, half(300_000, 200_000))}, Room: 1_000_000}.Scene()
		d, err := p.Tiles(sheet.Page{Title: name, Scene: s, Notes: []string{name}}, sheet.Full{Paper: sheet.A4})
		if err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		file := write(t, func(b *bytes.Buffer) error { return d.PDF(b) })
		if text := poppler(t, "pdftotext", file, "-"); !strings.Contains(text, "10 cm a side") {
			t.Errorf("%q: %s", name, text)
		}
		for _, row := range strings.Split(poppler(t, "pdffonts", file), "\n")[2:] {
			if f := strings.Fields(row); len(f) > 5 && f[len(f)-5] != "yes" {
				t.Errorf("%q: a font is not embedded: %s", name, row)
			}
		}
		report := p.Lay(sheet.Letter, sheet.Report{Title: name, Parts: []sheet.Part{{Heading: name, Lines: []string{name}, Boxes: []string{name}, Scene: s,
			Table: sheet.Table{Columns: []sheet.Column{{Share: 1}, {Title: name, Share: 4}}, Rows: [][]string{{sheet.Box, name}}}}}})
		var b bytes.Buffer
		if err := report.PDF(&b); err != nil {
			t.Errorf("%q: %v", name, err)
		}
		first := pageImages(t, report)[0]
		inked := 0
		for x := range first.Bounds().Dx() {
			for y := range 32 { // the title's line
				if dark(first, x, y) {
					inked++
				}
			}
		}
		if inked == 0 {
			t.Errorf("%q leaves no mark", name)
		}
	}
}

func TestFullRefuses(t *testing.T) {
	p := printer(t)
	wide := scene.Scene{Bounds: scene.Box{Max: scene.Point{X: 6000, Y: 100}}}
	for name, f := range map[string]func() (*sheet.Document, error){
		"longer than a page": func() (*sheet.Document, error) { return p.OnePage(sheet.Page{Scene: wide}, sheet.Full{}) },
		"empty page":         func() (*sheet.Document, error) { return p.OnePage(sheet.Page{}, sheet.Full{}) },
		"shares everything": func() (*sheet.Document, error) {
			return p.Tiles(sheet.Page{Scene: wide}, sheet.Full{Paper: sheet.A4, Overlap: 180})
		},
		"more than 200 tiles": func() (*sheet.Document, error) { return p.Tiles(manyTiles(26, 26), sheet.Full{Paper: sheet.A4}) },
	} {
		if _, err := f(); err == nil {
			t.Errorf("%s was laid out", name)
		}
	}
	if _, err := (&sheet.Document{}).Picture(0, 100); err == nil {
		t.Error("a sheet that is not there was drawn")
	}
}

// A sheet on which nothing but words would stand is not printed; the map on the first one has them.
func TestWordsAloneTakeNoSheet(t *testing.T) {
	s := outlineScene(0.5)
	s.Bounds.Min.Y = -300
	s.Items = append(s.Items, scene.Item{Style: scene.Label, Text: "armhole strip", At: scene.Point{X: 60, Y: -280}, Size: 6})
	d, err := printer(t).Tiles(sheet.Page{Title: "Strips", Scene: s}, sheet.Full{Paper: sheet.A4})
	if err != nil {
		t.Fatal(err)
	}
	file := write(t, func(b *bytes.Buffer) error { return d.PDF(b) })
	for _, name := range tileNames(t, file, d.Sheets()-1) {
		if name[1] > 0 {
			t.Errorf("a sheet with words alone: row %d", name[1])
		}
	}
	if text := poppler(t, "pdftotext", "-l", "1", file, "-"); !strings.Contains(text, "armhole strip") {
		t.Errorf("the map has no words: %s", text)
	}
}

// manyTiles is pieces all over so many sheets of A4.
func manyTiles(columns, rows int) sheet.Page {
	d := scene.Pieces{Room: int64(rows) * 263_000}
	for i := range columns * rows / 4 {
		d.Pieces = append(d.Pieces, placed(fmt.Sprintf("piece %d", i+1), i%5, half(345_000, 500_000)))
	}
	return sheet.Page{Title: "Many", Scene: d.Scene()}
}

// BenchmarkTiled200 lays out and writes some 200 sheets, and says how much memory the program held at
// most meanwhile, all of it: heap, stacks and what the runtime keeps ready.
func BenchmarkTiled200(b *testing.B) {
	p := printer(b)
	page := manyTiles(15, 12)
	b.ReportAllocs()
	most := watchMemory()
	for b.Loop() {
		d, err := p.Tiles(page, sheet.Full{Paper: sheet.A4})
		if err != nil {
			b.Fatal(err)
		}
		if err := d.PDF(io.Discard); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(d.Sheets()), "sheets")
	}
	b.ReportMetric(float64(most())/1e6, "peak-MB")
}

// watchMemory looks every millisecond how much memory the program holds; the function it returns ends
// that and says the most.
func watchMemory() func() uint64 {
	held := func() uint64 {
		all := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
		metrics.Read(all)
		return all[0].Value.Uint64() - all[1].Value.Uint64()
	}
	stop, most := make(chan struct{}), make(chan uint64)
	go func() {
		top := held()
		for {
			select {
			case <-stop:
				most <- max(top, held())
				return
			case <-time.After(time.Millisecond):
				top = max(top, held())
			}
		}
	}()
	return func() uint64 { close(stop); return <-most }
}
