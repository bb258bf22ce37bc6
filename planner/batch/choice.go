package batch

import (
	"cmp"
	"math"
	"slices"
)

// A choice takes one of the loads known to fit for each cloth (or leaves it). It is a dynamic
// programme over the cloths: a state is how many copies of each slot are cut so far;
// states that are the same are merged, those that cannot be better than the best plan are dropped,
// and where too many are left the least promising as well, and then the choice is not exact.
type choice struct {
	*shape
	guide  weights
	stages []stage
	best   []*fact // the plan to beat
	score  Score
	reach  []int   // its garments by class and all before
	aim    float64 // its score as one number
	loose  bool    // more may be cut than is used
	exact  bool
	ended  func() bool

	price       []float64 // by slot, of the score as one number
	earned      []float64 // by cloth, at these prices
	rest, total []float64 // what garments, and all together, earn: for each class and all before
	restValue   float64
	totalValue  float64
}

// stage is the choice for one cloth.
type stage struct {
	cloth   int
	options []option
	best    []float64 // what it earns at most: for each class and all before
	most    float64   // and as one number
	same    bool      // as the cloth before
	after   []int     // by task: how many copies the stages after this can give
	closes  []int     // rows that no later stage serves
	rest    Score     // pins and cloths marked First after this
}

// option is one load, or nothing.
type option struct {
	f     *fact
	parts []part
	rows  []int
	hash  [2]uint64
	tally Score
	worth []float64 // at the prices of each class and all before
	value float64   // as one number
}

// part is a number of copies of a slot.
type part struct{ slot, n int }

// weights make one number of a score, in the order of the criteria.
type weights struct {
	pin          float64
	class        []float64
	first, whole float64
	cloth, waste float64
}

// newWeights returns weights by which the lower criteria never outweigh one unit of a higher.
func (s *shape) newWeights(mostWaste float64) weights {
	w, scale := weights{class: make([]float64, len(s.classes))}, 1.0
	n := float64(len(s.Cloths))
	order := s.order()
	for i := len(order) - 1; i >= 0; i-- {
		span := n
		switch order[i] {
		case UseFirst:
			w.first = scale
		case FewestWhole:
			w.whole = scale
		case LeastWaste:
			w.waste, span = scale, mostWaste
		case FewestCloths:
			w.cloth = scale
		}
		scale *= span + 1
	}
	wanted := make([]int, len(s.classes))
	for r, row := range s.Rows {
		wanted[s.class[r]] += row.Count
	}
	for k := len(s.classes) - 1; k >= 0; k-- {
		w.class[k] = scale
		scale *= float64(wanted[k] + 1)
	}
	w.pin = scale
	return w
}

func (w weights) of(s Score) float64 {
	sum := w.pin*float64(s.Pins) + w.first*float64(s.First) - w.whole*float64(s.Whole) - w.cloth*float64(s.Cloths) - w.waste*float64(s.Waste)
	for k, n := range s.Made {
		sum += w.class[k] * float64(n)
	}
	return sum
}

// newChoice prepares a choice among the loads known, to beat a plan. Where most is not 0, only so
// many options are kept for a cloth; where a window is given, other cloths stay as they are.
func (b *book) newChoice(best []*fact, score Score, most int, loose bool, window []bool) *choice {
	c := &choice{shape: b.shape, best: best, score: score, reach: upTo(score.Made), exact: true, loose: loose, ended: b.ended}
	options := make([][]option, len(b.Cloths))
	waste := 0.0
	for i := range b.Cloths {
		options[i] = b.options(i)
		if window != nil && !window[i] {
			options[i] = slices.DeleteFunc(options[i], func(o option) bool { return o.f != best[i] })
		}
		top := int64(0)
		for _, o := range options[i] {
			top = max(top, o.tally.Waste)
		}
		waste += float64(top)
	}
	c.guide = b.newWeights(waste)
	c.aim = c.guide.of(score)
	steps := priceSteps
	if most == 0 {
		steps = lastPriceSteps
	}
	c.appraise(options, steps)
	for _, all := range options {
		_, most := bestOf(all)
		c.earned = append(c.earned, most)
	}
	for i := range options {
		options[i] = c.keep(options[i], i, most)
	}
	c.arrange(options)
	return c
}

// options returns nothing and every load that fits.
func (b *book) options(cloth int) []option {
	out := []option{{}}
	for _, f := range b.fits[cloth] {
		o := option{f: f}
		for _, sh := range f.load {
			i := b.slotAt[b.index(sh.Task)][cloth]
			o.parts = append(o.parts, part{i, sh.N})
			if len(o.rows) == 0 || o.rows[len(o.rows)-1] != sh.Row {
				o.rows = append(o.rows, sh.Row)
			}
		}
		o.tally.cutInto(b.Cloths[cloth], f.waste)
		o.tally.Pins = b.pinsKept(cloth, f.load)
		out = append(out, o)
	}
	slices.SortFunc(out[1:], func(x, y option) int { return cmp.Compare(x.f.key, y.f.key) })
	return out
}

