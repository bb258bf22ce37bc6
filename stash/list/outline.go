package list

import (
	"errors"
	"strconv"
	"strings"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// mostCorners is how many corners an outline in a cell may have.
const mostCorners = 20_000

var errOutline = errors.New("it is no outline; write POLYGON ((0 0, 600 0, 450 300, 0 300)) in millimetres")

// writeOutline writes an outline as well-known text of OGC 06-103r4 (Simple Features,
// part 1, section 7), in millimetres: rings are closed by their first corner. "" for none.
func writeOutline(p shape.Polygon) string {
	if len(p.Outer) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("POLYGON (")
	for i, r := range append([]shape.Ring{p.Outer}, p.Holes...) {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteByte('(')
		for k := range len(r) + 1 {
			if k > 0 {
				b.WriteString(", ")
			}
			q := r[k%len(r)]
			b.WriteString(decimals(q.X, mm) + " " + decimals(q.Y, mm))
		}
		b.WriteByte(')')
	}
	b.WriteByte(')')
	return b.String()
}

// decimals writes v/unit exactly, for a unit that is a power of ten.
func decimals(v int64, unit measure.Length) string {
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	out := strconv.FormatInt(v/int64(unit), 10)
	frac := strconv.FormatInt(int64(unit)+v%int64(unit), 10)[1:]
	if frac = strings.TrimRight(frac, "0"); frac != "" {
		out += "." + frac
	}
	return sign + out
}

// readOutline reads what writeOutline writes.
func readOutline(text string) (shape.Polygon, error) {
	s := strings.TrimSpace(text)
	if len(s) < 7 || !strings.EqualFold(s[:7], "POLYGON") {
		return shape.Polygon{}, errOutline
	}
	s = strings.TrimSpace(s[7:])
	if !strings.HasPrefix(s, "(") || !strings.HasSuffix(s, ")") || strings.Count(s, ",") > mostCorners {
		return shape.Polygon{}, errOutline
	}
	var p shape.Polygon
	s = strings.TrimSpace(s[1 : len(s)-1])
	for i := 0; s != ""; i++ {
		end := strings.IndexByte(s, ')')
		if s[0] != '(' || end < 0 {
			return shape.Polygon{}, errOutline
		}
		r, err := readRing(s[1:end])
		if err != nil {
			return shape.Polygon{}, err
		}
		if i == 0 {
			p.Outer = r
		} else {
			p.Holes = append(p.Holes, r)
		}
		s = strings.TrimLeft(s[end+1:], ", \n\t")
	}
	if err := p.Validate(); err != nil {
		return shape.Polygon{}, err
	}
	return p, nil
}

func readRing(s string) (shape.Ring, error) {
	var r shape.Ring
	for _, pair := range strings.Split(s, ",") {
		xy := strings.Fields(pair)
		if len(xy) != 2 {
			return nil, errOutline
		}
		x, errX := coordinate(xy[0])
		y, errY := coordinate(xy[1])
		if errX != nil || errY != nil {
			return nil, errOutline
		}
		r = append(r, shape.Point{X: x, Y: y})
	}
	if len(r) < 4 || r[0] != r[len(r)-1] {
		return nil, errOutline
	}
	return r[:len(r)-1], nil
}

// coordinate reads a decimal number of millimetres, either sign.
func coordinate(s string) (int64, error) {
	s, negative := strings.CutPrefix(s, "-")
	l, err := measure.ParseLength(s, mm)
	if err != nil || strings.ContainsFunc(s, func(r rune) bool { return !isDigit(r) && r != '.' }) {
		return 0, errOutline
	}
	if negative {
		l = -l
	}
	return int64(l), nil
}
