package say

import (
	"fmt"
	"strings"
	"testing"

	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func TestVerdicts(t *testing.T) {
	v := Voice{Units: measure.Metric}
	for want, d := range map[string]match.Verdict{
		"Enough":                      {Grade: match.Enough},
		"Not enough: 12 cm short":     {Grade: match.NotEnough, Short: 12 * measure.Centimetre},
		"Enough if it stretches 40 %": {Grade: match.EnoughIf, Ifs: []match.If{{Condition: match.StretchAssumed, Percent: 4000}}},
		"Enough if it is cut crosswise and the strips are joined": {Grade: match.EnoughIf, Ifs: []match.If{{Condition: match.CutCrosswise}, {Condition: match.StripsJoined}}},
		"Unsuitable: stretches 20 % crosswise, asked 35 %": {Grade: match.Unsuitable,
			Reasons: []match.Reason{{What: match.Knit}, {What: match.Stretch, Grain: "crosswise", Asked: 3500, Has: 2000, Bad: true}}},
	} {
		if got := v.Verdict(d); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestErrorsSayWhatToDo(t *testing.T) {
	err := fmt.Errorf("reserving: %w", &stash.Error{Kind: stash.Conflict, What: "part of this cloth was reserved meanwhile", Do: "Look for fabric again."})
	if got, want := Error(err), "Part of this cloth was reserved meanwhile. Look for fabric again."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	_, err = measure.ParseLength("abc", measure.Metre)
	if got := Error(err); got == "" || got[len(got)-1] != '.' {
		t.Errorf("got %q", got)
	}
}

// What is free is never written longer than it is.
func TestFreeRoundsDown(t *testing.T) {
	v := Voice{Units: measure.Metric}
	if got := v.Free(1_004_900); got != v.Length(1_000_000) {
		t.Errorf("got %s", got)
	}
}

func TestStitch(t *testing.T) {
	n := stash.StitchNote{Seam: "side", Stitch: "narrow zigzag", Width: "0.5", Needle: "75/11 ball point", Note: "hold taut"}
	if got, want := Stitch(n), "Side seam: narrow zigzag, width 0.5, needle 75/11 ball point. Hold taut."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	n.Seam = "side seam"
	if got := Stitch(n); !strings.HasPrefix(got, "Side seam: narrow") {
		t.Errorf("got %q", got)
	}
}

// TestShortByLittle: a shortage that rounding hides is said in words.
func TestShortByLittle(t *testing.T) {
	v := Voice{Units: measure.Metric}
	for _, c := range []struct {
		r    match.Reason
		want string
	}{
		{match.Reason{What: match.Area, Asked: 452_000, Has: 446_000, Bad: true}, "needs 0.45 m² of cloth, has a little less"},
		{match.Reason{What: match.Area, Asked: 452_000, Has: 346_000, Bad: true}, "needs 0.45 m² of cloth, has 0.35 m²"},
		{match.Reason{What: match.Width, Asked: int64(1490 * measure.Millimetre), Has: int64(1490 * measure.Millimetre)}, "needs 149 cm of width, has 149 cm"},
	} {
		if got := v.Reason(c.r); got != c.want {
			t.Errorf("%q", got)
		}
	}
}
