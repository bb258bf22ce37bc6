package adjust_test

import (
	"encoding/json"
	"errors"
	"maps"
	"math"
	"os/exec"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/adjust"
	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// A strap point moved takes the ends of neck and armhole along by just that, leaves everything
// from the underarm down, and makes the free strap longer by what it lies lower.
func TestStrapPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := sizeOf(t, tank)
		out, down := length(t, "out", -15*mm, 2*cm), length(t, "down", -15*mm, 15*mm)
		if out == 0 && down == 0 {
			return
		}
		p := apply(t, tank, size, adjust.Step{Kind: adjust.Strap, Out: out, Down: down, Pieces: []string{"A"}})
		was, now := edgePath(t, tank, "A", size, "neck"), edgePath(t, p, "A", size, "neck")
		d := now[0].Sub(was[0])
		if d != (shape.Point{X: int64(down), Y: int64(out)}) || now[len(now)-1] != was[len(was)-1] {
			t.Fatalf("the neck's end moved by %v, want %d down and %d out", d, down, out)
		}
		l := levels(tank, "A", size)
		for _, x := range []int64{l[adjust.Underarm], l[adjust.Waist], l[adjust.HipLevel]} {
			if half(t, tank, "A", size, x) != half(t, p, "A", size, x) {
				t.Fatalf("the front is another at %d µm", x)
			}
		}
		if free(tank, size)+down != free(p, size) {
			t.Fatalf("the strap was %d µm, is %d", free(tank, size), free(p, size))
		}
		sound(t, p, size)
	})
}

// free is the length of the straps of the tank.
func free(p pattern.Pattern, size string) measure.Length {
	e, _ := p.Edge("armhole and strap")
	return e.Segments[2].Free[size]
}

// A neckline made deeper lies lower at the fold by just that, made wider its end lies farther out on the
// shoulder, which is shorter then; the edge to finish follows.
func TestNeckline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := sizeOf(t, tee)
		out, down := length(t, "out", -2*cm, 5*cm), length(t, "down", -15*mm, 10*cm)
		if out == 0 && down == 0 {
			return
		}
		p := apply(t, tee, size, adjust.Step{Kind: adjust.Neckline, Out: out, Down: down, Pieces: []string{"A"}})
		was, now := edgePath(t, tee, "A", size, "neck"), edgePath(t, p, "A", size, "neck")
		n, m := len(was)-1, len(now)-1
		if now[m].X-was[n].X != int64(down) || now[m].Y != 0 || now[0].Y-was[0].Y != int64(out) {
			t.Fatalf("the neck ran from %v to %v, now from %v to %v", was[0], was[n], now[0], now[m])
		}
		tip, end := edgePath(t, tee, "A", size, "shoulder"), edgePath(t, p, "A", size, "shoulder")
		if slope := float64(tip[0].X-tip[1].X) / float64(tip[0].Y-tip[1].Y); math.Abs(float64(end[0].X-end[1].X)/float64(end[0].Y-end[1].Y)-slope) > 1e-3 {
			t.Fatalf("the shoulder is another: %v became %v", tip, end)
		}
		l := levels(tee, "A", size)
		for _, x := range []int64{l[adjust.Underarm], l[adjust.Waist]} {
			if half(t, tee, "A", size, x) != half(t, p, "A", size, x) {
				t.Fatalf("the front is another at %d µm", x)
			}
		}
		sound(t, p, size)
	})
}

// measureWithGEOS has GEOS (Debian package python3-shapely) measure what two rings have in
// common, what both cover and what they differ in from a third.
func measureWithGEOS(t *testing.T, a, b, whole shape.Ring) (common, off float64, lengths [3]float64) {
	t.Helper()
	const script = `
import json, sys
from shapely.geometry import Polygon
a, b, w = [Polygon([(p["X"], p["Y"]) for p in r]) for r in json.load(sys.stdin)]
assert a.is_valid and b.is_valid and w.is_valid
print(json.dumps([a.intersection(b).area, a.union(b).symmetric_difference(w).area, a.length, b.length, w.length]))`
	in, err := json.Marshal([]shape.Ring{a, b, whole})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("/usr/bin/python3", "-c", script)
	cmd.Stdin = strings.NewReader(string(in))
	raw, err := cmd.Output()
	if err != nil {
		t.Fatalf("measuring with GEOS (Debian package python3-shapely): %v", err)
	}
	var v [5]float64
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatal(err)
	}
	return v[0], v[1], [3]float64{v[2], v[3], v[4]}
}

