package adjust_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/adjust"
	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

const (
	mm = measure.Millimetre
	cm = measure.Centimetre
)

// The patterns of the demo studio, drafted once.
var (
	tank   = draft.Tank(draft.Chart())
	tee    = draft.Tee(draft.Chart())
	shorts = draft.Shorts(draft.Chart())
)

func at(level string) adjust.Place { return adjust.Place{Level: level} }

func below(level string, by measure.Length) adjust.Place {
	return adjust.Place{Level: level, Below: by}
}

// length is a whole number of µm between two lengths.
func length(t *rapid.T, name string, least, most measure.Length) measure.Length {
	return measure.Length(rapid.Int64Range(int64(least), int64(most)).Draw(t, name))
}

// tops draws a top, anyPattern any of the patterns.
func tops(t *rapid.T) pattern.Pattern { return anyOf(t, tank, tee) }

func anyPattern(t *rapid.T) pattern.Pattern { return anyOf(t, tank, tee, shorts) }

func anyOf(t *rapid.T, all ...pattern.Pattern) pattern.Pattern {
	return all[rapid.IntRange(0, len(all)-1).Draw(t, "pattern")]
}

func sizeOf(t *rapid.T, p pattern.Pattern) string {
	return p.Sizes[rapid.IntRange(0, len(p.Sizes)-1).Draw(t, "size")].Name
}

// tester is what testing.T and rapid.T have in common here.
type tester interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

func apply(t tester, p pattern.Pattern, size string, steps ...adjust.Step) pattern.Pattern {
	t.Helper()
	out, err := adjust.Apply(p, size, steps)
	if err != nil {
		t.Fatalf("%s size %s, %+v: %v", p.Name, size, steps, err)
	}
	return out.Pattern
}

func outlineOf(t tester, p pattern.Pattern, code, size string) pattern.Outline {
	t.Helper()
	q, ok := p.Piece(code)
	if !ok || len(q.Outlines[size].Cut) == 0 {
		t.Fatalf("%s has no piece %s in size %s", p.Name, code, size)
	}
	return q.Outlines[size]
}

// half is the breadth of a half at a depth.
func half(t tester, p pattern.Pattern, code, size string, x int64) int64 {
	t.Helper()
	ys := adjust.Crossings(outlineOf(t, p, code, size).Cut, x)
	if len(ys) < 2 {
		t.Fatalf("piece %s of %s is not crossed at %d µm", code, p.Name, x)
	}
	return ys[len(ys)-1]
}

func levels(p pattern.Pattern, code, size string) map[string]int64 {
	q, _ := p.Piece(code)
	return adjust.LevelsOf(p, q, size)
}

// finished is a finished measurement.
func finished(p pattern.Pattern, size, name string) measure.Length {
	s, _ := p.Size(size)
	return s.Finished[name]
}

// sound refuses what no pattern may have.
func sound(t tester, p pattern.Pattern, size string) {
	t.Helper()
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	for _, q := range p.Pieces {
		if err := q.Whole(size).Validate(); err != nil {
			t.Fatalf("%s opened out: %v", q.Name, err)
		}
	}
}

// Common practice: p at both side seams removes p of the front and p of the back at each, 4p of
// the girth; hip and underarm are as they were.
func TestTakenInByFourTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tops(t)
		size := sizeOf(t, p)
		by := length(t, "p", -2*cm, 25*mm)
		if by == 0 {
			return
		}
		s := adjust.Step{Kind: adjust.TakeIn, Amount: by, At: at(adjust.Waist), From: at(adjust.Underarm), To: at(adjust.HipLevel)}
		out := apply(t, p, size, s)
		for _, code := range []string{"A", "B"} {
			l := levels(p, code, size)
			if got := half(t, p, code, size, l[adjust.Waist]) - half(t, out, code, size, l[adjust.Waist]); got != int64(by) {
				t.Fatalf("%s lost %d µm of %d", code, got, by)
			}
			for _, x := range []int64{l[adjust.Underarm], l[adjust.HipLevel], l[adjust.HipLevel] + 5000} {
				if half(t, p, code, size, x) != half(t, out, code, size, x) {
					t.Fatalf("%s is another at %d µm", code, x)
				}
			}
		}
		if got := finished(p, size, pattern.Waist) - finished(out, size, pattern.Waist); got != 4*by {
			t.Fatalf("the finished waist lost %d µm, want %d", got, 4*by)
		}
		for _, name := range []string{pattern.Bust, pattern.Hip, pattern.BodyLen} {
			if finished(p, size, name) != finished(out, size, name) {
				t.Fatalf("the finished %s changed", name)
			}
		}
		sound(t, out, size)
	})
}

