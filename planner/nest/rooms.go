package nest

import (
	"math"
	"math/big"
	"slices"

	"tallycloth/stash/shape"
)

// room is a part of a fabric that an item lies in as a whole: a band, or all of it.
type room struct {
	fabric        int
	x, y          int64 // its low corner
	length, width int64 // what an item in it can take at most; a strip is endless
	layers        int   // 0: cloth that is not folded
	low, high     bool  // its low or its high side is a fold
	area2         *big.Int
}

// endless is the length of a strip.
const endless = math.MaxInt64 / 4

// tiltRange bounds a range of angles, in thousandths of a degree.
const tiltRange = 250

// stance is an item turned and mirrored as it may lie, not yet moved. Of a turn
// that may be off by a tilt there are several, each with the least extents over a
// range of angles and without a ring.
type stance struct {
	ring          shape.Ring
	item          int
	turn          shape.Placement
	box           shape.Box
	length, width int64
	low, high     bool // on the fold: its line y = 0 lies on the low or the high side of a room
}

// lodging is what the bounds look at: the rooms, and the stances of every item
// under every turn of its group, and which rooms take them.
type lodging struct {
	in      Instance
	rooms   []room
	stances [][][]stance
	serves  [][][]bool // item → turn → room: some stance fits
	dead    [][]bool   // group → turn: some item of it lies in no room
}

func newLodging(in Instance) *lodging {
	l := &lodging{in: in, stances: make([][][]stance, len(in.Items)), serves: make([][][]bool, len(in.Items))}
	for i, f := range in.Fabrics {
		l.rooms = append(l.rooms, roomsOf(in, i, f)...)
	}
	for i, it := range in.Items {
		for _, g := range groupAngles(in, it) {
			st := stancesOf(i, it, g)
			serves := make([]bool, len(l.rooms))
			for r := range l.rooms {
				for k := range st {
					serves[r] = serves[r] || l.fits(it, &st[k], &l.rooms[r])
				}
			}
			l.stances[i], l.serves[i] = append(l.stances[i], st), append(l.serves[i], serves)
		}
	}
	l.noteDead()
	return l
}

// noteDead finds the turns of each group that leave some item of it no room.
func (l *lodging) noteDead() {
	for _, g := range l.in.Groups {
		l.dead = append(l.dead, make([]bool, max(len(g.Angles), 1)))
	}
	for i, it := range l.in.Items {
		for turn, serves := range l.serves[i] {
			if it.Group != NoGroup && !slices.Contains(serves, true) {
				l.dead[it.Group][turn] = true
			}
		}
	}
}

// ruledOut says whether some item of a group lies in no room under a turn.
func (l *lodging) ruledOut(group, turn int) bool { return group != NoGroup && l.dead[group][turn] }

// roomsOf are the bands of a fabric, cut down to what an item can take: an outline
// keeps its clearance within its own bounds.
func roomsOf(in Instance, fabric int, f Fabric) []room {
	cloth := clothOutline(f)
	box := cloth.Bounds()
	area := clothArea2(f, cloth)
	if len(f.Outline.Outer) > 0 {
		box = box.Grown(-in.Clearance)
	}
	length := box.Length()
	if len(f.Outline.Outer) == 0 && f.Length == 0 {
		length = endless
	}
	if len(f.Bands) == 0 {
		return []room{{fabric: fabric, x: box.Min.X, y: box.Min.Y, length: length, width: box.Width(), area2: area}}
	}
	var out []room
	for _, b := range f.Bands {
		r := room{fabric: fabric, x: box.Min.X, y: max(b.From, box.Min.Y), length: length,
			layers: b.Layers, low: b.FoldLow, high: b.FoldHigh}
		r.width = min(b.To, box.Max.Y) - r.y
		r.area2 = big.NewInt(2 * max(r.width, 0))
		r.area2.Mul(r.area2, big.NewInt(max(r.length, 0)))
		if r.area2.Cmp(area) > 0 && length < endless {
			r.area2 = area
		}
		out = append(out, r)
	}
	return out
}

// admits says whether a room has the layers and the fold that a stance asks for.
func (r *room) admits(it Item, s *stance) bool {
	layers := r.layers
	if layers == 0 {
		if it.OnFold || it.Layers == 2 {
			return false
		}
		layers = it.Layers
	}
	return (it.Layers == 0 || it.Layers == layers) && (!s.low || r.low) && (!s.high || r.high)
}

