package batch

// Budgets of the choice after a round, in ways on that are looked at, and of the last one, when
// nothing is left to try.
const (
	roundEffort = 1_000_000
	lastEffort  = 40_000_000
	leastStates = 24
	mostStates  = 200_000
	mostOptions = 60 // of one cloth, after a round
)

// choose looks for a better plan among the loads that fit. It says in the plan whether the choice
// is exact.
func (v *solver) choose(effort int) {
	if v.plan.Exact && v.chosen == v.fitting() {
		return
	}
	options := mostOptions
	if effort == lastEffort {
		options = 0
	}
	c := v.newChoice(v.facts, v.plan.Score, options, false)
	facts := c.run(c.states(effort))
	if facts != nil {
		v.adopt(facts)
	}
	v.plan.Exact, v.chosen = c.exact, v.fitting()
}

// fitting counts the loads that fit.
func (b *book) fitting() int {
	n := 0
	for _, f := range b.fits {
		n += len(f)
	}
	return n
}

// states returns how many states an effort allows.
func (c *choice) states(effort int) int {
	ways := 1
	for _, st := range c.stages {
		ways += len(st.options)
	}
	return min(mostStates, max(leastStates, effort/ways))
}

// dream chooses as if more might be cut than is used, and returns the loads that are left when what
// is not used is taken off: if they fit, and they should, the plan is better.
func (v *solver) dream() []*fact {
	c := v.newChoice(v.facts, v.plan.Score, mostOptions, true)
	facts := c.run(c.states(roundEffort / 2))
	if facts == nil {
		return nil
	}
	var out []*fact
	for cloth, l := range c.trim(facts) {
		if len(l) == 0 {
			continue
		}
		if f := v.about(cloth, l); f.verdict == Unknown && f.efforts <= v.mostEffort {
			v.propose(f)
			out = append(out, f)
		}
	}
	return out
}
