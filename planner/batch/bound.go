package batch

// bound is how many garments of each class and all before it can be made at most.
type bound struct {
	atMost []int
}

func newBound(s *shape) bound {
	b := bound{make([]int, len(s.classes))}
	for r, row := range s.Rows {
		b.atMost[s.class[r]] += row.Count
	}
	b.atMost = upTo(b.atMost)
	return b
}
