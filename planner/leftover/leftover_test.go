package leftover_test

import (
	"math/rand/v2"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"

	"tallycloth/planner/leftover"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"github.com/google/uuid"
)

const (
	cm = measure.Centimetre
	mm = int64(measure.Millimetre)
)

func rect(x0, y0, x1, y1 int64) shape.Ring {
	return shape.Box{Min: shape.Point{X: x0 * mm, Y: y0 * mm}, Max: shape.Point{X: x1 * mm, Y: y1 * mm}}.Ring()
}

// TestOf judges rests of one length of 100 × 150 cm with both selvedges and a raw end.
func TestOf(t *testing.T) {
	t.Parallel()
	c := stash.Cloth{ID: uuid.UUID{1}, Code: "T-1", Length: 100 * cm, Width: 150 * cm, SelvedgeLow: true, SelvedgeHigh: true, RawEnd: true}
	type want struct {
		length, width measure.Length
		plain, strips bool
		low, high     bool
		raw           bool
		straight      int64 // cm²
	}
	tests := []struct {
		name string
		cut  []shape.Ring
		want []want
	}{
		{"a length over the whole width", []shape.Ring{rect(0, 0, 600, 1500)},
			[]want{{40 * cm, 150 * cm, true, false, true, true, true, 6000}}},
		{"a crosswise end of 4 cm is for strips", []shape.Ring{rect(0, 0, 960, 1500)},
			[]want{{4 * cm, 150 * cm, true, true, true, true, true, 600}}},
		{"a lengthwise edge of 4 cm is waste", []shape.Ring{rect(0, 0, 1000, 1460)}, nil},
		{"a side has one selvedge", []shape.Ring{rect(0, 0, 1000, 1200)},
			[]want{{100 * cm, 30 * cm, true, false, false, true, true, 3000}}},
		{"an L with its longer arm", []shape.Ring{rect(0, 0, 600, 1000)},
			[]want{{100 * cm, 150 * cm, false, false, true, true, false, 6000}}},
		{"what hangs by 5 cm comes apart", []shape.Ring{rect(400, 0, 600, 1450)},
			[]want{{40 * cm, 150 * cm, true, false, true, true, false, 6000}, {40 * cm, 150 * cm, true, false, true, true, true, 6000}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			got := leftover.Of(c, tt.cut, leftover.DefaultLimits())
			quick := leftover.KeptArea(c, tt.cut, leftover.DefaultLimits())
			for _, l := range got {
				quick -= l.Area()
			}
			if off := max(quick, -quick); off > measure.Area(10*measure.Metre*20) { // 20 µm along 10 m of edges
				t.Errorf("the quick area is %d µm² off", quick)
			}
			if len(got) != len(tt.want) {
				t.Fatalf("%d leftovers, not %d: %+v", len(got), len(tt.want), got)
			}
			for i, w := range tt.want {
				k := leftover.Cloth(c, got[i].Outline)
				g := want{k.Length, k.Width, k.Plain(), got[i].OnlyStrips, k.SelvedgeLow, k.SelvedgeHigh, k.RawEnd,
					got[i].Straight.Length() / 10 / mm * (got[i].Straight.Width() / 10 / mm)}
				if g != w {
					t.Errorf("leftover %d: %+v, not %+v", i, g, w)
				}
				if k.CutFrom != c.ID {
					t.Errorf("it is cut from %v", k.CutFrom)
				}
			}
		})
	}
}

