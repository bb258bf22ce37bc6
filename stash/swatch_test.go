package stash_test

import (
	"errors"
	"math"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

// TestWeighedSwatch: grams by area, checked by hand and against conversion factors of NIST
// SP 811 (testdata/units): 1 oz/yd² is 33.90575 g/m².
func TestWeighedSwatch(t *testing.T) {
	for _, c := range []struct {
		weight  string
		s       stash.WeighedSwatch
		tenths  int64 // of g/m²
		because string
	}{
		{"1.8 g", stash.WeighedSwatch{Length: 10 * cm, Width: 10 * cm}, 1800, "a hundredth of a square metre"},
		{"2,5", stash.WeighedSwatch{Length: 12 * cm, Width: 10 * cm}, 2083, "2.5/0.012 = 208.33"},
		{"1.8 g", stash.WeighedSwatch{Diameter: 112_838}, 1800, "a disc of 100 cm² is 11.2838 cm across"},
		{"1 oz", stash.WeighedSwatch{Length: measure.Yard, Width: measure.Yard}, 339, "33.90575"},
		{"0.25 oz", stash.WeighedSwatch{Length: 18 * measure.Inch, Width: 18 * measure.Inch}, 339, "a quarter of both"},
	} {
		g, err := stash.ParseGrams(c.weight)
		if err != nil {
			t.Fatal(err)
		}
		c.s.Grams = g
		if w, err := c.s.Weight(); err != nil || int64(w) != c.tenths*100 {
			t.Errorf("%s: %d mg/m², %v, want %d tenths: %s", c.weight, w, err, c.tenths, c.because)
		}
	}
}

// TestSwatchScales: a swatch twice as long and twice as heavy weighs the same by area; a disc
// weighs as a square of its area.
func TestSwatchScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := stash.WeighedSwatch{Grams: rapid.Float64Range(1, 20).Draw(t, "grams"), Length: measure.Length(rapid.Int64Range(50_000, 200_000).Draw(t, "length")), Width: measure.Length(rapid.Int64Range(50_000, 200_000).Draw(t, "width"))}
		w, err := s.Weight()
		if err != nil {
			return // fabric does not weigh so
		}
		double := s
		double.Grams, double.Length = 2*s.Grams, 2*s.Length
		if got, err := double.Weight(); err != nil || got != w {
			t.Fatalf("%d and %d, %v", w, got, err)
		}
		disc := stash.WeighedSwatch{Grams: s.Grams, Diameter: measure.Length(math.Round(math.Sqrt(4 / math.Pi * float64(s.Length) * float64(s.Width))))}
		if got, err := disc.Weight(); err != nil || math.Abs(float64(got-w)) > 100 {
			t.Fatalf("%d and as a disc %d, %v", w, got, err)
		}
	})
}

func TestSwatchRefuses(t *testing.T) {
	for name, s := range map[string]stash.WeighedSwatch{
		"no size":       {Grams: 2},
		"one side":      {Grams: 2, Length: 10 * cm},
		"both":          {Grams: 2, Length: 10 * cm, Width: 10 * cm, Diameter: 10 * cm},
		"no weight":     {Length: 10 * cm, Width: 10 * cm},
		"mm for cm":     {Grams: 2, Length: 10 * mm, Width: 10 * mm},
		"light as dust": {Grams: 0.01, Length: 10 * cm, Width: 10 * cm},
	} {
		_, err := s.Weight()
		var e *stash.Error
		if !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, text := range []string{"", "much", "-2 g", "0", "1.2.3 g", "2 kg", "NaN", "1e3 g", "99999999 g"} {
		if g, err := stash.ParseGrams(text); err == nil {
			t.Errorf("%q was read as %g", text, g)
		}
	}
}

func FuzzGrams(f *testing.F) {
	f.Add("4,2 g")
	f.Add(".5oz")
	f.Fuzz(func(t *testing.T, text string) {
		if g, err := stash.ParseGrams(text); err == nil && !(g > 0 && g <= 100_000) {
			t.Errorf("%q was read as %g", text, g)
		}
	})
}
