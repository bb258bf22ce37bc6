package measure

// Length is a count of micrometres. 1/8 in is exactly 3175 µm, so fabric
// quantities are exact; finer fractions round by at most half a micrometre.
type Length int64

// Lengths that other lengths are built from. Inch and Yard are exact by
// definition (NIST SP 811, appendix B: 1 in = 25.4 mm, 1 yd = 0.9144 m).
const (
	Micrometre Length = 1
	Millimetre Length = 1000
	Centimetre Length = 10 * Millimetre
	Metre      Length = 1000 * Millimetre
	Inch       Length = 25400
	Foot       Length = 12 * Inch
	Yard       Length = 36 * Inch
)

// Millimetres returns l as a floating count of millimetres, for drawing and
// for formulas that are not exact anyway.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Area is a count of square micrometres (10 m × 2 m is 2·10¹³).
type Area int64

// SquareMetres returns a in m², for weights and display.
func (a Area) SquareMetres() float64 { return float64(a) / 1e12 }

// Weight is the mass of a fabric per area in mg/m² (150 g/m² is 150 000).
// Zero means not known.
type Weight int64

// GramPerSquareMetre is the unit fabric weights are shown in.
const GramPerSquareMetre Weight = 1000

// Percent is a count of hundredths of a percent: 12.5 % is 1250.
type Percent int64

// OnePercent is 1 %.
const OnePercent Percent = 100

// Fraction returns p as a fraction: 40 % is 0.4.
func (p Percent) Fraction() float64 { return float64(p) / 1e4 }

// PercentOf returns the fraction f (0.4) as a Percent, rounded half away from zero.
func PercentOf(f float64) Percent {
	if f < 0 {
		return -PercentOf(-f)
	}
	return Percent(f*1e4 + 0.5)
}

// Money is an amount in minor units (cents, pence, yen) of an ISO 4217 currency.
type Money struct {
	Minor    int64
	Currency string // three capital letters of ISO 4217
}

// System says which of the two systems of units a person works in.
type System int

// The two systems. Both can always be typed whatever the setting is.
const (
	Metric System = iota
	Imperial
)
