package say

import (
	"testing"

	"tallycloth/planner/match"
	"tallycloth/stash/measure"
)

// What is needed, what there is and what is left come to the same when a person takes one from the
// other: 2.30 m less 4 cm and 6 % are 2.1244 m.
func TestOneSetOfNumbers(t *testing.T) {
	v := Voice{Units: measure.Metric}
	length := match.Reason{What: match.Length, Asked: 543_000, Has: 2_124_400,
		Of: match.Counted{Whole: 2_300_000, Lost: 40_000, Washing: -600}}
	d := match.Verdict{SpareLength: 2_124_400 - 543_000, Reasons: []match.Reason{length}}
	if got, want := v.Reason(length), "needs 55 cm of length, has 2.12 m (2.30 m − 4 cm raw ends − 6 % shrinkage)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := v.Left(d), "1.57 m to spare"; got != want { // 1.581 m, but 2.12 − 0.55
		t.Errorf("got %q, want %q", got, want)
	}
	width := match.Reason{What: match.Width, Asked: 906_000, Has: 1_536_000, Of: match.Counted{Whole: 1_600_000, Washing: -400}}
	if got, want := v.Reason(width), "needs 91 cm of width, has 153 cm (160 cm − 4 % shrinkage)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	width.Of.Washing, width.Of.Whole = 0, 1_536_000
	if got, want := v.Reason(width), "needs 91 cm of width, has 153 cm"; got != want {
		t.Errorf("nothing is lost, and yet %q", got)
	}
	if got, want := v.Left(match.Verdict{SpareWidth: 59_000}), "5 cm of width to spare"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Percents are whole but where rounding would hide what is missing.
func TestWholePercents(t *testing.T) {
	v := Voice{}
	for _, c := range []struct {
		has  int64
		bad  bool
		want string
	}{
		{9273, false, "recovers 93 % crosswise, asked 85 %"},
		{8473, true, "recovers 84.73 % crosswise, asked 85 %"},
		{7049, true, "recovers 70 % crosswise, asked 85 %"},
	} {
		r := match.Reason{What: match.Recovery, Grain: "crosswise", Asked: 8500, Has: c.has, Bad: c.bad}
		if got := v.Reason(r); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
