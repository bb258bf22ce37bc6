package stash

import (
	"fmt"

	"tallycloth/stash/measure"
)

// StretchTest is one bench test along one grain: a folded edge away from the
// selvedge is marked (Before), stretched by hand until the edge starts to curl and
// held for 10 s (Stretched), then laid down for 60 s (After). Times are from
// memory. The widths are those of the tested part, read while it lies and while it
// is stretched; zero: not taken.
type StretchTest struct {
	Before, Stretched, After    measure.Length
	WidthBefore, WidthStretched measure.Length
}

// Validate says what cannot be about a test: nil, or an Error of kind Invalid.
func (t StretchTest) Validate() error {
	switch {
	case t.Before <= 0:
		return invalid("Mark about 10 cm or 4 in before stretching", "The length before stretching must be more than zero")
	case t.Stretched < t.Before:
		return invalid("Read the length while it is stretched", "Stretched it would be shorter than before")
	case t.After < t.Before:
		return invalid("Read it again after a minute's rest", "After resting it would be shorter than before")
	case t.After > t.Stretched:
		return invalid("Read it again after a minute's rest", "After resting it would be longer than stretched")
	case t.Stretched > 11*t.Before:
		return invalid("Look at the units of both readings", "It would stretch to more than eleven times its length")
	case t.WidthBefore < 0 || t.WidthStretched < 0 || (t.WidthBefore == 0) != (t.WidthStretched == 0):
		return invalid("Read the width before and while stretched, or neither", "One of the two widths is missing")
	}
	return nil
}

// Stretch returns (Ls − L0)/L0, the elongation under the pull (form of ASTM D2594
// and D3107, from memory; published worked examples in testdata/stretch).
func (t StretchTest) Stretch() measure.Percent { return ratio(t.Stretched-t.Before, t.Before) }

// Growth returns (Lr − L0)/L0, what stays longer after the rest (ibid.).
func (t StretchTest) Growth() measure.Percent { return ratio(t.After-t.Before, t.Before) }

// Recovery returns (Ls − Lr)/(Ls − L0): the share of the extension that goes back.
// It is what a fabric's Recovery means here. A test that did not stretch recovers
// nothing that could be measured; ok is then false.
func (t StretchTest) Recovery() (p measure.Percent, ok bool) {
	if t.Stretched == t.Before {
		return 0, false
	}
	return ratio(t.Stretched-t.After, t.Stretched-t.Before), true
}

// RecoveredElongation returns 100 % − growth, which EN 14704-1 and ISO 20932-1 call
// recovered elongation (from memory). It is not Recovery: 100 → 150 → 105 mm has
// 95 % of it and a Recovery of 90 %.
func (t StretchTest) RecoveredElongation() measure.Percent { return whole - t.Growth() }

// Narrowing returns (w0 − ws)/w0; ok is false when the widths were not taken.
func (t StretchTest) Narrowing() (p measure.Percent, ok bool) {
	if t.WidthBefore <= 0 {
		return 0, false
	}
	return ratio(t.WidthBefore-t.WidthStretched, t.WidthBefore), true
}

// Apply returns g with what the test measured; its shrinkage stays, and so does its
// narrowing if the widths were not taken.
func (t StretchTest) Apply(g Grain) (Grain, error) {
	if err := t.Validate(); err != nil {
		return g, fmt.Errorf("reading a stretch test: %w", err)
	}
	g.Stretch, g.Growth = Measured(t.Stretch()), Measured(t.Growth())
	g.Recovery = Reading{}
	if p, ok := t.Recovery(); ok {
		g.Recovery = Measured(p)
	}
	if p, ok := t.Narrowing(); ok {
		g.Narrowing = Measured(p)
	}
	return g, nil
}

// ratio returns a/b as a Percent, rounded half away from zero. b > 0, both up to
// LongestLength, so that the product stays under 2^63.
func ratio(a, b measure.Length) measure.Percent {
	if a < 0 {
		return -ratio(-a, b)
	}
	return measure.Percent((2*int64(a)*int64(whole) + int64(b)) / (2 * int64(b)))
}
