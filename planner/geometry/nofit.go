package geometry

import (
	"math"
	"slices"

	"tallycloth/stash/shape"
)

// Region is a set of places, with quick answers to: is this place in it, and how
// far and which way to its boundary? Its interior counts, its boundary is outside.
type Region struct {
	minX, minY, maxX, maxY float64 // before it is turned
	sign                   float64 // −1 for a region turned by half
	segs                   []side
	sx, sy                 float64 // cells per µm
	nx, ny                 int
	rowFirst               []int32 // sides that a level ray in a row of cells can meet
	rowList                []uint16
	cellFirst              []int32 // sides that can be the nearest to a place in a cell
	cellList               []uint16
	state                  []uint8 // of a cell: outside, inside, mixed
}

// side is a boundary piece from (x, y) with its vector and 1/length².
type side struct{ x, y, dx, dy, inv float64 }

const (
	cellOut uint8 = iota
	cellIn
	cellMixed
)

// cellsPerSide is the finest grid of a region: cells then hold three to six sides
// of usual regions, and a region takes some kilobytes.
const cellsPerSide = 20

// NoFit returns the places t for which the interiors of fixed and moving + t
// meet. Both rings must be counter-clockwise and simple. Without area the region
// is empty.
func NoFit(fixed, moving shape.Ring) *Region {
	return newRegion(boundary(convolve(fixed, negate(moving)), 0))
}

// Within returns the places t for which moving + t lies within the outer ring of
// the cloth: the inner-fit region. It is empty where it has no area.
//
// Derived here: the convolution with the clockwise ring counts the parts of the
// moving ring outside, less one, so it is −1 exactly where none is.
func Within(cloth, moving shape.Ring) *Region {
	return newRegion(boundary(convolve(cloth.Reverse(), negate(moving)), -1))
}

func newRegion(pieces []Segment) *Region {
	r := &Region{sign: 1, minX: math.Inf(1), minY: math.Inf(1), maxX: math.Inf(-1), maxY: math.Inf(-1)}
	for _, p := range pieces {
		r.minX, r.maxX = min(r.minX, p.A.X, p.B.X), max(r.maxX, p.A.X, p.B.X)
		r.minY, r.maxY = min(r.minY, p.A.Y, p.B.Y), max(r.maxY, p.A.Y, p.B.Y)
	}
	pieces = joined(pieces)
	r.segs = make([]side, 0, len(pieces))
	for _, p := range pieces {
		d := Vec{p.B.X - p.A.X, p.B.Y - p.A.Y}
		if l := d.X*d.X + d.Y*d.Y; l > 0 && len(r.segs) < math.MaxUint16 {
			r.segs = append(r.segs, side{p.A.X, p.A.Y, d.X, d.Y, 1 / l})
		}
	}
	if len(r.segs) > 0 {
		r.index()
	}
	return r
}

// joined merges pieces that follow each other on one straight line.
func joined(pieces []Segment) []Segment {
	next := make(map[Vec]int, len(pieces))
	many := make(map[Vec]int, len(pieces))
	for i, p := range pieces {
		next[p.A] = i
		many[p.A]++
		many[p.B]++
	}
	gone := make([]bool, len(pieces))
	for i := range pieces {
		if gone[i] {
			continue
		}
		for {
			p := &pieces[i]
			k, ok := next[p.B]
			if !ok || k == i || gone[k] || many[p.B] != 2 || !inLine(*p, pieces[k]) {
				break
			}
			p.B = pieces[k].B
			gone[k] = true
		}
	}
	out := pieces[:0]
	for i, p := range pieces {
		if !gone[i] {
			out = append(out, p)
		}
	}
	return out
}

// inLine says whether q goes on straight from p, within snap.
func inLine(p, q Segment) bool {
	ux, uy := q.B.X-p.A.X, q.B.Y-p.A.Y
	l := math.Hypot(ux, uy)
	off := (p.B.X-p.A.X)*uy - (p.B.Y-p.A.Y)*ux
	ahead := (p.B.X-p.A.X)*(q.B.X-q.A.X) + (p.B.Y-p.A.Y)*(q.B.Y-q.A.Y)
	return ahead > 0 && math.Abs(off) <= snap*l
}

