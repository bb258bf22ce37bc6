package pattern

import "fmt"

func (p Pattern) validateEdges() error {
	earlier := map[string]bool{}
	for _, e := range p.Edges {
		switch {
		case e.Name == "" || earlier[e.Name]:
			return invalid(fmt.Sprintf("the edge to finish %q has no name of its own", e.Name), "Give each edge another name, such as neck or armhole.")
		case e.Count < 1:
			return invalid(fmt.Sprintf("the edge %s comes %d times", e.Name, e.Count), "Say how many of it there are: two armholes, one neck.")
		case e.Width < 0:
			return invalid(fmt.Sprintf("the finish of %s is narrower than nothing", e.Name), "Type its finished width, or 0 to choose later.")
		case len(e.Segments) == 0:
			return invalid(fmt.Sprintf("the edge %s has no parts", e.Name), "Mark at least one part on a pattern piece.")
		}
		for _, s := range e.Segments {
			if err := p.validateSegment(e, s); err != nil {
				return err
			}
			if s.Catches != "" && !earlier[s.Catches] {
				return invalid(fmt.Sprintf("%s of %s catches the end of %s, which is not finished before it", s.Name, e.Name, s.Catches), "Put the edges in the order they are sewn.")
			}
		}
		earlier[e.Name] = true
	}
	return nil
}

// validateSegment wants a free part to have its length in every size, and any other
// its path on the piece in every size that has an outline.
func (p Pattern) validateSegment(e Edge, s EdgeSegment) error {
	if s.Times < 0 {
		return invalid(fmt.Sprintf("%s of %s comes %d times", s.Name, e.Name, s.Times), "Say how often its path comes: twice on a fold.")
	}
	if s.Piece == "" {
		for _, size := range p.Sizes {
			if s.Free[size.Name] <= 0 {
				return invalid(fmt.Sprintf("%s of %s has no length in size %s", s.Name, e.Name, size.Name), "Type how long it is as drafted; it is set when tried on.")
			}
		}
		return nil
	}
	q, ok := p.Piece(s.Piece)
	if !ok {
		return invalid(fmt.Sprintf("the edge %s runs along pattern piece %s, which is not there", e.Name, s.Piece), "Choose a pattern piece for it.")
	}
	for _, size := range p.Sizes {
		if _, outlined := q.Outlines[size.Name]; !outlined {
			continue
		}
		if _, ok := p.path(s.Piece, s.Path, size.Name); !ok {
			return invalid(fmt.Sprintf("%s has no edge %q in size %s, which %s needs", q.called(), s.Path, size.Name, e.Name), "Mark the edge on the pattern piece.")
		}
	}
	return nil
}
