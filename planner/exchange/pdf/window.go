package pdf

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"tallycloth/planner/exchange/drawn"
)

// window is what of each page is used, in mm from its edges.
func window(p Page, plan drawn.Plan) box {
	return box{plan.Left, plan.Top, p.Width - plan.Right, p.Height - plan.Low}
}

const (
	onFrame   = 0.4 // how far a line may lie off a frame and belong to it, in mm
	smallMark = 25  // the longest side of a mark, in mm
)

// frame is the rectangle that most of some pages draw round their content, large against the
// page. ok is false where there is none.
func frame(pages []Page) (f box, has []bool, ok bool) {
	type found struct {
		at    box
		pages []int
	}
	byKey := map[[4]int]*found{}
	var order [][4]int
	for i, p := range pages {
		seen := map[[4]int]bool{}
		for _, b := range rectangles(p) {
			k := [4]int{whole(b.left), whole(b.top), whole(b.right), whole(b.low)}
			if seen[k] {
				continue
			}
			seen[k] = true
			if byKey[k] == nil {
				byKey[k] = &found{at: b}
				order = append(order, k)
			}
			byKey[k].pages = append(byKey[k].pages, i)
		}
	}
	var best *found
	for _, k := range order {
		if c := byKey[k]; best == nil || len(c.pages) > len(best.pages) || len(c.pages) == len(best.pages) && c.at.wide() < best.at.wide() {
			best = c
		}
	}
	if best == nil || len(best.pages) < 2 || 2*len(best.pages) < len(pages) {
		return f, nil, false
	}
	has = make([]bool, len(pages))
	for _, i := range best.pages {
		has[i] = true
	}
	return best.at, has, true
}

// whole rounds to half a millimetre.
func whole(v float64) int { return int(math.Round(v * 2)) }

// rectangles are the upright rectangles of a page that take at least half of it and lie inside
// it; those drawn as four lines too.
func rectangles(p Page) (out []box) {
	var runs []drawn.Run
	for _, l := range p.lines {
		b := boxOf(l.points)
		long := b.wide() > p.Width*0.4 && b.tall() < onFrame || b.tall() > p.Height*0.4 && b.wide() < onFrame
		if l.closed || long && len(l.points) == 2 {
			runs = append(runs, drawn.Run{Points: l.points, Closed: l.closed})
		}
	}
	runs, _ = drawn.Join(runs, onFrame)
	for _, r := range runs {
		b := boxOf(r.Points)
		if !r.Closed || len(r.Points) < 4 || b.wide()*b.tall() < 0.5*p.Width*p.Height || b.wide() > p.Width-2 && b.tall() > p.Height-2 {
			continue
		}
		if !slices.ContainsFunc(r.Points, func(q drawn.Place) bool { return !onEdge(q, b) }) {
			out = append(out, b)
		}
	}
	return out
}

// onEdge says whether a place lies on the edges of a box.
func onEdge(p drawn.Place, b box) bool {
	return math.Min(math.Min(math.Abs(p.X-b.left), math.Abs(p.X-b.right)), math.Min(math.Abs(p.Y-b.top), math.Abs(p.Y-b.low))) < onFrame
}

// framing says whether a line runs along the edges of a window.
func framing(l line, w box) bool {
	b := boxOf(l.points)
	along := func(a, c, edge float64) bool { return math.Abs(a-edge) < onFrame && math.Abs(c-edge) < onFrame }
	if along(b.left, b.right, w.left) || along(b.left, b.right, w.right) || along(b.top, b.low, w.top) || along(b.top, b.low, w.low) {
		return true
	}
	if b.wide() < w.wide()-1 || b.tall() < w.tall()-1 {
		return false
	}
	for _, p := range l.points {
		if !onEdge(p, w) {
			return false
		}
	}
	return true
}