// hundredth of a millimetre, in µm: what rounding every point of an edge to whole µm leaves.
const hundredth = 10.0

// edgePath is a stitching line by its name.
func edgePath(t tester, p pattern.Pattern, code, size, name string) []shape.Point {
	t.Helper()
	for _, e := range outlineOf(t, p, code, size).Edges {
		if e.Name == name {
			return e.Points
		}
	}
	t.Fatalf("%s has no edge %s", code, name)
	return nil
}

// edge is the length of a stitching line in µm.
func edge(t tester, p pattern.Pattern, code, size, name string) float64 {
	sum, pts := 0.0, edgePath(t, p, code, size, name)
	for i := 1; i < len(pts); i++ {
		sum += adjust.Gap(pts[i-1], pts[i])
	}
	return sum
}

// Common practice: p at the underarm makes each armhole edge 2p shorter, p in front and p behind, whatever
// way it runs up from the seam; the seam itself comes in by p measured level.
func TestUnderarmShortensTheArmhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tops(t)
		size := sizeOf(t, p)
		by := length(t, "p", -15*mm, 2*cm)
		if by == 0 {
			return
		}
		out := apply(t, p, size, adjust.Step{Kind: adjust.TakeIn, Amount: by, At: at(adjust.Underarm), To: at(adjust.Waist)})
		lost := 0.0
		for _, code := range []string{"A", "B"} {
			lost += edge(t, p, code, size, "armhole") - edge(t, out, code, size, "armhole")
			was, now := edgePath(t, p, code, size, "armhole"), edgePath(t, out, code, size, "armhole")
			if was[0].Y-now[0].Y != int64(by) || was[len(was)-1] != now[len(now)-1] {
				t.Fatalf("the armhole of %s ran from %v to %v, now from %v to %v", code, was[0], was[len(was)-1], now[0], now[len(now)-1])
			}
		}
		if off := math.Abs(lost - 2*float64(by)); off > hundredth {
			t.Fatalf("size %s of %s: the armhole lost %.0f µm, want %d", size, p.Name, lost, 2*by)
		}
		if got := finished(p, size, pattern.Bust) - finished(out, size, pattern.Bust); got != 4*by {
			t.Fatalf("the finished bust lost %d µm, want %d", got, 4*by)
		}
		if finished(p, size, pattern.Hip) != finished(out, size, pattern.Hip) {
			t.Fatal("the hip changed")
		}
		sound(t, out, size)
	})
}

// boxTop is a half drawn by hand, of invented measures, with seams of 1 cm: its armhole
// runs out of the side seam for 10 cm, rising by so much: 0 is square.
func boxTop(rising int64) pattern.Pattern {
	cut := shape.Ring{{X: 100_000, Y: 0}, {X: 600_000, Y: 0}, {X: 600_000, Y: 250_000}, {X: 200_000, Y: 250_000}, {X: 200_000 - rising, Y: 140_000}, {X: 0, Y: 140_000}, {X: 0, Y: 60_000}}
	o := func() pattern.Outline {
		return pattern.Outline{Cut: append(shape.Ring(nil), cut...), Edges: []pattern.EdgePath{
			{Name: "armhole", Points: []shape.Point{{X: 210_000, Y: 240_000}, {X: 210_000 - rising, Y: 130_000}, {X: 0, Y: 130_000}}},
			{Name: "side", Points: []shape.Point{{X: 580_000, Y: 240_000}, {X: 210_000, Y: 240_000}}},
		}}
	}
	piece := func(code, name string) pattern.Piece {
		return pattern.Piece{Code: code, Name: name, Role: pattern.Main, Cut: 1, OnFold: true, Outlines: map[string]pattern.Outline{"1": o()}}
	}
	return pattern.Pattern{Name: "Box top", Sizes: []pattern.Size{{Name: "1", Finished: map[string]measure.Length{pattern.Bust: 96 * cm}}},
		Roles: []pattern.Role{{Name: pattern.Main}}, SeamAllowance: cm, HemAllowance: 2 * cm,
		Pieces: []pattern.Piece{piece("A", "Front"), piece("B", "Back")}}
}

