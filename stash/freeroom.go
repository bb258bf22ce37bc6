package stash

import (
	"cmp"
	"slices"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// FreeRoom says whether some straight part of a cloth, length along the grain and width across, is free
// of the boxes around everything that is reserved on it; a width of zero asks for half of the cloth's.
// Of an odd outline its bounds are looked at.
func (s *ClothState) FreeRoom(length, width measure.Length) bool {
	if width <= 0 {
		width = s.Cloth.Width / 2
	}
	if s.Cloth.Length < length || s.Cloth.Width < width {
		return false
	}
	taken := s.reservedBoxes()
	if len(taken) == 0 {
		return true
	}
	whole := s.Cloth.Polygon().Bounds()
	starts := []int64{whole.Min.X}
	for _, b := range taken {
		starts = append(starts, b.Max.X)
	}
	for _, x := range starts {
		if x+int64(length) <= whole.Max.X && widestGap(taken, x, x+int64(length), whole) >= int64(width) {
			return true
		}
	}
	return false
}

// reservedBoxes are the boxes around what is reserved, by their lower sides across.
func (s *ClothState) reservedBoxes() []shape.Box {
	var out []shape.Box
	for _, r := range s.Reservations {
		for _, p := range r.Pieces {
			out = append(out, p.Outline.Bounds())
		}
	}
	slices.SortFunc(out, func(a, b shape.Box) int { return cmp.Compare(a.Min.Y, b.Min.Y) })
	return out
}

// widestGap is the widest room across that no box reaches into between two places along.
func widestGap(taken []shape.Box, from, to int64, whole shape.Box) int64 {
	free, reached := int64(0), whole.Min.Y
	for _, b := range taken {
		if b.Max.X <= from || b.Min.X >= to {
			continue
		}
		free, reached = max(free, b.Min.Y-reached), max(reached, b.Max.Y)
	}
	return max(free, whole.Max.Y-reached)
}
