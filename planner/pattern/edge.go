package pattern

import "tallycloth/stash/measure"

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
