package nest

import (
	"math"

	"tallycloth/planner/geometry"
)

// site is one way a copy may lie: a pose on a band of a fabric, with the range of
// its origin. The search moves copies within sites only, so edges, folds and
// repeats hold at every moment; what remains to be parted is outlines.
type site struct {
	pose, fabric int
	lowX, highX  float64 // highX is +Inf on a strip
	lowY, highY  float64
	maxX         float64          // of the pose: its end is x + maxX
	reach        box              // of the pose and its clearance
	within       *geometry.Region // where the pose lies inside an outline, or nil
	blocked      []*geometry.Region
	repeat       float64
	phase        float64
}

// box is an upright rectangle in µm.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) moved(x, y float64) box { return box{b.x0 + x, b.y0 + y, b.x1 + x, b.y1 + y} }

// open says whether the pose has room at all on cloth of this length.
func (s *site) open(limit float64) bool {
	return s.lowY <= s.highY && s.lowX <= min(s.highX, limit-s.maxX)
}

// clamp moves a place to the nearest one allowed, in whole repeats.
func (s *site) clamp(limit, x, y float64) (float64, float64) {
	if s.within != nil && !s.within.Contains(x, y) {
		x, y = s.within.Way(x, y)
	}
	high := min(s.highX, limit-s.maxX)
	x = min(max(x, s.lowX), high)
	y = min(max(y, s.lowY), s.highY)
	if s.repeat > 0 {
		x = s.phase + s.repeat*math.Round((x-s.phase)/s.repeat)
		if x < s.lowX {
			x += s.repeat
		} else if x > high {
			x -= s.repeat
		}
	}
	return x, y
}

// sites lists the ways of every item under every turn of its group; nil if the search
// ended on the way.
func (p *problem) sites(t *table) [][][]site {
	fixed := map[pairKey]*geometry.Region{}
	out := make([][][]site, len(p.in.Items))
	for i := range p.in.Items {
		for _, ids := range p.byItem[i] {
			var ways []site
			for _, id := range ids {
				for f := range p.cloths {
					ways = p.addSites(ways, t, fixed, id, f)
				}
				if p.stopped() {
					return nil
				}
			}
			out[i] = append(out[i], ways)
		}
	}
	return out
}

func (p *problem) addSites(ways []site, t *table, fixed map[pairKey]*geometry.Region, id, fabric int) []site {
	q, c := &p.poses[id], &p.cloths[fabric]
	it := p.in.Items[q.item]
	for _, b := range c.bands {
		if it.Layers != 0 && it.Layers != b.Layers || q.low && !b.FoldLow || q.high && !b.FoldHigh {
			continue
		}
		s := site{pose: id, fabric: fabric, maxX: float64(q.box.Max.X), reach: boxOf(t.grown[id]),
			lowX: float64(c.box.Min.X - q.box.Min.X), highX: math.Inf(1),
			lowY:   float64(max(b.From, c.box.Min.Y) - q.box.Min.Y),
			highY:  float64(min(b.To, c.box.Max.Y) - q.box.Max.Y),
			repeat: float64(it.Repeat), phase: float64(it.Phase)}
		if !c.open {
			s.highX = float64(c.box.Max.X - q.box.Max.X)
		}
		switch {
		case q.low:
			s.highY = min(s.lowY, s.highY)
		case q.high:
			s.lowY = max(s.lowY, s.highY)
		}
		for k := range c.obstacles {
			o := &c.obstacles[k]
			key := pairKey{o.id, id}
			if fixed[key] == nil && !p.stopped() {
				fixed[key] = geometry.NoFit(o.ring, t.grown[id])
			}
			s.blocked = append(s.blocked, fixed[key])
		}
		if s.open(math.Inf(1)) {
			ways = append(ways, s)
		}
	}
	return ways
}
