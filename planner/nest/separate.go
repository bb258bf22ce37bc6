package nest

import (
	"math"
	"math/rand/v2"
)

// separator parts what overlaps on a board, one worker's own.
type separator struct {
	mover
	style style
	order []int
	hit   []bool    // copies in order
	pairs []overlap // of the last survey
	loss  float64   // of the last survey, unweighted
	top   *board    // the state of least loss since the start
	near  [][2]int
	tried float64 // the loss at which squeezing failed last
}

// overlap is a pair that overlaps; j is −1 for what lies fixed on the cloth.
type overlap struct {
	i, j int
	loss float64
}

func newSeparator(g *game, rng *rand.Rand) *separator {
	return &separator{mover: mover{b: newBoard(g), rng: rng}, style: styles[0], order: make([]int, 0, len(g.copies)), hit: make([]bool, len(g.copies)), top: newBoard(g)}
}

// survey lists the overlapping pairs and sums their loss.
func (s *separator) survey() {
	b := s.b
	s.pairs, s.loss = s.pairs[:0], 0
	for i := range b.at {
		if d := b.sunk(i); d > 0 {
			s.note(overlap{i, -1, b.toll(d) * b.g.factor[i]})
		}
		for j := i + 1; j < len(b.at); j++ {
			if d := b.depth(i, j); d > 0 {
				s.note(overlap{i, j, b.toll(d) * b.g.factor[i] * b.g.factor[j]})
			}
		}
	}
}

func (s *separator) note(o overlap) {
	s.pairs = append(s.pairs, o)
	s.loss += o.loss
}

// reweigh makes overlapping pairs heavier, the worst most, and lets the others
// fade: guided local search (Voudouris, Tsang, 1995).
func (s *separator) reweigh() {
	b := s.b
	n := len(b.at)
	worst := 0.0
	for _, o := range s.pairs {
		worst = max(worst, o.loss)
	}
	for i, w := range b.weight {
		b.weight[i] = max(1, w*weightFade)
	}
	for i, w := range b.hold {
		b.hold[i] = max(1, w*weightFade)
	}
	for _, o := range s.pairs {
		k := (s.style.least + (s.style.most-s.style.least)*o.loss/worst) / weightFade
		if o.j < 0 {
			b.hold[o.i] *= k
			continue
		}
		b.weight[o.i*n+o.j] *= k
		b.weight[o.j*n+o.i] = b.weight[o.i*n+o.j]
	}
}

// pass moves every copy that overlaps something, in random order. It returns
// false when it was told to stop.
func (s *separator) pass(stop func() bool) bool {
	clear(s.hit)
	s.order = s.order[:0]
	for _, o := range s.pairs {
		for _, i := range [2]int{o.i, o.j} {
			if i >= 0 && !s.hit[i] && !s.b.g.fixed[i] {
				s.hit[i] = true
				s.order = append(s.order, i)
			}
		}
	}
	s.rng.Shuffle(len(s.order), func(i, j int) { s.order[i], s.order[j] = s.order[j], s.order[i] })
	for _, i := range s.order {
		if stop() {
			return false
		}
		s.move(i)
	}
	return true
}

// squeezed tries to finish by moving everything at once, where overlaps are small
// and less than at the last attempt; a failure leaves the board as it was.
func (s *separator) squeezed() bool {
	if s.loss > s.tried*squeezeAgain || s.deepest() > squeezeFrom*s.b.g.width {
		return false
	}
	s.tried = s.loss
	if s.squeeze() {
		s.survey()
		if s.loss == 0 {
			return true
		}
	}
	s.b.copyFrom(s.top)
	s.survey()
	return false
}

// deepest is the greatest depth of the last survey.
func (s *separator) deepest() float64 {
	f := s.b.g.factor
	worst := 0.0
	for _, o := range s.pairs {
		d := o.loss / f[o.i]
		if o.j >= 0 {
			d /= f[o.j]
		}
		worst = max(worst, s.b.depthOf(d))
	}
	return worst
}

// separate parts everything on the board, and says whether it did. When it gives
// up, after so many strikes of so many passes without a gain, the board holds the
// state of least loss it met.
func (s *separator) separate(strikes, passes int, stop func() bool) bool {
	s.b.forget()
	s.survey()
	if s.loss == 0 {
		return true
	}
	s.top.copyFrom(s.b)
	least := s.loss
	s.tried = math.Inf(1)
	if s.squeezed() {
		return true
	}
	for failed := 0; failed < strikes; failed++ {
		start := least
		for idle := 0; idle < passes; idle++ {
			if !s.pass(stop) {
				s.b.copyFrom(s.top)
				return false
			}
			s.survey()
			if s.loss == 0 {
				return true
			}
			if s.loss < least {
				if s.loss < least*(1-leastGain) {
					idle = -1
				}
				least = s.loss
				s.top.copyFrom(s.b)
				if s.squeezed() {
					return true
				}
			}
			s.reweigh()
		}
		if least < start*(1-leastGain) {
			failed = -1
		}
		s.b.copyFrom(s.top)
		s.survey()
	}
	s.loss = least
	return false
}
