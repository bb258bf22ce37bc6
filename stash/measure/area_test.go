package measure_test

import (
	"testing"

	"tallycloth/stash/measure"
)

func TestFormatArea(t *testing.T) {
	for _, c := range []struct {
		a    measure.Area
		s    measure.System
		want string
	}{
		{1_550_000_000_000, measure.Metric, "1.55 m²"},
		{20_000_000_000_000, measure.Metric, "20 m²"},
		{4_000_000_000, measure.Metric, "0 m²"},
		{-500_000_000_000, measure.Metric, "-0.5 m²"},
		{836_127_360_000, measure.Imperial, "1 yd²"}, // 1 yd² = 0.83612736 m², NIST SP 811
		{418_063_680_000, measure.Imperial, "0.5 yd²"},
	} {
		if got := measure.FormatArea(c.a, c.s); got != c.want {
			t.Errorf("%d: %q, want %q", c.a, got, c.want)
		}
	}
}

// TestFractions: 40 % is 0.4, and back, rounded half away from zero.
func TestFractions(t *testing.T) {
	for f, want := range map[float64]measure.Percent{0.4: 4000, -0.05: -500, 0.00005: 1, -0.00005: -1, 0: 0, 1.5: 15000} {
		if got := measure.PercentOf(f); got != want {
			t.Errorf("%v: %d, want %d", f, got, want)
		}
	}
	if got := measure.Percent(4000).Fraction(); got != 0.4 {
		t.Errorf("40 %% is %v", got)
	}
	if got := (25 * measure.Millimetre).Millimetres(); got != 25 {
		t.Errorf("25 mm is %v", got)
	}
	if got := measure.Area(2_500_000_000_000).SquareMetres(); got != 2.5 {
		t.Errorf("2.5 m² is %v", got)
	}
}
