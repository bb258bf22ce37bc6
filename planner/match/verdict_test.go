package match_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/match"
	"tallycloth/planner/nest"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// slab is a pattern of invented rectangles whose layouts can be worked by hand: a
// panel on the fold 60 × 25 cm (half), cut once, and a mirrored pair 30 × 20 cm.
func slab() pattern.Pattern {
	box := func(l, w measure.Length) map[string]pattern.Outline {
		return map[string]pattern.Outline{"M": {Cut: shape.Box{Max: shape.Point{X: int64(l), Y: int64(w)}}.Ring()}}
	}
	return pattern.Pattern{
		Name: "Slab", Sizes: []pattern.Size{{Name: "M"}},
		Roles: []pattern.Role{{Name: pattern.Main, StretchAround: 35 * pc, Recovery: 85 * pc, Knit: true,
			WeightMin: 120 * measure.GramPerSquareMetre, WeightMax: 250 * measure.GramPerSquareMetre}},
		Pieces: []pattern.Piece{
			{Code: "A", Name: "Panel", Role: pattern.Main, Cut: 1, OnFold: true, Outlines: box(60*cm, 25*cm)},
			{Code: "B", Name: "Flap", Role: pattern.Main, Cut: 2, Pairs: true, Outlines: box(30*cm, 20*cm)},
		},
		Yards: nil,
	}
}

func with(f stash.Fabric, change func(*stash.Fabric)) stash.Fabric {
	change(&f)
	return f
}

