package answer

import (
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// twoSquares are two pieces of 10 × 10 cm on a length of 60 × 40 cm without selvedges,
// 5 cm apart.
func twoSquares(d stash.Direction) *Hand {
	c := stash.ClothState{Fabric: stash.Fabric{Direction: d}, Cloth: stash.Cloth{Length: 600_000, Width: 400_000}}
	l := match.Layout{Frame: match.Frame{Folds: []measure.Length{200_000}}}
	for i, x := range []int64{0, 150_000} {
		l.Pieces = append(l.Pieces, match.PlacedPiece{Name: []string{"Front", "Back"}[i], Outline: box(x, 0, 100_000, 100_000), Place: shape.Placement{At: shape.Point{X: x}}, Layer: i})
	}
	return NewHand(say.Voice{}, c, l, 3*measure.Millimetre, 2*measure.Centimetre)
}

func TestPiecesMovedByHand(t *testing.T) {
	h := twoSquares(stash.EitherWay)
	if w := h.Wrong(); len(w) != 0 || h.Touched() {
		t.Fatalf("at first: %v", w)
	}
	// 3.5 cm into the other: too deep to be set clear by a centimetre.
	h.Move(0, shape.Point{X: 85_000})
	w := h.Wrong()
	if len(w) != 1 || w[0].Deep != 35*measure.Millimetre || w[0].Words != "Back lies 35 mm over Front" {
		t.Fatalf("%+v", w)
	}
	if f := h.Layout().Frame; len(f.Folds) != 0 || h.Layout().Pieces[1].Layer != 0 {
		t.Error("moved by hand it still lies folded")
	}
	h.Move(0, shape.Point{Y: 290_000}) // beside it, within the cloth
	if w := h.Wrong(); len(w) != 0 {
		t.Errorf("beside each other: %+v", w)
	}
	h.Move(0, shape.Point{Y: 50_000})
	if w := h.Wrong(); len(w) != 1 || w[0].Other != -1 {
		t.Errorf("beyond the selvedge: %+v", w)
	}
}

// A piece let go a little over another is set clear, exactly the clearance away or a bit more.
func TestLetGoNearby(t *testing.T) {
	h := twoSquares(stash.EitherWay)
	h.Move(0, shape.Point{X: 52_000}) // 2 mm over
	if w := h.Wrong(); len(w) != 0 {
		t.Fatalf("%+v", w)
	}
	if gap := 150_000 - h.Layout().Pieces[0].Outline.Bounds().Max.X; gap < 3_000 || gap > 4_000 {
		t.Errorf("it was set %d µm clear", gap)
	}
}

// Turning follows the fabric's direction, and twice is not at all.
func TestTurnedByHand(t *testing.T) {
	for d, want := range map[stash.Direction][2]shape.Angle{
		stash.EitherWay: {shape.Turn180, 0}, stash.SameWayInGarment: {shape.Turn180, shape.Turn180}, stash.SameWayForAll: {0, 0},
	} {
		h := twoSquares(d)
		before := h.Layout().Pieces[0].Outline.Bounds()
		turned := h.Turn(0)
		ps := h.Layout().Pieces
		if turned != (d != stash.SameWayForAll) || ps[0].Place.Angle != want[0] || ps[1].Place.Angle != want[1] || ps[0].Outline.Bounds() != before {
			t.Errorf("direction %d: turned %v, %v and %v", d, turned, ps[0].Place, ps[1].Place)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		h := twoSquares(stash.EitherWay)
		h.shift(0, shape.Point{X: rapid.Int64Range(-50_000, 50_000).Draw(t, "x"), Y: rapid.Int64Range(0, 90_000).Draw(t, "y")})
		p := h.Layout().Pieces[0]
		h.Turn(0)
		h.Turn(0)
		if q := h.Layout().Pieces[0]; q.Place != p.Place || q.Outline.Bounds() != p.Outline.Bounds() {
			t.Fatalf("%v became %v", p.Place, q.Place)
		}
	})
}

// A piece lies where its placement says, wherever it was moved and turned.
func TestPlaceAndOutlineAgree(t *testing.T) {
	base := box(0, 0, 100_000, 100_000)
	h := twoSquares(stash.EitherWay)
	h.Move(0, shape.Point{X: 7_000, Y: 150_000})
	h.Turn(0)
	p := h.Layout().Pieces[0]
	if got := p.Place.Apply(base).Bounds(); got != p.Outline.Bounds() {
		t.Errorf("placed at %v, drawn at %v", got, p.Outline.Bounds())
	}
}
