package nest

import (
	"math/rand/v2"
	"testing"

	"tallycloth/stash/shape"
)

// mmRing is an outline from corners in mm.
func mmRing(xy ...float64) shape.Ring {
	var out shape.Ring
	for k := 0; k < len(xy); k += 2 {
		out = append(out, shape.Point{X: int64(xy[k] * 1000), Y: int64(xy[k+1] * 1000)})
	}
	return out
}

func mmBox(l, w float64) shape.Ring { return mmRing(0, 0, l, 0, l, w, 0, w) }

// asked is the question whether items lie on a rectangle, in mm.
func asked(length, width float64, items ...Item) Instance {
	return Instance{Ask: FitsAll, Fabrics: []Fabric{{Width: int64(width * 1000), Length: int64(length * 1000)}}, Items: items}
}

func alone(r shape.Ring) Item { return Item{Outline: r, Group: NoGroup} }

func some(r shape.Ring, n int) Item { return Item{Outline: r, Count: n, Group: NoGroup} }

// TestBoundsProve: each proof where it applies, and none 1 µm before.
func TestBoundsProve(t *testing.T) {
	bar := mmBox(100, 20)
	question := func(length, width int64, change func(*Instance)) Instance {
		in := Instance{Ask: FitsAll, Fabrics: []Fabric{{Width: width, Length: length}}, Items: []Item{{Outline: bar, Group: NoGroup}}}
		change(&in)
		return in
	}
	plain := func(*Instance) {}
	turned := func(in *Instance) { in.Items[0].Angles = []shape.Angle{shape.Turn90} }
	flaw := func(in *Instance) {
		in.Fabrics[0].Obstacles = []shape.Polygon{{Outer: shape.Ring{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 0, Y: 10}}}}
	}
	for _, c := range []struct {
		name string
		in   Instance
		want BoundKind
	}{
		{"just fits", question(100_000, 20_000, plain), NoBound},
		{"too long", question(99_999, 30_000, plain), BoundLength},
		{"too wide", question(900_000, 19_999, plain), BoundWidth},
		{"too wide turned", question(900_000, 99_999, turned), BoundWidth},
		{"two by area", question(100_000, 39_999, func(in *Instance) { in.Items[0].Count = 2 }), BoundArea},
		{"two just fit", question(100_000, 40_000, func(in *Instance) { in.Items[0].Count = 2 }), NoBound},
		{"no fold", question(900_000, 900_000, func(in *Instance) { in.Items[0].OnFold = true }), BoundBand},
		{"no two layers", question(900_000, 900_000, func(in *Instance) { in.Items[0].Layers = 2 }), BoundBand},
		{"a flaw takes the area", question(100_000, 20_000, flaw), BoundArea},
	} {
		if got := bounds(c.in); got.Kind != c.want {
			t.Errorf("%s: got %+v, want kind %v", c.name, got, c.want)
		}
	}
}

// TestBandsAreRooms: an item lies within one band, so bands are what it is compared with.
func TestBandsAreRooms(t *testing.T) {
	bands := func(in Instance, b ...Band) Instance { in.Fabrics[0].Bands = b; return in }
	low := Band{To: 50_000, Layers: 2, FoldLow: true}
	double := func(it Item) Item { it.Layers = 2; return it }
	fold := func(it Item) Item { it.OnFold = true; return it }
	for _, c := range []struct {
		name       string
		in         Instance
		want       BoundKind
		need, have int64
	}{
		{"as wide as a band", bands(asked(100, 100, alone(mmBox(60, 50))), low, Band{From: 50_000, To: 100_000, Layers: 1}), NoBound, 0, 0},
		{"wider than a band", bands(asked(100, 100, alone(mmBox(60, 51))), low, Band{From: 50_000, To: 100_000, Layers: 1}), BoundWidth, 51_000, 50_000},
		{"the wide band is single", bands(asked(100, 100, double(alone(mmBox(60, 51)))), low, Band{From: 50_000, To: 150_000 - 50_000, Layers: 1}), BoundWidth, 51_000, 50_000},
		{"no fold at that side", bands(asked(100, 100, fold(alone(mmBox(60, 50)))), Band{To: 100_000, Layers: 2}), BoundBand, 0, 0},
		// 3 × 60 × 30 = 5 400 mm² in a double band of 100 × 50 = 5 000 mm².
		{"doubled items share the double band", bands(asked(100, 100, double(some(mmBox(60, 30), 3))), low, Band{From: 50_000, To: 100_000, Layers: 1}), BoundArea, 5400, 5000},
	} {
		got := bounds(c.in)
		if got.Kind != c.want || got.Need != c.need || got.Have != c.have {
			t.Errorf("%s: got %+v, want kind %v, %d and %d", c.name, got, c.want, c.need, c.have)
		}
	}
}