// However steeply the armhole rises from the seam, the strip round both armholes is shorter by
// 4p, and the armhole reaches up to where it did; where it leaves the seam square it keeps its depth too.
func TestSteepArmholeExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rising := rapid.SampledFrom([]int64{0, 0, 5_000, 40_000, 100_000, 140_000}).Draw(t, "rising")
		p := boxTop(rising)
		by := length(t, "p", -2*cm, 4*cm)
		if by == 0 {
			return
		}
		out := apply(t, p, "1", adjust.Step{Kind: adjust.TakeIn, Amount: by, At: at(adjust.Underarm), To: below(adjust.Underarm, 20*cm)})
		lost := 0.0
		for _, code := range []string{"A", "B"} {
			lost += 2 * (edge(t, p, code, "1", "armhole") - edge(t, out, code, "1", "armhole"))
			was, now := edgePath(t, p, code, "1", "armhole"), edgePath(t, out, code, "1", "armhole")
			if was[0].Y-now[0].Y != int64(by) || was[len(was)-1] != now[len(now)-1] || rising == 0 && now[0].X != was[0].X {
				t.Fatalf("the armhole of %s ran from %v to %v, now from %v to %v", code, was[0], was[len(was)-1], now[0], now[len(now)-1])
			}
		}
		if math.Abs(lost-4*float64(by)) > 4*hundredth {
			t.Fatalf("both armholes lost %.3f µm, want %d", lost, 4*by)
		}
		// Let out, a steep armhole ends lower than it did by more than the allowance of 1 cm, and the
		// bust is measured there.
		off := float64(0)
		if now := edgePath(t, out, "A", "1", "armhole")[0].X; now > 220_000 {
			off = float64(mm)
		}
		if lost := finished(p, "1", pattern.Bust) - finished(out, "1", pattern.Bust); math.Abs(float64(lost-4*by)) > off {
			t.Fatalf("the finished bust lost %d µm, want %d", lost, 4*by)
		}
		sound(t, out, "1")
	})
}

// A sleeve that is sewn in one with the side becomes narrower with it, so that its cap goes
// on fitting the armhole.
func TestSleeveFollows(t *testing.T) {
	for _, s := range tee.Sizes {
		out := apply(t, tee, s.Name, adjust.Step{Kind: adjust.TakeIn, Amount: cm, At: at(adjust.Underarm), To: at(adjust.Waist)})
		cap, hole := edge(t, tee, "C", s.Name, "cap")-edge(t, out, "C", s.Name, "cap"), 0.0
		for _, code := range []string{"A", "B"} {
			hole += edge(t, tee, code, s.Name, "armhole") - edge(t, out, code, s.Name, "armhole")
		}
		if math.Abs(cap-hole) > 2*hundredth {
			t.Errorf("size %s: the cap lost %.2f mm, the armhole %.2f", s.Name, cap/1000, hole/1000)
		}
		sound(t, out, s.Name)
	}
}

