package trace

import (
	"errors"
	"image"
	"math"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func TestRectangleRefused(t *testing.T) {
	good := Rectangle{Corners: [4]Dot{{100, 100}, {300, 110}, {310, 400}, {90, 390}}, Along: A4[0], Across: A4[1]}
	b := image.Rect(0, 0, 500, 500)
	if err := good.Validate(b); err != nil {
		t.Fatal(err)
	}
	for name, tt := range map[string]struct {
		change func(*Rectangle)
		bounds image.Rectangle
	}{
		"a tiny picture":    {func(*Rectangle) {}, image.Rect(0, 0, 20, 20)},
		"outside":           {func(r *Rectangle) { r.Corners[2] = Dot{600, 400} }, b},
		"no number":         {func(r *Rectangle) { r.Corners[2].X = math.NaN() }, b},
		"no size":           {func(r *Rectangle) { r.Along = 0 }, b},
		"a huge size":       {func(r *Rectangle) { r.Across = 20 * measure.Metre }, b},
		"crossed":           {func(r *Rectangle) { r.Corners[1], r.Corners[2] = r.Corners[2], r.Corners[1] }, b},
		"two in one place":  {func(r *Rectangle) { r.Corners[1] = r.Corners[0] }, b},
		"three on one line": {func(r *Rectangle) { r.Corners[1] = Dot{205, 255} }, b},
		"a corner inwards":  {func(r *Rectangle) { r.Corners[1] = Dot{150, 300} }, b},
	} {
		r := good
		tt.change(&r)
		var e *stash.Error
		if err := r.Validate(tt.bounds); !errors.As(err, &e) || e.Kind != stash.Invalid || e.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestTurned: marks that go round the other way give the same plane, not its mirror image.
func TestTurned(t *testing.T) {
	r := Rectangle{Corners: [4]Dot{{100, 100}, {300, 110}, {310, 400}, {90, 390}}, Along: 210_000, Across: 297_000}
	if r.turned() != r {
		t.Error("clockwise corners were changed")
	}
	back := Rectangle{Corners: [4]Dot{r.Corners[0], r.Corners[3], r.Corners[2], r.Corners[1]}, Along: 297_000, Across: 210_000}
	if back.turned() != r {
		t.Errorf("%v", back.turned())
	}
}

func TestLying(t *testing.T) {
	tall := [4]Dot{{0, 0}, {100, 0}, {110, 130}, {-10, 130}}
	if a, b := Lying(tall, A4); a != A4[0] || b != A4[1] {
		t.Error(a, b)
	}
	wide := [4]Dot{{0, 0}, {130, 0}, {130, 100}, {0, 100}}
	if a, b := Lying(wide, Letter); a != Letter[1] || b != Letter[0] {
		t.Error(a, b)
	}
}
