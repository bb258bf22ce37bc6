package nest

import (
	"math"
	"slices"
)

// worker shortens a strip: it asks for a little less length, parts what then
// overlaps, and goes on from there (Umetani et al., 2009; exploration and
// compression as in Gardeyn, Vanden Berghe, Wauters, 2025).
type worker struct {
	*crew
	*separator
	pool   []saved
	record record
}

// saved is a state that could not be parted, kept to start again from.
type saved struct {
	loss float64
	b    *board
}

func (w *worker) shorten() {
	w.explore()
	w.compress()
}

// fit parts everything on cloth of a given size, from one start after another.
func (w *worker) fit() {
	w.adopt(w.b)
	for w.spent() < 1 {
		w.crew.moves.Add(1)
		if w.attempt(exploreStrikes, explorePasses, w.ended) {
			if sol, ok := w.g().settle(w.b); ok {
				if w.over.CompareAndSwap(false, true) {
					w.found <- sol
				}
				return
			}
		}
		w.save()
		w.restart()
	}
}

// ended says whether the budget is spent, and counts a move.
func (w *worker) ended() bool {
	w.crew.moves.Add(1)
	return w.spent() >= 1
}

// overtaken says whether to give up what the board is being parted for: the
// phase is over, or another worker has done better already.
func (w *worker) overtaken(until float64) func() bool {
	return func() bool {
		w.crew.moves.Add(1)
		return w.spent() >= until || w.leastLength() <= w.b.limit
	}
}

// explore asks for less in steps that other layouts must answer.
func (w *worker) explore() {
	shrink := exploreFirst
	w.adopt(w.b)
	for w.spent() < exploreShare {
		w.crew.moves.Add(1) // so that a length nothing fits in ends as well
		w.b.limit = w.leastLength() * (1 - shrink)
		w.b.clampAll()
		ok := w.attempt(exploreStrikes, explorePasses, w.overtaken(exploreShare)) && w.offer(w.b)
		if ok || w.leastLength() <= w.b.limit {
			w.adopt(w.b)
			w.pool = w.pool[:0]
			shrink = min(shrink*shrinkUp, exploreMost)
			continue
		}
		shrink = max(shrink*shrinkDown, exploreLater)
		w.save()
		w.restart()
	}
}

// save keeps the board among the states to start again from, the least loss first.
func (w *worker) save() {
	b := newBoard(w.g())
	b.copyFrom(w.b)
	w.use(styles[0]) // losses are compared in one style
	w.survey()
	k, _ := slices.BinarySearchFunc(w.pool, w.separator.loss, func(s saved, loss float64) int {
		if s.loss < loss {
			return -1
		}
		return 1
	})
	w.pool = slices.Insert(w.pool, k, saved{w.separator.loss, b})
	if len(w.pool) > poolSize {
		w.pool = w.pool[:poolSize]
	}
}

func (w *worker) g() *game { return w.crew.g }

// restart takes a state of the pool, rather a good one, and disturbs it: a few
// copies are laid anywhere, and half the time a group is turned.
func (w *worker) restart() {
	k := int(math.Abs(w.rng.NormFloat64()) * poolSpread * float64(len(w.pool)))
	w.b.copyFrom(w.pool[min(k, len(w.pool)-1)].b)
	w.scatter(scatterLeast + w.rng.IntN(scatterMost-scatterLeast+1))
	if len(w.b.turn) > 0 && w.rng.IntN(2) == 0 {
		w.b.turnOne(w.rng)
	}
}

// scatter lays so many copies, drawn at random, anywhere.
func (w *worker) scatter(n int) {
	for range n {
		i := w.rng.IntN(len(w.b.at))
		ways := w.b.ways(i)
		s := &ways[w.rng.IntN(len(ways))]
		if w.g().fixed[i] || !s.open(w.b.limit) {
			continue
		}
		at := w.anywhere(s)
		x, y := s.clamp(w.b.limit, at[0], at[1])
		w.b.put(i, place{s, x, y})
	}
}

// compress asks for less and less, from the best layout: a cut across the strip,
// what lies beyond it moved in.
func (w *worker) compress() {
	for {
		share := (w.spent() - exploreShare) / (1 - exploreShare)
		if share >= 1 {
			return
		}
		w.crew.moves.Add(1)
		w.adopt(w.b)
		length := w.leastLength()
		shrink := compressFirst + (compressLast-compressFirst)*max(share, 0)
		w.b.limit = length * (1 - shrink)
		cut := w.rng.Float64() * length
		for i := range w.b.at {
			if pl := w.b.at[i]; !w.g().fixed[i] && pl.x+(pl.site.reach.x0+pl.site.reach.x1)/2 > cut {
				pl.x -= length * shrink
				w.b.put(i, pl)
			}
		}
		w.b.clampAll()
		if w.attempt(compressStrikes, compressPasses, w.overtaken(1)) {
			w.offer(w.b)
		}
	}
}
