package dxf_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// pairs writes "code value" lines, parted by ; or line ends, as DXF.
func pairs(text string) string {
	var b strings.Builder
	for _, p := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		code, value, _ := strings.Cut(strings.TrimSpace(p), " ")
		b.WriteString(code + "\n" + value + "\n")
	}
	return b.String()
}

// section is one section of a file.
func section(name, content string) string {
	return "0 SECTION;2 " + name + ";" + content + ";0 ENDSEC;"
}

// file is a file of blocks and entities, in mm.
func file(blocks, entities string) []byte {
	return []byte(pairs(section("HEADER", "9 $INSUNITS;70 4") + section("BLOCKS", blocks) + section("ENTITIES", entities) + "0 EOF"))
}

// poly is a closed polyline on a layer, from x and y in turn.
func poly(layer string, v ...float64) string {
	s := fmt.Sprintf("0 LWPOLYLINE;8 %s;70 1;", layer)
	for i := 0; i < len(v); i += 2 {
		s += fmt.Sprintf("10 %g;20 %g;", v[i], v[i+1])
	}
	return s
}

func line(layer string, x, y, x2, y2 float64) string {
	return fmt.Sprintf("0 LINE;8 %s;10 %g;20 %g;11 %g;21 %g;", layer, x, y, x2, y2)
}

func point(layer string, x, y float64) string {
	return fmt.Sprintf("0 POINT;8 %s;10 %g;20 %g;", layer, x, y)
}

func words(text string) string { return "0 TEXT;8 1;10 1;20 1;40 5;1 " + text + ";" }

func block(name, content string) string { return "0 BLOCK;2 " + name + ";" + content + "0 ENDBLK;" }

// oneBlock reads a file of one block and returns its piece.
func oneBlock(t *testing.T, content string) (pattern.Piece, pattern.Outline, drawn.Drawing) {
	t.Helper()
	d := read(t, file(block("A", words("PIECE NAME: Front")+words("QUANTITY: 1")+content), ""), dxf.Options{})
	if d.Stated == nil || len(d.Stated.Pieces) != 1 {
		t.Fatalf("%+v", d)
	}
	q := d.Stated.Pieces[0]
	return q, q.Outlines[drawn.OneSize], d
}

func told(d drawn.Drawing, part string) bool {
	for _, w := range d.Warnings {
		if strings.Contains(w.What, part) && w.Do != "" {
			return true
		}
	}
	return false
}

func TestBoundaryOfLinesThatMeet(t *testing.T) {
	_, o, _ := oneBlock(t, line("1", 0, 0, 300, 0)+line("1", 0, 200, 0, 0)+line("1", 300, 200.02, 0, 200)+line("1", 300, 0, 300, 200))
	if len(o.Cut) != 4 || math.Abs(float64(o.Cut.Area())/1e6-60_000) > 10 {
		t.Errorf("%v", o.Cut)
	}
}

func TestBoundaryElsewhere(t *testing.T) {
	for layer, say := range map[string]string{"84": "layer for checking", "CUT": "largest other one", "14": "largest other one"} {
		_, o, d := oneBlock(t, poly(layer, 0, 0, 300, 0, 300, 200, 0, 200)+poly(layer, 20, 20, 40, 20, 40, 40)+point("4", 100, 0))
		if len(o.Cut) != 4 || !told(d, say) {
			t.Errorf("layer %s: %v %+v", layer, o.Cut, d.Warnings)
		}
	}
	d := read(t, file(block("A", words("PIECE NAME: Front")+line("1", 0, 0, 300, 0)), ""), dxf.Options{})
	if d.Stated != nil || !told(d, "no closed outline") {
		t.Errorf("%+v", d)
	}
}

