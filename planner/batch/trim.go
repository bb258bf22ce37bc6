package batch

// trim takes off a loose choice what is in no garment, and returns the loads left, by cloth. Garments
// are put together cloth after cloth in the order of the stages, leftovers first, so that
// whole lengths are relieved.
func (c *choice) trim(facts []*fact) []Load {
	on := make([][]int, len(c.tasks)) // cloth of each copy
	for _, st := range c.stages {
		if f := facts[st.cloth]; f != nil {
			for _, s := range f.load {
				for range s.N {
					on[c.index(s.Task)] = append(on[c.index(s.Task)], st.cloth)
				}
			}
		}
	}
	loads := make([]Load, len(c.Cloths))
	for r, row := range c.Rows {
		made := 0
		for _, main := range on[c.first[r]] {
			if made == row.Count {
				break
			}
			if c.gather(r, main, on, loads) {
				made++
			}
		}
	}
	return loads
}

// gather takes the copies of one garment whose main role is on a cloth, if there are any.
func (c *choice) gather(row, main int, on [][]int, loads []Load) bool {
	roles := c.Rows[row].Roles
	at := make([]int, len(roles)) // index into on
	for j := 1; j < len(roles); j++ {
		t := Task{row, j}
		at[j] = -1
		for i, cloth := range on[c.index(t)] {
			if cloth >= 0 && c.goes(t, c.Cloths[cloth].Lot, c.Cloths[main].Lot) {
				at[j] = i
				break
			}
		}
		if at[j] < 0 {
			return false
		}
	}
	loads[main] = loads[main].With(Task{row, 0}, 1)
	for j := 1; j < len(roles); j++ {
		copies := on[c.first[row]+j]
		cloth := copies[at[j]]
		copies[at[j]] = -1
		loads[cloth] = loads[cloth].With(Task{row, j}, 1)
	}
	return true
}
