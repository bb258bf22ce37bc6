package measure

import (
	"cmp"
	"math/bits"
	"slices"
)

// split shares total over weights, see Money.Split.
func split(total int64, weights []int64) []int64 {
	w, sum := shares(weights)
	if total < 0 {
		out := split(-total, weights)
		for i := range out {
			out[i] = -out[i]
		}
		return out
	}
	out, rest := make([]int64, len(w)), make([]uint64, len(w))
	left := total
	for i := range w {
		hi, lo := bits.Mul64(uint64(total), w[i])
		q, r := bits.Div64(hi, lo, sum)
		out[i], rest[i] = int64(q), r
		left -= out[i]
	}
	order := make([]int, len(w))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rest[b], rest[a]) })
	for _, i := range order[:left] {
		out[i]++
	}
	return out
}

// shares returns the weights with negatives as zero, or all ones when nothing is
// left, and their sum. Weights are scaled down until the sum fits.
func shares(weights []int64) (w []uint64, sum uint64) {
	w = make([]uint64, len(weights))
	shift := bits.Len(uint(len(weights)))
	for i, x := range weights {
		w[i] = uint64(max(x, 0)) >> shift
		if slices.Max(weights) < 1<<(62-shift) {
			w[i] = uint64(max(x, 0))
		}
		sum += w[i]
	}
	if sum == 0 {
		for i := range w {
			w[i] = 1
		}
		sum = uint64(len(w))
	}
	return w, sum
}

// Split shares an area over weights so that the shares sum to it exactly, as Money.Split does.
func (a Area) Split(weights []int64) []Area {
	if len(weights) == 0 {
		return nil
	}
	out := make([]Area, len(weights))
	for i, n := range split(int64(a), weights) {
		out[i] = Area(n)
	}
	return out
}