// randomCut is a random cloth, plain or with an outline and sometimes a flaw, and random
// pieces cut from it.
func randomCut(seed uint64) (stash.Cloth, []stash.Reservation, []shape.Ring) {
	rng := rand.New(rand.NewPCG(seed, 0x1ef7))
	c := stash.Cloth{ID: uuid.UUID{1}, FabricID: uuid.UUID{2}, Code: "T-1", Length: measure.Length(200+rng.Int64N(1500)) * measure.Millimetre,
		Width: measure.Length(300+rng.Int64N(1300)) * measure.Millimetre, SelvedgeLow: true, SelvedgeHigh: rng.IntN(2) == 0, RawEnd: rng.IntN(2) == 0}
	if rng.IntN(3) > 0 {
		l, w, d := int64(c.Length), int64(c.Width), rng.Int64N(int64(min(c.Length, c.Width))/3)
		p := shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: l - d, Y: 0}, {X: l, Y: w}, {X: d / 2, Y: w}}}
		if rng.IntN(2) == 0 {
			p.Holes = []shape.Ring{nesttest.Star(rng, 5+rng.IntN(6), 30*mm).Move(shape.Point{X: l / 2, Y: w / 2}).Reverse()}
		}
		if p.Validate() == nil {
			c = c.Shaped(p)
		}
	}
	var cut []shape.Ring
	var live []stash.Reservation
	box := c.Polygon().Bounds()
	for range rng.IntN(9) {
		r := nesttest.Star(rng, 3+rng.IntN(12), 40*mm+rng.Int64N(250*mm)).Move(shape.Point{X: rng.Int64N(box.Max.X), Y: rng.Int64N(box.Max.Y)})
		if !shape.Inside(r, c.Polygon()) {
			continue
		}
		free := true
		for _, o := range cut {
			free = free && !shape.Overlaps(r, o)
		}
		if free {
			cut = append(cut, r)
			live = append(live, stash.Reservation{ID: uuid.New(), ClothID: c.ID, Live: true, Pieces: []stash.ReservedPiece{{Name: "piece", Outline: r}}})
		}
	}
	return c, live, cut
}

// TestNothingIsLost: for ten thousand random cloths the area before is what is cut, kept
// and discarded, to the square micrometre; what is kept lies within the cloth, clear of
// what is cut and of each other.
func TestNothingIsLost(t *testing.T) {
	t.Parallel()
	const cases = 10_000
	var next, kept, cutAway atomic.Int64
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for seed := next.Add(1); seed <= cases; seed = next.Add(1) {
				k, c := nothingLost(t, uint64(seed))
				kept.Add(int64(k))
				cutAway.Add(int64(c))
			}
		})
	}
	wg.Wait()
	if kept.Load() < cases/2 || cutAway.Load() < cases {
		t.Errorf("only %d leftovers were kept of %d pieces cut", kept.Load(), cutAway.Load())
	}
	t.Logf("%d leftovers, %d pieces cut", kept.Load(), cutAway.Load())
}

func nothingLost(t *testing.T, seed uint64) (kept, cutAway int) {
	t.Helper()
	c, live, cut := randomCut(seed)
	rng := rand.New(rand.NewPCG(seed, 3))
	cutting := stash.Cutting{Cloth: c, Cut: live}
	var area measure.Area
	left := leftover.Of(c, cut, leftover.DefaultLimits())
	for i, l := range left {
		for _, o := range cut {
			if shape.OverlapsPolygon(o, l.Outline) {
				t.Errorf("seed %d: leftover %d reaches into what is cut", seed, i)
			}
		}
		for _, o := range left[:i] {
			if shape.OverlapsPolygon(l.Outline.Outer, o.Outline) && shape.OverlapsPolygon(o.Outline.Outer, l.Outline) {
				t.Errorf("seed %d: leftovers overlap", seed)
			}
		}
		if !shape.Inside(l.Straight.Ring(), l.Outline) {
			t.Errorf("seed %d: the straight rectangle of leftover %d reaches out of it", seed, i)
		}
		if rng.IntN(4) == 0 {
			continue // discarded by the person
		}
		k := leftover.Cloth(c, l.Outline)
		if k.ID, k.Code = uuid.New(), "T-2"; k.Validate() != nil || k.Area() != l.Area() {
			t.Errorf("seed %d: leftover %d: %v, %d of %d", seed, i, k.Validate(), k.Area(), l.Area())
		}
		cutting.Leftovers = append(cutting.Leftovers, k)
		area += k.Area()
	}
	lines, after, _, err := stash.CutUp(cutting)
	if err != nil {
		t.Errorf("seed %d: %v", seed, err)
		return 0, 0
	}
	sums := map[stash.MovementKind]measure.Area{}
	for _, m := range lines {
		if m.ClothID == c.ID {
			sums[m.Kind] -= m.Area
		}
	}
	var pieces measure.Area
	for _, r := range live {
		pieces += r.Area()
	}
	if sums[stash.Cut] != pieces || sums[stash.LeftOver] != area || sums[stash.Cut]+sums[stash.LeftOver]+sums[stash.Discarded] != c.Area() || sums[stash.Discarded] < 0 || !after.Gone {
		t.Errorf("seed %d: %d before, %v", seed, c.Area(), sums)
	}
	return len(cutting.Leftovers), len(cut)
}