// TestCurvesDrawnOutForChecking: layer 84 is taken where layer 1 has chords only, and
// coarse curves are told where it is missing.
func TestCurvesDrawnOutForChecking(t *testing.T) {
	chords, fine := poly("1", -100, 0, 100, 0, 0, 100), "0 LWPOLYLINE;8 84;70 1;10 -100;20 0;10 100;20 0;"
	for a := 2.0; a < 180; a += 2 {
		fine += fmt.Sprintf("10 %g;20 %g;", 100*math.Cos(a*math.Pi/180), 100*math.Sin(a*math.Pi/180))
	}
	coarse := poly("1", -100, 0, 100, 0, 70, 70, 0, 100, -70, 70) + point("2", -100, 0) + point("3", 70, 70) + point("3", 0, 100) + point("3", 1000, 0)
	_, o, d := oneBlock(t, chords+fine)
	if len(o.Cut) != 3 || told(d, "drawn out") {
		t.Errorf("an outline that differs by half is another one: %d points", len(o.Cut))
	}
	near := strings.Replace(coarse, "10 0;20 100;", "10 30;20 95;10 0;20 100;10 -30;20 95;", 1)
	near = strings.Replace(near, "10 70;20 70;", "10 88;20 47;10 70;20 70;10 50;20 86.5;", 1)
	near = strings.Replace(near, "10 -70;20 70;", "10 -50;20 86.5;10 -70;20 70;10 -88;20 47;", 1)
	if _, o, d = oneBlock(t, near+fine); len(o.Cut) != 91 || !told(d, "drawn out") {
		t.Errorf("%d points, %+v", len(o.Cut), d.Warnings)
	}
	if _, _, d = oneBlock(t, coarse); !told(d, "few points") || !told(d, "off its lines") {
		t.Errorf("%+v", d.Warnings)
	}
}

// TestMorePointsThanAreLookedAt: what is only checked does not keep a file out.
func TestMorePointsThanAreLookedAt(t *testing.T) {
	edge := []float64{0, 0}
	for i := range 4000 {
		edge = append(edge, float64(i)*0.3, 1+float64(i%2))
	}
	_, o, d := oneBlock(t, poly("1", append(edge, 1200, 0)...)+strings.Repeat(point("3", 5, 0.4), 6000))
	if len(o.Cut) != 4002 || !told(d, "not all were looked at") {
		t.Errorf("%d points, %+v", len(o.Cut), d.Warnings)
	}
}

// TestMirrorLines: along the grain it is a fold, on whichever side; across it the half is
// opened out with its marks; through the piece it means nothing.
func TestMirrorLines(t *testing.T) {
	half := poly("1", 0, 0, 300, 0, 250, 200, 0, 200)
	grain := line("7", 50, 50, 200, 50)
	marks := point("4", 0, 50) + point("13", 100, 100) + line("8", 10, 20, 60, 20)
	for name, mirror := range map[string]string{"below": line("6", 0, 0, 300, 0), "above": line("6", 250, 200, 0, 200)} {
		q, o, d := oneBlock(t, half+grain+mirror+marks)
		if !q.OnFold || o.Cut.Bounds().Min.Y != 0 || o.Cut.Area() != 55_000e6 || len(d.Warnings) != 1 {
			t.Errorf("%s: on fold %v, %v, %+v", name, q.OnFold, o.Cut, d.Warnings)
		}
		if whole := q.Whole(drawn.OneSize); whole.Area() != 2*55_000e6 {
			t.Errorf("%s: %v", name, whole)
		}
	}
	q, o, d := oneBlock(t, half+grain+line("6", 0, 0, 0, 200)+marks)
	if b := o.Cut.Bounds(); q.OnFold || o.Cut.Area() != 2*55_000e6 || b.Length() != 600_000 || b.Width() != 200_000 || !told(d, "opened out") {
		t.Errorf("across: %v, %+v", o.Cut, d.Warnings)
	}
	if len(o.Notches) != 1 || len(o.Dots) != 2 || len(o.Inner) != 2 || o.GrainTop.Y != o.GrainFoot.Y {
		t.Errorf("across: %+v", o)
	}
	if q, o, d = oneBlock(t, half+grain+line("6", 0, 100, 300, 100)); q.OnFold || len(o.Inner) != 1 || !told(d, "drawn whole") {
		t.Errorf("through: %+v %+v", o, d.Warnings)
	}
	if q, _, d = oneBlock(t, half+line("6", 0, 0, 300, 0)); !q.OnFold || !told(d, "along its mirror line") {
		t.Errorf("no grain: %+v", d.Warnings)
	}
	if q, _, d = oneBlock(t, half+grain+line("6", 0, -5, 300, -5)); q.OnFold || !told(d, "no single straight edge") {
		t.Errorf("beside: %+v", d.Warnings)
	}
}

