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
	// pools are the states to start again from, those of each style by themselves: a
	// style goes on best from what it left, and losses are compared in one style.
	pools  [len(styles)][]saved
	record record
	way    int // which of styles is in use
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
	w.drawStyle()
	for w.spent() < 1 {
		w.crew.moves.Add(1)
		if w.attempt(exploreStrikes, explorePasses, w.ended) {
			if sol, ok := w.g().settle(w.b); ok {
				if w.over.CompareAndSwap(false, true) {
					w.found <- sol
				}
				return
			}
			w.record[w.way].parted-- // nothing may move out of the way on cloth that cannot grow
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
	shrink, failed := exploreFirst, 0
	w.adopt(w.b)
	w.drawStyle()
	for w.spent() < exploreShare {
		w.crew.moves.Add(1) // so that a length nothing fits in ends as well
		w.b.limit = w.leastLength() * (1 - shrink)
		w.b.clampAll()
		ok := w.attempt(exploreStrikes, explorePasses, w.overtaken(exploreShare)) && w.offer(w.b)
		if ok || w.leastLength() <= w.b.limit {
			w.adopt(w.b)
			w.drawStyle()
			w.forget()
			shrink, failed = min(shrink*shrinkUp, exploreMost), 0
			continue
		}
		if failed++; failed%patience == 0 {
			shrink = max(shrink*shrinkDown, exploreLater)
		}
		w.save()
		w.restart()
	}
}

// save keeps the board among the states of its style, the least loss first.
func (w *worker) save() {
	b := newBoard(w.g())
	b.copyFrom(w.b)
	w.survey()
	pool := w.pools[w.way]
	k, _ := slices.BinarySearchFunc(pool, w.separator.loss, func(s saved, loss float64) int {
		if s.loss < loss {
			return -1
		}
		return 1
	})
	pool = slices.Insert(pool, k, saved{w.separator.loss, b})
	w.pools[w.way] = pool[:min(len(pool), poolSize)]
}

// forget drops all states: they are of a length that was reached.
func (w *worker) forget() {
	for k := range w.pools {
		w.pools[k] = w.pools[k][:0]
	}
}

func (w *worker) g() *game { return w.crew.g }

// restart draws a style, takes a state it left, rather a good one, or where there is
// none yet one that the other left, and disturbs it: a few
// copies are laid anywhere, or now and then two large ones exchanged, and half the
// time a group is turned.
func (w *worker) restart() {
	w.drawStyle()
	pool := w.pools[w.way]
	if len(pool) == 0 {
		pool = w.pools[len(styles)-1-w.way]
	}
	k := int(math.Abs(w.rng.NormFloat64()) * poolSpread * float64(len(pool)))
	w.b.copyFrom(pool[min(k, len(pool)-1)].b)
	if w.rng.Float64() < swapShare {
		w.swapTwo()
	} else {
		w.scatter(scatterLeast + w.rng.IntN(scatterMost-scatterLeast+1))
	}
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

// swapTwo exchanges two large copies of different items.
func (w *worker) swapTwo() {
	g := w.g()
	var large []int
	order := make([]int, 0, len(g.copies))
	for i := range g.copies {
		if !g.fixed[i] {
			order = append(order, i)
		}
	}
	if len(order) < 2 {
		return
	}
	slices.SortStableFunc(order, func(i, j int) int { return int(math.Copysign(1, g.size[j]-g.size[i])) })
	total, sum := 0.0, 0.0
	for _, i := range order {
		total += g.size[i] * g.size[i]
	}
	for _, i := range order {
		if sum < largeShare*total || len(large) < 2 {
			large = append(large, i)
		}
		sum += g.size[i] * g.size[i]
	}
	i := large[w.rng.IntN(len(large))]
	for range 20 {
		if j := large[w.rng.IntN(len(large))]; g.copies[j].Item != g.copies[i].Item {
			w.swap(i, j)
			return
		}
	}
}

// swap lays each of two copies about where the other lies.
func (w *worker) swap(i, j int) {
	a, b := w.b.at[i], w.b.at[j]
	w.toward(i, a, b)
	w.toward(j, b, a)
}

// toward lays copy i so that it covers about what the other place covers.
func (w *worker) toward(i int, own, other place) {
	s := own.site
	if s.fabric != other.site.fabric {
		ways := w.b.ways(i)
		for k := range ways {
			if ways[k].fabric == other.site.fabric {
				s = &ways[k]
			}
		}
	}
	if !s.open(w.b.limit) {
		return
	}
	r, q := other.site.reach, s.reach
	x, y := s.clamp(w.b.limit, other.x+(r.x0+r.x1-q.x0-q.x1)/2, other.y+(r.y0+r.y1-q.y0-q.y1)/2)
	w.b.put(i, place{s, x, y})
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
		w.drawStyle()
		if w.attempt(compressStrikes, compressPasses, w.overtaken(1)) {
			w.offer(w.b)
		}
	}
}
