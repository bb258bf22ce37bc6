package batch

// transport moves as much as it can from supplies to demands where it goes, and returns how
// much from each to each, and the sum.
func transport(supply, demand []int, goes func(from, to int) bool) ([][]int, int) {
	flow := make([][]int, len(supply))
	for i := range flow {
		flow[i] = make([]int, len(demand))
	}
	left := append([]int(nil), demand...)
	total := 0
	seen := make([]bool, len(demand))
	var push func(i int) bool
	push = func(i int) bool { // one unit from i, others giving way
		for j := range demand {
			if seen[j] || !goes(i, j) {
				continue
			}
			seen[j] = true
			if left[j] > 0 {
				left[j]--
				flow[i][j]++
				return true
			}
			for k := range supply {
				if flow[k][j] > 0 && k != i && push(k) {
					flow[k][j]--
					flow[i][j]++
					return true
				}
			}
		}
		return false
	}
	for i, n := range supply {
		for range n {
			clear(seen)
			if !push(i) {
				break
			}
			total++
		}
	}
	return flow, total
}
