package nest

import (
	"math"

	"tallycloth/stash/shape"
)

// game is a problem made ready for overlap minimisation: copies to move, the
// ways each may lie, and the regions. It does not change while workers search.
type game struct {
	p       *problem
	t       *table
	sites   [][][]site
	copies  []Copy
	fixed   []bool    // pinned
	factor  []float64 // of a copy in the loss of its overlaps
	size    []float64 // of a copy: the square root of its area
	width   float64   // of the widest cloth
	contact float64   // depths up to this, in µm, count as touching
}

// inLane is the box of copy j in the order of low x.
type inLane struct {
	box
	j int
}

// place is where a copy lies: a way it may lie, and its origin.
type place struct {
	site *site
	x, y float64
}

// board is one state of a search: where everything lies, overlaps allowed.
type board struct {
	g      *game
	limit  float64 // x that nothing may pass
	turn   []int   // of each group, an index into its angles
	at     []place
	boxes  []box
	lane   []inLane  // all boxes by their low x, open to the left by reachX
	reachX float64   // the greatest length of a box
	weight []float64 // of each pair of copies, guided
	hold   []float64 // of each copy against what lies fixed on its cloth
	rows   []row     // regions by moving pose
	soft   float64   // of the style: see toll
	evals  int64
}

func newBoard(g *game) *board {
	n := len(g.copies)
	b := &board{g: g, limit: math.Inf(1), turn: make([]int, len(g.p.in.Groups)), at: make([]place, n),
		boxes: make([]box, n), weight: make([]float64, n*n), hold: make([]float64, n), rows: make([]row, len(g.p.poses))}
	b.forget()
	return b
}

// forget sets all weights back to one.
func (b *board) forget() {
	for i := range b.weight {
		b.weight[i] = 1
	}
	for i := range b.hold {
		b.hold[i] = 1
	}
}

// ways are the ways copy i may lie, as its group is turned.
func (b *board) ways(i int) []site {
	item := b.g.copies[i].Item
	g := b.g.p.in.Items[item].Group
	if g == NoGroup {
		return b.g.sites[item][0]
	}
	return b.g.sites[item][b.turn[g]]
}

func (b *board) put(i int, pl place) {
	known := b.at[i].site != nil
	b.at[i] = pl
	b.boxes[i] = pl.site.reach.moved(pl.x, pl.y)
	b.reachX = max(b.reachX, b.boxes[i].x1-b.boxes[i].x0)
	b.sortIn(i, known)
}

// sortIn moves copy i to its new place in the lane.
func (b *board) sortIn(i int, known bool) {
	k := len(b.lane)
	if known {
		for k = range b.lane {
			if b.lane[k].j == i {
				break
			}
		}
	} else {
		b.lane = append(b.lane, inLane{})
	}
	e := inLane{b.boxes[i], i}
	for ; k > 0 && b.lane[k-1].x0 > e.x0; k-- {
		b.lane[k] = b.lane[k-1]
	}
	for ; k+1 < len(b.lane) && b.lane[k+1].x0 < e.x0; k++ {
		b.lane[k] = b.lane[k+1]
	}
	b.lane[k] = e
}

// firstInLane is the first place in the lane whose box can end beyond x.
func (b *board) firstInLane(x float64) int {
	x -= b.reachX
	low, high := 0, len(b.lane)
	for low < high {
		if mid := int(uint(low+high) >> 1); b.lane[mid].x0 < x {
			low = mid + 1
		} else {
			high = mid
		}
	}
	return low
}

func (b *board) row(pose int) row {
	if b.rows[pose] == nil {
		b.rows[pose] = make(row, len(b.g.p.poses))
	}
	return b.rows[pose]
}

// rate is the loss of copy i at a place: over everything it overlaps, weight ×
// toll of the depth × size. It gives up, and returns more than the bound, once past it.
//
// Weighted overlaps with exact penetration depth: Umetani, Yagiura, Imahori,
// Imamichi, Nonobe, Ibaraki, "Solving the irregular strip packing problem via
// guided local search for overlap minimization", 2009; the size factor follows
// Gardeyn, Vanden Berghe, Wauters, 2025 (arXiv:2509.13329).
func (b *board) rate(i int, s *site, x, y, bound float64) float64 {
	b.evals++
	contact := b.g.contact
	sum := 0.0
	for _, r := range s.blocked {
		if d := r.Depth(x, y); d > contact {
			sum += b.toll(d) * b.hold[i] * b.g.factor[i]
		}
	}
	n := len(b.at)
	own := s.reach.moved(x, y)
	regions := b.row(s.pose)
	weights := b.weight[i*n : i*n+n]
	lane := b.lane[b.firstInLane(own.x0):]
	for k := range lane {
		o := &lane[k]
		if o.x0 >= own.x1 {
			break
		}
		if own.x0 >= o.x1 || own.y0 >= o.y1 || own.y1 <= o.y0 || o.j == i {
			continue
		}
		j := o.j
		to := &b.at[j]
		if to.site.fabric != s.fabric {
			continue
		}
		r := regions[to.site.pose]
		if r == nil {
			r = b.g.t.get(to.site.pose, s.pose)
			regions[to.site.pose] = r
		}
		if d := r.Depth(x-to.x, y-to.y); d > contact {
			sum += b.toll(d) * weights[j] * b.g.factor[i] * b.g.factor[j]
			if sum > bound {
				return sum
			}
		}
	}
	return sum
}

// depth is how deep copies i and j overlap, 0 if they only touch.
func (b *board) depth(i, j int) float64 {
	o, u := &b.boxes[i], &b.boxes[j]
	if o.x0 >= u.x1 || o.x1 <= u.x0 || o.y0 >= u.y1 || o.y1 <= u.y0 || b.at[i].site.fabric != b.at[j].site.fabric {
		return 0
	}
	d := b.g.t.get(b.at[j].site.pose, b.at[i].site.pose).Depth(b.at[i].x-b.at[j].x, b.at[i].y-b.at[j].y)
	if d <= b.g.contact {
		return 0
	}
	return d
}

// sunk is how deep copy i lies in what is fixed on its cloth.
func (b *board) sunk(i int) float64 {
	worst := 0.0
	for _, r := range b.at[i].site.blocked {
		if d := r.Depth(b.at[i].x, b.at[i].y); d > b.g.contact {
			worst += d
		}
	}
	return worst
}

// used is the greatest x of everything.
func (b *board) used() float64 {
	end := 0.0
	for i := range b.at {
		end = max(end, b.at[i].x+b.at[i].site.maxX)
	}
	return end
}

// copyFrom takes over the places, turns and limit of another board of the same
// game, not its weights.
func (b *board) copyFrom(o *board) {
	b.limit = o.limit
	copy(b.turn, o.turn)
	copy(b.at, o.at)
	copy(b.boxes, o.boxes)
	b.lane = append(b.lane[:0], o.lane...)
	b.reachX = o.reachX
}

// clampAll moves everything within the limit.
func (b *board) clampAll() {
	for i := range b.at {
		if b.g.fixed[i] {
			continue
		}
		pl := b.at[i]
		pl.x, pl.y = pl.site.clamp(b.limit, pl.x, pl.y)
		b.put(i, pl)
	}
}

func boxOf(r shape.Ring) box {
	q := r.Bounds()
	return box{float64(q.Min.X), float64(q.Min.Y), float64(q.Max.X), float64(q.Max.Y)}
}
