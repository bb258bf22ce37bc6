package binding_test

import (
	"errors"
	"math"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func TestParseEdge(t *testing.T) {
	j, err := binding.ParseEdge("armhole x2: back 20,5 cm turns 52 mark side seam join here, front 22 cm turns -92 catches neck no join at 88 %, long strap 16 cm free", measure.Centimetre)
	if err != nil {
		t.Fatal(err)
	}
	want := []binding.Segment{
		{Name: "back", Length: 205 * mm, Turning: 52 * math.Pi / 180, Mark: "side seam", JoinHere: true},
		{Name: "front", Length: 22 * cm, Turning: -92 * math.Pi / 180, Catches: "neck", NoJoin: true, Ratio: 0.88},
		{Name: "long strap", Length: 16 * cm, Free: true},
	}
	if j.Name != "armhole" || j.Count != 2 || j.Closed || len(j.Segments) != 3 {
		t.Fatalf("%+v", j)
	}
	for i, w := range want {
		got := j.Segments[i]
		if math.Abs(got.Turning-w.Turning) > 1e-9 {
			t.Errorf("%f turned, want %f", got.Turning, w.Turning)
		}
		if got.Turning = w.Turning; got != w {
			t.Errorf("%+v, want %+v", j.Segments[i], w)
		}
	}
	if j, err = binding.ParseEdge("neck: 24 1/2 in turns 360, ring", measure.Centimetre); err != nil || !j.Closed || j.Segments[0].Name != "neck" || j.Segments[0].Length != 49*in/2 {
		t.Errorf("%+v, %v", j, err)
	}
	if j, err = binding.ParseEdge("62", measure.Centimetre); err != nil || j.Name != "edge" || j.Segments[0].Length != 62*cm {
		t.Errorf("%+v, %v", j, err)
	}
	for _, bad := range []string{"", "neck", "neck: front", "neck x0: 3 cm", "neck x: 3 cm", "neck: 3 cm turns left", "neck: 3 cm wobbles", "ring", "neck: 3 cm free 2", "neck: 3 cm at"} {
		if j, err := binding.ParseEdge(bad, measure.Centimetre); !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("%q reads as %+v, %v", bad, j, err)
		}
	}
}

func FuzzParseEdge(f *testing.F) {
	for _, s := range []string{"62 cm", "neck: back 21 cm turns 74, front 34 cm turns 166 mark end, ring", "a x3: 1/2 in free, b 2,5 at 90 %", ":::", " x2: ,"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		j, err := binding.ParseEdge(text, measure.Centimetre)
		if err == nil && (len(j.Segments) == 0 || j.Count < 1) {
			t.Fatalf("%q: %+v", text, j)
		}
		for _, s := range j.Segments {
			if s.Length <= 0 || math.IsNaN(s.Turning) {
				t.Fatalf("%q: %+v", text, s)
			}
		}
	})
}

// A line drawn as an arc is as long as that and turns as far (plane geometry); a V is split
// at its point, a circle turns 360° less its one corner of none.
func TestEdgeAlong(t *testing.T) {
	var arc, circle [][2]float64
	for i := range 91 {
		a := float64(i) * math.Pi / 90 // a half circle of 10 cm, to the left
		arc = append(arc, [2]float64{1e5 * math.Sin(a), -1e5 * math.Cos(a)})
	}
	for i := range 360 {
		a := float64(i) * math.Pi / 180
		circle = append(circle, [2]float64{1e5 * math.Cos(a), 1e5 * math.Sin(a)})
	}
	got, err := binding.EdgeAlong(arc, false)
	if err != nil || len(got) != 1 || math.Abs(float64(got[0].Length)-math.Pi*1e5) > 50 || math.Abs(got[0].Turning-math.Pi) > 0.04 {
		t.Errorf("%+v, %v", got, err)
	}
	got, err = binding.EdgeAlong(circle, true)
	if err != nil || len(got) != 1 || math.Abs(float64(got[0].Length)-2*math.Pi*1e5) > 50 || math.Abs(got[0].Turning-2*math.Pi) > 0.001 {
		t.Errorf("%+v, %v", got, err)
	}
	v := [][2]float64{{0, 0}, {1e5, -1e5}, {2e5, 0}}
	if got, err = binding.EdgeAlong(v, false); err != nil || len(got) != 2 || got[0].Turning != 0 || got[0].Length != 141_421 {
		t.Errorf("%+v, %v", got, err)
	}
	if _, err = binding.EdgeAlong([][2]float64{{1, 1}, {1, 1}}, false); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("%v", err)
	}
}

// TestRectangleFor: the rectangle for a length yields that length, and the square is the
// rectangle as wide as it is long.
func TestRectangleFor(t *testing.T) {
	for _, seam := range []measure.Length{0, in / 4} {
		l, err := binding.RectangleFor(450*in, 40*in, 2*in, seam)
		back := binding.Continuous{Width: 40 * in, Length: l, CutWidth: 2 * in, Seam: seam}.Yield()
		if err != nil || back < 450*in || back > 450*in+100 {
			t.Errorf("%d, back %d, %v", l, back, err)
		}
		side, _ := binding.SquareFor(450*in, 2*in, seam)
		if again, _ := binding.RectangleFor(450*in, side, 2*in, seam); again > side || again < side-100 {
			t.Errorf("square of %d, rectangle of %d", side, again)
		}
	}
	for _, c := range [][4]measure.Length{{0, in, in, 0}, {in, 0, in, 0}, {in, in, 0, 0}, {in, in, in, -1}, {in, in, in, in}, {90 * measure.Metre, in, in, 0}} {
		if l, err := binding.RectangleFor(c[0], c[1], c[2], c[3]); c[0] < 90*measure.Metre && !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("%v: %d, %v", c, l, err)
		}
	}
}
