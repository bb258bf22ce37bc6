package pdf_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/drawn/drawntest"
	"tallycloth/planner/exchange/pdf"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/exchange/svg"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

var source = filepath.Join("..", "..", "..", "testdata", "svg", "source.svg")

// made writes a PDF of objects numbered from 1, the catalogue first; text lies between stream and
// endstream as it is (ISO 32000-1, 7.5).
func made(objects ...string) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n")
	at := make([]int, len(objects))
	for i, o := range objects {
		at[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	start := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, start)
	return b.Bytes()
}

func stream(dict, content string) string {
	return fmt.Sprintf("<< %s /Length %d >>\nstream\n%s\nendstream", dict, len(content), content)
}

// onePage is a PDF of one page of 20 × 30 cm (566.93 × 850.39 pt), with more in its dictionary.
func onePage(page, content string, more ...string) []byte {
	return made(append([]string{"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
		"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 566.929 850.394] /Contents 4 0 R " + page + " >>", stream("", content)}, more...)...)
}

// TestFilesMadeByInkscape: a drawing saved as PDF by the editor that is installed has the
// outlines of the drawing, within 0.3 mm.
func TestFilesMadeByInkscape(t *testing.T) {
	out := filepath.Join(t.TempDir(), "made.pdf")
	drawntest.Inkscape(t, "file-open:"+source+";export-type:pdf;export-filename:"+out+";export-do")
	all, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	f := read(t, all)
	d := lay(t, f, f.Find().Plan)
	want := fromSVG(t, source)
	n := 0
	for _, w := range want.Shapes {
		if !w.Usable() || w.Area < letter {
			continue
		}
		n++
		if err := among(w.Ring, d.Shapes); err != nil {
			t.Errorf("%s: %v", w.Name, err)
		}
	}
	if n < 4 {
		t.Errorf("only %d outlines were compared", n)
	}
	if len(d.Squares) != 1 || math.Abs(float64(d.Squares[0].Side)-50_000) > 300 {
		t.Errorf("squares %+v", d.Squares)
	}
}

// letter is the area of filled marks that are left out, in µm².
const letter = 400e6

func fromSVG(t testing.TB, path string) drawn.Drawing {
	t.Helper()
	r, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	d, err := svg.Read(context.Background(), r, svg.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// among says whether one of the shapes is a ring within 0.3 mm.
func among(want shape.Ring, shapes []drawn.Found) error {
	err := errors.New("there is no outline")
	for _, s := range shapes {
		if s.Ring == nil || math.Abs(s.Ring.Perimeter()-want.Perimeter()) > 0.02*want.Perimeter() {
			continue
		}
		if err = within(s.Ring, want, 300); err == nil {
			return nil
		}
	}
	return err
}

// TestPopplerSeesTheSame: what pdftocairo (Debian package poppler-utils) draws of a page, read by
// the reader of SVG, are the outlines read here.
func TestPopplerSeesTheSame(t *testing.T) {
	p := draft.DemoPatterns(func() stash.ID { return stash.NoID })[0]
	for name, all := range map[string][]byte{
		"tiles": tiled(t, p, p.Sizes[0].Name, sheet.Full{Paper: sheet.A3}),
		"turned": onePage("/Rotate 90 /Resources << /XObject << /F 5 0 R >> >>",
			"q 2 0 0 1.5 30 20 cm 1 0 0 RG 60 60 m 160 60 l 180 200 40 220 60 60 c b Q 0 0 1 rg 200 300 120 90 re f /F Do",
			stream("/Type /XObject /Subtype /Form /BBox [0 0 300 300] /Matrix [0 1 -1 0 420 420]", "20 20 m 120 30 l 110 140 l h S 150 150 m 180 250 260 260 v 220 140 150 150 y s")),
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			in, out := filepath.Join(dir, "in.pdf"), filepath.Join(dir, "out.svg")
			if err := os.WriteFile(in, all, 0o600); err != nil {
				t.Fatal(err)
			}
			f := read(t, all)
			page := min(2, len(f.Pages))
			if b, err := exec.Command("pdftocairo", "-svg", "-f", fmt.Sprint(page), "-l", fmt.Sprint(page), in, out).CombinedOutput(); err != nil {
				t.Fatalf("pdftocairo, which this test needs (Debian package poppler-utils): %v\n%s", err, b)
			}
			f.Pages = f.Pages[page-1 : page]
			f.Pages[0].Number = 1
			d, n := lay(t, f, drawn.Plan{}), 0
			theirs := fromSVG(t, out)
			for _, s := range d.Shapes {
				if s.Ring != nil && s.Ring.Bounds().Length() > 20_000 {
					n++
					if err := among(s.Ring, theirs.Shapes); err != nil {
						t.Errorf("%v: %v", s.Ring.Bounds(), err)
					}
				}
			}
			if n < 1 {
				t.Errorf("only %d outlines were compared", n)
			}
		})
	}
}

