package nest

import "math"

// style is how a worker weighs overlaps while it parts them. No style is best
// everywhere: many curved outlines come apart best where loss grows with depth
// and weights grow fast; few and angular ones where a deep overlap costs little
// more than a shallow one, so that overlaps gather in few places, and weights
// grow slowly.
type style struct {
	least, most float64 // an overlapping pair's weight grows by this much each pass
	soft        float64 // depth, as a share of the copies' mean size, from which loss grows like a root
}

// styles: the first has the factors of Gardeyn, Vanden Berghe, Wauters, 2025; the
// second was measured to part few angular outlines several times as often.
var styles = [...]style{
	{least: 1.2, most: 2},
	{least: 1.1, most: 1.4, soft: 0.01},
}

// record is how often each style was tried and parted everything.
type record [len(styles)]struct{ tried, parted int }

// rate is the expected share of attempts that part everything, by Laplace's rule
// of succession (1774).
func (r *record) rate(k int) float64 {
	return float64(r[k].parted+1) / float64(r[k].tried+2)
}

// draw picks a style, in proportion to how well each has done.
func (r *record) draw(random float64) int {
	sum := 0.0
	for k := range r {
		sum += r.rate(k)
	}
	for k := range r {
		if random -= r.rate(k) / sum; random < 0 {
			return k
		}
	}
	return len(r) - 1
}

func (r *record) note(k int, parted bool) {
	r[k].tried++
	if parted {
		r[k].parted++
	}
}

// use lets a board weigh overlaps in a style.
func (s *separator) use(y style) {
	mean := 0.0
	for _, z := range s.b.g.size {
		mean += z / float64(len(s.b.g.size))
	}
	s.style, s.b.soft = y, y.soft*mean
}

// drawStyle draws the style of the next attempt by the record.
func (w *worker) drawStyle() { w.way = w.record.draw(w.rng.Float64()) }

// attempt parts everything on the board in the style drawn, and notes how it went.
func (w *worker) attempt(strikes, passes int, stop func() bool) bool {
	w.use(styles[w.way])
	ok := w.separate(strikes, passes, stop)
	w.record.note(w.way, ok)
	return ok
}

// toll is the loss of an overlap of a depth in µm: the depth itself, or where the
// style is soft its root beyond a small depth.
func (b *board) toll(depth float64) float64 {
	if b.soft == 0 {
		return depth
	}
	return math.Sqrt(depth+b.soft) - math.Sqrt(b.soft)
}

// depthOf is the depth of which the toll is so much.
func (b *board) depthOf(toll float64) float64 {
	if b.soft == 0 {
		return toll
	}
	root := toll + math.Sqrt(b.soft)
	return root*root - b.soft
}