// TestVerdicts works the slab by hand. Folded at half of 118 cm usable (120 less two
// selvedges), the laid width is 59 cm less 1 cm for the wale: panel 25 and flap 20 side
// by side with 3 mm between take 45.3, so everything lies in 60 cm of length.
func TestVerdicts(t *testing.T) {
	good := jersey(120 * cm)
	strips := func(a *match.Ask) {
		a.Strips = []match.StripAsk{{Name: "neck", Length: 70 * cm, Width: 4 * cm, MayJoin: true, JoinLoss: cm}, {Name: "armhole", Length: 60 * cm, Width: 4 * cm, Count: 2, MayJoin: true, JoinLoss: cm}}
	}
	turned := func(f *stash.Fabric) {
		f.Direction = stash.EitherWay
		f.Lengthwise, f.Crosswise = f.Crosswise, f.Lengthwise
		f.Lengthwise.Recovery = stash.Measured(93 * pc)
	}
	for _, c := range []struct {
		name   string
		cloth  stash.ClothState
		change func(*match.Ask)
		grade  match.Grade
		proof  match.Proof
		ifs    []match.Condition
		short  measure.Length
	}{
		{"enough", lengthOf(good, 63*cm), nil, match.Enough, match.ByLayout, nil, 0},
		{"tight by length", lengthOf(good, 61*cm), nil, match.Tight, match.ByLayout, nil, 0},
		// 92.7 usable, selvedges to the middle 46.35, less 1 cm for the wales: 25 and 20 leave
		// 3.5 mm on both layers, 7 mm in all.
		{"tight by width", lengthOf(jersey(947*mm), 70*cm), nil, match.Tight, match.ByLayout, nil, 0},
		{"short", lengthOf(good, 50*cm), nil, match.NotEnough, match.ByBound, nil, 10 * cm},
		// 92 usable, half 46: less 1 cm no room is left for 25 and 20 where the fold is cut
		// for the panel; in one layer 50 + 20 + 20 and twice 3 mm are 90.6.
		{"one layer", lengthOf(jersey(94*cm), 63*cm), nil, match.EnoughIf, match.ByLayout, []match.Condition{match.OneLayer}, 0},
		// A tube, flat 46: its two folds are there, both halves lie on one each, 45 and 3 mm.
		// Slit and folded anew it would be like the one before.
		{"a tube on its two folds", tubeOf(46*cm, 63*cm), nil, match.Enough, match.ByLayout, nil, 0},
		{"a tube that just holds both", tubeOf(453*mm, 63*cm), nil, match.Tight, match.ByLayout, nil, 0},
		{"too narrow", lengthOf(jersey(45*cm), 300*cm), nil, match.NotEnough, match.ByBound, nil, 0},
		{"woven", lengthOf(with(good, func(f *stash.Fabric) { f.Construction = stash.WovenPlain }), 200*cm), nil, match.Unsuitable, match.ByProperties, nil, 0},
		{"stretches too little", lengthOf(with(good, func(f *stash.Fabric) { f.Crosswise.Stretch = stash.Measured(22 * pc) }), 200*cm), nil, match.Unsuitable, match.ByProperties, nil, 0},
		{"recovers too little", lengthOf(with(good, func(f *stash.Fabric) { f.Crosswise.Recovery = stash.Measured(70 * pc) }), 200*cm), nil, match.Unsuitable, match.ByProperties, nil, 0},
		{"too heavy", lengthOf(with(good, func(f *stash.Fabric) { f.Weight = 300 * measure.GramPerSquareMetre }), 200*cm), nil, match.Unsuitable, match.ByProperties, nil, 0},
		{"weight not known", lengthOf(with(good, func(f *stash.Fabric) { f.Weight = 0 }), 200*cm), nil, match.EnoughIf, match.ByLayout, []match.Condition{match.WeightAssumed}, 0},
		{"stretch assumed", lengthOf(with(good, func(f *stash.Fabric) { f.Crosswise.Stretch = stash.Reading{} }), 200*cm), nil, match.EnoughIf, match.ByLayout, []match.Condition{match.StretchAssumed}, 0},
		{"construction not known", lengthOf(with(good, func(f *stash.Fabric) { f.Construction = "" }), 200*cm), nil, match.CannotTell, match.ByProperties, nil, 0},
		{"cut crosswise", lengthOf(with(good, turned), 200*cm), nil, match.EnoughIf, match.ByLayout, []match.Condition{match.CutCrosswise}, 0},
		{"not crosswise when it has a direction", lengthOf(with(good, func(f *stash.Fabric) { turned(f); f.Direction = stash.SameWayInGarment }), 200*cm), nil, match.Unsuitable, match.ByProperties, nil, 0},
		// Strips of 70, 60 and 60 cm: no two lie side by side on 118 cm, so whole they take
		// three rows, 12 cm; joined end to end they take two, 8 cm.
		{"cut crosswise, strips along the cloth", lengthOf(with(good, turned), 200*cm), strips, match.EnoughIf, match.ByLayout, []match.Condition{match.CutCrosswise}, 0},
		{"strips whole", lengthOf(good, 75*cm), strips, match.Enough, match.ByLayout, nil, 0},
		{"strips joined", lengthOf(good, 69*cm), strips, match.EnoughIf, match.ByLayout, []match.Condition{match.StripsJoined}, 0},
		{"a strip longer than the cloth is wide", lengthOf(good, 72*cm), func(a *match.Ask) {
			a.Strips = []match.StripAsk{{Name: "hem", Length: 150 * cm, Width: 4 * cm, MayJoin: true, JoinLoss: cm}}
		}, match.EnoughIf, match.ByLayout, []match.Condition{match.StripsJoined}, 0},
		{"and no join allowed", lengthOf(good, 72*cm), func(a *match.Ask) {
			a.Strips = []match.StripAsk{{Name: "hem", Length: 150 * cm, Width: 4 * cm}}
		}, match.NotEnough, match.ByBound, nil, 0},
		{"wash first", unwashed(lengthOf(good, 70*cm)), nil, match.EnoughIf, match.ByLayout, []match.Condition{match.WashFirst}, 0},
		// 62 cm become 58.9: 1.1 cm short after washing, 1.1/0.95 = 1.158 before.
		{"short after washing", unwashed(lengthOf(good, 62*cm)), nil, match.NotEnough, match.ByBound, nil, 11579 * measure.Micrometre},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := askFor(slab(), "M")
			if c.change != nil {
				c.change(&a)
			}
			v := verdict(t, a, c.cloth)
			var ifs []match.Condition
			for _, i := range v.Ifs {
				ifs = append(ifs, i.Condition)
			}
			if v.Grade != c.grade || !slices.Equal(ifs, c.ifs) || v.Short != c.short {
				t.Errorf("grade %d, if %v, short %d µm: %+v", v.Grade, ifs, v.Short, v.Reasons)
			}
			if v.Proof != c.proof && !(c.proof == match.ByBound && v.Proof == match.BySearch) {
				t.Errorf("proof %d", v.Proof)
			}
			if (v.Layout != nil) != (v.Grade <= match.EnoughIf) {
				t.Errorf("a layout is shown exactly when it is enough: %v", v.Layout != nil)
			}
			if v.Layout != nil {
				checkOpened(t, a, c.cloth, v)
			}
		})
	}
}