// Made longer at a line, a piece has the breadths it had, those below the line so much lower.
func TestLengthenedLeavesBreadths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tops(t)
		size := sizeOf(t, p)
		by := length(t, "by", mm, 15*cm)
		place := rapid.SampledFrom([]adjust.Place{at(adjust.Waist), below(adjust.Waist, 5*cm), below(adjust.Underarm, 3*cm), below(adjust.Top, 15*cm), at(adjust.HipLevel)}).Draw(t, "line")
		out := apply(t, p, size, adjust.Step{Kind: adjust.Lengthen, Amount: by, At: place})
		for _, code := range []string{"A", "B"} {
			l := levels(p, code, size)
			line := l[place.Level] + int64(place.Below)
			box := outlineOf(t, p, code, size).Cut.Bounds()
			x := rapid.Int64Range(box.Min.X+40_000, box.Max.X-1000).Draw(t, "x")
			if x == line {
				continue
			}
			to := x
			if x > line {
				to += int64(by)
			}
			a, b := adjust.Crossings(outlineOf(t, p, code, size).Cut, x), adjust.Crossings(outlineOf(t, out, code, size).Cut, to)
			if !near(a, b, 1) {
				t.Fatalf("%s %s: breadths %v at %d µm became %v", p.Name, code, a, x, b)
			}
			if now := outlineOf(t, out, code, size).Cut.Bounds(); now.Width() != box.Width() || now.Length() != box.Length()+int64(by) {
				t.Fatalf("bounds %v became %v", box, now)
			}
		}
		for _, name := range []string{pattern.Bust, pattern.Waist, pattern.Hip} {
			if finished(p, size, name) != finished(out, size, name) {
				t.Fatalf("the finished %s changed", name)
			}
		}
		if finished(out, size, pattern.BodyLen)-finished(p, size, pattern.BodyLen) != by {
			t.Fatal("the finished length did not follow")
		}
		sound(t, out, size)
	})
}

func near(a, b []int64, off int64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if d := a[i] - b[i]; d > off || d < -off {
			return false
		}
	}
	return true
}

// Made shorter, the levels keep their breadths too.
func TestShortenedLeavesLevels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tops(t)
		size := sizeOf(t, p)
		by := length(t, "by", mm, 4*cm)
		out := apply(t, p, size, adjust.Step{Kind: adjust.Lengthen, Amount: -by, At: below(adjust.Waist, 8*cm)})
		for _, name := range []string{pattern.Bust, pattern.Waist, pattern.Hip} {
			if d := finished(p, size, name) - finished(out, size, name); d > 8 || d < -8 {
				t.Fatalf("the finished %s changed by %d µm", name, d)
			}
		}
		if finished(p, size, pattern.BodyLen)-finished(out, size, pattern.BodyLen) != by {
			t.Fatal("the finished length did not follow")
		}
		sound(t, out, size)
	})
}

// The hem goes down by what is asked, wherever seams end, and the rest stays.
func TestHem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		size := sizeOf(t, p)
		by := length(t, "by", -3*cm, 60*cm)
		if by == 0 {
			return
		}
		out := apply(t, p, size, adjust.Step{Kind: adjust.Hem, Amount: by})
		for _, code := range []string{"A", "B"} {
			was, now := outlineOf(t, p, code, size).Cut.Bounds(), outlineOf(t, out, code, size).Cut.Bounds()
			if now.Max.X-was.Max.X != int64(by) || now.Min.X != was.Min.X {
				t.Fatalf("%s of %s: from %v to %v, want %d µm lower", code, p.Name, was, now, by)
			}
			if a, b := levels(p, code, size)[adjust.HemLevel], levels(out, code, size)[adjust.HemLevel]; b-a != int64(by) {
				t.Fatalf("the fold of the hem went from %d to %d", a, b)
			}
		}
		if p.Name != shorts.Name && finished(out, size, pattern.BodyLen)-finished(p, size, pattern.BodyLen) != by {
			t.Fatal("the finished length did not follow")
		}
		sound(t, out, size)
	})
}

// A tank becomes a dress: as long and as wide round the hem as asked, and the same above the hip.
func TestDress(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tops(t)
		size := sizeOf(t, p)
		long, round := length(t, "length", 90*cm, 130*cm), finished(p, size, pattern.Hip)+length(t, "wider", -4*cm, 60*cm)
		out := apply(t, p, size, adjust.Step{Kind: adjust.Hem, Length: long, Round: round})
		if got := finished(out, size, pattern.BodyLen); got != long {
			t.Fatalf("it is %d µm long, want %d", got, long)
		}
		sum := 0.0
		for _, code := range []string{"A", "B"} {
			for _, e := range outlineOf(t, out, code, size).Edges {
				if e.Name == "hem" {
					sum += 2 * float64(e.Points[len(e.Points)-1].Y-e.Points[0].Y)
				}
			}
			l := levels(p, code, size)
			for _, x := range []int64{l[adjust.Waist], l[adjust.HipLevel] - 20_000} {
				if half(t, p, code, size, x) != half(t, out, code, size, x) {
					t.Fatalf("%s is another at %d µm", code, x)
				}
			}
		}
		if math.Abs(sum-float64(round)) > float64(mm) {
			t.Fatalf("the hem is %.1f mm round, want %.1f", sum/1000, float64(round)/1000)
		}
		sound(t, out, size)
	})
}

