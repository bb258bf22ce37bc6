package pdf

import (
	"cmp"
	"slices"
)

// The edges of a page.
const (
	leftEdge = iota
	rightEdge
	topEdge
	lowEdge
)

// search looks for the places of pages in a grid.
type search struct {
	edges       [][4][]crossing // of every page
	places      [][2]int        // row and column of every page
	score       float64
	goes, stops int
}

func newSearch(pages []Page, w box, shared float64) search {
	x := search{}
	for _, lines := range content(pages, w, shared) {
		right, low := w.right-shared, w.low-shared
		x.edges = append(x.edges, [4][]crossing{
			crossings(lines, w.left, w.top, low, false), crossings(lines, right, w.top, low, false),
			crossings(lines, w.top, w.left, right, true), crossings(lines, low, w.left, right, true)})
	}
	return x
}

const (
	mostBeam = 60 // arrangements kept
	mostGap  = 5  // empty places between pages of a row
	mostLeft = 8  // how far a row may begin left or right of the first
)

// arrangement is a partial answer: pages come row by row, with empty places between.
type arrangement struct {
	places [][2]int
	score  float64
}

// arranged places the pages in their order, row by row or column by column: keeping the best
// arrangements at every step, counting lines that go on and lines that end at an edge.
func (x search) arranged(columns bool) search {
	after, before, under, above := rightEdge, leftEdge, lowEdge, topEdge
	if columns {
		after, before, under, above = lowEdge, topEdge, rightEdge, leftEdge
	}
	beam := []arrangement{{places: [][2]int{{0, 0}}}}
	for page := 1; page < len(x.edges); page++ {
		var next []arrangement
		for _, a := range beam {
			for _, at := range a.options() {
				b := arrangement{places: append(a.places[:len(a.places):len(a.places)], at), score: a.score}
				b.score += x.gain(a, page, at, [4]int{after, before, under, above})
				next = append(next, b)
			}
		}
		slices.SortStableFunc(next, func(a, b arrangement) int { return -cmp.Compare(a.score, b.score) })
		beam = next[:min(len(next), mostBeam)]
	}
	best := search{edges: x.edges, score: -1e9}
	for _, a := range beam {
		y := x.judged(a, [4]int{after, before, under, above})
		if y.score > best.score {
			best = y
		}
	}
	if columns {
		for i, p := range best.places {
			best.places[i] = [2]int{p[1], p[0]}
		}
	}
	return best
}

// options are where the next page may lie: in the row of the last, or in the next row.
func (a arrangement) options() (out [][2]int) {
	last := a.places[len(a.places)-1]
	for c := last[1] + 1; c <= last[1]+1+mostGap; c++ {
		out = append(out, [2]int{last[0], c})
	}
	lo, hi := 0, 0
	for _, p := range a.places {
		lo, hi = min(lo, p[1]), max(hi, p[1])
	}
	for c := lo - mostLeft; c <= hi; c++ {
		if c <= last[1] || c > last[1] && last[1] < hi {
			out = append(out, [2]int{last[0] + 1, c})
		}
	}
	return out
}

// pageAt is the page in a place, -1 for none.
func pageAt(places [][2]int, at [2]int) int { return slices.Index(places, at) }

// gain is what a place is worth: lines that go on from the pages before and above, less those
// that end there, and a little less for every empty place.
func (x search) gain(a arrangement, page int, at [2]int, e [4]int) float64 {
	gain := 0.0
	look := func(other, mine, theirs int) {
		if other < 0 {
			gain -= float64(len(x.edges[page][mine]))
			return
		}
		both, only := matches(x.edges[other][theirs], x.edges[page][mine])
		gain += 2*float64(both) - float64(only)
	}
	look(pageAt(a.places, [2]int{at[0], at[1] - 1}), e[1], e[0])
	look(pageAt(a.places, [2]int{at[0] - 1, at[1]}), e[3], e[2])
	last := a.places[len(a.places)-1]
	if at[0] == last[0] {
		gain -= 0.02 * float64(at[1]-last[1]-1)
	} else {
		gain -= 0.01 * float64(max(at[1]-a.places[0][1], a.places[0][1]-at[1]))
	}
	return gain
}

// judged counts a whole arrangement: lines that leave a page where none follows end there too.
func (x search) judged(a arrangement, e [4]int) search {
	y := search{edges: x.edges, places: slices.Clone(a.places), score: a.score}
	for page, at := range a.places {
		for _, d := range [2]struct {
			at           [2]int
			mine, theirs int
		}{{[2]int{at[0], at[1] + 1}, e[0], e[1]}, {[2]int{at[0] + 1, at[1]}, e[2], e[3]}} {
			other := pageAt(a.places, d.at)
			if other < 0 {
				y.score -= float64(len(x.edges[page][d.mine]))
				y.stops += len(x.edges[page][d.mine])
				continue
			}
			both, only := matches(x.edges[page][d.mine], x.edges[other][d.theirs])
			y.goes += both
			y.stops += only
		}
	}
	return y
}

// rows are the numbers of the pages row by row.
func (x search) rows(pages []Page) [][]int {
	lo, hi := x.places[0], x.places[0]
	for _, p := range x.places {
		lo, hi = [2]int{min(lo[0], p[0]), min(lo[1], p[1])}, [2]int{max(hi[0], p[0]), max(hi[1], p[1])}
	}
	rows := make([][]int, hi[0]-lo[0]+1)
	for i := range rows {
		rows[i] = make([]int, hi[1]-lo[1]+1)
	}
	for i, p := range x.places {
		rows[p[0]-lo[0]][p[1]-lo[1]] = pages[i].Number
	}
	return rows
}