func unwashed(c stash.ClothState) stash.ClothState { c.Cloth.Washed = false; return c }

// checkOpened checks what will be cut on the open cloth by the engine's own check, and
// that every pattern piece is there as often as it is cut.
func checkOpened(t testing.TB, a match.Ask, c stash.ClothState, v match.Verdict) {
	t.Helper()
	in := nest.Instance{Ask: nest.FitsAll, Fabrics: []nest.Fabric{{Width: int64(c.Cloth.Width), Length: int64(c.Cloth.Length), Outline: c.Cloth.Outline}}}
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			in.Fabrics[0].Obstacles = append(in.Fabrics[0].Obstacles, shape.Polygon{Outer: p.Outline})
		}
	}
	sol := nest.Solution{Used: []int64{0}}
	count := map[string]int{}
	for i, p := range v.Layout.Pieces {
		in.Items = append(in.Items, nest.Item{Outline: p.Outline, Group: nest.NoGroup})
		sol.Laid = append(sol.Laid, nest.Laid{Item: i})
		sol.Used[0] = max(sol.Used[0], p.Outline.Bounds().Max.X)
		count[p.Piece]++
	}
	if err := nest.Check(in, sol); err != nil {
		t.Errorf("on the open cloth: %v", err)
	}
	for _, p := range v.Layout.Pieces {
		if b := p.Outline.Bounds(); p.Role == pattern.Binding && (b.Length() > b.Width()) != v.Layout.Frame.Crosswise {
			t.Errorf("strip %s does not follow the stretch: %d × %d µm", p.Name, b.Length(), b.Width())
		}
	}
	for _, p := range a.Pattern.PiecesOf(pattern.Main, a.Size) {
		if count[p.Code] != p.Cut {
			t.Errorf("%s is laid %d times and cut %d times", p.Code, count[p.Code], p.Cut)
		}
		whole := p.Whole(a.Size).Area()
		for _, q := range v.Layout.Pieces {
			if q.Piece == p.Code && c.Cloth.Washed && q.Outline.Area() != whole {
				t.Errorf("%s was laid with another outline", p.Code)
			}
		}
	}
}