// TestLayersAndLines: layers by their names, colours and dashes of lines, the words and what is
// switched off are told.
func TestLayersAndLines(t *testing.T) {
	all := made("<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [5 0 R 6 0 R] /D << /OFF [6 0 R] >> >> >>",
		"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
		"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 566.929 850.394] /Contents 4 0 R /Resources << /Properties << /A 5 0 R /B 7 0 R >> >> >>",
		stream("", `/OC /A BDC 1 0 0 RG 0 0 283.465 283.465 re S EMC
/OC /B BDC [8.50394 2.83465] 0 d 0 1 0 RG 0 0 340 283 re S EMC
/Span << /MCID 0 >> BDC 0 0 0 1 K [] 0 d 20 20 m 100 20 l S EMC BT (S\(ize\) 8) Tj ET
1 g 0 0 500 500 re f 0 g 3 3 5 5 re f`),
		"<< /Type /OCG /Name (Size 8) >>", "<< /Type /OCG /Name <FEFF004700720031> >>", "<< /Type /OCMD /OCGs 6 0 R >>")
	f := read(t, all)
	if !slices.Equal(f.Off, []string{"Gr1"}) || f.Pages[0].Words != 1 {
		t.Errorf("off %q, %d words", f.Off, f.Pages[0].Words)
	}
	d := lay(t, f, drawn.Plan{})
	if got := d.Layers(); !slices.Equal(got, []string{"Size 8", "Gr1"}) {
		t.Errorf("layers %q", got)
	}
	if len(d.Shapes) != 3 {
		t.Fatalf("%+v", d.Shapes)
	}
	for i, want := range []drawn.Line{{Colour: "#ff0000"}, {Colour: "#00ff00", Dash: "3-1"}, {Colour: "#000000"}} {
		if d.Shapes[i].Line != want {
			t.Errorf("%+v, want %+v", d.Shapes[i].Line, want)
		}
	}
	told := ""
	for _, w := range d.Warnings {
		told += w.What + "\n"
	}
	for _, want := range []string{"which letters", "switched off", "small filled marks", "1 line is open"} {
		if !strings.Contains(told, want) {
			t.Errorf("%q is not told in %q", want, told)
		}
	}
	if b := d.Shapes[0].Ring.Bounds(); b.Length() != 100_000 || b.Width() != 100_000 {
		t.Errorf("a square of 283.465 pt is 10 cm: %v", b)
	}
}

