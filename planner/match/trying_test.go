package match_test

import (
	"context"
	"errors"
	"fmt"
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

// triedSteps bound each search: enough to come off a first layout.
const triedSteps = 2

// whatIsCut counts the pieces of a layout by name.
func whatIsCut(l match.Layout) map[string]int {
	out := map[string]int{}
	for _, p := range l.Pieces {
		out[p.Name]++
	}
	return out
}

// Going on from any layout keeps every rule, leaves what is kept exactly where it lies,
// lays the same pieces, and never takes more length.
func TestKeepTrying(t *testing.T) {
	tank, _, shorts := demo(t)
	tried, better, pinned := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom([]pattern.Pattern{slab(), lopsided(), tank, shorts}).Draw(t, "pattern")
		a := askFor(p, p.Sizes[0].Name)
		a.Fold = rapid.Bool().Draw(t, "fold")
		if rapid.Bool().Draw(t, "strips") {
			a.Strips = stripsFor()
		}
		c := anyCloth(t)
		q, err := match.New(a)
		if err != nil {
			t.Fatal(err)
		}
		v := must(t, q, c)
		if v.Layout == nil {
			return
		}
		h := q.NewHand(c, *v.Layout)
		before := h.Layout()
		if f := h.Faults(); len(f) > 0 {
			t.Fatalf("taken in hand: %+v", f[0])
		}
		keep := make([]bool, len(before.Pieces))
		for range rapid.IntRange(0, 3).Draw(t, "kept") {
			h.Keep(rapid.IntRange(0, len(keep)-1).Draw(t, "which"), true)
		}
		for i := range keep {
			keep[i] = h.Kept(i)
		}
		last := measure.Length(0)
		got, err := q.KeepTrying(context.Background(), c, before, match.Trying{Keep: keep, Seed: 3, Steps: triedSteps, Workers: 1, Report: func(tr match.Trial) {
			if last > 0 && tr.Length > last || tr.Laid != tr.Of {
				t.Fatalf("a trial of %d after one of %d", tr.Length, last)
			}
			last = tr.Length
		}})
		if err != nil {
			t.Fatal(err)
		}
		tried++
		if h.KeptCount() > 0 {
			pinned++
		}
		if got.Better {
			better++
		}
		if f := q.Faults(c, got.Layout); len(f) > 0 {
			t.Fatalf("%+v", f[0])
		}
		if was, is := q.LengthOf(c, before), q.LengthOf(c, got.Layout); is > was || got.Better && len(got.Layout.Pieces) != len(before.Pieces) {
			t.Fatalf("%d pieces on %d µm became %d on %d", len(before.Pieces), was, len(got.Layout.Pieces), is)
		}
		if !sameSpots(before, got.Layout, keep) {
			t.Fatalf("what was kept moved: %v, %+v", keep, got.Layout.Pieces)
		}
		if was, is := whatIsCut(before), whatIsCut(got.Layout); fmt.Sprint(was) != fmt.Sprint(is) {
			t.Fatalf("%v became %v", was, is)
		}
		if d := h.Verdict(); d.Layout == nil || d.Proof != match.ByLayout || d.Grade > match.EnoughIf {
			t.Fatalf("graded %d before, %d in hand", v.Grade, d.Grade)
		}
	})
	if tried < 10 || better == 0 || pinned == 0 {
		t.Errorf("%d tried, %d better, %d with something kept", tried, better, pinned)
	}
}

// sameSpots says whether each piece that was kept is found where it lay, whatever its copy.
func sameSpots(a, b match.Layout, keep []bool) bool {
	for i, p := range a.Pieces {
		if !keep[i] {
			continue
		}
		if !slices.ContainsFunc(b.Pieces, func(q match.PlacedPiece) bool {
			return q.Name == p.Name && q.Outline.Bounds() == p.Outline.Bounds() && shape.OverlapArea(p.Outline, q.Outline) > 0.999*float64(p.Outline.Area())
		}) {
			return false
		}
	}
	return true
}

// A layout in which pieces lie over each other is set right, with the one that is kept
// where it was put.
func TestKeepTryingSetsRight(t *testing.T) {
	for _, fold := range []bool{false, true} {
		q, c, l := layoutOf(t, lopsided(), fold, func(*stash.Fabric) {})
		h := q.NewHand(c, l)
		flap := find(l, "Flap", 0)
		panel := find(l, "Panel", 0)
		to := h.Layout().Pieces[panel].Outline.Bounds().Min.Sub(h.Layout().Pieces[flap].Outline.Bounds().Min)
		h.Move(flap, to.Add(shape.Point{X: 150_000}))
		if len(h.Faults()) == 0 || !h.Kept(flap) || h.Kept(panel) {
			t.Fatalf("fold %v: %+v", fold, h.Faults())
		}
		if fold { // what is cut double must be brought back onto the double cloth
			h.Move(flap, shape.Point{Y: h.Layout().Pieces[panel].Outline.Bounds().Min.Y + 250_000 - 210_000 - h.Layout().Pieces[flap].Outline.Bounds().Min.Y})
		}
		at := h.Layout().Pieces[flap].Outline.Bounds()
		keep := make([]bool, len(l.Pieces))
		for i := range keep {
			keep[i] = h.Kept(i)
		}
		got, err := q.KeepTrying(context.Background(), c, h.Layout(), match.Trying{Keep: keep, Steps: 20, Workers: 1})
		if err != nil || !got.Better || got.Left > 0 {
			t.Fatalf("fold %v: %+v, %v", fold, got, err)
		}
		if f := q.Faults(c, got.Layout); len(f) > 0 {
			t.Errorf("fold %v: %+v", fold, f[0])
		}
		if !slices.ContainsFunc(got.Layout.Pieces, func(p match.PlacedPiece) bool { return p.Name == "Flap" && p.Outline.Bounds() == at }) {
			t.Errorf("fold %v: the flap is not where it was put, %v", fold, at)
		}
	}
}

