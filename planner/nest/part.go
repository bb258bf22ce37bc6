package nest

import (
	"cmp"
	"encoding/binary"
	"slices"

	"tallycloth/planner/geometry"
	"tallycloth/stash/shape"
)

// pose is an outline turned and mirrored, not yet moved: the search only ever
// moves poses. The ring is the true outline; the body, which the search works
// with, is the same or contains it with fewer corners.
type pose struct {
	id     int // index into problem.poses
	item   int
	angle  shape.Angle
	mirror bool
	ring   shape.Ring
	body   shape.Ring
	box    shape.Box
	low    bool // OnFold: lies against a fold at the low side of a band
	high   bool // OnFold: lies against a fold at the high side
}

// placement lays the pose at a place.
func (q pose) placement(at shape.Point) shape.Placement {
	return shape.Placement{Angle: q.angle, Mirror: q.mirror, At: at}
}

// problem is an Instance made ready: poses by item and group angle, the cloth as
// boxes with obstacles, and the forbidden regions worked out so far.
type problem struct {
	in     Instance
	poses  []pose
	same   []int     // of each pose, the first that has its body
	byItem [][][]int // item → group angle → poses
	cloths []cloth
	pairs  map[pairKey]*geometry.Forbidden
	simple []shape.Ring // of each item, its simplified outline once asked for
	given  []Laid       // copies whose place is given: pinned, or of a layout to go on from
	ended  func() bool  // whether nothing more is wanted; nil: never
}

// stopped says whether nothing more is wanted: what takes long looks at it on the way.
func (p *problem) stopped() bool { return p.ended != nil && p.ended() }

// pairKey names a fixed pose or obstacle and a moving pose.
type pairKey struct{ fixed, moving int }

// cloth is one fabric: the box that poses stay in, and what they keep clear of.
type cloth struct {
	box       shape.Box
	open      bool  // a strip: no end
	start     int64 // where its length is counted from
	obstacles []obstacle
	bands     []Band
}

// obstacle is an outline to keep clear of; bound says it is the cloth's own edge.
type obstacle struct {
	id   int // negative, unique in the problem
	ring shape.Ring
	gap  int64
}

// newProblem makes an instance ready. It expects a valid one.
func newProblem(in Instance) *problem { return newProblemFor(in, nil, nil) }

// newProblemFor makes an instance ready for copies whose place is given as well. Once it
// has ended nothing that takes long is worked out any more, so it then serves nothing.
func newProblemFor(in Instance, given []Laid, ended func() bool) *problem {
	p := &problem{ended: ended, in: in, pairs: map[pairKey]*geometry.Forbidden{}, simple: make([]shape.Ring, len(in.Items)), given: pinned(in)}
	p.given = append(p.given, given...)
	next := -1
	for _, f := range in.Fabrics {
		p.cloths = append(p.cloths, newCloth(f, in.Clearance, &next))
	}
	p.byItem = make([][][]int, len(in.Items))
	for i, it := range in.Items {
		for _, g := range groupAngles(in, it) {
			p.byItem[i] = append(p.byItem[i], p.posesOf(i, it, g))
		}
	}
	p.same = firstEqual(p.poses)
	return p
}

// firstEqual names for each pose the first that has its body: several garments of one
// pattern and size share what is worked out for pairs of outlines.
func firstEqual(poses []pose) []int {
	first := map[string]int{}
	out := make([]int, len(poses))
	var key []byte
	for i, q := range poses {
		key = key[:0]
		for _, v := range q.body {
			key = binary.LittleEndian.AppendUint64(key, uint64(v.X))
			key = binary.LittleEndian.AppendUint64(key, uint64(v.Y))
		}
		k, ok := first[string(key)]
		if !ok {
			k = i
			first[string(key)] = i
		}
		out[i] = k
	}
	return out
}

// groupAngles are the turns the item's group may take, {0} for an item alone.
func groupAngles(in Instance, it Item) []shape.Angle {
	if it.Group == NoGroup || len(in.Groups[it.Group].Angles) == 0 {
		return []shape.Angle{0}
	}
	return in.Groups[it.Group].Angles
}

func (p *problem) posesOf(i int, it Item, group shape.Angle) []int {
	var ids []int
	add := func(a shape.Angle, mirror bool, low, high bool) {
		place := shape.Placement{Angle: (a + group).Norm(), Mirror: mirror}
		for _, id := range ids {
			if q := p.poses[id]; q.angle == place.Angle && q.mirror == mirror && q.low == low {
				return
			}
		}
		ring := place.Apply(it.Outline)
		ids = append(ids, len(p.poses))
		p.poses = append(p.poses, pose{len(p.poses), i, place.Angle, mirror, ring, p.bodyOf(i, place, ring), ring.Bounds(), low, high})
	}
	for _, a := range itemAngles(it) {
		if it.OnFold {
			addFoldPoses(a+group, a, add)
			continue
		}
		if it.Mirror != Mirrored {
			add(a, false, false, false)
		}
		if it.Mirror != AsDrawn {
			add(a, true, false, false)
		}
	}
	p.addGiven(i, it, group, add)
	return ids
}