// TestMoreCloth: a longer length never gets a worse verdict, and reserving a part of it
// never a better one. What is enough passes the check on the open cloth.
func TestMoreCloth(t *testing.T) {
	tank, tee, shorts := demo(t)
	questions := map[string]*match.Question{}
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom([]pattern.Pattern{slab(), tank, shorts, tee}).Draw(t, "pattern")
		size := p.Sizes[0].Name
		q := questions[p.Name]
		if q == nil {
			q, _ = match.New(askFor(p, size))
			questions[p.Name] = q
		}
		width := measure.Length(rapid.IntRange(80, 170).Draw(t, "width")) * cm
		length := measure.Length(rapid.IntRange(400, 1600).Draw(t, "length")) * mm
		more := length + measure.Length(rapid.IntRange(1, 900).Draw(t, "more"))*mm
		f := jersey(width)
		f.Direction = stash.Direction(rapid.IntRange(0, 2).Draw(t, "direction"))
		short, long := lengthOf(f, length), lengthOf(f, more)
		a, b := must(t, q, short), must(t, q, long)
		if b.Grade > a.Grade {
			t.Fatalf("%d µm is graded %d, %d µm only %d", length, a.Grade, more, b.Grade)
		}
		x, y := int64(length)*int64(rapid.IntRange(0, 90).Draw(t, "x"))/100, int64(width)*int64(rapid.IntRange(0, 80).Draw(t, "y"))/100
		taken := withReserved(short, shape.Box{Min: shape.Point{X: x, Y: y}, Max: shape.Point{X: x + int64(length)/12, Y: y + int64(width)/8}})
		r := must(t, q, taken)
		if r.Grade < a.Grade {
			t.Fatalf("with a part reserved it is graded %d, without %d", r.Grade, a.Grade)
		}
		for c, v := range map[*stash.ClothState]match.Verdict{&short: a, &long: b, &taken: r} {
			if v.Layout != nil {
				checkAgain(t, *c, v)
			}
		}
	})
}

