package pattern_test

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

const mm = measure.Millimetre

// half is a front of 400 × 150 mm on the fold with a neck cut out of its corner.
func half() shape.Ring {
	return shape.Ring{{X: 60_000, Y: 0}, {X: 400_000, Y: 0}, {X: 400_000, Y: 150_000}, {X: 0, Y: 150_000}, {X: 0, Y: 50_000}}
}

// vest is a small valid pattern of invented measures in two sizes.
func vest() pattern.Pattern {
	outline := func() pattern.Outline {
		return pattern.Outline{
			Cut: half(), Notches: []pattern.Notch{{At: shape.Point{X: 200_000, Y: 150_000}, Kind: "single"}},
			GrainTop: shape.Point{X: 100_000, Y: 70_000}, GrainFoot: shape.Point{X: 300_000, Y: 70_000},
			Edges: []pattern.EdgePath{{Name: "neck", Points: []shape.Point{{X: 0, Y: 50_000}, {X: 60_000, Y: 0}}, Turn: 0.4}},
		}
	}
	return pattern.Pattern{
		ID: stash.ID{7}, Name: "Heron vest", Maker: "Loomhill Studio", Kind: "vest", Notes: "short",
		Sizes: []pattern.Size{
			{Name: "1", Front: "B", Body: map[string]measure.Length{pattern.Bust: 900 * mm, pattern.Hip: 950 * mm}, Finished: map[string]measure.Length{pattern.Bust: 850 * mm, pattern.Hip: 1000 * mm}},
			{Name: "2", Body: map[string]measure.Length{pattern.Bust: 950 * mm}, Finished: map[string]measure.Length{}},
		},
		Levels: []pattern.Level{{Name: pattern.Bust, Girth: true}},
		Roles:  []pattern.Role{{Name: pattern.Main, StretchAround: 3000, StretchAlong: 500, Recovery: 8500, WeightMin: 150_000, WeightMax: 250_000, Knit: true}, {Name: pattern.Lining, Optional: true}},
		Yards:  []pattern.YardageRow{{Role: pattern.Main, Sizes: []string{"1"}, Width: 1500 * mm, Length: 600 * mm, WithNap: true, Shrinkage: true}},
		Pieces: []pattern.Piece{{Code: "A", Name: "Front", Role: pattern.Main, Cut: 1, OnFold: true, Grain: pattern.Crosswise, Fixed: true,
			Outlines: map[string]pattern.Outline{"1": outline(), "2": outline()}, WithoutAllowance: true},
			{Code: "B", Name: "Back", Role: pattern.Main, Cut: 1, OnFold: true, Outlines: map[string]pattern.Outline{"1": outline(), "2": outline()}}},
		Edges: []pattern.Edge{
			{Name: "neck", Count: 1, Closed: true, Passes: "head", Finish: "folded band", Width: 10 * mm, Segments: []pattern.EdgeSegment{
				{Name: "front neck", Piece: "A", Path: "neck", Times: 2, MarkEnd: "shoulder", NoJoin: true},
				{Name: "back neck", Piece: "B", Path: "neck", MarkEnd: "shoulder", JoinHere: true}}},
			{Name: "tie", Count: 2, Segments: []pattern.EdgeSegment{{Name: "tie", Free: map[string]measure.Length{"1": 200 * mm, "2": 210 * mm}, Catches: "neck"}}},
		},
		SeamAllowance: 7 * mm, HemAllowance: 20 * mm,
		Notions: []pattern.NotionNeed{{Name: "thread", Kind: "thread", Quantity: map[string]float64{"": 50.5}, Unit: "m"}},
		Work:    []pattern.Step{{Text: "Sew the sides."}, {Text: "Try on.", TryOn: true, Asks: "take-in"}},
	}
}

func TestValidPattern(t *testing.T) {
	if err := vest().Validate(); err != nil {
		t.Fatal(err)
	}
	p := vest()
	p.Yards, p.Edges, p.Work = nil, nil, nil
	for i := range p.Pieces {
		delete(p.Pieces[i].Outlines, "2") // outlines in one's own size only
	}
	if err := p.Validate(); err != nil {
		t.Error(err)
	}
	p.Pieces = nil
	if err := p.Validate(); err != nil {
		t.Error(err)
	}
}

