package stash

import (
	"strings"

	"tallycloth/stash/measure"
)

// Fibres is the fibre content of a fabric, largest share first. Shares sum to
// 100 %; empty means not known.
type Fibres []Fibre

// Fibre is one constituent and its share by mass.
type Fibre struct {
	Name  string // name of Regulation (EU) No 1007/2011, annex I; "other fibres" allowed
	Share measure.Percent
}

// whole is 100 %.
const whole = 100 * measure.OnePercent

// sum returns what the shares add up to.
func (f Fibres) sum() measure.Percent {
	var s measure.Percent
	for _, x := range f {
		s += x.Share
	}
	return s
}

// Validate says what cannot be about fibre content: nil, also for none at all, or
// an Error of kind Invalid. Shares are more than zero and reach exactly 100 %.
func (f Fibres) Validate() error {
	if len(f) == 0 {
		return nil
	}
	for _, x := range f {
		if strings.TrimSpace(x.Name) == "" || x.Share <= 0 {
			return invalid("Write it as 95% cotton 5% elastane", "Every fibre needs a name and a share of more than zero")
		}
	}
	switch s := f.sum(); {
	case s < whole:
		return invalid("Add it, or write it as other fibres", "The fibres reach %s, %s is missing", measure.FormatPercent(s), measure.FormatPercent(whole-s))
	case s > whole:
		return invalid("Look at the label again", "The fibres reach %s, %s too much", measure.FormatPercent(s), measure.FormatPercent(s-whole))
	}
	return nil
}

// String writes the content as on a label: "95 % cotton, 5 % elastane"; "" when it
// is not known.
func (f Fibres) String() string {
	parts := make([]string, len(f))
	for i, x := range f {
		parts[i] = measure.FormatPercent(x.Share) + " " + x.Name
	}
	return strings.Join(parts, ", ")
}
