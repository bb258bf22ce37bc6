package verb_test

import "testing"

// TestMoveAndFlaw: a place is noted; a flaw takes its area off; what cannot be is refused.
func TestMoveAndFlaw(t *testing.T) {
	d := newDesk(t)
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm")
	d.done("move", code, "hall cupboard")
	if r := d.run("move", code, "hall cupboard"); r.code == 0 {
		t.Error("moved to where it is")
	}
	before := d.free(code)
	d.done("flaw", code, "--along", "62 cm", "--across", "41 cm", "--length", "3 cm", "--width", "2 cm", "--note", "moth hole")
	// An upright rectangle without its corners: 95.5 % of 3 × 2 cm.
	if lost := before - d.free(code); lost < 0.000572 || lost > 0.000574 {
		t.Errorf("%g m² went with the flaw", lost)
	}
	for _, args := range [][]string{
		{"flaw", code, "--along", "62 cm"},
		{"flaw", code, "--along", "3 m", "--across", "41 cm", "--length", "3 cm", "--width", "2 cm"},
		{"flaw", code, "--along", "much", "--across", "41 cm", "--length", "3 cm", "--width", "2 cm"},
		{"flaw", code, "--along", "62 cm", "--across", "41 cm", "--length", "3 cm", "--width", "2 cm"},
	} {
		if r := d.run(args...); r.code == 0 || r.err == "" {
			t.Errorf("%v is not refused: %+v", args, r)
		}
	}
}
