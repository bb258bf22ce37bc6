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
	if v.chosen == v.fitting() && v.price != nil && (v.plan.Exact || effort != lastEffort) {
		if !v.plan.Exact {
			v.windows()
		}
		return
	}
	options := 0
	if effort != lastEffort {
		options = mostOptions
		effort >>= min(3, v.barren/2) // where long efforts found nothing lately, windows do better
	}
	var c, dreamer *choice
	var facts, dreamt []*fact
	v.share(2, func(i int) {
		switch {
		case i == 0:
			c = v.newChoice(v.facts, v.plan.Score, options, false, nil)
			facts = c.run(c.states(effort))
		case v.gaps():
			dreamer = v.newChoice(v.facts, v.plan.Score, mostOptions, true, nil)
			dreamt = dreamer.run(dreamer.states(effort / 4))
		}
	})
	v.barren++
	if facts != nil && v.adopt(facts) {
		v.barren = 0
	}
	v.plan.Exact, v.chosen = c.exact, v.fitting()
	v.price, v.earned, v.guide = c.price, c.earned, c.guide
	if dreamt != nil {
		v.wish(dreamer.trim(dreamt))
	}
	if !c.exact {
		v.windows()
	}
}

// wish proposes the loads of a dream: a choice as if more might be cut than is used, with what is
// not used taken off. If they fit, and they should, the plan is better.
func (v *solver) wish(loads []Load) {
	for cloth, l := range loads {
		if len(l) == 0 {
			continue
		}
		if f := v.about(cloth, l); f.verdict == Unknown && f.efforts <= v.mostEffort {
			v.propose(f)
			v.wishes = append(v.wishes, f)
		}
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