// TestRefused spoils the pattern in one way at a time; every message names the thing
// and says what to do.
func TestRefused(t *testing.T) {
	change := func(p *pattern.Pattern, piece int, f func(*pattern.Outline)) {
		o := p.Pieces[piece].Outlines["1"]
		f(&o)
		p.Pieces[piece].Outlines["1"] = o
	}
	for says, spoil := range map[string]func(*pattern.Pattern){
		"no name":                   func(p *pattern.Pattern) { p.Name = "" },
		"no size":                   func(p *pattern.Pattern) { p.Sizes = nil },
		"what its fabric is":        func(p *pattern.Pattern) { p.Roles = nil },
		"an allowance is less":      func(p *pattern.Pattern) { p.SeamAllowance = -1 },
		"a size has no name":        func(p *pattern.Pattern) { p.Sizes[1].Name = "" },
		"size 1 comes twice":        func(p *pattern.Pattern) { p.Sizes[1].Name = "1" },
		"size 1 has a bust of less": func(p *pattern.Pattern) { p.Sizes[0].Body[pattern.Bust] = -1 },
		"use of fabric \"main\"":    func(p *pattern.Pattern) { p.Roles[1].Name = pattern.Main },
		"what lining asks":          func(p *pattern.Pattern) { p.Roles[1].Recovery = 10_001 },
		"weights for lining":        func(p *pattern.Pattern) { p.Roles[1].WeightMin, p.Roles[1].WeightMax = 2, 1 },
		"\"Back\" has no letter":    func(p *pattern.Pattern) { p.Pieces[1].Code = "A" },
		"Front is cut 0 times":      func(p *pattern.Pattern) { p.Pieces[0].Cut = 0 },
		"Front is cut 3 times":      func(p *pattern.Pattern) { p.Pieces[0].Cut, p.Pieces[0].Pairs = 3, true },
		"on the fold and in mirror": func(p *pattern.Pattern) { p.Pieces[0].Cut, p.Pieces[0].Pairs = 2, true },
		"cut from \"net\"":          func(p *pattern.Pattern) { p.Pieces[1].Role = "net" },
		"unknown size 9":            func(p *pattern.Pattern) { p.Pieces[1].Outlines["9"] = pattern.Outline{Cut: half()} },
		"B Back has no outline":     func(p *pattern.Pattern) { delete(p.Pieces[1].Outlines, "2") },
		"A Front in size 1":         func(p *pattern.Pattern) { change(p, 0, func(o *pattern.Outline) { o.Cut = o.Cut.Reverse() }) },
		"does not lie on one side": func(p *pattern.Pattern) {
			change(p, 0, func(o *pattern.Outline) { o.Cut = o.Cut.Move(shape.Point{Y: 1}) })
		},
		"notch lies off":            func(p *pattern.Pattern) { change(p, 0, func(o *pattern.Outline) { o.Notches[0].At.Y -= 20_000 }) },
		"grain line runs the wrong": func(p *pattern.Pattern) { change(p, 0, func(o *pattern.Outline) { o.GrainTop.X = 350_000 }) },
		"edge \"neck\" has no name": func(p *pattern.Pattern) {
			change(p, 0, func(o *pattern.Outline) { o.Edges[0].Points = o.Edges[0].Points[:1] })
		},
		"has no edge \"neck\"":       func(p *pattern.Pattern) { change(p, 0, func(o *pattern.Outline) { o.Edges = nil }) },
		"edge to finish \"neck\"":    func(p *pattern.Pattern) { p.Edges[1].Name = "neck" },
		"neck comes 0 times":         func(p *pattern.Pattern) { p.Edges[0].Count = 0 },
		"tie has no parts":           func(p *pattern.Pattern) { p.Edges[1].Segments = nil },
		"finish of neck":             func(p *pattern.Pattern) { p.Edges[0].Width = -1 },
		"comes -1 times":             func(p *pattern.Pattern) { p.Edges[0].Segments[0].Times = -1 },
		"runs along pattern piece Z": func(p *pattern.Pattern) { p.Edges[0].Segments[0].Piece = "Z" },
		"tie has no length in size":  func(p *pattern.Pattern) { delete(p.Edges[1].Segments[0].Free, "2") },
		"not finished before":        func(p *pattern.Pattern) { p.Edges[0].Segments[0].Catches = "tie" },
		"no width or no length":      func(p *pattern.Pattern) { p.Yards[0].Length = 0 },
		"that no cloth has":          func(p *pattern.Pattern) { p.Yards[0].Width = 60 * measure.Metre },
		"for \"net\"":                func(p *pattern.Pattern) { p.Yards[0].Role = "net" },
		"unknown size 8":             func(p *pattern.Pattern) { p.Yards[0].Sizes = []string{"8"} },
		"answers twice for main": func(p *pattern.Pattern) {
			p.Yards = append(p.Yards, pattern.YardageRow{Role: pattern.Main, Width: 1500 * mm, Length: mm, WithNap: true})
		},
		"step 1":               func(p *pattern.Pattern) { p.Work[0].Text = "" },
		"no sensible quantity": func(p *pattern.Pattern) { p.Notions[0].Quantity["1"] = math.NaN() },
	} {
		p := vest()
		spoil(&p)
		err := p.Validate()
		var e *stash.Error
		if err == nil || !strings.Contains(err.Error(), says) || !errors.As(err, &e) || e.Do == "" || !errors.Is(err, stash.ErrInvalid) {
			t.Errorf("%s: %v", says, err)
		}
	}
}

