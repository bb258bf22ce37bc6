package db

import (
	"fmt"
	"strconv"
	"strings"

	"tallycloth/stash/shape"
)

// An outline is kept as text that the eye and sqlite3 can read: points "x,y" in µm
// parted by blanks, rings parted by ";", the outer ring first.

func ringText(r shape.Ring) string {
	b := make([]byte, 0, 16*len(r))
	for i, p := range r {
		if i > 0 {
			b = append(b, ' ')
		}
		b = strconv.AppendInt(b, p.X, 10)
		b = append(b, ',')
		b = strconv.AppendInt(b, p.Y, 10)
	}
	return string(b)
}

func parseRing(s string) (shape.Ring, error) {
	if s == "" {
		return nil, nil
	}
	r := make(shape.Ring, 0, strings.Count(s, " ")+1)
	for s != "" {
		var point string
		point, s, _ = strings.Cut(s, " ")
		x, y, _ := strings.Cut(point, ",")
		px, errX := strconv.ParseInt(x, 10, 64)
		py, errY := strconv.ParseInt(y, 10, 64)
		if errX != nil || errY != nil {
			return nil, fmt.Errorf("reading an outline: %q is no point", point)
		}
		r = append(r, shape.Point{X: px, Y: py})
	}
	return r, nil
}

func polygonText(p shape.Polygon) string {
	rings := make([]string, 0, 1+len(p.Holes))
	for _, r := range p.Rings() {
		rings = append(rings, ringText(r))
	}
	return strings.Join(rings, ";")
}

func parsePolygon(s string) (p shape.Polygon, err error) {
	for i, text := range strings.Split(s, ";") {
		r, err := parseRing(text)
		if err != nil {
			return shape.Polygon{}, err
		}
		if i == 0 {
			p.Outer = r
		} else {
			p.Holes = append(p.Holes, r)
		}
	}
	return p, nil
}