// TestGrainTurnsThePiece: whichever way the grain line is drawn, it comes to lie along x.
func TestGrainTurnsThePiece(t *testing.T) {
	for degrees := 0.0; degrees < 360; degrees += 15 {
		s, c := math.Sincos(degrees * math.Pi / 180)
		at := func(x, y float64) []float64 { return []float64{1000 + c*x - s*y, s*x + c*y} }
		var v []float64
		for _, p := range [][2]float64{{0, 0}, {300, 0}, {250, 200}, {0, 200}} {
			v = append(v, at(p[0], p[1])...)
		}
		a, b := at(40, 100), at(240, 100)
		_, o, d := oneBlock(t, poly("1", v...)+line("7", a[0], a[1], b[0], b[1]))
		box := o.Cut.Bounds()
		if abs(box.Length()-300_000) > 3 || abs(box.Width()-200_000) > 3 || o.GrainTop.X >= o.GrainFoot.X || abs(o.GrainTop.Y-o.GrainFoot.Y) > 2 || !told(d, "upper one was taken") {
			t.Errorf("%g°: %v, grain %v to %v", degrees, o.Cut, o.GrainFoot, o.GrainTop)
		}
	}
}

func abs(v int64) int64 { return max(v, -v) }

// TestMarksOffTheLine: a little off they are moved, farther off kept as dots; two near each other
// are one double notch; lines and closed marks count by their place.
func TestMarksOffTheLine(t *testing.T) {
	_, o, d := oneBlock(t, poly("1", 0, 0, 300, 0, 300, 200, 0, 200)+point("4", 50, 2)+point("4", 100, 30)+point("4", 200, 0)+point("81", 250, 0)+
		line("4", 150, 0, 150, 6)+"0 CIRCLE;8 80;10 0;20 100;40 1;"+point("4", 206, 0)+point("8", 5, 5)+line("5", 0, 0, 10, 10)+line("99", 1, 1, 9, 9)+line("9", 0, 90, 300, 90)+poly("11", 50, 50, 60, 50, 60, 60))
	want := []pattern.Notch{{At: shape.Point{X: 50_000}, Kind: "single"}, {At: shape.Point{X: 203_000}, Kind: "double"}, {At: shape.Point{X: 150_000}, Kind: "single"},
		{At: shape.Point{Y: 100_000}, Kind: "single"}, {At: shape.Point{X: 250_000}, Kind: "single"}}
	for _, w := range want {
		found := false
		for _, n := range o.Notches {
			found = found || n == w
		}
		if !found {
			t.Errorf("no notch %+v in %+v", w, o.Notches)
		}
	}
	if len(o.Notches) != len(want) || len(o.Dots) != 1 || len(o.Inner) != 3 {
		t.Errorf("%+v", o)
	}
	for _, s := range []string{"moved onto", "kept as dots", "several shapes", "where none belong", "for grading", "another meaning", "to match stripes", "to be cut inside"} {
		if !told(d, s) {
			t.Errorf("nothing says %q", s)
		}
	}
}

// TestSeveralSizes: in grading order, a piece of one size for all, names that end in sizes, a
// half in one size and whole in another.
func TestSeveralSizes(t *testing.T) {
	piece := func(name, size, count string, more string) string {
		return block(name+size, words("PIECE NAME: "+name)+words("SIZE: "+size)+words("QUANTITY: "+count)+poly("1", 0, 0, 300, 0, 300, 200, 0, 200)+line("7", 10, 10, 90, 10)+more)
	}
	d := read(t, file(piece("Front XL", "XL", "1", "")+piece("Front S", "S", "2", line("6", 0, 0, 300, 0))+piece("Cuff S", "S", "odd", ""), ""), dxf.Options{})
	p := d.Stated
	if len(p.Pieces) != 2 || p.Sizes[0].Name != "S" || p.Sizes[1].Name != "XL" || len(p.Pieces[1].Outlines) != 2 || p.Pieces[0].OnFold {
		t.Fatalf("%+v", p)
	}
	if a := p.Pieces[0].Outlines["S"].Cut.Area(); a != 120_000e6 {
		t.Errorf("the half is opened out: %d", a)
	}
	for _, s := range []string{"end in their sizes", "not the same in all sizes", "not understood", "in one size", "half on the fold in some"} {
		if !told(d, s) {
			t.Errorf("nothing says %q", s)
		}
	}
	d = read(t, file(piece("Front", "8", "1", "")+piece("Front", "8", "3,3", "")+piece("Front", "10", "2,1", "")+piece("Back", "6", "1", "")+piece("Back", "10", "1", ""), ""), dxf.Options{})
	if p = d.Stated; len(p.Pieces) != 3 || !p.Pieces[1].Pairs || p.Pieces[1].Cut != 6 || p.Sizes[2].Name != "10" || !told(d, "not drawn in every size") || !told(d, "two blocks have this name") {
		t.Errorf("%+v", p)
	}
}

