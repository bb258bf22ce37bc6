package stash

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"tallycloth/stash/measure"
)

// WeighedSwatch is a piece of fabric that was cut out and weighed: a rectangle of two sides,
// or a disc.
type WeighedSwatch struct {
	Grams         float64
	Length, Width measure.Length // of a rectangle, both zero for a disc
	Diameter      measure.Length // of a disc
}

// ounce is the avoirdupois ounce in grams (NIST SP 811, exact).
const ounce = 28.349523125

var swatchWeight = regexp.MustCompile(`^([0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)\s*(g|gr|gram|grams|oz|ounce|ounces)?$`)

// ParseGrams reads what a scale shows: "4.2 g", "4,2", "0.15 oz"; a bare number is grams.
func ParseGrams(text string) (float64, error) {
	m := swatchWeight.FindStringSubmatch(strings.ToLower(strings.TrimSpace(text)))
	if m == nil || len(m[1]) > 12 {
		return 0, invalid("Write it like 4.2 g or 0.15 oz", "%q is no weight that a scale shows", text)
	}
	g, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
	if err != nil {
		return 0, invalid("Write it like 4.2 g or 0.15 oz", "%q is no weight that a scale shows", text)
	}
	if strings.HasPrefix(m[2], "o") {
		g *= ounce
	}
	if g <= 0 || g > 100_000 {
		return 0, invalid("Weigh it again", "A swatch cannot weigh %q", text)
	}
	return g, nil
}

// Bounds of what fabrics weigh, to catch a slip of the units (ours): lighter than a veil,
// heavier than a blanket.
const lightest, heaviest = 5 * gsm, 3000 * gsm

// Weight returns grams by area, rounded to 0.1 g/m²: mass per unit area as ISO 3801 and ASTM
// D3776 reckon it (from memory). The error says what cannot be.
func (s WeighedSwatch) Weight() (measure.Weight, error) {
	area := float64(s.Length) * float64(s.Width)
	switch {
	case s.Diameter > 0 && (s.Length > 0 || s.Width > 0):
		return 0, invalid("Give two sides or a diameter", "A swatch is a rectangle or a disc, not both")
	case s.Diameter > 0:
		area = math.Pi / 4 * float64(s.Diameter) * float64(s.Diameter)
	case s.Length <= 0 || s.Width <= 0:
		return 0, invalid("Measure both sides of the swatch, or the diameter of a round one", "The size of the swatch is missing")
	}
	if !(s.Grams > 0) {
		return 0, invalid("Weigh the swatch", "The weight of the swatch is missing")
	}
	w := measure.Weight(math.Round(s.Grams*1e13/area)) * (gsm / 10)
	if w < lightest || w > heaviest {
		return 0, invalid("Look at the units of weight and size again", "%s is nothing that fabric weighs", measure.FormatWeight(w, measure.Metric))
	}
	return w, nil
}
