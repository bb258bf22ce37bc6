package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// Kind says what a length is of, which decides unit and rounding.
type Kind int

// The kinds of length.
const (
	FabricLength Kind = iota // along the cloth: yd and in to 1/8 in, or m and cm to 0.5 cm
	Width                    // across the cloth: in to 1/8 in, or cm to 0.5 cm
	PieceLength              // on a pattern piece: in to 1/16 in, or cm to 1 mm
	StripLength              // of a binding strip, length or width: as PieceLength
	StripMark                // of a mark from a strip's end: as StripLength, but always in cm with their tenths, so that a column can be read
)

// Style says how lengths are written.
type Style struct {
	System System
	Kind   Kind
	Comma  bool // decimal comma
}

// stepsPerUnit is the grid of a style: n steps of it make unit.
func (s Style) grid() (n int64, unit Unit) {
	fine := s.Kind == PieceLength || s.Kind == StripLength || s.Kind == StripMark
	switch {
	case s.System == Imperial && fine:
		return 16, Inch
	case s.System == Imperial:
		return 8, Inch
	case fine:
		return 10, Centimetre
	}
	return 2, Centimetre
}

// steps returns how many steps of the grid l is, rounded half up. l ≥ 0.
func (s Style) steps(l Length) int64 {
	n, unit := s.grid()
	return (2*int64(l)*n + int64(unit)) / (2 * int64(unit))
}

// length returns the length of k steps of the grid, rounded to whole µm.
func (s Style) length(k int64) Length {
	n, unit := s.grid()
	return Length((2*k*int64(unit) + n) / (2 * n))
}

// Down returns the longest length of this style's grid that is not more than l:
// for what is to spare. l ≥ 0.
func (s Style) Down(l Length) Length {
	k := s.steps(l)
	if s.length(k) > l {
		k--
	}
	return s.length(k)
}

// Up returns the shortest length of this style's grid that is not less than l:
// for what is to be bought. l ≥ 0.
func (s Style) Up(l Length) Length {
	k := s.steps(l)
	if s.length(k) < l {
		k++
	}
	return s.length(k)
}

// Format writes l rounded to the style's grid, in the unit a person would use:
// "1 1/4 yd", "1 yd 11 3/8 in", "58 1/2 in", "1.25 m", "114.5 cm", "35 mm". What
// it writes reads back as the rounded length, with a minus sign before what is
// negative (which ParseLength refuses).
func (s Style) Format(l Length) string {
	if l < 0 {
		return "-" + s.Format(-l)
	}
	k := s.steps(l)
	if s.System == Imperial {
		return s.imperial(k)
	}
	return s.metric(s.length(k))
}

// imperial writes k steps of 1/8 or 1/16 in.
func (s Style) imperial(k int64) string {
	n, _ := s.grid()
	yard := 36 * n
	if s.Kind != FabricLength || k < yard {
		return mixed(k, n) + " in"
	}
	if k*8%yard == 0 { // eighths of a yard have names in the shop
		return mixed(k*8/yard, 8) + " yd"
	}
	return fmt.Sprintf("%d yd %s in", k/yard, mixed(k%yard, n))
}

// mixed writes k/n with n a power of two as a whole number and a fraction in
// lowest terms: "1 3/8", "3/4", "2", "0".
func mixed(k, n int64) string {
	w, f := k/n, k%n
	for f > 0 && f%2 == 0 {
		f, n = f/2, n/2
	}
	switch {
	case f == 0:
		return strconv.FormatInt(w, 10)
	case w == 0:
		return fmt.Sprintf("%d/%d", f, n)
	}
	return fmt.Sprintf("%d %d/%d", w, f, n)
}

// metric writes a rounded length: fabric from 1 m in metres, pattern pieces and
// strips under 10 cm in millimetres, all else in centimetres.
func (s Style) metric(l Length) string {
	switch {
	case s.Kind == FabricLength && l >= Metre:
		return s.decimals(l, Metre, 2) + " m"
	case (s.Kind == PieceLength || s.Kind == StripLength) && l < 10*Centimetre:
		return s.decimals(l, Millimetre, 0) + " mm"
	case s.Kind == StripMark:
		whole, tenth := l/Centimetre, l%Centimetre/Millimetre
		return strconv.FormatInt(int64(whole), 10) + s.point() + strconv.FormatInt(int64(tenth), 10) + " cm"
	}
	return s.decimals(l, Centimetre, 0) + " cm"
}

// decimals writes l in a metric unit with as many decimals as it needs, at least
// as many as least unless all of them are zero.
func (s Style) decimals(l, unit Length, least int) string {
	out := strconv.FormatInt(int64(l/unit), 10)
	frac := fmt.Sprintf("%0*d", len(strconv.FormatInt(int64(unit), 10))-1, l%unit)
	frac = strings.TrimRight(frac, "0")
	if frac == "" {
		return out
	}
	for len(frac) < least {
		frac += "0"
	}
	return out + s.point() + frac
}

// point is what stands before decimals.
func (s Style) point() string {
	if s.Comma {
		return ","
	}
	return "."
}

// Exact writes l so that ParseLength reads the same length again, for fields to
// edit: as Format does where nothing is lost by it, else to 1/64 in, else in
// decimals of a millimetre. l from 0 to LongestLength.
func (s Style) Exact(l Length) string {
	if l == s.length(s.steps(l)) && l >= 0 {
		return s.exactly(s.Format(l), l)
	}
	if k := (128*int64(l) + int64(Inch)) / (2 * int64(Inch)); s.System == Imperial && l >= 0 {
		if back := Length((2*k*int64(Inch) + 64) / 128); back == l {
			return mixed(k, 64) + " in"
		}
	}
	return s.exactly(s.decimals(l, Millimetre, 0)+" mm", l)
}

// exactly returns text unless it would be refused or read as another length
// because its decimal comma could set off thousands; then it takes the point.
func (s Style) exactly(text string, l Length) string {
	if back, err := ParseLength(text, Millimetre); err != nil || back != l {
		return strings.Replace(text, ",", ".", 1)
	}
	return text
}
