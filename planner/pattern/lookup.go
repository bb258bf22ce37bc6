package pattern

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
