package nest

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// raise goes on from the first layouts by overlap minimisation, as far as the
// question allows, and says whether it did.
func (s *search) raise() bool {
	switch {
	case s.p.in.Ask == LeastLength && s.have && len(s.p.cloths) == 1:
		s.shorten()
		return true
	case s.p.in.Ask == FitsAll && len(s.best.Left) > 0:
		return s.fit(copies(s.p.in))
	case s.p.in.Ask == BestSubset && len(s.best.Left) > 0:
		s.enlarge()
		return true
	}
	return false
}

// takeStart begins with the layout given, parted if its outlines overlap.
func (s *search) takeStart() {
	if s.o.Start == nil {
		return
	}
	if s.keep(*s.o.Start) && s.have {
		return
	}
	g := newGame(s.p, copies(s.p.in))
	if g == nil {
		return
	}
	b := newBoard(g)
	if !b.takeUp(*s.o.Start, b.anywhere(s.rng)) {
		return
	}
	w := &worker{crew: newCrew(s.ctx, g, s.o, s.start, b), separator: newSeparator(g, s.rng)}
	w.b.copyFrom(b)
	if w.separate(exploreStrikes, explorePasses, w.ended) {
		if sol, ok := g.settle(w.b); ok {
			s.keep(sol)
		}
	}
	s.steps += w.crew.steps()
}

// shorten takes length off the best layout on a strip.
func (s *search) shorten() {
	g := newGame(s.p, copies(s.p.in))
	if g == nil {
		return
	}
	first := newBoard(g)
	if first.takeUp(s.best, nowhere) {
		s.send(newCrew(s.ctx, g, s.left(), s.start, first), (*worker).shorten)
	}
}

// fit looks for a layout of a set of copies from the best one so far, with the
// copies it left out laid anywhere, and says whether such a search was possible.
func (s *search) fit(set []Copy) bool {
	g := newGame(s.p, set)
	if g == nil {
		return false
	}
	first := newBoard(g)
	if !first.takeUp(s.best, first.anywhere(s.rng)) {
		return false
	}
	s.send(newCrew(s.ctx, g, s.left(), s.start, first), (*worker).fit)
	return true
}

// enlarge tries to add what the best subset left out, the most valuable first.
func (s *search) enlarge() {
	units := s.unitsLeft()
	for k, u := range units {
		if s.spent() || s.ctx.Err() != nil {
			return
		}
		set := make([]Copy, 0, len(s.best.Laid)+len(u))
		for _, l := range s.best.Laid {
			set = append(set, Copy{l.Item, l.Copy})
		}
		set = append(set, u...)
		if s.p.areaOf(set) > s.p.room() {
			continue
		}
		whole := s.o
		s.o = s.shareOf(len(units) - k)
		s.fit(set)
		s.o = whole
	}
}

// shareOf is the budget when what is left of it is shared by so many.
func (s *search) shareOf(n int) Options {
	o := s.o
	if o.Steps > 0 {
		o.Steps = s.steps + max((o.Steps-s.steps)/int64(n), 1)
	}
	if o.Time > 0 && o.Clock != nil {
		gone := o.Clock().Sub(s.start)
		o.Time = gone + (o.Time-gone)/2
		if n == 1 {
			o.Time = s.o.Time
		}
	}
	return o
}

// unitsLeft are the copies left out: those of a group together, others alone, the
// most valuable first.
func (s *search) unitsLeft() [][]Copy {
	var out [][]Copy
	unit := map[int]int{}
	value := func(u []Copy) (v int64) {
		for _, c := range u {
			v += s.p.in.Items[c.Item].Value
		}
		return v
	}
	for _, c := range s.best.Left {
		g := s.p.in.Items[c.Item].Group
		if k, ok := unit[g]; ok && g != NoGroup {
			out[k] = append(out[k], c)
			continue
		}
		unit[g] = len(out)
		out = append(out, []Copy{c})
	}
	slices.SortStableFunc(out, func(a, b []Copy) int { return cmp.Compare(value(b), value(a)) })
	return out
}

// areaOf is the area of copies in µm².
func (p *problem) areaOf(set []Copy) float64 {
	sum := 0.0
	for _, c := range set {
		sum += float64(p.in.Items[c.Item].Outline.Area())
	}
	return sum
}

// room is the area of the boxes of all fabrics in µm².
func (p *problem) room() float64 {
	sum := 0.0
	for _, c := range p.cloths {
		sum += float64(c.box.Length()) * float64(c.box.Width())
	}
	return sum
}

// left is the budget without the steps already taken.
func (s *search) left() Options {
	o := s.o
	if o.Steps > 0 {
		o.Steps = max(o.Steps-s.steps, 1)
	}
	return o
}

// send lets a crew work and keeps what it finds.
func (s *search) send(c *crew, job func(*worker)) {
	before := s.steps
	c.run(job, func(sol Solution) {
		s.steps = before + c.steps()
		s.keep(sol)
	})
	s.steps = before + c.steps()
}

// nowhere is for boards whose layout is complete.
func nowhere(int) (place, bool) { return place{}, false }

// anywhere lays a copy at random, if it has any way to lie.
func (b *board) anywhere(rng *rand.Rand) func(int) (place, bool) {
	return func(i int) (place, bool) {
		ways := b.ways(i)
		if len(ways) == 0 {
			return place{}, false
		}
		s := &ways[rng.IntN(len(ways))]
		high := s.highX
		if math.IsInf(high, 1) {
			high = s.lowX
		}
		x, y := s.clamp(math.Inf(1), s.lowX+rng.Float64()*(high-s.lowX), s.lowY+rng.Float64()*(s.highY-s.lowY))
		return place{s, x, y}, true
	}
}