// bodyOf simplifies the outline of a pose: quarter turns are exact, so the item's
// own simplified outline is turned with it; other turns round each corner, and are
// simplified after turning.
func (p *problem) bodyOf(item int, place shape.Placement, ring shape.Ring) shape.Ring {
	if p.stopped() {
		return ring
	}
	if place.Angle%shape.Turn90 != 0 {
		return geometry.Simplify(ring, bodyCorners, bodyFree)
	}
	if p.simple[item] == nil {
		p.simple[item] = geometry.Simplify(p.in.Items[item].Outline, bodyCorners, bodyFree)
	}
	return place.Apply(p.simple[item])
}

// addFoldPoses adds the ways an outline in y ≥ 0 lies against a fold: at a low
// fold unturned, at a high one mirrored; turned half round they change places.
// The whole is the same about its fold, so a mirrored half gives the same cut.
func addFoldPoses(full, own shape.Angle, add func(shape.Angle, bool, bool, bool)) {
	switch full.Norm() {
	case shape.Turn0:
		add(own, false, true, false)
		add(own, true, false, true)
	case shape.Turn180:
		add(own, true, true, false)
		add(own, false, false, true)
	}
}

// itemAngles are the item's own turns with a few steps of its tilt.
func itemAngles(it Item) []shape.Angle {
	angles := it.Angles
	if len(angles) == 0 {
		angles = []shape.Angle{0}
	}
	if it.Tilt == 0 {
		return angles
	}
	var out []shape.Angle
	for _, a := range angles {
		out = append(out, a)
		for k := 1; k <= tiltSteps; k++ {
			step := it.Tilt * shape.Angle(k) / tiltSteps
			out = append(out, a+step, a-step)
		}
	}
	return out
}

func newCloth(f Fabric, clearance int64, next *int) cloth {
	c := cloth{bands: f.Bands}
	add := func(r shape.Ring, gap int64) {
		if r.Area2() == 0 {
			return
		}
		if r.Area2() < 0 {
			r = r.Reverse()
		}
		c.obstacles = append(c.obstacles, obstacle{*next, r, gap})
		*next--
	}
	switch {
	case len(f.Outline.Outer) > 0:
		c.box = f.Outline.Bounds()
		c.start = c.box.Min.X
		for _, pocket := range pockets(f.Outline.Outer, c.box) {
			add(pocket, clearance)
		}
		for _, h := range f.Outline.Holes {
			add(h, clearance)
		}
		// Along the box the outline itself asks for its clearance.
		c.box = shape.Box{Min: shape.Point{X: c.box.Min.X + clearance, Y: c.box.Min.Y + clearance},
			Max: shape.Point{X: c.box.Max.X - clearance, Y: c.box.Max.Y - clearance}}
	default:
		c.box = shape.Box{Max: shape.Point{X: f.Length, Y: f.Width}}
		c.open = f.Length == 0
	}
	for _, o := range f.Obstacles {
		add(o.Outer, clearance)
	}
	if len(c.bands) == 0 {
		c.bands = []Band{{From: c.box.Min.Y, To: c.box.Max.Y, Layers: 1}}
	}
	return c
}

// pockets are the parts of the box that lie outside the outline, as outlines of
// their own. The outline touches each side of its box; between two touches in
// turn it cuts off one corner of the box, or runs between points of one side.
func pockets(outline shape.Ring, box shape.Box) []shape.Ring {
	n := len(outline)
	var touches []int
	for i, p := range outline {
		if p.X == box.Min.X || p.X == box.Max.X || p.Y == box.Min.Y || p.Y == box.Max.Y {
			touches = append(touches, i)
		}
	}
	var out []shape.Ring
	for k, i := range touches {
		j := touches[(k+1)%len(touches)]
		chain := shape.Ring{outline[i]}
		for m := i; m != j; {
			m = (m + 1) % n
			chain = append(chain, outline[m])
		}
		// Back along the box, the cloth on the chain's left, so the pocket is on its right.
		chain = append(chain, cornersBetween(outline[j], outline[i], box)...)
		pocket := chain.Clean()
		if len(pocket) >= 3 && pocket.Area2() != 0 {
			out = append(out, pocket)
		}
	}
	return out
}

// cornersBetween lists the corners of the box passed going clockwise from a to b,
// both on the box.
func cornersBetween(a, b shape.Point, box shape.Box) []shape.Point {
	round := 2 * (box.Length() + box.Width())
	way := func(p shape.Point) int64 { return (along(a, box) - along(p, box) + round) % round }
	var out []shape.Point
	for _, c := range box.Ring() {
		if d := way(c); d > 0 && d < way(b) {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(p, q shape.Point) int { return cmp.Compare(way(p), way(q)) })
	return out
}

// along is how far round the box, counter-clockwise from its low corner, p lies.
func along(p shape.Point, box shape.Box) int64 {
	l, w := box.Length(), box.Width()
	switch {
	case p.Y == box.Min.Y:
		return p.X - box.Min.X
	case p.X == box.Max.X:
		return l + p.Y - box.Min.Y
	case p.Y == box.Max.Y:
		return l + w + box.Max.X - p.X
	}
	return 2*l + w + box.Max.Y - p.Y
}

// forbidden is where the moving pose would overlap a fixed one, worked out once.
func (p *problem) forbidden(fixed, moving int, ring shape.Ring) *geometry.Forbidden {
	if fixed >= 0 && fixed < len(p.same) {
		fixed = p.same[fixed]
	}
	key := pairKey{fixed, p.same[moving]}
	f := p.pairs[key]
	if f == nil {
		f = geometry.NewForbidden(ring, p.poses[moving].body)
		p.pairs[key] = f
	}
	return f
}