// shapeKey tells marks of one shape and place, or with at false of one shape wherever it lies.
func shapeKey(l line, at bool) string {
	b := boxOf(l.points)
	k := fmt.Sprintf("%d %d %d %v %d %d", l.size(), whole(b.wide()), whole(b.tall()), l.closed, whole(l.points[0].X-b.left), whole(l.points[0].Y-b.top))
	if at {
		k += fmt.Sprintf(" %d %d", whole(b.left), whole(b.top))
	}
	return k
}

func (l line) size() int { return len(l.points) }

// content is what of each page may belong to pattern pieces: without frames, and without marks
// that come in the same place of several pages or once on each side of a join.
func content(pages []Page, w box, shared float64) [][]line {
	places := map[string]map[int]bool{}
	for i, p := range pages {
		for _, l := range p.lines {
			if small(l) {
				k := shapeKey(l, true)
				if places[k] == nil {
					places[k] = map[int]bool{}
				}
				places[k][i] = true
			}
		}
	}
	often := max(2, (len(pages)*3+9)/10)
	out := make([][]line, len(pages))
	for i, p := range pages {
		for _, l := range p.lines {
			mark := small(l) && (len(places[shapeKey(l, true)]) >= often || inShared(l, w, shared))
			if !mark && !framing(l, w) {
				out[i] = append(out[i], l)
			}
		}
	}
	return out
}

func small(l line) bool {
	b := boxOf(l.points)
	return b.wide() <= smallMark && b.tall() <= smallMark
}

// inShared says whether a small closed mark lies wholly in the strip that neighbours share.
func inShared(l line, w box, shared float64) bool {
	if shared < 2 || !l.closed {
		return false
	}
	b := boxOf(l.points)
	in := func(lo, hi, edge float64) bool {
		return lo >= edge-shared-onFrame && hi <= edge+onFrame
	}
	return in(b.left, b.right, w.left+shared) || in(b.left, b.right, w.right) || in(b.top, b.low, w.top+shared) || in(b.top, b.low, w.low)
}

// overlaps are the widths that neighbours may share, by marks of one shape that lie near
// opposite edges of pages following each other, those most often found first. Marks that are
// closed count for more, since crosses often only show where an edge comes to lie.
func overlaps(pages []Page, w box) []float64 {
	votes := map[int]int{0: 1}
	for i := range pages {
		for j := i + 1; j < len(pages) && j < i+40; j++ {
			for k, n := range votesFor(pages[i], pages[j], w) {
				votes[k] += n
			}
		}
	}
	var out []int
	for k := range votes {
		out = append(out, k)
	}
	slices.SortFunc(out, func(a, b int) int { return cmp.Or(-cmp.Compare(votes[a], votes[b]), cmp.Compare(a, b)) })
	if len(out) > 6 {
		out = out[:6]
	}
	shared := make([]float64, len(out))
	for i, k := range out {
		shared[i] = float64(k) / 10
	}
	if !slices.Contains(shared, 0) {
		shared = append(shared, 0)
	}
	return shared
}

// votesFor counts overlaps in tenths of a millimetre by which marks of two pages meet.
func votesFor(a, b Page, w box) map[int]int {
	out := map[int]int{}
	marks := map[string][]line{}
	for _, l := range b.lines {
		if small(l) {
			k := shapeKey(l, false)
			marks[k] = append(marks[k], l)
		}
	}
	for _, l := range a.lines {
		if !small(l) {
			continue
		}
		p := boxOf(l.points)
		others := marks[shapeKey(l, false)]
		if len(others) > 50 {
			continue // letters, not marks
		}
		for _, o := range others {
			q := boxOf(o.points)
			weight := 1
			if l.closed {
				weight = 3
			}
			if dx := p.middleX() - q.middleX(); math.Abs(p.middleY()-q.middleY()) < 0.5 && dx > w.wide()/2 && dx < w.wide() {
				out[int(math.Round(10*(w.wide()-dx)))] += weight
			}
			if dy := p.middleY() - q.middleY(); math.Abs(p.middleX()-q.middleX()) < 0.5 && dy > w.tall()/2 && dy < w.tall() {
				out[int(math.Round(10*(w.tall()-dy)))] += weight
			}
		}
	}
	return out
}
