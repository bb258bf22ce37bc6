package pattern

import (
	"math"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Size returns the size of that name, and whether there is one.
func (p Pattern) Size(name string) (Size, bool) {
	for _, s := range p.Sizes {
		if s.Name == name {
			return s, true
		}
	}
	return Size{}, false
}

// Role returns the role of that name, and whether there is one.
func (p Pattern) Role(name string) (Role, bool) {
	for _, r := range p.Roles {
		if r.Name == name {
			return r, true
		}
	}
	return Role{}, false
}

// Piece returns the pattern piece of that code, and whether there is one.
func (p Pattern) Piece(code string) (Piece, bool) {
	for _, q := range p.Pieces {
		if q.Code == code {
			return q, true
		}
	}
	return Piece{}, false
}

// Edge returns the edge to finish of that name, and whether there is one.
func (p Pattern) Edge(name string) (Edge, bool) {
	for _, e := range p.Edges {
		if e.Name == name {
			return e, true
		}
	}
	return Edge{}, false
}

// PiecesOf returns the pattern pieces cut from a role's fabric that have an
// outline in a size.
func (p Pattern) PiecesOf(role, size string) []Piece {
	var out []Piece
	for _, q := range p.Pieces {
		if _, ok := q.Outlines[size]; ok && q.Role == role {
			out = append(out, q)
		}
	}
	return out
}

// HasOutlines says whether a role can be laid out in a size.
func (p Pattern) HasOutlines(role, size string) bool { return len(p.PiecesOf(role, size)) > 0 }

// Whole returns the outline of the piece as it is cut from one layer: the half of
// a piece on the fold opened out about y = 0. A ring that does not touch the fold
// is returned as it is.
func (q Piece) Whole(size string) shape.Ring {
	half := q.Outlines[size].Cut
	if !q.OnFold {
		return half
	}
	return Unfold(half)
}

// Unfold opens a half out about y = 0. The half is counter-clockwise in y ≥ 0 with
// one stretch on the fold; points on the fold between its ends are dropped.
func Unfold(half shape.Ring) shape.Ring {
	n := len(half)
	start := -1
	for i, p := range half {
		if p.Y == 0 && half[(i+1)%n].Y > 0 {
			start = i
		}
	}
	if start < 0 {
		return half
	}
	var open shape.Ring // from the fold round to the fold, y > 0 between
	for k := range n {
		p := half[(start+k)%n]
		open = append(open, p)
		if k > 0 && p.Y == 0 {
			break
		}
	}
	out := append(shape.Ring{}, open...)
	for k := len(open) - 2; k > 0; k-- {
		out = append(out, shape.Point{X: open[k].X, Y: -open[k].Y})
	}
	return out
}

// Length is the length of the path, in µm.
func (e EdgePath) Length() measure.Length {
	var sum float64
	for i := 1; i < len(e.Points); i++ {
		d := e.Points[i].Sub(e.Points[i-1])
		sum += math.Hypot(float64(d.X), float64(d.Y))
	}
	return measure.Length(math.Round(sum))
}

// Turning is the signed turning of a polyline in radians, positive where the
// garment, on its left, lies outside the curve (neckline, armhole). Repeated
// points count for nothing.
func Turning(points []shape.Point) float64 {
	var sum float64
	var last shape.Point
	for i := 1; i < len(points); i++ {
		d := points[i].Sub(points[i-1])
		if d == (shape.Point{}) {
			continue
		}
		if last != (shape.Point{}) {
			cross := float64(last.X)*float64(d.Y) - float64(last.Y)*float64(d.X)
			dot := float64(last.X)*float64(d.X) + float64(last.Y)*float64(d.Y)
			sum -= math.Atan2(cross, dot)
		}
		last = d
	}
	return sum
}

// MeasuredSegment is one part of an edge to finish in one size.
type MeasuredSegment struct {
	EdgeSegment
	Length  measure.Length // on the stitching line
	Turning float64        // radians, see Turning
}

// Measure returns the segments of an edge in a size, measured on the stitching
// line. A segment whose path is missing in that size is reported by name.
func (p Pattern) Measure(e Edge, size string) (segments []MeasuredSegment, missing []string) {
	for _, s := range e.Segments {
		m := MeasuredSegment{EdgeSegment: s}
		if s.Piece == "" {
			m.Length = s.Free[size]
		} else {
			path, ok := p.path(s.Piece, s.Path, size)
			if !ok {
				missing = append(missing, s.Name)
				continue
			}
			times := max(s.Times, 1)
			m.Length = path.Length() * measure.Length(times)
			m.Turning = path.Turn * float64(times)
		}
		segments = append(segments, m)
	}
	return segments, missing
}

func (p Pattern) path(piece, name, size string) (EdgePath, bool) {
	q, ok := p.Piece(piece)
	if !ok {
		return EdgePath{}, false
	}
	for _, e := range q.Outlines[size].Edges {
		if e.Name == name {
			return e, true
		}
	}
	return EdgePath{}, false
}

// Ease is finished minus body at a level, and whether both are known.
func (s Size) Ease(level string) (measure.Length, bool) {
	body, ok := s.Body[level]
	finished, ok2 := s.Finished[level]
	return finished - body, ok && ok2
}
