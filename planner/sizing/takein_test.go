package sizing_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

const cm = measure.Centimetre

// tank is the front and the back of the demo tank in a size, and how deep its levels lie.
func tank(size string) (front, back shape.Ring, waist, hip measure.Length) {
	chart := draft.Chart()
	p := draft.Tank(chart)
	for _, b := range chart {
		if b.Size == size {
			waist = measure.Length(b.BackWaist * 1000)
		}
	}
	a, _ := p.Piece("A")
	b, _ := p.Piece("B")
	return a.Outlines[size].Cut, b.Outlines[size].Cut, waist, waist + 18*cm
}

// girth is the garment's at a level: twice the halves of front and back.
func girth(front, back shape.Ring, level measure.Length) measure.Length {
	return 2 * (sizing.Crossings(front, level)[1] + sizing.Crossings(back, level)[1])
}

// Common practice: a waist taken in leaves the hip, and the underarm, as they were; p at
// both side seams lowers the girth there by 4p.
func TestWaistTakenInLeavesTheHip(t *testing.T) {
	for _, s := range draft.Tank(draft.Chart()).Sizes {
		front, back, waist, hip := tank(s.Name)
		rapid.Check(t, func(t *rapid.T) {
			in := sizing.TakeIn{From: waist - 12*cm, At: waist, To: hip, Amount: measure.Length(rapid.Int64Range(-8_000, 25_000).Draw(t, "p"))}
			f, err := in.Apply(front)
			if err != nil {
				t.Fatal(err)
			}
			b, err := in.Apply(back)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := girth(front, back, waist)-girth(f, b, waist), in.Girth(); got != want {
				t.Fatalf("size %s: the waist lost %d µm, want %d", s.Name, got, want)
			}
			for _, level := range []measure.Length{in.From, hip, hip + 1*cm} {
				if girth(front, back, level) != girth(f, b, level) {
					t.Fatalf("size %s: the girth at %d µm changed", s.Name, level)
				}
			}
			if pattern.Unfold(f).Validate() != nil || f.Bounds() != front.Bounds() {
				t.Fatal("the outline is no longer sound")
			}
		})
	}
}

func TestTakeInRefuses(t *testing.T) {
	front, _, waist, hip := tank("4")
	for name, in := range map[string]sizing.TakeIn{
		"levels out of order": {From: waist, At: waist - cm, To: hip, Amount: cm},
		"above the underarm":  {From: 3 * cm, At: waist, To: hip, Amount: cm},
		"below the hem":       {From: waist - 10*cm, At: waist, To: 2 * measure.Metre, Amount: cm},
		"more than is there":  {From: waist - 10*cm, At: waist, To: hip, Amount: 40 * cm},
	} {
		var e *stash.Error
		if _, err := in.Apply(front); !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%s: got %v, want a refusal that says what to do", name, err)
		}
	}
}