// TestUnits: words before the header; what is said wins; a file that says nothing is asked about.
func TestUnits(t *testing.T) {
	content := words("PIECE NAME: Front") + poly("1", 0, 0, 10, 0, 10, 20)
	for text, want := range map[string]float64{"METRIC": 1, "ENGLISH": 25.4, "cm": 10, "ells": 1} {
		d := read(t, file(block("A", content), words("UNITS: "+text)), dxf.Options{})
		if d.Scale.Unit != want || (text == "ENGLISH" || text == "cm") != told(d, "header says") || (text == "ells") != told(d, "not understood") {
			t.Errorf("%s: %+v %+v", text, d.Scale, d.Warnings)
		}
	}
	if d := read(t, file(block("A", content), ""), dxf.Options{Unit: 25.4}); d.Scale.Unit != 25.4 || !d.Scale.Given || d.Stated.Pieces[0].Outlines[drawn.OneSize].Cut.Bounds().Length() != 254_000 {
		t.Errorf("%+v", d.Scale)
	}
	if d := read(t, file(block("A", content), ""), dxf.Options{}); !told(d, "doubtful") {
		t.Errorf("a piece of 20 mm: %+v", d.Warnings)
	}
}

// TestPlacedBlocks: how a block is turned and scaled where it is placed counts, how often it is
// placed does not say how often it is cut.
func TestPlacedBlocks(t *testing.T) {
	at := "0 INSERT;2 A;10 500;20 0;41 2;42 2;50 90;"
	d := read(t, file(block("A", words("PIECE NAME: Front")+poly("1", 0, 0, 300, 0, 300, 200, 0, 200)), at+at+line("0", 0, 0, 5, 5)), dxf.Options{})
	b := d.Stated.Pieces[0].Outlines[drawn.OneSize].Cut.Bounds()
	if b.Length() != 400_000 || b.Width() != 600_000 || !told(d, "larger or smaller") || !told(d, "placed 2 times") || !told(d, "beside the pattern pieces") {
		t.Errorf("%v %+v", b, d.Warnings)
	}
}

// TestPlainJoins: three ends at one place are left alone, what is drawn twice counts once.
func TestPlainJoins(t *testing.T) {
	square := line("a", 0, 0, 100, 0) + line("a", 100, 0, 100, 100) + line("a", 100, 100, 0, 100) + line("a", 0, 100, 0, 0)
	d := read(t, file("", square+line("a", 0, 0, 100, 0)+line("a", 100, 0, 0, 0)), dxf.Options{})
	if len(d.Shapes) != 1 || !d.Shapes[0].Usable() || d.Shapes[0].Area != 10_000e6 {
		t.Errorf("%+v", d)
	}
	if d = read(t, file("", square+line("a", 0, 0, 50, 50)), dxf.Options{}); len(d.Shapes) == 0 || !told(d, "more than two lines end") {
		t.Errorf("%+v", d)
	}
	if d = read(t, file("", line("a", 0, 0, 100, 0)+line("b", 100, 0, 100, 100)+line("a", 100, 0, 50, 90)+line("a", 50, 90, 0.03, 0)), dxf.Options{}); len(d.Shapes) != 2 || !d.Shapes[0].Usable() {
		t.Errorf("ends that meet nearly, another layer: %+v", d)
	}
}

// TestLetters: escapes, code pages, formatting.
func TestLetters(t *testing.T) {
	for text, want := range map[string]string{`A\U+00E4\U+D83D\U+DE00`: "Aä😀", "caf\xe9": "café", "caf\u00e9": "café", "50%%d": "50°", `\U+`: `\U+`} {
		d := read(t, file(block("A", words("PIECE NAME: "+text)+poly("1", 0, 0, 300, 0, 300, 200)), ""), dxf.Options{})
		if got := d.Stated.Pieces[0].Name; got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	d := read(t, bytes.ReplaceAll(file(block("A", `0 MTEXT;8 1;1 {\fArial|b1§PIECE\~NAME: \LSide\l \U+00E9 front};`+poly("1", 0, 0, 300, 0, 300, 200)), ""), []byte("§"), []byte(";")), dxf.Options{})
	if got := d.Stated.Pieces[0].Name; got != "Side é front" {
		t.Errorf("%q", got)
	}
}
