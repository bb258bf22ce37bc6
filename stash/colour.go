package stash

import "github.com/lucasb-eyer/go-colorful"

// ColourDifference says how far two colours of the form "#rrggbb" look apart: 0 for equal
// ones, about 1 for the least that is seen side by side, some 100 from black to white. It is
// CIEDE2000 in CIELAB (CIE 142-2001). It is false where one is no such colour.
func ColourDifference(a, b string) (float64, bool) {
	p, err := colorful.Hex(a)
	if err != nil {
		return 0, false
	}
	q, err := colorful.Hex(b)
	if err != nil {
		return 0, false
	}
	return 100 * p.DistanceCIEDE2000(q), true
}
