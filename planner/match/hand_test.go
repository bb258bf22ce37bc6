package match_test

import (
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// inHand is the lopsided slab in hand on 150 cm, its flaps set apart at the far end.
func inHand(t *testing.T, fold bool, d stash.Direction) (*match.Question, *match.Hand, int, int) {
	t.Helper()
	q, c, l := layoutOf(t, lopsided(), fold, func(f *stash.Fabric) { f.Direction = d })
	h := q.NewHand(c, l)
	panel, flap := find(l, "Panel", 0), find(l, "Flap", 0)
	return q, h, panel, flap
}

// A piece moved over another is told with its depth; a little over it is set clear by the
// clearance, or a bit more.
func TestPiecesMovedByHand(t *testing.T) {
	_, h, panel, flap := inHand(t, false, stash.EitherWay)
	if h.Touched() || len(h.Faults()) > 0 {
		t.Fatal("touched before anything was done")
	}
	lay := func(x int64) { // the flap's low end so far from the panel's far end
		a, b := h.Layout().Pieces[panel].Outline.Bounds(), h.Layout().Pieces[flap].Outline.Bounds()
		h.Move(flap, shape.Point{X: a.Max.X + x - b.Min.X, Y: a.Min.Y + 100_000 - b.Min.Y})
	}
	lay(500_000)
	if len(h.Faults()) > 0 || !h.Kept(flap) || h.KeptCount() != 1 {
		t.Fatalf("%+v", h.Faults())
	}
	lay(-35_000)
	got := match.Gravest(h.Faults())
	if len(got) != 2 || got[0].By != 35*measure.Millimetre || got[1].By != 35*measure.Millimetre || got[0].Kind != match.OverPiece {
		t.Fatalf("%+v", got)
	}
	lay(-2_000)
	if len(h.Faults()) > 0 {
		t.Fatalf("%+v", h.Faults())
	}
	a, b := h.Layout().Pieces[panel].Outline.Bounds(), h.Layout().Pieces[flap].Outline.Bounds()
	if gap := b.Min.X - a.Max.X; gap < 3_000 || gap > 4_000 {
		t.Errorf("it was set %d µm clear", gap)
	}
	if f := h.FaultsAt(flap, shape.Point{X: -20_000}); len(f) != 1 || f[0].Kind != match.OverPiece {
		t.Errorf("held over it: %+v", f)
	}
	h.Move(flap, shape.Point{Y: 2_000_000})
	if got := match.Gravest(h.Faults()); len(got) != 1 || got[0].Kind != match.OffCloth {
		t.Errorf("beyond the selvedge: %+v", got)
	}
}

// Every step is taken back and done again, in turn, layout and what is kept alike.
func TestStepsAreTakenBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		_, h, _, _ := inHand(t, rapid.Bool().Draw(rt, "fold"), stash.EitherWay)
		n := len(h.Layout().Pieces)
		type state struct {
			first shape.Point
			kept  int
			folds int
		}
		now := func() state {
			l, sum := h.Layout(), shape.Point{}
			for i, p := range l.Pieces {
				sum.X += p.Place.At.X * int64(i+1)
				sum.Y += p.Place.At.Y*int64(i+1) + int64(p.Place.Angle)
			}
			return state{sum, h.KeptCount(), len(l.Frame.Folds)}
		}
		states := []state{now()}
		for range rapid.IntRange(1, 5).Draw(rt, "steps") {
			i := rapid.IntRange(0, n-1).Draw(rt, "piece")
			before := h.Touched()
			switch rapid.IntRange(0, 3).Draw(rt, "what") {
			case 0:
				h.Move(i, shape.Point{X: rapid.Int64Range(-90_000, 400_000).Draw(rt, "x"), Y: rapid.Int64Range(-90_000, 90_000).Draw(rt, "y")})
			case 1:
				h.Turn(i)
			case 2:
				h.Keep(i, !h.Kept(i))
			default:
				if h.Folded() {
					h.OpenOut()
				} else {
					h.Keep(i, true)
				}
			}
			if !h.Touched() && before {
				rt.Fatal("a step was lost")
			}
			states = append(states, now())
		}
		for k := len(states) - 2; k >= 0; k-- {
			if said, ok := h.Undo(); !ok || said == "" || now() != states[k] {
				rt.Fatalf("step %d back (%q): %+v, want %+v", k, said, now(), states[k])
			}
		}
		if _, ok := h.Undo(); ok {
			rt.Fatal("more was taken back than was done")
		}
		for k := 1; k < len(states); k++ {
			if _, ok := h.Redo(); !ok || now() != states[k] {
				rt.Fatalf("step %d again: %+v, want %+v", k, now(), states[k])
			}
		}
	})
}