// index sorts the sides into rows for ray counting and into cells for the nearest.
func (r *Region) index() {
	w, h := max(r.maxX-r.minX, 1), max(r.maxY-r.minY, 1)
	n := min(max(len(r.segs)/3, 4), cellsPerSide)
	r.nx, r.ny = n, n
	r.sx, r.sy = float64(n)/w, float64(n)/h
	ids := make([]uint16, len(r.segs))
	for i := range ids {
		ids[i] = uint16(i)
	}
	r.rowFirst, r.rowList = bySlab(ids, n, func(i uint16) (int, int) {
		s := &r.segs[i]
		return r.row(min(s.y, s.y+s.dy)), r.row(max(s.y, s.y+s.dy))
	})
	r.indexCells(w/float64(n), h/float64(n))
}

func (r *Region) row(y float64) int { return min(max(int((y-r.minY)*r.sy), 0), r.ny-1) }
func (r *Region) col(x float64) int { return min(max(int((x-r.minX)*r.sx), 0), r.nx-1) }

// indexCells keeps for each cell the sides that can be nearest to a place in it:
// those no farther from its middle than the nearest side and the cell's size.
func (r *Region) indexCells(w, h float64) {
	reach := math.Hypot(w, h) // from the middle, twice half the diagonal
	near := make([]float64, len(r.segs))
	r.cellFirst = make([]int32, 1, r.nx*r.ny+1)
	r.state = make([]uint8, 0, r.nx*r.ny)
	for j := range r.ny {
		for i := range r.nx {
			x, y := r.minX+(float64(i)+0.5)*w, r.minY+(float64(j)+0.5)*h
			least := math.Inf(1)
			for k := range r.segs {
				near[k] = math.Sqrt(r.segs[k].dist2(x, y))
				least = min(least, near[k])
			}
			state := cellMixed
			if least > reach/2 {
				state = cellOut
				if r.crossed(x, y) {
					state = cellIn
				}
			}
			r.state = append(r.state, state)
			if state != cellOut {
				r.addCell(near, least+reach)
			}
			r.cellFirst = append(r.cellFirst, int32(len(r.cellList)))
		}
	}
	r.cellList = append(make([]uint16, 0, len(r.cellList)), r.cellList...) // regions are many and live long
}

// addCell lists the sides within the limit, the nearest first.
func (r *Region) addCell(near []float64, limit float64) {
	from := len(r.cellList)
	for k, d := range near {
		if d <= limit {
			r.cellList = append(r.cellList, uint16(k))
		}
	}
	slices.SortFunc(r.cellList[from:], func(a, b uint16) int {
		return int(math.Copysign(1, near[a]-near[b]))
	})
}

// dist2 is the squared distance from a place to the side.
func (s *side) dist2(x, y float64) float64 {
	ex, ey := x-s.x, y-s.y
	t := (ex*s.dx + ey*s.dy) * s.inv
	if t > 0 {
		if t >= 1 {
			ex -= s.dx
			ey -= s.dy
		} else {
			ex -= t * s.dx
			ey -= t * s.dy
		}
	}
	return ex*ex + ey*ey
}

// crossed says whether a ray to the right from the place crosses the boundary an
// odd number of times; the boundary bounds a plain set, so that means inside.
func (r *Region) crossed(x, y float64) bool {
	row := r.row(y)
	in := false
	for _, k := range r.rowList[r.rowFirst[row]:r.rowFirst[row+1]] {
		s := &r.segs[k]
		if (s.y > y) != (s.y+s.dy > y) && s.x+s.dx*(y-s.y)/s.dy > x {
			in = !in
		}
	}
	return in
}

// Turned is the region with every place negated, half a turn about the origin: where
// the fixed and the moving outline of a no-fit region change parts, or are both
// turned by half. It shares what it is made of with the region itself.
func (r *Region) Turned() *Region {
	out := *r
	out.sign = -r.sign
	return &out
}

// Empty says whether the region has no place at all.
func (r *Region) Empty() bool { return len(r.segs) == 0 }

// Contains says whether the place lies in the region.
func (r *Region) Contains(x, y float64) bool {
	x, y = x*r.sign, y*r.sign
	return r.contains(x, y)
}

func (r *Region) contains(x, y float64) bool {
	if x <= r.minX || x >= r.maxX || y <= r.minY || y >= r.maxY {
		return false
	}
	switch r.state[r.row(y)*r.nx+r.col(x)] {
	case cellOut:
		return false
	case cellIn:
		return true
	}
	return r.crossed(x, y)
}