// TestTiltedExtents: a slim diamond of 100 mm is 100·cos 2° = 99.939 mm long at its
// greatest tilt; a bar only gets longer by tilting.
func TestTiltedExtents(t *testing.T) {
	tilt := func(r shape.Ring) Item { return Item{Outline: r, Group: NoGroup, Tilt: 2000} }
	diamond := mmRing(0, 0, 50, -1, 100, 0, 50, 1)
	for _, c := range []struct {
		name string
		in   Instance
		want BoundKind
	}{
		{"diamond tilted", asked(99.940, 30, tilt(diamond)), NoBound},
		{"diamond tilted further than it may", asked(99.935, 30, tilt(diamond)), BoundLength},
		{"bar", asked(99.990, 30, tilt(mmBox(100, 20))), BoundLength},
		{"bar just long enough", asked(100, 30, tilt(mmBox(100, 20))), NoBound},
		// The narrowest is 20·cos 0 and needs no tilt; at a tilt the bar is wider.
		{"bar too wide", asked(200, 19.99, tilt(mmBox(100, 20))), BoundWidth},
		// Narrow enough only at 2°, and then 100·sin 2° = 3.49 mm long.
		{"not both at once", asked(2.1, 99.940, Item{Outline: diamond, Group: NoGroup, Tilt: 2000, Angles: []shape.Angle{shape.Turn90}}), BoundLength},
	} {
		if got := bounds(c.in); got.Kind != c.want {
			t.Errorf("%s: got %+v, want kind %v", c.name, got, c.want)
		}
	}
}

// TestGroupsTurnTogether: one bar along and one across suit each another turn of their
// group, and no turn suits both.
func TestGroupsTurnTogether(t *testing.T) {
	group := func(width float64) Instance {
		in := asked(100, width, Item{Outline: mmBox(100, 20)}, Item{Outline: mmBox(100, 20), Angles: []shape.Angle{shape.Turn90}})
		in.Groups = []Group{{Angles: []shape.Angle{shape.Turn0, shape.Turn90}}}
		return in
	}
	if b := bounds(group(60)); b.Kind != BoundWidth || b.Need != 100_000 || b.Have != 60_000 {
		t.Errorf("60 mm wide: %+v", b)
	}
	if b := bounds(group(120)); b.Kind != NoBound {
		t.Errorf("120 mm wide: %+v", b)
	}
	free := group(60)
	free.Items[1].Group = NoGroup
	free.Items[1].Angles = []shape.Angle{shape.Turn0, shape.Turn90}
	if b := bounds(free); b.Kind != NoBound {
		t.Errorf("each by itself: %+v", b)
	}
}

// TestPairsKeepOut: two items that keep each other out, and the same just not.
func TestPairsKeepOut(t *testing.T) {
	square := mmBox(60, 60)
	ell := mmRing(0, 0, 100, 0, 100, 20, 20, 20, 20, 100, 0, 100)
	clear := func(in Instance, gap int64) Instance { in.Clearance = gap; return in }
	fold := func(in Instance, high bool) Instance {
		in.Fabrics[0].Bands = []Band{{To: in.Fabrics[0].Width, Layers: 2, FoldLow: true, FoldHigh: high}}
		for i := range in.Items {
			in.Items[i].OnFold = true
		}
		return in
	}
	more := func(in Instance) Instance {
		in.Fabrics = append(in.Fabrics, Fabric{Width: 100_000, Length: 100_000})
		return in
	}
	turnable := some(mmBox(90, 40), 2)
	turnable.Angles = []shape.Angle{shape.Turn0, shape.Turn90}
	for _, c := range []struct {
		name string
		in   Instance
		want BoundKind
		need int64 // mm, to the next whole one
	}{
		{"two squares of 60 on 100 × 100", asked(100, 100, some(square, 2)), BoundPair, 120},
		{"behind each other", asked(120, 100, some(square, 2)), NoBound, 0},
		{"20 µm short", asked(119.98, 100, some(square, 2)), BoundPair, 120},
		{"beside each other", asked(60, 120, some(square, 2)), NoBound, 0},
		{"with a clearance of 3", clear(asked(123, 100, some(square, 2)), 3000), NoBound, 0},
		{"short of that", clear(asked(122.9, 100, some(square, 2)), 3000), BoundPair, 123},
		{"two nested angles", asked(120, 120, some(ell, 2)), NoBound, 0},
		{"no room to nest", asked(119.95, 119.95, some(ell, 2)), BoundPair, 200},
		{"a bar of 70 within an angle", asked(100, 100, alone(ell), alone(mmBox(70, 20))), NoBound, 0},
		{"a square of 81 in an angle of 80 within", asked(100, 100, alone(ell), alone(mmBox(81, 78))), BoundPair, 101},
		{"one turned, one not", asked(100, 130, turnable), NoBound, 0},
		{"two halves on one fold", fold(asked(119, 200, some(square, 2)), false), BoundPair, 120},
		{"two halves on two folds", fold(asked(119, 200, some(square, 2)), true), NoBound, 0},
		{"two folds too near", fold(asked(119, 119, some(square, 2)), true), BoundPair, 120},
		{"two cloths", more(asked(100, 100, some(square, 2))), NoBound, 0},
		{"three on two cloths", more(asked(100, 100, some(square, 3))), BoundPair, 0},
	} {
		got := bounds(c.in)
		if got.Kind != c.want || c.need > 0 && (got.Need+999)/1000 > c.need+1 || c.need > 0 && got.Need <= got.Have {
			t.Errorf("%s: got %+v, want kind %v and some %d mm", c.name, got, c.want, c.need)
		}
	}
}

