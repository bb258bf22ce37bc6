package measure

import (
	"fmt"
	"math/big"
	"strings"
)

// Unit is a unit of length, written as the length of one of it: Yard, Centimetre.
type Unit = Length

// LongestLength is the longest length that is taken for meant: 10 km.
const LongestLength = 10_000 * Metre

// unitNames are the names a unit of length goes by, in plain form.
var unitNames = map[string]Unit{
	"mm": Millimetre, "millimetre": Millimetre, "millimetres": Millimetre, "millimeter": Millimetre, "millimeters": Millimetre,
	"cm": Centimetre, "centimetre": Centimetre, "centimetres": Centimetre, "centimeter": Centimetre, "centimeters": Centimetre,
	"m": Metre, "metre": Metre, "metres": Metre, "meter": Metre, "meters": Metre, "mtr": Metre,
	"in": Inch, "ins": Inch, "inch": Inch, "inches": Inch, `"`: Inch,
	"ft": Foot, "foot": Foot, "feet": Foot, "'": Foot,
	"yd": Yard, "yds": Yard, "yard": Yard, "yards": Yard,
}

// UnitNamed returns the unit of length of a name such as "cm" or "yards", in any case.
func UnitNamed(name string) (Unit, bool) {
	u, ok := unitNames[strings.ToLower(strings.TrimSpace(name))]
	return u, ok
}

// ParseLength reads a length as a person types it: `1 1/4 yd`, `1-1/4 yd`,
// `1.25yd`, `1,25 m`, `45"`, `1 yd 9 in`, `3/8`, `⅜ in`, `114 cm`, `5'3"`. A bare
// number is in the field's own unit. Zero is read; use ParsePositiveLength where
// it makes no sense.
//
//  1. The text is read exactly and rounded once, half away from zero, to whole µm.
//  2. Several units go from large to small: `1 yd 9 in`.
//  3. A decimal comma is a decimal sign. `1,250 cm` could mean a thousand and is
//     refused; `1,250 m` and `1,250 yd` are decimals.
//
// The error is a *TextError: empty, no number, negative, an unknown unit, a zero
// below the line, more than 10 km.
func ParseLength(text string, bare Unit) (Length, error) {
	l, wrong := parseLength(text, bare)
	if wrong != "" {
		return 0, lengthError(text, wrong, bare)
	}
	return l, nil
}

// ParseLengthOrNone is ParseLength for what may be none, written 0 or "none", but not less.
func ParseLengthOrNone(text string, bare Unit) (Length, error) {
	if strings.EqualFold(strings.TrimSpace(text), "none") {
		return 0, nil
	}
	l, err := ParseLength(text, bare)
	if err == nil && l < 0 {
		return 0, lengthError(text, "it must not be less than zero", bare)
	}
	return l, err
}

// ParsePositiveLength is ParseLength for what must be more than zero.
func ParsePositiveLength(text string, bare Unit) (Length, error) {
	l, err := ParseLength(text, bare)
	if err == nil && l <= 0 {
		return 0, lengthError(text, "it must be more than zero", bare)
	}
	return l, err
}

func lengthError(text, wrong string, bare Unit) *TextError {
	like := "1.25 m, 114 cm or 45 in"
	if bare == Inch || bare == Foot || bare == Yard {
		like = "1 1/4 yd, 45 in or 114 cm"
	}
	return &TextError{Text: text, Wrong: wrong, Want: wantLength(bare), Like: like}
}

// wantLength says what a length field accepts.
func wantLength(bare Unit) string {
	const any = "a length such as 1 1/4 yd, 45 in, 1.25 m or 114 cm"
	for _, name := range []string{"mm", "cm", "m", "in", "ft", "yd"} {
		if unitNames[name] == bare {
			return any + "; a number alone means " + name
		}
	}
	return any
}

func parseLength(text string, bare Unit) (Length, string) {
	if len(text) > longestText {
		return 0, "it is too long to be a length"
	}
	ts := tokens(plain(text))
	if len(ts) == 0 {
		return 0, "nothing is written"
	}
	sum, last := new(big.Rat), Unit(0)
	for len(ts) > 0 {
		v, unit, rest, wrong := lengthPart(ts, bare, last)
		if wrong != "" {
			return 0, wrong
		}
		sum.Add(sum, v.Mul(v, big.NewRat(int64(unit), 1)))
		ts, last = rest, unit
	}
	n, ok := rounded(sum)
	if !ok || Length(n) > LongestLength {
		return 0, "it is more than 10 km"
	}
	return Length(n), ""
}

// lengthPart reads one number with its unit off the front of ts. last is the unit
// of the part before, or 0 for the first.
func lengthPart(ts []token, bare, last Unit) (v *big.Rat, unit Unit, rest []token, wrong string) {
	v, rest, wrong = number(ts)
	if wrong != "" {
		return nil, 0, nil, wrong
	}
	if len(rest) > 0 && rest[0].kind == 'n' && last == 0 {
		return nil, 0, nil, "two numbers stand side by side without a unit between"
	}
	if len(rest) == 0 {
		if last != 0 {
			return nil, 0, nil, fmt.Sprintf("the %s at the end has no unit", ts[0].text)
		}
		unit = bare
	} else {
		name := rest[0].text
		if unit = unitNames[name]; unit == 0 {
			return nil, 0, nil, fmt.Sprintf("%q is no unit of length", shortened(name))
		}
		rest = afterUnit(rest)
	}
	if last != 0 && unit >= last {
		return nil, 0, nil, "the larger unit comes first"
	}
	if likeThousands(ts[0].text, unit) {
		return nil, 0, nil, "the comma could set off thousands"
	}
	return v, unit, rest, ""
}

// afterUnit drops a unit and the full stop of its abbreviation ("45 in.").
func afterUnit(ts []token) []token {
	ts = ts[1:]
	if len(ts) > 0 && ts[0].kind == '.' {
		ts = ts[1:]
	}
	return ts
}

// likeThousands says whether a comma may have been meant to set off thousands: three
// digits follow it, the number before is not 0, and a thousand of the unit is a
// quantity someone may have.
func likeThousands(s string, unit Unit) bool {
	before, after, found := strings.Cut(s, ",")
	return found && len(after) == 3 && strings.Trim(before, "0") != "" && unit < Yard
}