// TestFoldMustBeOneStretch: opened out, two stretches on the fold would leave a hole.
func TestFoldMustBeOneStretch(t *testing.T) {
	p := vest()
	o := p.Pieces[0].Outlines["1"]
	o.Cut = shape.Ring{{X: 0, Y: 0}, {X: 100_000, Y: 0}, {X: 150_000, Y: 50_000}, {X: 200_000, Y: 0}, {X: 400_000, Y: 0}, {X: 400_000, Y: 150_000}, {X: 0, Y: 150_000}}
	p.Pieces[0].Outlines["1"] = o
	if err := p.Validate(); err == nil || !strings.Contains(err.Error(), "one straight edge") {
		t.Errorf("%v", err)
	}
}

func TestLookups(t *testing.T) {
	p := vest()
	if s, ok := p.Size("2"); !ok || s.Name != "2" {
		t.Error("size 2")
	}
	if r, ok := p.Role(pattern.Lining); !ok || !r.Optional {
		t.Error("lining")
	}
	if q, ok := p.Piece("B"); !ok || q.Name != "Back" {
		t.Error("piece B")
	}
	if e, ok := p.Edge("tie"); !ok || e.Count != 2 {
		t.Error("edge tie")
	}
	_, a := p.Size("x")
	_, b := p.Role("x")
	_, c := p.Piece("x")
	_, d := p.Edge("x")
	if a || b || c || d {
		t.Error("found what is not there")
	}
	if n := len(p.PiecesOf(pattern.Main, "1")); n != 2 || p.HasOutlines(pattern.Lining, "1") || p.HasOutlines(pattern.Main, "x") {
		t.Errorf("%d pieces of main", n)
	}
}

func TestMeasure(t *testing.T) {
	p := vest()
	neck, _ := p.Edge("neck")
	got, missing := p.Measure(neck, "1")
	want := measure.Length(math.Round(math.Hypot(60_000, 50_000)))
	if len(missing) > 0 || len(got) != 2 || got[0].Length != 2*want || got[1].Length != want || got[0].Turning != 0.8 || got[1].Turning != 0.4 {
		t.Errorf("%+v, missing %v", got, missing)
	}
	tie, _ := p.Edge("tie")
	if got, _ := p.Measure(tie, "2"); len(got) != 1 || got[0].Length != 210*mm || got[0].Turning != 0 {
		t.Errorf("%+v", got)
	}
	if got, missing := p.Measure(neck, "x"); len(got) != 0 || len(missing) != 2 || missing[0] != "front neck" {
		t.Errorf("%+v, missing %v", got, missing)
	}
}

// TestEase: body 900, finished 850: ease −50, −5.56 %, worn stretched 50/850 = 5.88 %.
func TestEase(t *testing.T) {
	s := vest().Sizes[0]
	ease, ok := s.Ease(pattern.Bust)
	share, ok2 := s.EaseShare(pattern.Bust)
	worn, ok3 := s.WearStretch(pattern.Bust)
	if !ok || !ok2 || !ok3 || ease != -50*mm || share != -556 || worn != 588 {
		t.Errorf("%d %d %d", ease, share, worn)
	}
	if worn, ok := s.WearStretch(pattern.Hip); !ok || worn != 0 {
		t.Errorf("with ease it is not stretched: %d", worn)
	}
	_, a := s.Ease(pattern.Waist)
	_, b := s.EaseShare(pattern.Waist)
	_, c := vest().Sizes[1].WearStretch(pattern.Bust)
	if a || b || c {
		t.Error("an unknown measure has no ease")
	}
}