// TestFloorByHand: lengths that no layout goes below.
func TestFloorByHand(t *testing.T) {
	strip := func(width float64, clearance int64, items ...Item) Instance {
		return Instance{Fabrics: []Fabric{{Width: int64(width * 1000)}}, Clearance: clearance, Items: items}
	}
	for _, c := range []struct {
		name string
		in   Instance
		want int64
	}{
		{"the longest", strip(100, 0, alone(mmBox(100, 20)), alone(mmBox(30, 20))), 100_000},
		// 6 × 40 × 25 = 6 000 mm² by 50 mm.
		{"area by width", strip(50, 0, some(mmBox(40, 25), 6)), 120_000},
		// Wider than half: each crosses the middle, with 3 mm between.
		{"one behind the other", strip(50, 3000, some(mmBox(40, 26), 3)), 126_000 - 3}, // 1 µm each for floating point
		// Triangles just as wide as the strip: both have their long side on its low edge.
		{"a slanted side", strip(40, 0, some(mmRing(0, 0, 40, 0, 0, 40), 2)), 80_000 - 4},
	} {
		if got := leastLength(c.in); got != c.want {
			t.Errorf("%s: %d µm, want %d", c.name, got, c.want)
		}
	}
}

// TestProved: a layout as short as the bound ends the search at once.
func TestProved(t *testing.T) {
	in := Instance{Fabrics: []Fabric{{Width: 50_000}}, Items: []Item{some(mmBox(40, 25), 6)}}
	a := solved(t, in, Options{Steps: 1 << 40})
	if a.Reason != Proved || a.Solution.Used[0] != 120_000 {
		t.Errorf("reason %v, %v µm", a.Reason, a.Solution.Used)
	}
	in.Items[0].Outline = mmBox(40, 60)
	if a := solved(t, in, Options{Steps: 1 << 40}); a.Reason != Impossible || a.Why.Kind != BoundWidth {
		t.Errorf("wider than the strip: %v %+v", a.Reason, a.Why)
	}
}

// BenchmarkBounds: a garment of 12 outlines of 60 corners on cloth too small for it, by
// each kind of proof, and one that no bound refuses.
func BenchmarkBounds(b *testing.B) {
	area := garmentOf(12, 300_000)
	long := garmentOf(12, 1_500_000)
	long.Items[0].Outline = mmBox(1501, 50)
	pair := garmentOf(12, 2_000_000)
	pair.Fabrics[0].Width, pair.Fabrics[0].Length = 2_000_000, 1_100_000
	two := pair.Items[0].Outline
	pair.Items = pair.Items[4:]
	pair.Fabrics[0].Width = two.Bounds().Width() * 3 / 2
	pair.Fabrics[0].Length = two.Bounds().Length() * 3 / 2
	pair.Items = append(pair.Items[len(pair.Items)-2:], Item{Outline: two, Count: 2, Group: 0})
	for _, c := range []struct {
		name string
		in   Instance
		want BoundKind
	}{{"area", area, BoundArea}, {"length", long, BoundLength}, {"pair", pair, BoundPair}, {"none", garmentOf(12, 1_700_000), NoBound}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if got := bounds(c.in); got.Kind != c.want {
					b.Fatalf("got %+v", got)
				}
			}
		})
	}
}

// TestShrunkLiesWithin: corners cut off leave a simple ring within the outline, and of a
// smooth one of 60 corners nearly all the area.
func TestShrunkLiesWithin(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	for range 200 {
		r := blob(rng, 60, 300_000)
		s := shrunk(r, pairCorners)
		if len(s) > pairCorners+8 || s.Validate() != nil || !shape.Inside(s, shape.Polygon{Outer: r}) {
			t.Fatalf("%d corners, %v", len(s), s.Validate())
		}
		if share := float64(s.Area2()) / float64(r.Area2()); share < 0.9 {
			t.Errorf("%.3f of the area is left", share)
		}
	}
}