// Steps towards prices for a choice after a round, and for the last one.
const (
	priceSteps     = 120
	lastPriceSteps = 1000
)

// appraise finds prices for each class with all before it and for the score as one number, and
// notes what every option is worth.
func (c *choice) appraise(options [][]option, steps int) {
	values := func(price []float64, o option) float64 {
		sum := 0.0
		for _, p := range o.parts {
			sum += price[p.slot] * float64(p.n)
		}
		return sum
	}
	settle := func(unit []float64, target float64, own func(option) float64) []float64 {
		m := market{shape: c.shape, unit: unit}
		m.earn = func(cloth int, price, supply []float64) float64 {
			best, at := math.Inf(-1), 0
			for i, o := range options[cloth] {
				if v := values(price, o) + own(o); v > best {
					best, at = v, i
				}
			}
			for _, p := range options[cloth][at].parts {
				supply[p.slot] += float64(p.n)
			}
			return best
		}
		p := m.settle(m.start(), target, target, steps)
		return append(slices.Clone(p.slot), p.rest)
	}
	unit := make([]float64, len(c.Rows))
	nothing := func(option) float64 { return 0 }
	var rests []float64
	for k := range c.classes {
		for r := range c.Rows {
			unit[r] = 0
			if c.class[r] <= k {
				unit[r] = 1
			}
		}
		price := settle(slices.Clone(unit), float64(c.reach[k]), nothing)
		rests = append(rests, price[len(c.slots)])
		for _, all := range options {
			for i := range all {
				all[i].worth = append(all[i].worth, values(price, all[i]))
			}
		}
	}
	for r := range c.Rows {
		unit[r] = c.guide.class[c.class[r]]
	}
	own := func(o option) float64 { return c.guide.of(o.tally) }
	price := settle(unit, c.aim, own)
	for _, all := range options {
		for i := range all {
			all[i].value = values(price, all[i]) + own(all[i])
		}
	}
	c.rest = rests
	c.restValue = price[len(c.slots)]
	c.price = price[:len(c.slots)]
	c.sum(options)
}

// sum adds up what all cloths earn.
func (c *choice) sum(options [][]option) {
	c.total = slices.Clone(c.rest)
	c.totalValue = c.restValue
	for _, all := range options {
		best, most := bestOf(all)
		for k := range best {
			c.total[k] += best[k]
		}
		c.totalValue += most
	}
}

func bestOf(all []option) (best []float64, most float64) {
	best, most = slices.Clone(all[0].worth), all[0].value
	for _, o := range all[1:] {
		for k, w := range o.worth {
			best[k] = max(best[k], w)
		}
		most = max(most, o.value)
	}
	return best, most
}

// keep drops options that no better plan can hold, and beyond a number the least valuable.
func (c *choice) keep(all []option, cloth, number int) []option {
	best, most := bestOf(all)
	rest := c.restOf(0, len(c.Cloths))
	ub := make([]float64, len(best))
	kept := all[:0:0]
	for i, o := range all {
		for k := range ub {
			ub[k] = c.total[k] - best[k] + o.worth[k]
		}
		t := o.tally
		t.Pins += rest.Pins
		t.First += rest.First
		if i == 0 || len(all) == 1 || c.hopeful(ub, t, c.totalValue-most+o.value) {
			kept = append(kept, o)
		}
	}
	if number == 0 || len(kept) <= number {
		return kept
	}
	c.exact = false
	values := make([]float64, 0, len(kept))
	for _, o := range kept {
		values = append(values, o.value)
	}
	slices.Sort(values)
	floor := values[len(values)-number]
	return slices.DeleteFunc(kept, func(o option) bool { return o.f != nil && o.value < floor && o.f != c.best[cloth] })
}

// restOf returns the pins and the cloths marked First that cloths can add at most.
func (c *choice) restOf(from, to int) Score {
	var s Score
	for i := from; i < to; i++ {
		for _, p := range c.pinned[i] {
			s.Pins += p.N
		}
		if c.Cloths[i].First {
			s.First++
		}
	}
	return s
}

// hopeful says whether a plan better than the one to beat is possible, by what is possible
// at most: garments by class and all before, the rest of the score, and all as one number.
func (c *choice) hopeful(ub []float64, t Score, value float64) bool {
	if t.Pins != c.score.Pins {
		return t.Pins > c.score.Pins
	}
	for k, u := range ub {
		if n := int(math.Floor(u + 1e-6)); n != c.reach[k] {
			return n > c.reach[k]
		}
	}
	if t.compareRest(c.score, c.order()) <= 0 {
		return false
	}
	return value >= c.aim-1e-11*(math.Abs(c.aim)+c.guide.pin)
}