// anyStep draws a step that may or may not be possible.
func anyStep(t *rapid.T) adjust.Step {
	place := func(name string) adjust.Place {
		if rapid.Bool().Draw(t, name+" said") {
			return adjust.Place{}
		}
		return below(rapid.SampledFrom(adjust.Levels()).Draw(t, name), length(t, name+" below", -20*cm, 20*cm))
	}
	s := adjust.Step{Kind: rapid.SampledFrom(adjust.Kinds()).Draw(t, "kind"), At: place("at"), From: place("from"), To: place("to")}
	s.Amount = length(t, "amount", -15*cm, 15*cm)
	switch s.Kind {
	case adjust.Hem:
		s.Round = rapid.SampledFrom([]measure.Length{0, 0, 80 * cm, 160 * cm}).Draw(t, "round")
	case adjust.StrapLength:
		s.Length = length(t, "strap", 20*cm, 60*cm)
	case adjust.Strap, adjust.Neckline:
		s.Out, s.Down = length(t, "out", -6*cm, 6*cm), length(t, "down", -8*cm, 15*cm)
	case adjust.Panels, adjust.Mirror:
		s.Pieces = []string{rapid.SampledFrom([]string{"A", "B", "C"}).Draw(t, "piece")}
		if s.Kind == adjust.Panels && !s.At.Said() {
			for range rapid.IntRange(2, 4).Draw(t, "points") {
				s.Line = append(s.Line, shape.Point{X: rapid.Int64Range(-50, 1050).Draw(t, "x"), Y: rapid.Int64Range(-50, 1050).Draw(t, "y")})
			}
		}
	}
	if rapid.IntRange(0, 3).Draw(t, "named") == 0 && len(s.Pieces) == 0 && s.Kind != adjust.StrapLength {
		s.Pieces = []string{rapid.SampledFrom([]string{"A", "B", "C"}).Draw(t, "for")}
	}
	return s
}

// Whatever is asked, what comes out can be cut and comes out again the same; what cannot be is
// refused with what to do, and the pattern given stays as it was.
func TestReplayedAlikeAndNeverCrossing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		size := sizeOf(t, p)
		var steps []adjust.Step
		for range rapid.IntRange(1, 3).Draw(t, "steps") {
			steps = append(steps, anyStep(t))
		}
		out, err := adjust.Apply(p, size, steps)
		if err != nil {
			var e *stash.Error
			if !errors.As(err, &e) || e.Do == "" || e.Kind != stash.Invalid {
				t.Fatalf("%+v: %v does not say what to do", steps, err)
			}
			return
		}
		sound(t, out.Pattern, size)
		again, err := adjust.Apply(p, size, steps)
		if err != nil || !reflect.DeepEqual(out, again) {
			t.Fatalf("%+v came out another way the second time: %v", steps, err)
		}
	})
}

// The pattern handed in is not written to.
func TestPatternStays(t *testing.T) {
	p, same := draft.Tee(draft.Chart()), draft.Tee(draft.Chart())
	apply(t, p, "4", adjust.Step{Kind: adjust.TakeIn, Amount: cm, At: at(adjust.Underarm), To: at(adjust.Waist)},
		adjust.Step{Kind: adjust.Lengthen, Amount: 3 * cm, At: at(adjust.Waist)}, adjust.Step{Kind: adjust.Hem, Amount: 20 * cm, Round: 150 * cm})
	if !reflect.DeepEqual(p, same) {
		t.Error("the pattern was changed")
	}
}
