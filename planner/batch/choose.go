package batch

// Budgets of the choice after a round, in ways on that are looked at, and of the last one, when
// nothing is left to try.
const (
	roundEffort = 400_000
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
	c := v.newChoice(v.facts, v.plan.Score, options, false, nil)
	facts := c.run(c.states(effort))
	if facts != nil {
		v.adopt(facts)
	}
	v.plan.Exact, v.chosen = c.exact, v.fitting()
	v.price, v.earned, v.guide = c.price, c.earned, c.guide
	if !c.exact {
		v.windows()
	}
}

// gain says how much a load would earn, if it fits, above what its cloth earns at the prices of the
// last choice: in garments of the last class.
func (v *solver) gain(f *fact) float64 {
	if v.price == nil {
		return 0
	}
	var s Score
	s.cutInto(v.Cloths[f.cloth], v.Cloths[f.cloth].Area-f.area)
	s.Pins = v.pinsKept(f.cloth, f.load)
	sum := v.guide.of(s)
	for _, sh := range f.load {
		sum += float64(sh.N) * v.price[v.slotAt[v.index(sh.Task)][f.cloth]]
	}
	return (sum - v.earned[f.cloth]) / v.guide.class[len(v.classes)-1]
}

// fitting counts the loads that fit.
func (b *book) fitting() int {
	n := 0
	for _, f := range b.fits {
		n += len(f)
	}
	return n
}

// gaps says whether a load fits of which a part was not looked at: then a choice among the
// loads known may miss what is possible.
func (b *book) gaps() bool {
	for c, fits := range b.fits {
		for i := len(fits) - 1; i >= 0; i-- {
			f := fits[i]
			for _, s := range f.load {
				if f.size > 1 && b.facts[c][f.load.With(s.Task, -1).key()] == nil {
					return true
				}
			}
		}
	}
	return false
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
	c := v.newChoice(v.facts, v.plan.Score, mostOptions, true, nil)
	facts := c.run(c.states(roundEffort / 4))
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