// Parted, two panels together are the piece they were parted from, and lie over each other by
// the seam allowance on both sides of the line: by GEOS (python3-shapely), to 0.1 mm along it.
func TestPanelsByGEOS(t *testing.T) {
	const size = "4"
	for _, text := range []string{
		"split A across at 5 cm below the waist",
		"split B along 0 40, 100 40",
		"split B along 40 100, 50 60, 100 45",
		"split A along 45 0, 45 100",
	} {
		s, err := adjust.Parse(text, measure.Centimetre)
		if err != nil {
			t.Fatal(err)
		}
		code := s.Pieces[0]
		p := apply(t, tank, size, s)
		sound(t, p, size)
		if !maps.Equal(tank.Sizes[3].Finished, p.Sizes[0].Finished) {
			t.Errorf("%s: finished %v became %v", text, tank.Sizes[3].Finished, p.Sizes[0].Finished)
		}
		a, b := outlineOf(t, p, code+"1", size).Cut, outlineOf(t, p, code+"2", size).Cut
		whole := outlineOf(t, tank, code, size).Cut
		common, off, lengths := measureWithGEOS(t, a, b, whole)
		if off > 1000*whole.Perimeter()/1000 { // 1 µm all round
			t.Errorf("%s: both panels together differ from the piece by %.1f mm²", text, off/1e6)
		}
		// What both cover is twice the allowance wide, and both outlines run along it.
		along := (lengths[0] + lengths[1] - lengths[2]) / 2
		if want := along * 2 * float64(tank.SeamAllowance); math.Abs(common-want) > 0.1*want {
			t.Errorf("%s: both panels cover %.0f mm², want about %.0f", text, common/1e6, want/1e6)
		}
		for i, r := range []shape.Ring{a, b} {
			if math.Abs(r.Perimeter()-lengths[i]) > 100 {
				t.Errorf("%s: panel %d is %.3f mm round, GEOS says %.3f", text, i+1, r.Perimeter()/1000, lengths[i]/1000)
			}
		}
	}
}

// Edges to finish run on over the panels, as long as they were.
func TestEdgesOverPanels(t *testing.T) {
	const size = "4"
	s, err := adjust.Parse("split A along 12 0, 12 100", measure.Centimetre) // through neck and armhole
	if err != nil {
		t.Fatal(err)
	}
	p := apply(t, tank, size, s)
	for _, e := range tank.Edges {
		now, _ := p.Edge(e.Name)
		if a, b := total(t, tank, e, size), total(t, p, now, size); a-b > 2 || b-a > 2 {
			t.Errorf("%s was %d µm long, is %d", e.Name, a, b)
		}
	}
	e, _ := p.Edge("armhole and strap")
	if len(e.Segments) != 4 || e.Segments[1].MarkEnd != "panel seam" {
		t.Errorf("the armhole runs along %+v", e.Segments)
	}
}

func total(t *testing.T, p pattern.Pattern, e pattern.Edge, size string) measure.Length {
	t.Helper()
	parts, missing := p.Measure(e, size)
	if len(missing) > 0 {
		t.Fatalf("%s misses %v", e.Name, missing)
	}
	sum := measure.Length(0)
	for _, s := range parts {
		sum += s.Length
	}
	return sum
}

// A panel off the fold is cut as a mirrored pair, one on it stays on it.
func TestPanelsAreCut(t *testing.T) {
	s, _ := adjust.Parse("split B along 0 30, 100 30", measure.Centimetre)
	p := apply(t, tank, "4", s)
	centre, _ := p.Piece("B1")
	side, _ := p.Piece("B2")
	if !centre.OnFold || centre.Cut != 1 || side.OnFold || !side.Pairs || side.Cut != 2 {
		t.Errorf("centre %+v, side %+v", centre, side)
	}
}

// A piece on the fold opened out and halved again is the piece it was.
func TestMirrored(t *testing.T) {
	for _, size := range tank.Sizes {
		for _, halfOf := range []string{adjust.LeftHalf, adjust.RightHalf} {
			open := adjust.Step{Kind: adjust.Mirror, Pieces: []string{"A"}}
			whole := apply(t, tank, size.Name, open)
			q, _ := whole.Piece("A")
			if q.OnFold || q.Outlines[size.Name].Cut.Area2() != 2*outlineOf(t, tank, "A", size.Name).Cut.Area2() {
				t.Fatalf("size %s is not opened out", size.Name)
			}
			if halfOf == adjust.LeftHalf { // its stitching lines are drawn on the right half
				_, err := adjust.Apply(tank, size.Name, []adjust.Step{open, {Kind: adjust.Mirror, Half: halfOf, Pieces: []string{"A"}}})
				var e *stash.Error
				if !errors.As(err, &e) || e.Do == "" {
					t.Errorf("the half without the neck was kept: %v", err)
				}
				continue
			}
			again := apply(t, tank, size.Name, open, adjust.Step{Kind: adjust.Mirror, Half: halfOf, Pieces: []string{"A"}})
			r, _ := again.Piece("A")
			if !r.OnFold || r.Outlines[size.Name].Cut.Area2() != outlineOf(t, tank, "A", size.Name).Cut.Area2() {
				t.Errorf("size %s: halved it is another", size.Name)
			}
			sound(t, again, size.Name)
		}
	}
}