func (l *lodging) fits(it Item, s *stance, r *room) bool {
	return r.admits(it, s) && s.length <= r.length && s.width <= r.width
}

// stancesOf are all the ways an item may lie when its group is turned so: those that
// Check accepts, not only those that the search tries.
func stancesOf(i int, it Item, group shape.Angle) []stance {
	if it.OnFold {
		return foldStances(i, it, group)
	}
	var out []stance
	angles := it.Angles
	if len(angles) == 0 {
		angles = []shape.Angle{0}
	}
	for _, mirror := range []bool{false, true} {
		if mirror && it.Mirror == AsDrawn || !mirror && it.Mirror == Mirrored {
			continue
		}
		for _, a := range angles {
			if it.Tilt > 0 {
				out = append(out, tilted(it, (a+group).Norm(), mirror)...)
				continue
			}
			out = append(out, stanceOf(i, it, shape.Placement{Angle: (a + group).Norm(), Mirror: mirror}, false, false))
		}
	}
	return out
}

// foldStances: on a fold an outline is upright, against a low fold with its inside
// above it, against a high one below.
func foldStances(i int, it Item, group shape.Angle) []stance {
	var out []stance
	for _, turn := range []shape.Angle{shape.Turn0, shape.Turn180} {
		if !angleAllowed(it, turn-group) {
			continue
		}
		for _, mirror := range []bool{false, true} {
			low := (turn == shape.Turn0) != mirror
			out = append(out, stanceOf(i, it, shape.Placement{Angle: turn, Mirror: mirror}, low, !low))
		}
	}
	return out
}

func stanceOf(i int, it Item, turn shape.Placement, low, high bool) stance {
	r := turn.Apply(it.Outline)
	b := r.Bounds()
	return stance{ring: r, item: i, turn: turn, box: b, length: b.Length(), width: b.Width(), low: low, high: high}
}

// tilted gives the least extents of an item whose turn may be off by its tilt, to
// any angle in between. While no edge of its hull is level or upright, the two
// points that make an extent stay the same and it is their distance times a
// cosine, which has no low point inside a range (derived here, after the rotating
// calipers of M. I. Shamos, 1978). So the ranges end where an edge is level or
// upright, and the ends tell; they are kept short, as the least length and the least
// width need not come together. Rounding the corners takes off up to 2 µm.
func tilted(it Item, a shape.Angle, mirror bool) []stance {
	hull := it.Outline.Hull()
	if mirror {
		hull = shape.Placement{Mirror: true}.Apply(hull)
	}
	turns := tiltTurns(hull, float64(a-it.Tilt), float64(a+it.Tilt))
	var out []stance
	lastL, lastW := extents(hull, turns[0])
	for _, t := range turns[1:] {
		long, wide := extents(hull, t)
		out = append(out, stance{length: int64(min(long, lastL)) - 2, width: int64(min(wide, lastW)) - 2})
		lastL, lastW = long, wide
	}
	return out
}

// tiltTurns are the ends of the ranges, in thousandths of a degree, in order.
func tiltTurns(hull shape.Ring, from, to float64) []float64 {
	turns := []float64{from}
	for at := from; at < to; {
		next := min(to, at+tiltRange)
		for i, p := range hull {
			d := hull[(i+1)%len(hull)].Sub(p)
			edge := math.Atan2(float64(d.Y), float64(d.X)) * float64(shape.Turn180) / math.Pi
			quarter := float64(shape.Turn90)
			t := math.Ceil((at+edge+1e-6)/quarter)*quarter - edge
			if t > at {
				next = min(next, t)
			}
		}
		turns = append(turns, next)
		at = next
	}
	return turns
}

// extents are the length and the width of a ring turned by so many thousandths of a degree.
func extents(r shape.Ring, turn float64) (long, wide float64) {
	sin, cos := math.Sincos(turn * math.Pi / float64(shape.Turn180))
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range r {
		x, y := float64(p.X)*cos-float64(p.Y)*sin, float64(p.X)*sin+float64(p.Y)*cos
		x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
	}
	return x1 - x0, y1 - y0
}
