package pdf

import (
	"fmt"
	"math"

	"tallycloth/planner/exchange/drawn"
)

// Found is a plan with how sure it is.
type Found struct {
	Plan drawn.Plan
	// Told says in words what it rests on.
	Told string
	// Goes and Stops are how many lines go on over a join, and how many end there.
	Goes, Stops int
}

// Find works out how the pages lie: those that have the same frame, or size, are joined where
// lines go on from one to the next. Every page is left by itself where that is not so.
func (f File) Find() Found {
	apart := Found{Told: "one page, as it is"}
	if len(f.Pages) > 1 {
		apart.Told = fmt.Sprintf("%d pages, each by itself", len(f.Pages))
	}
	pages, w, framed := f.tiles()
	if len(pages) < 2 {
		return apart
	}
	var best search
	var shared float64
	first := true
	for _, s := range overlaps(pages, w) {
		if w.wide()-s < 20 || w.tall()-s < 20 {
			continue
		}
		x := newSearch(pages, w, s)
		for _, columns := range []bool{false, true} {
			if y := x.arranged(columns); first || y.score > best.score+1e-9 {
				best, shared, first = y, s, false
			}
		}
	}
	if best.goes < 2 || best.goes*10 < (best.goes+best.stops)*6 {
		return apart
	}
	p := pages[0]
	plan := drawn.Plan{Rows: best.rows(pages), Left: w.left, Top: w.top, Right: p.Width - w.right, Low: p.Height - w.low, Shared: shared}
	told := "joined where lines go on from page to page"
	if framed {
		told = "joined by their frames and by lines that go on from page to page"
	}
	return Found{Plan: plan, Goes: best.goes, Stops: best.stops,
		Told: fmt.Sprintf("%d pages %s: %d lines go on, %d do not", len(pages), told, best.goes, best.stops)}
}

// tiles are the pages that may be parts of one sheet, and what of them is used.
func (f File) tiles() (pages []Page, w box, framed bool) {
	var drawnOn []Page
	for _, p := range f.Pages {
		if len(p.lines) > 0 && !p.Scan() {
			drawnOn = append(drawnOn, p)
		}
	}
	if w, has, ok := frame(drawnOn); ok {
		for i, p := range drawnOn {
			if has[i] {
				pages = append(pages, p)
			}
		}
		return pages, w, true
	}
	sizes := map[[2]int]int{}
	var most [2]int
	for _, p := range drawnOn {
		k := [2]int{whole(p.Width), whole(p.Height)}
		if sizes[k]++; sizes[k] > sizes[most] {
			most = k
		}
	}
	for _, p := range drawnOn {
		if [2]int{whole(p.Width), whole(p.Height)} == most {
			pages = append(pages, p)
		}
	}
	if len(pages) > 0 {
		w = box{0, 0, pages[0].Width, pages[0].Height}
	}
	return pages, w, false
}

// crossing is where a line leaves or enters a page.
type crossing struct {
	at    float64 // along the edge, mm
	style style
}

const sameCrossing = 0.6 // mm

// crossings are where lines cross, or end on, the line x = at, or y = at where down.
func crossings(lines []line, at, from, to float64, down bool) (out []crossing) {
	add := func(v float64, s style) {
		if v < from-sameCrossing || v > to+sameCrossing {
			return
		}
		for _, c := range out {
			if math.Abs(c.at-v) < sameCrossing/2 && c.style == s {
				return
			}
		}
		out = append(out, crossing{v, s})
	}
	for _, l := range lines {
		pts := l.points
		n := len(pts)
		axes := func(p drawn.Place) (across, along float64) {
			if down {
				return p.Y, p.X
			}
			return p.X, p.Y
		}
		for i := range pts {
			if i+1 == n && !l.closed {
				break
			}
			a, b := pts[i], pts[(i+1)%n]
			u, p := axes(a)
			v, q := axes(b)
			if (u-at)*(v-at) < 0 {
				add(p+(q-p)*(at-u)/(v-u), l.style)
			}
		}
		for _, e := range []drawn.Place{pts[0], pts[n-1]} {
			if u, p := axes(e); !l.closed && math.Abs(u-at) < 0.3 {
				add(p, l.style)
			}
		}
	}
	return out
}

// matches counts crossings that two pages have in common, and those that only one has.
func matches(a, b []crossing) (both, only int) {
	used := make([]bool, len(b))
	for _, c := range a {
		hit := false
		for j, d := range b {
			if !used[j] && math.Abs(c.at-d.at) < sameCrossing && c.style == d.style {
				used[j], hit = true, true
				both++
				break
			}
		}
		if !hit {
			only++
		}
	}
	return both, only + len(b) - both
}