// The same steps are replayed on a blend of sizes: the waist loses the same there.
func TestOnABlend(t *testing.T) {
	b, err := sizing.BlendSize(draft.Tank(draft.Chart()), "3", "4", "5")
	if err != nil {
		t.Fatal(err)
	}
	step := adjust.Step{Kind: adjust.TakeIn, Amount: 8 * mm, At: at(adjust.Waist), From: at(adjust.Underarm), To: at(adjust.HipLevel)}
	p := apply(t, b.Pattern, b.Size, step)
	if got := finished(b.Pattern, b.Size, pattern.Waist) - finished(p, b.Size, pattern.Waist); got != 32*mm {
		t.Errorf("the waist of the blend lost %d µm", got)
	}
	sound(t, p, b.Size)
}

// What cannot be is refused with what to do.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		p     pattern.Pattern
		words string
	}{
		{tank, "take in 40 cm at the waist, from the underarm to the hip"},
		{tank, "take in 1 cm at the underarm, from the waist"},
		{tank, "take in 1 cm at 40 cm below the hip"},
		{tank, "take in 1 cm at the crotch"},
		{shorts, "take in 1 cm at the underarm"},
		{tank, "take in 1 cm at the waist along the inseam"},
		{tank, "lengthen 5 cm at 50 cm below the hip"},
		{tank, "shorten 40 cm at the waist"},
		{tank, "hem 55 cm shorter"},
		{tank, "hem at a length of 65 cm, 3 m round"},
		{tee, "strap point 1 cm out"},
		{tank, "strap point 20 cm down on A"},
		{tee, "neckline 12 cm wider"},
		{tee, "neckline 20 cm higher on A"},
		{shorts, "neckline 1 cm deeper"},
		{tank, "split A along 10 10, 20 20"},
		{tank, "split A along 0 0, 100 0"},
		{tank, "split Z across at the waist"},
		{tank, "mirror the left half of A"},
		{shorts, "open out A"},
		{shorts, "mirror the left half of A"},
	} {
		s, err := adjust.Parse(c.words, measure.Centimetre)
		if err != nil {
			t.Errorf("%s: %v", c.words, err)
			continue
		}
		_, err = adjust.Apply(c.p, "4", []adjust.Step{s})
		var e *stash.Error
		if !errors.As(err, &e) || e.Do == "" || e.Kind != stash.Invalid {
			t.Errorf("%s: %v does not say what to do", c.words, err)
		}
	}
	if _, err := adjust.Apply(tank, "nine", nil); err == nil {
		t.Error("a size that is not there was adjusted")
	}
}

// A strap length changes the free strap of the edge and nothing that is cut, in every size; a pattern without
// straps refuses it.
func TestStrapLength(t *testing.T) {
	for _, size := range tank.Sizes {
		plain, err := adjust.Apply(tank, size.Name, nil)
		if err != nil {
			t.Fatal(err)
		}
		out, err := adjust.Apply(tank, size.Name, []adjust.Step{{Kind: adjust.StrapLength, Length: 31 * cm}})
		if err != nil || !reflect.DeepEqual(out.Pattern.Pieces, plain.Pattern.Pieces) || !reflect.DeepEqual(out.Pattern.Sizes, plain.Pattern.Sizes) {
			t.Fatalf("size %s is cut another way, %v", size.Name, err)
		}
		some := false
		for _, e := range out.Pattern.Edges {
			for _, s := range e.Segments {
				if s.Piece == "" {
					some = true
					if s.Free[size.Name] != 31*cm {
						t.Errorf("size %s: %s is %d µm", size.Name, s.Name, s.Free[size.Name])
					}
				}
			}
		}
		if !some {
			t.Errorf("size %s has no strap", size.Name)
		}
	}
	var e *stash.Error
	if _, err := adjust.Apply(shorts, "4", []adjust.Step{{Kind: adjust.StrapLength, Length: 31 * cm}}); !errors.As(err, &e) || e.Do == "" {
		t.Errorf("shorts with straps: %v", err)
	}
}
