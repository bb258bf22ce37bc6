package batch

import (
	"cmp"
	"slices"
)

// A window is a few cloths that are chosen anew while all others stay as they are in the plan: where
// there are too many cloths for an exact choice, many small ones improve it.
const (
	windowCloths   = 14
	windowEffort   = 60_000
	windowsARound  = 6
	windowsAbreast = 2 // a fixed number, so that the answer does not depend on the workers
)

// windows looks through some windows for a better plan, abreast of each other; each round
// looks elsewhere.
func (v *solver) windows() {
	for range windowsARound / windowsAbreast {
		var found [windowsAbreast][]*fact
		v.share(windowsAbreast, func(i int) {
			c := v.newChoice(v.facts, v.plan.Score, mostOptions, false, v.window(v.looked+i))
			found[i] = c.run(c.states(windowEffort))
		})
		v.looked += windowsAbreast
		if v.ended() {
			return
		}
		for _, facts := range found {
			if facts != nil {
				v.adopt(facts)
			}
		}
	}
}

// window picks cloths around a row of which garments are missing, or around a cloth of the
// plan: those that may take the same tasks, and so on from what lies there now.
func (v *solver) window(no int) []bool {
	in, n := make([]bool, len(v.Cloths)), 0
	queue := v.seed(no)
	asked := map[int]bool{}
	for len(queue) > 0 && n < windowCloths {
		t := queue[0]
		queue = queue[1:]
		if asked[t] {
			continue
		}
		asked[t] = true
		for _, c := range v.takers(t, no) {
			if in[c] || n == windowCloths {
				continue
			}
			in[c] = true
			n++
			if f := v.facts[c]; f != nil {
				for _, s := range f.load {
					for j := range v.Rows[s.Row].Roles {
						queue = append(queue, v.first[s.Row]+j)
					}
				}
			}
		}
	}
	return in
}

// seed returns the tasks a window starts from.
func (v *solver) seed(no int) []int {
	var rows []int
	for r, short := range v.short() {
		if short {
			rows = append(rows, r)
		}
	}
	if len(rows) == 0 || no%3 == 2 && len(v.plan.Cuts) > 0 {
		rows = nil
		if len(v.plan.Cuts) > 0 {
			for _, s := range v.plan.Cuts[no/3%len(v.plan.Cuts)].Load {
				rows = append(rows, s.Row)
			}
		}
	} else {
		rows = rows[no%len(rows):][:1]
	}
	var tasks []int
	for _, r := range rows {
		for j := range v.Rows[r].Roles {
			tasks = append(tasks, v.first[r]+j)
		}
	}
	return tasks
}

// takers returns a few cloths that take a task: two it lies on now, and others in a turn
// that changes.
func (v *solver) takers(task, no int) []int {
	var now, others []int
	for c := range v.Cloths {
		if f := v.facts[c]; f != nil && f.load.Of(v.tasks[task]) > 0 {
			now = append(now, c)
		} else if f := v.book.facts[c][Load{{v.tasks[task], 1}}.key()]; f != nil && f.verdict == Fits {
			others = append(others, c)
		}
	}
	turn := func(a, b int) int {
		return cmp.Compare(scatter(uint64(no)<<20+uint64(a)), scatter(uint64(no)<<20+uint64(b)))
	}
	slices.SortFunc(now, turn)
	slices.SortFunc(others, turn)
	return append(now[:min(2, len(now))], others[:min(3, len(others))]...)
}

// short says of which rows garments are not made yet.
func (v *solver) short() []bool {
	short := make([]bool, len(v.Rows))
	made := make([]int, len(v.Rows))
	for _, m := range v.plan.Made {
		made[m.Row]++
	}
	for r, row := range v.Rows {
		short[r] = made[r] < row.Count
	}
	return short
}