// TestPagesByHand: pages without frames, their lines cut off at the edges, lie as they are told to;
// any other plan is refused with a sentence.
func TestPagesByHand(t *testing.T) {
	half := func(left bool) string {
		if left { // the left half of a box of 200 × 80 mm, 1 cm of margin
			return "538.583 600 m 255.118 600 l 255.118 373.228 l 538.583 373.228 l S"
		}
		return "28.3465 600 m 311.811 600 l 311.811 373.228 l 28.3465 373.228 l S"
	}
	page := func(content int) string {
		return fmt.Sprintf("<< /Type /Page /Parent 2 0 R /MediaBox [0 0 566.929 850.394] /Contents %d 0 R >>", content)
	}
	all := made("<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R 4 0 R] /Count 2 >>", page(5), page(6), stream("", half(true)), stream("", half(false)))
	f := read(t, all)
	if found := f.Find(); found.Plan.Rows != nil {
		t.Errorf("nothing shows how they lie: %+v", found)
	}
	d := lay(t, f, drawn.Plan{Rows: [][]int{{1, 2}}, Left: 10, Right: 10, Top: 10, Low: 10})
	if len(d.Shapes) != 1 || !d.Shapes[0].Usable() || within(d.Shapes[0].Ring, shape.Box{Max: shape.Point{X: 80_000, Y: 200_000}}.Ring(), 5) != nil {
		t.Errorf("%+v", d.Shapes)
	}
	if len(d.Pages.Sheets) != 2 || d.Pages.Sheets[1].Min != (shape.Point{X: 0, Y: 180_000}) {
		t.Errorf("%+v", d.Pages.Sheets)
	}
	for name, plan := range map[string]drawn.Plan{
		"page 3": {Rows: [][]int{{1, 3}}}, "twice": {Rows: [][]int{{1, 1}}}, "none": {Rows: [][]int{{0}}},
		"nothing left": {Rows: [][]int{{1, 2}}, Left: 150, Right: 60}, "less than zero": {Rows: [][]int{{1, 2}}, Shared: -1},
	} {
		var e *stash.Error
		if _, err := f.Lay(context.Background(), plan, "", 0); !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestCorrectedSize: a square that really measures something else scales everything.
func TestCorrectedSize(t *testing.T) {
	f := read(t, onePage("", "100 100 283.465 283.465 re S"))
	d := lay(t, f, drawn.Plan{})
	if len(d.Squares) != 1 || d.Squares[0].Likely != 100_000 {
		t.Fatalf("%+v", d.Squares)
	}
	d, err := f.Lay(context.Background(), drawn.Plan{}, "", d.UnitFor(d.Squares[0], 98_000))
	if err != nil || d.Squares[0].Side != 98_000 || !d.Scale.Given {
		t.Errorf("%+v, %v", d.Squares, err)
	}
}

// TestUserUnit: a page may say that its unit is larger than a point (ISO 32000-1, table 30).
func TestUserUnit(t *testing.T) {
	f := read(t, onePage("/UserUnit 1.5", "100 100 283.465 283.465 re S"))
	if d := lay(t, f, drawn.Plan{}); len(d.Squares) != 1 || d.Squares[0].Side != 150_000 {
		t.Errorf("%+v", d.Squares)
	}
}

// TestCropped: what lies outside the crop box is not seen, and is no outline.
func TestCropped(t *testing.T) {
	d := lay(t, read(t, onePage("/CropBox [100 100 500 500]", "10 10 50 50 re S 200 200 141.7323 141.7323 re S 50 300 m 300 300 l S")), drawn.Plan{})
	if len(d.Shapes) != 2 || len(d.Squares) != 1 || d.Squares[0].Side != 50_000 || d.Scale.Width.Millimetres() > 142 {
		t.Errorf("%+v %+v", d.Shapes, d.Scale)
	}
	if open := d.Shapes[1].Open; len(open) != 2 || max(open[0].Y, open[1].Y) > 70_600 {
		t.Errorf("a line is cut off at the edge: %v", open)
	}
}

// TestScan: a page that is a picture is sent to tracing.
func TestScan(t *testing.T) {
	f := read(t, onePage("/Resources << /XObject << /I 5 0 R >> >>", "q 560 0 0 840 3 3 cm /I Do Q",
		stream("/Type /XObject /Subtype /Image /Width 1 /Height 1 /ColorSpace /DeviceGray /BitsPerComponent 8", "x")))
	d := lay(t, f, drawn.Plan{})
	if !f.Pages[0].Scan() || !slices.Equal(d.Pages.Scans, []int{1}) || len(d.Warnings) != 1 || d.Warnings[0].Reason != drawn.Picture {
		t.Errorf("%+v %+v", d.Pages, d.Warnings)
	}
	f = read(t, onePage("", "q 560 0 0 840 3 3 cm BI /W 1 /H 1 /BPC 8 /CS /G ID EIx EI Q 10 10 50 50 re S"))
	if !f.Pages[0].Scan() || f.Pages[0].Lines() != 1 {
		t.Errorf("a picture inside the content: %+v", f.Pages[0])
	}
}

// TestWordsOfPages: what is written on joined pages names outlines, whatever operators write it; strings
// come in every spelling.
func TestWordsOfPages(t *testing.T) {
	font := "<< /Font << /F << /Type /Font /Subtype /Type1 /BaseFont /Helvetica /FirstChar 32 /Widths [278] /Encoding << /Differences [1 /Y /o 3 /k /e] >> >> >> >>"
	for name, c := range map[string]struct{ text, want string }{
		"a string":         {"BT /F 12 Tf 150 200 Td (Yoke) Tj ET", "Yoke"},
		"escapes":          {`BT /F 12 Tf 150 200 Td (\131o\153e \(left\)) Tj ET`, "Yoke (left)"},
		"hexadecimal":      {"BT /F 12 Tf 1 0 0 1 150 200 Tm <596F6B 65> Tj ET", "Yoke"},
		"letter by letter": {"BT /F 12 Tf 150 200 Td [(Yo) -20 (k) 10 (e) -400 (left)] TJ ET", "Yoke left"},
		"names of letters": {"BT /F 12 Tf 150 200 Td <01020304> Tj ET", "Yoke"},
		"next line":        {"BT /F 12 Tf 14 TL 150 228 Td (B 7) Tj T* (42) ' 6 Tw ET BT /F 20 Tf 150 300 Td (Yoke) Tj ET", "Yoke"},
		"turned":           {"q 0 1 -1 0 300 100 cm BT /F 12 Tf 60 60 Td (Yoke) Tj ET Q", "Yoke"},
		"no such font":     {"BT /G 12 Tf 150 200 Td (Yoke) Tj ET", "Piece 1"},
		"outside":          {"BT /F 12 Tf 10 10 Td (Yoke) Tj ET", "Piece 1"},
	} {
		d := lay(t, read(t, onePage("/Resources "+font, "100 100 300 400 re S "+c.text)), drawn.Plan{})
		if p, _ := d.Pattern(drawn.Choice{}); len(p.Pieces) != 1 || p.Pieces[0].Name != c.want {
			t.Errorf("%s: %+v, %+v", name, p.Pieces, d.Words)
		}
	}
}

// TestLettersByTable: codes of two bytes are the letters that the font's own table says.
func TestLettersByTable(t *testing.T) {
	table := "1 begincodespacerange <0000> <ffff> endcodespacerange 1 beginbfchar <0005> <0059> endbfchar 2 beginbfrange <0010> <0012> <006D> <0020> <0021> [<0065> <006B>] endbfrange"
	d := lay(t, read(t, onePage("/Resources << /Font << /F << /Type /Font /Subtype /Type0 /Encoding /Identity-H /ToUnicode 5 0 R /DescendantFonts [<< /Type /Font /DW 500 /W [5 [600] 16 18 550] >>] >> >> >>",
		"100 100 300 400 re S BT /F 12 Tf 150 200 Td <0005 0012 0021 0020> Tj 300 0 Td <0099> Tj ET", stream("", table))), drawn.Plan{})
	if p, _ := d.Pattern(drawn.Choice{}); len(p.Pieces) != 1 || p.Pieces[0].Name != "Yoke" {
		t.Errorf("%+v, %+v", p.Pieces, d.Words)
	}
	if !slices.ContainsFunc(d.Warnings, func(w drawn.Warning) bool { return strings.Contains(w.What, "which letters") }) {
		t.Errorf("a code without a letter is not told: %+v", d.Warnings)
	}
}

// TestTurnedPage: a page that is shown turned by a quarter, a half or three quarters is read as it is shown
// (ISO 32000-1, table 30): the square at its foot, and the piece above.
func TestTurnedPage(t *testing.T) {
	const w, h = 566.929, 850.394                                        // 200 × 300 mm
	for turn, at := range map[int]func(x, y float64) (float64, float64){ // from the page as shown, y up, to the page as drawn
		0:   func(x, y float64) (float64, float64) { return x, y },
		90:  func(x, y float64) (float64, float64) { return w - y, x },
		180: func(x, y float64) (float64, float64) { return w - x, h - y },
		270: func(x, y float64) (float64, float64) { return y, h - x },
	} {
		var text string
		for _, ring := range [][][2]float64{{{28, 28}, {170, 28}, {170, 170}, {28, 170}}, {{28, 200}, {428, 200}, {428, 400}, {28, 500}}} {
			for i, p := range ring {
				x, y := at(p[0], p[1])
				text += fmt.Sprintf("%.3f %.3f %s ", x, y, map[bool]string{true: "m", false: "l"}[i == 0])
			}
			text += "s "
		}
		d := lay(t, read(t, onePage(fmt.Sprintf("/Rotate %d", turn), text)), drawn.Plan{})
		p, _ := d.Pattern(drawn.Choice{})
		if len(p.Pieces) != 1 || len(d.Squares) != 1 {
			t.Fatalf("turned by %d: %d pieces, %+v", turn, len(p.Pieces), d.Shapes)
		}
		cut := p.Pieces[0].Outlines[drawn.OneSize].Cut
		if b := cut.Bounds(); !near(float64(b.Length()), 300/72.0*25400) || !near(float64(b.Width()), 400/72.0*25400) {
			t.Errorf("turned by %d: %v", turn, b)
		}
		square, piece := d.Shapes[d.Squares[0].Shape].Ring.Bounds(), d.Shapes[1].Ring.Bounds()
		if square.Min.X < piece.Max.X {
			t.Errorf("turned by %d: the square lies above the piece", turn)
		}
		lowRight := shape.Point{X: cut.Bounds().Max.X, Y: cut.Bounds().Max.Y}
		if off := drawntest.Off(cut, lowRight); off > 20 {
			t.Errorf("turned by %d: its lower right corner is %.0f µm off, it is mirrored", turn, off)
		}
	}
}

func near(a, b float64) bool { return math.Abs(a-b) < 50 }

// TestPictureOfAPage: a page comes as a picture of 150 dots an inch in its true proportions; one that is not
// there is refused with a sentence.
func TestPictureOfAPage(t *testing.T) {
	path := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(path, onePage("/CropBox [0 0 288 432]", "20 20 100 100 re S"), 0o600); err != nil {
		t.Fatal(err)
	}
	all, err := pdf.Picture(context.Background(), path, 1)
	if err != nil {
		t.Fatal(err)
	}
	if c, err := png.DecodeConfig(bytes.NewReader(all)); err != nil || c.Width != 600 || c.Height != 900 {
		t.Errorf("%+v, %v", c, err)
	}
	var e *stash.Error
	if _, err := pdf.Picture(context.Background(), path, 9); !errors.As(err, &e) || e.Do == "" {
		t.Errorf("%v", err)
	}
}
