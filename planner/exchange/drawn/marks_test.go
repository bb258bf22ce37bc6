package drawn_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

// stroke is an open line or a closed outline on the page, in mm.
type stroke struct {
	closed bool
	f      drawn.Found
	pts    []drawn.Place
}

func open(v ...float64) stroke   { return stroke{pts: places(v)} }
func closed(v ...float64) stroke { return stroke{closed: true, pts: places(v)} }

func places(v []float64) (out []drawn.Place) {
	for i := 0; i+1 < len(v); i += 2 {
		out = append(out, drawn.Place{X: v[i], Y: v[i+1]})
	}
	return out
}

func circle(x, y, r float64) stroke {
	s := stroke{closed: true}
	for k := range 24 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 24)
		s.pts = append(s.pts, drawn.Place{X: x + r*cos, Y: y + r*sin})
	}
	return s
}

func drawing(t testing.TB, all ...stroke) drawn.Drawing {
	t.Helper()
	c := drawn.Collector{Limits: drawn.Limits{Outline: 1000}}
	for i, s := range all {
		s.f.Object = i
		c.Add(s.pts, s.closed, s.f)
	}
	d, err := c.Finish(context.Background(), drawn.Scale{Unit: 1})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// sheet is a piece 200 wide and 300 mm high.
func sheet() stroke { return closed(0, 0, 200, 0, 200, 300, 0, 300) }

func made(t testing.TB, c drawn.Choice, all ...stroke) (pattern.Outline, []drawn.Mark, []drawn.Warning) {
	t.Helper()
	p, marks, warnings := drawing(t, all...).MarkedPattern(c)
	if len(p.Pieces) != 1 {
		t.Fatalf("%d pieces", len(p.Pieces))
	}
	p.Name = "marks"
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	return p.Pieces[0].Outlines[drawn.OneSize], marks, warnings
}

// TestGrainLines: which line is the grain line, which end is its top, and what is offered besides.
func TestGrainLines(t *testing.T) {
	dashed := open(60, 40, 60, 260)
	dashed.f.Line.Dash = "3-1"
	named := open(20, 100, 180, 100)
	named.f.Name = "Grain line"
	marked := open(100, 200, 100, 100)
	marked.f.Heads = [2]bool{true, false}
	for name, c := range map[string]struct {
		on            []stroke
		length, width int64 // of the piece, in mm, once the grain runs along it
		grain         float64
		inner         int
		why           string
	}{
		"none":                     {nil, 300, 200, 0, 0, ""},
		"the longest up the piece": {[]stroke{open(50, 20, 50, 120), open(150, 20, 150, 200), open(10, 250, 190, 250)}, 300, 200, 180, 2, "longest"},
		"from edge to edge":        {[]stroke{open(50, 0, 50, 300)}, 300, 200, 0, 1, ""},
		"dashed":                   {[]stroke{dashed}, 300, 200, 0, 1, ""},
		"short":                    {[]stroke{open(50, 20, 50, 65)}, 300, 200, 0, 1, ""},
		"across, with arms":        {[]stroke{open(50, 20, 50, 280), open(20, 100, 180, 100), open(26, 97, 20, 100, 26, 103)}, 200, 300, 160, 1, "arrow"},
		"arms in one stroke":       {[]stroke{open(94, 48, 100, 40, 106, 48), open(100, 40, 100, 120)}, 300, 200, 80, 0, "arrow"},
		"a line with its head":     {[]stroke{open(100, 120, 100, 40, 96, 48)}, 300, 200, 80, 0, "arrow"},
		"a filled head":            {[]stroke{open(100, 46, 100, 120), closed(97, 48, 103, 48, 100, 38)}, 300, 200, 74, 0, "arrow"},
		"an arrow as an area":      {[]stroke{closed(100, 40, 104, 50, 101, 50, 101, 130, 99, 130, 99, 50, 96, 50)}, 300, 200, 90, 0, "arrow"},
		"a thin box":               {[]stroke{closed(100, 40, 106, 40, 106, 130, 100, 130)}, 300, 200, 0, 1, ""},
		"named":                    {[]stroke{open(50, 20, 50, 280), named}, 200, 300, 160, 1, "named grain"},
		"a head of the file":       {[]stroke{open(50, 20, 50, 280), marked}, 300, 200, 100, 1, "arrow"},
	} {
		t.Run(name, func(t *testing.T) {
			o, marks, warnings := made(t, drawn.Choice{}, append([]stroke{sheet()}, c.on...)...)
			b := o.Cut.Bounds()
			if b.Length() != c.length*1000 || b.Width() != c.width*1000 || len(o.Inner) != c.inner {
				t.Errorf("%v, %d lines", b, len(o.Inner))
			}
			on := 0
			for _, m := range marks {
				if m.Kind == drawn.GrainMark && m.On {
					on++
					if math.Abs(m.Length.Millimetres()-c.grain) > 1.1 || !strings.Contains(m.Why, c.why) || m.Number != 1 {
						t.Errorf("%+v", m)
					}
				}
			}
			if (on == 1) != (c.grain > 0) || (len(warnings) > 0 && warnings[len(warnings)-1].Reason == drawn.Grain) != (c.grain == 0) {
				t.Errorf("%+v, %+v", marks, warnings)
			}
			if o.GrainTop.X >= o.GrainFoot.X || o.GrainTop.Y != o.GrainFoot.Y {
				t.Errorf("grain from %v to %v", o.GrainFoot, o.GrainTop)
			}
		})
	}
}

// TestTopOfGrain: one head is the top, with none or two the upper end, of a level line the left.
func TestTopOfGrain(t *testing.T) {
	corner := circle(20, 20, 3) // near the upper left of the page
	for name, c := range map[string]struct {
		grain []stroke
		want  shape.Point // where the dot lies then, in mm
	}{
		"up":          {[]stroke{open(100, 250, 100, 50)}, shape.Point{X: 20, Y: 20}},
		"down":        {[]stroke{open(100, 50, 100, 250)}, shape.Point{X: 20, Y: 20}},
		"head below":  {[]stroke{open(100, 50, 100, 250), open(96, 242, 100, 250, 104, 242)}, shape.Point{X: 280, Y: 180}},
		"both heads":  {[]stroke{open(100, 50, 100, 250), open(96, 242, 100, 250, 104, 242), open(96, 58, 100, 50, 104, 58)}, shape.Point{X: 20, Y: 20}},
		"level":       {[]stroke{open(40, 150, 160, 150), open(48, 146, 40, 150, 48, 154), open(152, 146, 160, 150, 152, 154)}, shape.Point{X: 20, Y: 280}},
		"level right": {[]stroke{open(40, 150, 160, 150), open(152, 146, 160, 150, 152, 154)}, shape.Point{X: 180, Y: 20}},
	} {
		o, _, _ := made(t, drawn.Choice{}, append([]stroke{sheet(), corner}, c.grain...)...)
		if len(o.Dots) != 1 || math.Abs(float64(o.Dots[0].X-c.want.X*1000)) > 2 || math.Abs(float64(o.Dots[0].Y-c.want.Y*1000)) > 2 {
			t.Errorf("%s: the dot lies at %v, want %v", name, o.Dots, c.want)
		}
	}
}

// TestNotches: strokes, small shapes and steps of the outline; what only looks like them stays a line.
func TestNotches(t *testing.T) {
	outer := closed(0, 0, 200, 0, 200, 140, 190, 145, 200, 150, 200, 300, 105, 300, 105, 294, 95, 294, 95, 300, 0, 300)
	for name, c := range map[string]struct {
		all                  []stroke
		notches, dots, inner int
		double               bool
	}{
		"strokes":                      {[]stroke{sheet(), open(0, 100, 6, 100), open(200, 200, 194, 200), open(100, 300, 100, 294)}, 3, 0, 0, false},
		"a stroke that ends short":     {[]stroke{sheet(), open(3, 100, 9, 100)}, 0, 0, 1, false},
		"a stroke along the edge":      {[]stroke{sheet(), open(0, 100, 0, 108)}, 0, 0, 1, false},
		"across and outside":           {[]stroke{sheet(), open(-4, 100, 4, 100), open(200, 50, 208, 50)}, 2, 0, 0, false},
		"two close together":           {[]stroke{sheet(), open(0, 100, 6, 100), open(0, 106, 6, 106), open(0, 200, 6, 200)}, 2, 0, 0, true},
		"V and triangles":              {[]stroke{sheet(), open(0, 100, 5, 103, 0, 106), closed(200, 100, 194, 103, 200, 106), closed(200, 150, 206, 153, 200, 156)}, 3, 0, 0, false},
		"steps of the outline":         {[]stroke{outer}, 2, 0, 0, false},
		"circles and crosses":          {[]stroke{sheet(), circle(50, 50, 3), open(96, 100, 104, 100), open(100, 96, 100, 104)}, 0, 2, 0, false},
		"a pocket, a long line, a bow": {[]stroke{sheet(), closed(50, 50, 100, 50, 100, 110, 50, 110), open(0, 150, 200, 150), open(60, 200, 66, 201, 72, 200)}, 0, 0, 3, false},
	} {
		t.Run(name, func(t *testing.T) {
			o, _, warnings := made(t, drawn.Choice{}, c.all...)
			double := false
			for _, n := range o.Notches {
				double = double || n.Kind == "double"
			}
			if len(o.Notches) != c.notches || len(o.Dots) != c.dots || len(o.Inner) != c.inner || double != c.double {
				t.Errorf("%+v, %v, %d lines; %v", o.Notches, o.Dots, len(o.Inner), warnings)
			}
			if len(o.Cut) != 4 {
				t.Errorf("the outline is %v", o.Cut)
			}
			plain, _, _ := made(t, drawn.Choice{OnlyLines: true}, c.all...)
			if len(plain.Notches)+len(plain.Dots) != 0 {
				t.Errorf("%+v", plain)
			}
		})
	}
}

// TestMarksCorrected: what a person says of a mark holds in every size; the line comes back.
func TestMarksCorrected(t *testing.T) {
	all := []stroke{sheet(), open(200, 100, 194, 100), open(0, 100, 6, 100), open(50, 20, 50, 200), open(150, 20, 150, 180), circle(100, 250, 3)}
	second := drawn.MarkName{Piece: "A", Kind: drawn.NotchMark, Number: 2}
	o, marks, _ := made(t, drawn.Choice{Plain: map[drawn.MarkName]bool{second: true, {Piece: "A", Kind: drawn.DotMark, Number: 1}: true}}, all...)
	if len(o.Notches) != 1 || o.Notches[0].At.Y != 200_000 || len(o.Dots) != 0 || len(o.Inner) != 3 {
		t.Errorf("%+v", o)
	}
	off := 0
	for _, m := range marks {
		if !m.On {
			off++
		}
		if m.MarkName == second && (m.On || m.At != shape.Point{X: 100_000}) {
			t.Errorf("%+v", m)
		}
	}
	if off != 3 { // with the other straight line
		t.Errorf("%+v", marks)
	}
	if got := drawn.Recognised(marks, "A", drawn.OneSize); got != "grain line, 1 notch" {
		t.Errorf("%q", got)
	}
	for name, c := range map[string]struct {
		wish   drawn.GrainWish
		length int64
		inner  int
		first  int64 // where the notch at the right edge lies along the piece
	}{
		"second":  {drawn.GrainWish{Line: 2}, 300, 1, 100},
		"up":      {drawn.GrainWish{Way: drawn.UpPage}, 300, 2, 100},
		"turned":  {drawn.GrainWish{Turn: true}, 300, 1, 200},
		"across":  {drawn.GrainWish{Way: drawn.AcrossP}, 200, 2, 200},
		"no such": {drawn.GrainWish{Line: 9}, 300, 2, 100},
	} {
		o, _, _ := made(t, drawn.Choice{Grain: map[string]drawn.GrainWish{"A": c.wish}}, all...)
		if o.Cut.Bounds().Length() != c.length*1000 || len(o.Inner) != c.inner || o.Notches[0].At.X != c.first*1000 {
			t.Errorf("%s: %+v", name, o)
		}
	}
}

// TestGrainOfOtherSizes: a size whose drawing has no grain line takes that of another.
func TestGrainOfOtherSizes(t *testing.T) {
	small, large, grain := sheet(), sheet(), open(20, 100, 180, 100)
	small.f, large.f, grain.f = drawn.Found{Name: "Front", Group: []string{"S"}}, drawn.Found{Name: "Front", Group: []string{"L"}}, drawn.Found{Name: "grain", Group: []string{"L"}}
	p, _, warnings := drawing(t, small, large, grain).MarkedPattern(drawn.Choice{Layers: true})
	for _, z := range []string{"S", "L"} {
		if b := p.Pieces[0].Outlines[z].Cut.Bounds(); b.Length() != 200_000 {
			t.Errorf("%s: %v", z, b)
		}
	}
	if len(warnings) != 0 {
		t.Errorf("%+v", warnings)
	}
}

// TestTurnedPieceKeepsItsMeasures: however a piece lies on the page, area, notches on its edge and the
// length of its grain line are the same, and the grain runs along it.
func TestTurnedPieceKeepsItsMeasures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn"))
		all := []stroke{sheet(), open(100, 260, 100, 60), open(94, 68, 100, 60, 106, 68), open(0, 100, 6, 100), open(200, 180, 194, 180)}
		c := drawn.Collector{Limits: drawn.Limits{Outline: 100}}
		for i, s := range all {
			pts := make([]drawn.Place, len(s.pts))
			for k, p := range s.pts {
				pts[k] = drawn.Place{X: 500 + p.X*cos - p.Y*sin, Y: 500 + p.X*sin + p.Y*cos}
			}
			c.Add(pts, s.closed, drawn.Found{Object: i})
		}
		d, err := c.Finish(context.Background(), drawn.Scale{Unit: 1})
		if err != nil {
			t.Fatal(err)
		}
		p, _, _ := d.MarkedPattern(drawn.Choice{})
		p.Name = "turned"
		if err := p.Validate(); err != nil || len(p.Pieces) != 1 {
			t.Fatal(err, p)
		}
		o := p.Pieces[0].Outlines[drawn.OneSize]
		if b := o.Cut.Bounds(); math.Abs(float64(b.Length())-300_000) > 100 || math.Abs(float64(b.Width())-200_000) > 100 || math.Abs(float64(o.Cut.Area())-6e10) > 5e6 {
			t.Fatalf("%v", b)
		}
		if len(o.Notches) != 2 || len(o.Inner) != 0 || math.Abs(float64(o.GrainFoot.X-o.GrainTop.X)-200_000) > 5 {
			t.Fatalf("%+v", o)
		}
		at := map[int64]bool{}
		for _, n := range o.Notches {
			at[int64(math.Round(float64(n.At.X)/1000))] = true
		}
		if !at[100] || !at[180] {
			t.Fatalf("%v", o.Notches)
		}
	})
}
