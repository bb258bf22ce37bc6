package pattern

import (
	"maps"
	"slices"
)

// Letters is A to Z, then AA, AB, …
func Letters(k int) string {
	if k < 26 {
		return string(rune('A' + k))
	}
	return Letters(k/26-1) + Letters(k%26)
}

// WithPiece returns a copy of the pattern with a piece in a size more: of a pattern piece of that name
// which lacks the size it becomes that size, else it is a new piece with a letter and a use of
// fabric of its own. A size that the pattern lacks comes last.
func (p Pattern) WithPiece(q Piece, size string) Pattern {
	out := p
	out.Sizes, out.Roles, out.Pieces = slices.Clone(p.Sizes), slices.Clone(p.Roles), slices.Clone(p.Pieces)
	if _, ok := p.Size(size); !ok {
		out.Sizes = append(out.Sizes, Size{Name: size})
	}
	if len(out.Roles) == 0 {
		out.Roles = []Role{{Name: Main}}
	}
	for i, known := range out.Pieces {
		if _, has := known.Outlines[size]; known.Name == q.Name && known.OnFold == q.OnFold && !has {
			known.Outlines = maps.Clone(known.Outlines)
			if known.Outlines == nil {
				known.Outlines = map[string]Outline{}
			}
			known.Outlines[size] = q.Outlines[size]
			out.Pieces[i] = known
			return out
		}
	}
	if _, ok := out.Role(q.Role); !ok {
		q.Role = out.Roles[0].Name
	}
	for k := len(out.Pieces); ; k++ {
		if _, taken := out.Piece(Letters(k)); !taken {
			q.Code = Letters(k)
			break
		}
	}
	out.Pieces = append(out.Pieces, q)
	return out
}
