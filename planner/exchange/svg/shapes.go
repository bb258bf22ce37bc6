package svg

import (
	"errors"
	"fmt"
	"math"
)

// outline returns the runs of a basic shape or path in units of the drawing, nothing
// for a shape that SVG does not draw (a width of 0), with at most most segments.
//
// Source: SVG 1.1 second edition, chapter 9.
func (n *node) outline(most int) ([]subpath, error) {
	switch n.name {
	case "path":
		return parsePath(n.attr("d"), most)
	case "polygon":
		return n.polyline(most, true)
	case "polyline":
		return n.polyline(most, false)
	case "line":
		v, err := n.coordinates("x1", "y1", "x2", "y2")
		if err != nil {
			return nil, err
		}
		return []subpath{{from: vec{v[0], v[1]}, segments: lines(vec{v[2], v[3]})}}, nil
	case "rect":
		return n.rect()
	case "circle":
		v, err := n.coordinates("cx", "cy", "r")
		if err != nil || v[2] <= 0 {
			return nil, err
		}
		return ellipse(v[0], v[1], v[2], v[2]), nil
	case "ellipse":
		v, err := n.coordinates("cx", "cy", "rx", "ry")
		if err != nil {
			return nil, err
		}
		rx, ry := n.both(v[2], v[3])
		if rx <= 0 || ry <= 0 {
			return nil, nil
		}
		return ellipse(v[0], v[1], rx, ry), nil
	}
	return nil, fmt.Errorf("%s is no shape", n.name)
}

// both gives a missing radius the value of the other.
func (n *node) both(rx, ry float64) (float64, float64) {
	if n.attr("rx") == "" || n.attr("rx") == "auto" {
		rx = ry
	}
	if n.attr("ry") == "" || n.attr("ry") == "auto" {
		ry = rx
	}
	return rx, ry
}

func lines(points ...vec) []segment {
	out := make([]segment, len(points))
	for i, p := range points {
		out[i] = segment{kind: 'L', to: p}
	}
	return out
}

// polyline reads a list of points.
func (n *node) polyline(most int, closed bool) ([]subpath, error) {
	s := scanner{text: n.attr("points")}
	var out []vec
	for s.space(); !s.done(); s.comma() {
		x, ok := s.number()
		s.comma()
		y, ok2 := s.number()
		if !ok || !ok2 {
			return nil, errors.New("its list of points is not understood")
		}
		if len(out) >= most {
			return nil, errTooManyPoints
		}
		out = append(out, vec{x, y})
	}
	if len(out) == 0 {
		return nil, nil
	}
	return []subpath{{from: out[0], segments: lines(out[1:]...), closed: closed}}, nil
}

// rect is a rectangle, its corners rounded by quarter ellipses where it has radii.
func (n *node) rect() ([]subpath, error) {
	v, err := n.coordinates("x", "y", "width", "height", "rx", "ry")
	if err != nil || v[2] <= 0 || v[3] <= 0 {
		return nil, err
	}
	x, y, w, h := v[0], v[1], v[2], v[3]
	rx, ry := n.both(v[4], v[5])
	rx, ry = math.Min(rx, w/2), math.Min(ry, h/2)
	if rx <= 0 || ry <= 0 {
		return []subpath{{from: vec{x, y}, segments: lines(vec{x + w, y}, vec{x + w, y + h}, vec{x, y + h}), closed: true}}, nil
	}
	s := subpath{from: vec{x + rx, y}, closed: true}
	here := s.from
	side := func(line, corner vec) {
		a := arcThrough(line, corner, rx, ry, 0, false, true)
		if line != here {
			s.segments = append(s.segments, segment{kind: 'L', to: line})
		}
		s.segments = append(s.segments, segment{kind: 'A', arc: a, to: corner})
		here = corner
	}
	side(vec{x + w - rx, y}, vec{x + w, y + ry})
	side(vec{x + w, y + h - ry}, vec{x + w - rx, y + h})
	side(vec{x + rx, y + h}, vec{x, y + h - ry})
	side(vec{x, y + ry}, vec{x + rx, y})
	return []subpath{s}, nil
}

// ellipse is a whole ellipse in two halves.
func ellipse(cx, cy, rx, ry float64) []subpath {
	right, left := vec{cx + rx, cy}, vec{cx - rx, cy}
	shape := matrix{a: rx, d: ry, e: cx, f: cy}
	return []subpath{{from: right, closed: true, segments: []segment{
		{kind: 'A', arc: &arc{shape, 0, math.Pi}, to: left},
		{kind: 'A', arc: &arc{shape, math.Pi, math.Pi}, to: right},
	}}}
}