// TestUnfold: a half opened out is its own mirror image, valid, twice as large, and its
// bounds reach as far on both sides.
func TestUnfold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := shape.Ring{{X: 0, Y: 0}}
		x := int64(0)
		for range rapid.IntRange(1, 4).Draw(t, "points on the fold") {
			x += rapid.Int64Range(1, 100_000).Draw(t, "step")
			r = append(r, shape.Point{X: x, Y: 0})
		}
		for n := rapid.IntRange(1, 8).Draw(t, "points off the fold"); n > 0; n-- {
			r = append(r, shape.Point{X: x * int64(n) / 9, Y: rapid.Int64Range(1, 200_000).Draw(t, "y")})
		}
		start := rapid.IntRange(0, len(r)-1).Draw(t, "start")
		r = append(r[start:len(r):len(r)], r[:start]...)
		if r.Validate() != nil {
			return // points that fall on one line
		}
		whole := pattern.Unfold(r)
		if err := whole.Validate(); err != nil {
			t.Fatalf("%v of %v: %v", whole, r, err)
		}
		b := whole.Bounds()
		if whole.Area2() != 2*r.Area2() || b.Min.Y != -b.Max.Y {
			t.Fatalf("%v opened to %v", r, whole)
		}
		mirror := shape.Placement{Mirror: true}.Apply(whole)
		if mirror.Area2() != whole.Area2() || !sameSet(mirror, whole) {
			t.Fatalf("%v is not symmetric", whole)
		}
	})
}

func sameSet(a, b shape.Ring) bool {
	seen := map[shape.Point]bool{}
	for _, p := range a {
		seen[p] = true
	}
	for _, p := range b {
		if !seen[p] {
			return false
		}
	}
	return len(a) == len(b)
}

func TestWhole(t *testing.T) {
	p := vest()
	if w := p.Pieces[0].Whole("1"); w.Bounds().Width() != 300_000 || len(w) != 8 {
		t.Errorf("%v", w)
	}
	p.Pieces[0].OnFold = false
	if w := p.Pieces[0].Whole("1"); len(w) != 5 {
		t.Errorf("%v", w)
	}
	if w := pattern.Unfold(shape.Ring{{X: 0, Y: 5}, {X: 9, Y: 5}, {X: 9, Y: 9}}); len(w) != 3 {
		t.Errorf("a ring off the fold stays: %v", w)
	}
}

// TestTurning: a neckline, garment on the left of its direction and outside the curve,
// turns positively by the angle of its arc; a rounded hem negatively; straight lines and
// repeated points not at all.
func TestTurning(t *testing.T) {
	arc := func(from, to float64, n int) (out []shape.Point) {
		for i := range n + 1 {
			sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
			out = append(out, shape.Point{X: int64(math.Round(1e6 * cos)), Y: int64(math.Round(1e6 * sin))})
		}
		return out
	}
	for _, tt := range []struct {
		points []shape.Point
		want   float64
	}{
		{arc(math.Pi, 0, 2000), math.Pi}, // clockwise: the left-hand side is outside the circle
		{arc(0, math.Pi, 2000), -math.Pi},
		{arc(math.Pi/2, 0, 500), math.Pi / 2},
		{[]shape.Point{{}, {X: 5}, {X: 5}, {X: 9}}, 0},
		{[]shape.Point{{}, {X: 5}, {X: 5, Y: 5}}, -math.Pi / 2},
		{nil, 0}, {[]shape.Point{{X: 3}}, 0},
	} {
		got := pattern.Turning(tt.points)
		if math.Abs(got-tt.want) > 0.004 { // an arc's polyline turns less by one step
			t.Errorf("%d points turn %.4f, want %.4f", len(tt.points), got, tt.want)
		}
	}
}

// TestDocumentFormStays: the library keeps patterns as JSON documents. One written by
// the first form must be read for ever, and today's program still writes it so.
func TestDocumentFormStays(t *testing.T) {
	path := filepath.Join("testdata", "pattern_1.json")
	frozen, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var got pattern.Pattern
	if err := json.Unmarshal(frozen, &got); err != nil {
		t.Fatal(err)
	}
	if want := vest(); !reflect.DeepEqual(got, want) {
		t.Errorf("read %+v, want %+v", got, want)
	}
	now, err := json.MarshalIndent(vest(), "", " ")
	if err != nil || strings.TrimSpace(string(frozen)) != string(now) {
		t.Errorf("the form changed: give it the next number in db and a reader for this one, then freeze it as well (%v)", err)
	}
}