// Two pieces that are both to stay and lie over each other are refused, by name.
func TestKeptPiecesInEachOthersWay(t *testing.T) {
	q, c, l := layoutOf(t, lopsided(), false, func(*stash.Fabric) {})
	h := q.NewHand(c, l)
	a, b := h.Layout().Pieces[1].Outline.Bounds(), h.Layout().Pieces[2].Outline.Bounds()
	h.Move(1, b.Min.Sub(a.Min).Add(shape.Point{X: 100_000}))
	h.Keep(2, true)
	_, err := q.KeepTrying(context.Background(), c, h.Layout(), match.Trying{Keep: []bool{false, true, true}, Steps: 2})
	var wrong *match.KeptWrong
	if !errors.As(err, &wrong) || wrong.Faults[0].Name != "Flap" || wrong.Faults[0].Kind != match.OverPiece {
		t.Errorf("%v", err)
	}
}

// From nothing: pieces find a place one after the other, and all of them where there is room.
func TestKeepTryingFromNothing(t *testing.T) {
	c := lengthOf(jersey(120*cm), 100*cm)
	a := askFor(slab(), "M")
	a.Strips = stripsFor()
	q := ask(t, a)
	got, err := q.KeepTrying(context.Background(), c, match.Layout{}, match.Trying{Steps: 20})
	if err != nil || !got.Better || got.Left > 0 || len(q.Faults(c, got.Layout)) > 0 {
		t.Fatalf("%d left, %v", got.Left, err)
	}
	if d := q.Proved(c, got.Layout); d.Grade != match.EnoughIf || d.Ifs[0].Condition != match.OneLayer {
		t.Errorf("%+v", d.Ifs)
	}
	got, err = q.KeepTrying(context.Background(), lengthOf(jersey(120*cm), 62*cm), match.Layout{}, match.Trying{Steps: 3})
	if err != nil || got.Better || got.Left == 0 && !got.Impossible {
		t.Errorf("on 62 cm: %d left, %v", got.Left, err)
	}
}

// When it is stopped it gives what it has, without an error.
func TestKeepTryingStopped(t *testing.T) {
	q, c, l := layoutOf(t, lopsided(), false, func(*stash.Fabric) {})
	ctx, stop := context.WithCancel(context.Background())
	stop()
	got, err := q.KeepTrying(ctx, c, l, match.Trying{Steps: 1 << 40})
	if err != nil || len(q.Faults(c, got.Layout)) > 0 {
		t.Errorf("%v", err)
	}
}

// What the rules of cutting accept the engine's own check accepts, and the other way round,
// wherever pieces are moved: two checks that share no code. Folded and open.
func TestFaultsAgreeWithTheEngine(t *testing.T) {
	tank, _, shorts := demo(t)
	right, wrong := 0, 0
	questions := map[string]*match.Question{} // layouts are shared by all cloths of one width
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom([]pattern.Pattern{slab(), lopsided(), tank, shorts}).Draw(t, "pattern")
		a := askFor(p, p.Sizes[0].Name)
		a.Fold = rapid.Bool().Draw(t, "fold")
		q, err := questions[p.Name+fmt.Sprint(a.Fold)], error(nil)
		if q == nil {
			if q, err = match.New(a); err != nil {
				t.Fatal(err)
			}
			questions[p.Name+fmt.Sprint(a.Fold)] = q
		}
		f := jersey(150 * cm)
		f.Direction = stash.Direction(rapid.IntRange(0, 2).Draw(t, "direction"))
		c := lengthOf(f, 180*cm)
		if rapid.Bool().Draw(t, "reserved") {
			c = withReserved(c, shape.Box{Min: shape.Point{X: 1_500_000, Y: 200_000}, Max: shape.Point{X: 1_700_000, Y: 500_000}})
		}
		v := must(t, q, c)
		if v.Layout == nil {
			return
		}
		h := q.NewHand(c, *v.Layout)
		for range rapid.IntRange(1, 4).Draw(t, "moves") {
			i := rapid.IntRange(0, len(v.Layout.Pieces)-1).Draw(t, "piece")
			if rapid.IntRange(0, 3).Draw(t, "turn") == 0 {
				h.Turn(i)
			} else {
				h.Move(i, shape.Point{X: rapid.Int64Range(-200_000, 700_000).Draw(t, "x"), Y: rapid.Int64Range(-5, 5).Draw(t, "y") * 12_000})
			}
		}
		faults := h.Faults()
		l := h.Layout()
		err = nest.Check(l.Instance, l.Solution)
		if slices.ContainsFunc(faults, func(f match.Fault) bool { return f.Kind == match.OffFold }) {
			return // put back onto the fold for the engine
		}
		if (err == nil) != (len(faults) == 0) {
			t.Fatalf("the rules find %+v, the engine says %v", faults, err)
		}
		if err == nil {
			right++
		} else {
			wrong++
		}
	})
	if right < 5 || wrong < 5 {
		t.Errorf("%d right, %d wrong", right, wrong)
	}
}