// Turning follows the fabric's direction, and twice is not at all.
func TestTurnedByHand(t *testing.T) {
	for d, want := range map[stash.Direction][2]bool{
		stash.EitherWay: {true, false}, stash.SameWayInGarment: {true, true}, stash.SameWayForAll: {false, false},
	} {
		for _, fold := range []bool{false, true} {
			_, h, panel, flap := inHand(t, fold, d)
			before := h.Layout().Pieces
			turned := h.Turn(flap)
			after := h.Layout().Pieces
			away := func(i int) bool { return after[i].Place.Angle != before[i].Place.Angle }
			if turned != want[0] || away(flap) != want[0] || away(panel) != want[1] || after[flap].Outline.Bounds() != before[flap].Outline.Bounds() {
				t.Errorf("direction %d, fold %v: turned %v, flap %v, panel %v", d, fold, turned, away(flap), away(panel))
			}
			for _, f := range h.Faults() {
				if f.Kind != match.OverPiece && f.Kind != match.TooNear {
					t.Errorf("direction %d, fold %v: %+v", d, fold, f)
				}
			}
			if turned {
				h.Turn(flap)
				if again := h.Layout().Pieces; again[flap].Place != before[flap].Place || again[panel].Place != before[panel].Place {
					t.Errorf("direction %d: turned twice %+v became %+v", d, before[flap].Place, again[flap].Place)
				}
			}
		}
	}
}

// On folded cloth the layers of a pair stay on each other, and a piece on the fold is
// drawn back onto it from nearby; further off is told.
func TestMovedOnFoldedCloth(t *testing.T) {
	_, h, panel, flap := inHand(t, true, stash.EitherWay)
	under := find(h.Layout(), "Flap", 1)
	before := h.Layout().Pieces
	h.Move(flap, shape.Point{X: 650_000, Y: -10_000})
	after := h.Layout().Pieces
	if d := after[under].Place.At.Sub(before[under].Place.At); d.X < 640_000 || d.Y < 0 || !h.Kept(under) || !h.Kept(flap) {
		t.Errorf("the under layer went %v", d)
	}
	if f := h.Faults(); len(f) > 0 {
		t.Errorf("%+v", f)
	}
	h.Move(panel, shape.Point{X: 10_000, Y: 7_000})
	if p := h.Layout().Pieces[panel].Place.At; p.Y != before[panel].Place.At.Y || p.X != before[panel].Place.At.X+10_000 {
		t.Errorf("the panel lies at %v, was at %v", p, before[panel].Place.At)
	}
	h.Move(panel, shape.Point{Y: -40_000})
	if got := match.Gravest(h.Faults()); len(got) == 0 || got[0].Kind != match.OffFold && got[0].Kind != match.OverPiece {
		t.Errorf("off the fold: %+v", got)
	}
	h.OpenOut()
	for _, f := range h.Faults() {
		if f.Kind == match.OffFold || f.Kind == match.NotDouble || f.Kind == match.NotPaired {
			t.Errorf("in one layer there is no fold: %+v", f)
		}
	}
	if h.Folded() || len(h.Layout().Frame.Folds) > 0 {
		t.Error("it still lies folded")
	}
}

// Small steps of a key lead a piece past another, and are taken back together.
func TestNudgedPastAnother(t *testing.T) {
	_, h, panel, flap := inHand(t, false, stash.EitherWay)
	a, b := h.Layout().Pieces[panel].Outline.Bounds(), h.Layout().Pieces[flap].Outline.Bounds()
	h.Move(flap, shape.Point{X: a.Max.X + 200_000 - b.Min.X, Y: a.Min.Y + 100_000 - b.Min.Y})
	start := h.Layout().Pieces[flap].Place
	over := 0
	for range 300 {
		h.Nudge(flap, shape.Point{X: -5_000})
		if len(h.Faults()) > 0 {
			over++
		}
		if h.Layout().Pieces[flap].Outline.Bounds().Min.X < 5_000 {
			break
		}
	}
	if got := h.Layout().Pieces[flap].Outline.Bounds().Min.X; got >= 100_000 || over < 20 {
		t.Errorf("it came to %d µm, over the panel %d times", got, over)
	}
	if _, ok := h.Undo(); !ok || h.Layout().Pieces[flap].Place != start {
		t.Error("the steps were not taken back together")
	}
}