// Depth is the distance from a place in the region to its boundary, in µm: how
// far two outlines must be moved apart, at least, to part them. 0 outside.
//
// Which side of the boundary the place is on shows from the nearest piece alone,
// unless a corner is the nearest; only then a ray is counted.
func (r *Region) Depth(x, y float64) float64 {
	x, y = x*r.sign, y*r.sign
	if !(x > r.minX && x < r.maxX && y > r.minY && y < r.maxY) {
		return 0
	}
	cell := r.row(y)*r.nx + r.col(x)
	state := r.state[cell]
	if state == cellOut {
		return 0
	}
	best := math.MaxFloat64
	var near *side
	for _, k := range r.cellList[r.cellFirst[cell]:r.cellFirst[cell+1]] {
		s := &r.segs[k]
		ex, ey := x-s.x, y-s.y
		if t := (ex*s.dx + ey*s.dy) * s.inv; t > 0 {
			if t > 1 {
				t = 1
			}
			ex -= t * s.dx
			ey -= t * s.dy
		}
		if d := ex*ex + ey*ey; d < best {
			best, near = d, s
		}
	}
	if state == cellMixed && !r.leftOf(near, x, y) {
		return 0
	}
	return math.Sqrt(best)
}

// leftOf says whether a place whose nearest piece is this lies in the region.
func (r *Region) leftOf(s *side, x, y float64) bool {
	ex, ey := x-s.x, y-s.y
	if t := (ex*s.dx + ey*s.dy) * s.inv; t > 0 && t < 1 {
		return s.dx*ey-s.dy*ex > 0
	}
	return r.crossed(x, y)
}

// Way is the place on the boundary nearest to a place within the region's box.
func (r *Region) Way(x, y float64) (nx, ny float64) {
	best := math.Inf(1)
	x, y = x*r.sign, y*r.sign
	nx, ny = x, y
	for k := range r.segs {
		s := &r.segs[k]
		if d := s.dist2(x, y); d < best {
			best = d
			t := min(max(((x-s.x)*s.dx+(y-s.y)*s.dy)*s.inv, 0), 1)
			nx, ny = s.x+t*s.dx, s.y+t*s.dy
		}
	}
	return nx * r.sign, ny * r.sign
}

// Sides calls visit with every piece of the boundary, the region to its left.
func (r *Region) Sides(visit func(Segment)) {
	for i := range r.segs {
		s := &r.segs[i]
		visit(Segment{Vec{s.x * r.sign, s.y * r.sign}, Vec{(s.x + s.dx) * r.sign, (s.y + s.dy) * r.sign}})
	}
}

// Push is how to move a place that lies in the region, or nearer to it than it
// may, to its boundary. Level and upright sides may be touched, as whole µm lie on
// them exactly; slanted ones are kept clear of by the margin, to leave room for
// rounding.
func (r *Region) Push(x, y, margin float64) (dx, dy float64) {
	x, y = x*r.sign, y*r.sign
	if x <= r.minX-margin || x >= r.maxX+margin || y <= r.minY-margin || y >= r.maxY+margin {
		return 0, 0
	}
	best := math.Inf(1)
	var near *side
	for k := range r.segs {
		if d := r.segs[k].dist2(x, y); d < best {
			best, near = d, &r.segs[k]
		}
	}
	if near == nil {
		return 0, 0
	}
	nx, ny := near.dy, -near.dx
	l := math.Hypot(nx, ny)
	nx, ny = nx/l, ny/l
	if near.dx == 0 || near.dy == 0 {
		margin = 0
	}
	lack := margin - ((x-near.x)*nx + (y-near.y)*ny)
	if in := r.contains(x, y); !in && best >= margin*margin || lack <= 0 {
		return 0, 0
	}
	return nx * lack * r.sign, ny * lack * r.sign
}

// Corner returns a corner of the boundary chosen by any number, or false where the
// region is empty.
func (r *Region) Corner(k uint32) (x, y float64, ok bool) {
	if len(r.segs) == 0 {
		return 0, 0, false
	}
	s := &r.segs[int(k%uint32(len(r.segs)))]
	return s.x * r.sign, s.y * r.sign, true
}
