package match

import (
	"fmt"
	"math"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// AsCut returns the outline of a pattern piece in a size as it is cut from one layer: with
// its seam allowance, a half on the fold opened out. The error says that it cannot be cut.
func AsCut(pat pattern.Pattern, p pattern.Piece, size string) (shape.Ring, error) {
	made, err := newPart(pat, p, size)
	if err != nil {
		return nil, fmt.Errorf("pattern piece %s of %s: %w", p.Code, pat.Name, err)
	}
	return made.whole, nil
}

// Lie is how a pattern piece came to lie where it is: made larger for cloth that will
// shrink, then placed.
type Lie struct {
	Along, Across float64 // times what is drawn, along the piece's grain line and across it
	Place         shape.Placement
}

// Drawn is the lie of a piece that was placed as it is drawn.
func Drawn(p shape.Placement) Lie { return Lie{Along: 1, Across: 1, Place: p} }

// At returns where a point of the drawn piece lies on the cloth.
func (l Lie) At(p shape.Point) shape.Point {
	return l.Place.ApplyPoint(shape.Point{X: int64(math.Round(float64(p.X) * l.Along)), Y: int64(math.Round(float64(p.Y) * l.Across))})
}

// How far the points of an outline may lie from where its lie says, in µm, and how much
// larger or smaller than drawn it may be.
const (
	lieSlack          = 60
	leastLie, mostLie = 0.8, 1.35
	snapLie           = 150 // thousandths of a degree: directions are kept to 1 µm in 1 mm
	eighthTurn        = 45_000
)

// LieOf finds how a pattern piece, its outline as cut given, came to lie as it does on a
// cloth; top points where the top of its grain arrow points there. Reservations keep
// outlines alone, so that notches and grain arrows are found through this. It says false
// where the outline is not that of the piece: the pattern was changed, for instance.
func LieOf(cut, laid shape.Ring, top shape.Point) (Lie, bool) {
	if len(cut) != len(laid) || len(cut) < 3 || top == (shape.Point{}) {
		return Lie{}, false
	}
	turn := math.Atan2(float64(-top.Y), float64(-top.X)) * 180_000 / math.Pi
	near := math.Round(turn/eighthTurn) * eighthTurn
	if math.Abs(turn-near) <= snapLie {
		turn = near
	}
	angle := shape.Angle(math.Round(turn)).Norm()
	for _, mirror := range []bool{false, true} {
		if l, ok := lieAt(cut, laid, shape.Placement{Angle: angle, Mirror: mirror}); ok {
			return l, true
		}
	}
	return Lie{}, false
}

// lieAt finds size and place of an outline whose turn is known.
func lieAt(cut, laid shape.Ring, turn shape.Placement) (Lie, bool) {
	if turn.Mirror {
		laid = laid.Reverse() // as Apply reverses it
	}
	sin, cos := math.Sincos(float64(turn.Angle) * math.Pi / 180_000)
	back := make(shape.Ring, len(laid)) // turned back, so that sizes compare along the grain
	for i, p := range laid {
		x, y := float64(p.X)*cos+float64(p.Y)*sin, float64(p.Y)*cos-float64(p.X)*sin
		if turn.Mirror {
			y = -y
		}
		back[i] = shape.Point{X: int64(math.Round(x)), Y: int64(math.Round(y))}
	}
	a, b := cut.Bounds(), back.Bounds()
	l := Lie{Along: times(a.Length(), b.Length()), Across: times(a.Width(), b.Width()), Place: turn}
	if min(l.Along, l.Across) < leastLie || max(l.Along, l.Across) > mostLie {
		return Lie{}, false
	}
	l.Place.At = laid[0].Sub(l.At(cut[0]))
	for i, p := range cut {
		if d := laid[i].Sub(l.At(p)); max(d.X, -d.X, d.Y, -d.Y) > lieSlack {
			return Lie{}, false
		}
	}
	return l, true
}

// times is how much larger one extent is than another; rounding counts as none.
func times(drawn, laid int64) float64 {
	if d := laid - drawn; drawn <= 0 || max(d, -d) <= 4 {
		return 1
	}
	return float64(laid) / float64(drawn)
}