func must(t *rapid.T, q *match.Question, c stash.ClothState) match.Verdict {
	v, err := q.Check(context.Background(), c)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// checkAgain compares every two outlines, and each with the cloth and what is reserved,
// with the exact predicates alone.
func checkAgain(t *rapid.T, c stash.ClothState, v match.Verdict) {
	for i, p := range v.Layout.Pieces {
		if !shape.Inside(p.Outline, c.Cloth.Polygon()) {
			t.Fatalf("%s reaches out of the cloth", p.Name)
		}
		for _, q := range v.Layout.Pieces[:i] {
			if shape.Overlaps(p.Outline, q.Outline) {
				t.Fatalf("%s and %s overlap", p.Name, q.Name)
			}
		}
		for _, r := range c.Reservations {
			for _, o := range r.Pieces {
				if !shape.Clear(p.Outline, o.Outline, int64(3*mm)) {
					t.Fatalf("%s lies on what is reserved", p.Name)
				}
			}
		}
	}
}

// TestLeftover: an odd leftover is enough where its outline holds the pieces, not where a
// flaw lies in their way, and a reserved part is kept clear of.
func TestLeftover(t *testing.T) {
	f := jersey(150 * cm)
	at := func(x, y int64) shape.Point { return shape.Point{X: x * 1000, Y: y * 1000} }
	slanted := shape.Polygon{Outer: shape.Ring{at(0, 0), at(760, 0), at(640, 960), at(0, 960)}}
	v := verdict(t, askFor(slab(), "M"), leftoverOf(f, slanted))
	if v.Grade > match.Tight || v.Layout == nil {
		t.Fatalf("the panel 60 × 50 and two flaps 30 × 20 lie on it: %+v", v)
	}
	checkOpened(t, askFor(slab(), "M"), leftoverOf(f, slanted), v)
	flawed := slanted
	flawed.Holes = []shape.Ring{{at(300, 300), at(300, 500), at(500, 500), at(500, 300)}}
	if v := verdict(t, askFor(slab(), "M"), leftoverOf(f, flawed)); v.Grade != match.NotEnough {
		t.Errorf("no 60 × 50 lies beside a hole in the middle: %+v", v)
	}
	taken := withReserved(leftoverOf(f, slanted), shape.Box{Min: at(100, 100), Max: at(200, 400)})
	if v := verdict(t, askFor(slab(), "M"), taken); v.Grade != match.NotEnough {
		t.Errorf("no room is left for the panel: %+v", v)
	}
}

func TestCancelled(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	tank, _, _ := demo(t)
	if _, err := ask(t, askFor(tank, "2")).Sweep(ctx, shelf(20), 2, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled sweep ends with %v", err)
	}
}

// TestSweep: every cloth is answered once, as it would be alone, fabric that suits first.
func TestSweep(t *testing.T) {
	tank, _, _ := demo(t)
	cloths := shelf(40)
	q := ask(t, askFor(tank, "3"))
	var order []int
	all, err := q.Sweep(context.Background(), cloths, 2, func(i int, v match.Verdict) { order = append(order, i) })
	if err != nil || len(order) != len(cloths) {
		t.Fatalf("%d of %d reported, %v", len(order), len(cloths), err)
	}
	for i, v := range all {
		alone := verdict(t, askFor(tank, "3"), cloths[i])
		if alone.Grade != v.Grade || alone.Short != v.Short || alone.SpareLength != v.SpareLength {
			t.Errorf("cloth %d: graded %d in the sweep, %d alone", i, v.Grade, alone.Grade)
		}
	}
	if first := all[order[0]]; first.Grade == match.Unsuitable {
		t.Error("fabric that does not suit came first")
	}
}

// TestAllowanceIsAdded: outlines without their seam allowance are laid with it, on the
// fold as well; where it is not known that is a condition.
func TestAllowanceIsAdded(t *testing.T) {
	p := slab()
	for i := range p.Pieces {
		p.Pieces[i].WithoutAllowance = true
	}
	c := lengthOf(jersey(140*cm), 90*cm)
	if v := verdict(t, askFor(p, "M"), c); v.Grade != match.EnoughIf || v.Ifs[0].Condition != match.AddAllowance {
		t.Errorf("allowance not known: %+v", v)
	}
	p.SeamAllowance = cm
	v := verdict(t, askFor(p, "M"), c)
	if v.Layout == nil || len(v.Ifs) > 0 {
		t.Fatalf("%+v", v)
	}
	for _, q := range v.Layout.Pieces {
		b, want := q.Outline.Bounds(), [2]int64{620_000, 520_000}
		if q.Piece == "B" {
			want = [2]int64{320_000, 220_000}
		}
		if b.Length() < want[0] || b.Width() < want[1] || b.Length() > want[0]+1000 || b.Width() > want[1]+1000 {
			t.Errorf("%s is laid %d × %d µm, at least %v is needed", q.Name, b.Length(), b.Width(), want)
		}
	}
}

// TestRepeat: match marks meet the print's repeat; a print that is not matched is noted.
func TestRepeat(t *testing.T) {
	f := with(jersey(150*cm), func(f *stash.Fabric) { f.RepeatAlong = 7 * cm })
	c := lengthOf(f, 150*cm)
	has := func(v match.Verdict) bool {
		return slices.ContainsFunc(v.Reasons, func(r match.Reason) bool { return r.What == match.Repeat })
	}
	if v := verdict(t, askFor(slab(), "M"), c); v.Grade != match.Enough || !has(v) {
		t.Errorf("not matched: %+v", v)
	}
	p, marks := slab(), map[string]int64{"A": 110_000, "B": 45_000}
	for i := range p.Pieces {
		o := p.Pieces[i].Outlines["M"]
		o.MatchMarks = []pattern.MatchMark{{Name: "side", X: marks[p.Pieces[i].Code]}}
		p.Pieces[i].Outlines["M"] = o
	}
	v := verdict(t, askFor(p, "M"), c)
	if v.Layout == nil || has(v) {
		t.Fatalf("%+v", v)
	}
	first := int64(-1)
	for _, q := range v.Layout.Pieces {
		at := (q.Place.At.X + marks[q.Piece]) % 70_000
		if first < 0 {
			first = at
		}
		if at != first {
			t.Errorf("%s meets the repeat at %d, another piece at %d µm", q.Name, at, first)
		}
	}
}

// tubeOf is a washed and trued length of a tube.
func tubeOf(flat, length measure.Length) stash.ClothState {
	f := jersey(flat)
	f.Tubular = true
	c := lengthOf(f, length)
	c.Cloth.SelvedgeLow, c.Cloth.SelvedgeHigh = false, false
	return stash.StateOf(c.Cloth, f, nil, c.Cloth.Area())
}
