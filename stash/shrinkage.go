package stash

import (
	"tallycloth/stash/measure"
)

// DimensionalChange returns (after − before)/before, negative when it shrank: DC of
// ISO 5077. Both lengths must be more than zero.
func DimensionalChange(before, after measure.Length) (measure.Percent, error) {
	if before <= 0 || after <= 0 {
		return 0, invalid("Mark at least 35 cm and measure it before and after washing", "Both lengths must be more than zero")
	}
	dc := ratio(after-before, before)
	if dc > measure.MostPercent {
		return 0, invalid("Look at the units of both readings", "It would grow to more than eleven times its length")
	}
	return dc, nil
}

// BeforeWashing returns how much is needed before washing to have l after it: l
// divided by (1 + dc), rounded up to whole µm. Adding the shrinkage to l is not
// enough: 3 yd at −4 % need 3.125 yd, not 3.12. dc > −100 %; l ≥ 0.
func BeforeWashing(l measure.Length, dc measure.Percent) measure.Length {
	of := int64(whole + dc)
	return measure.Length((int64(l)*int64(whole) + of - 1) / of)
}

// AfterWashing returns what l becomes in washing: l·(1 + dc), rounded down to whole
// µm. l ≥ 0.
func AfterWashing(l measure.Length, dc measure.Percent) measure.Length {
	return measure.Length(int64(l) * int64(whole+dc) / int64(whole))
}

// OnceWashed returns how long and wide a cloth will be once it is washed, by what was measured of its fabric
// or else is assumed: what grows is not counted on, and washed cloth stays as it is.
func (s *ClothState) OnceWashed() (length, width measure.Length) {
	if s.Cloth.Washed {
		return s.Cloth.Length, s.Cloth.Width
	}
	f := Assumed(s.Fabric)
	return AfterWashing(s.Cloth.Length, min(f.Lengthwise.Shrinkage.Value, 0)), AfterWashing(s.Cloth.Width, min(f.Crosswise.Shrinkage.Value, 0))
}
