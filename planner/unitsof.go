package planner

import "tallycloth/stash/measure"

// usualIn are the lengths of settings that are usual with each system of units: round in both, as they are
// marked on rulers and sold in shops (`common practice`: 1/8 yd, seams of 1/4 in, hems of 7/8 in). Zero is
// the usual of the package that uses it.
func usualIn(u measure.System) [8]measure.Length {
	if u == measure.Imperial {
		in := measure.Length(measure.Inch)
		return [8]measure.Length{in / 8, 3 * in / 4, 3 * in / 4, 36 * in / 8, in / 4, 7 * in / 8, 4 * in, 11 * in / 8}
	}
	d := DefaultSettings()
	return [8]measure.Length{d.Clearance, d.EndLoss, d.TightLength, d.ShopIncrement}
}

// In returns the settings with other units. Lengths that still are the usual ones become the usual ones of
// those units; what the person typed stays.
func (s Settings) In(u measure.System) Settings {
	was, now := usualIn(s.Units), usualIn(u)
	s.Units = u
	for i, l := range []*measure.Length{&s.Clearance, &s.EndLoss, &s.TightLength, &s.ShopIncrement, &s.Seam, &s.Hem, &s.KeepSquare, &s.KeepStrip} {
		if *l == was[i] {
			*l = now[i]
		}
	}
	return s
}
