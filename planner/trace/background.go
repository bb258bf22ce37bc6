package trace

import (
	"math"
	"slices"
)

// background is what the cloth lies on: a few colours, each in light or in shadow.
type background struct {
	shades []shade
	most   float64 // distance up to which a colour is background when nothing else is known
}

// shade is a colour of the background under some share of its light.
type shade struct {
	lab
	cost float32 // what it adds to the squared distance: shadow is less likely than light
}

// lights are the shares of light that a background colour is tried under.
var lights = []float64{1.25, 1.1, 1, 0.9, 0.8, 0.71, 0.63, 0.56, 0.5, 0.44}

// Costs of shadow, per natural logarithm of the light. The strict one is for cloth whose
// colour is that of its background in shadow.
const (
	lenient = 7
	strict  = 40
)

// Colours nearer than this to each other are one.
const sameColour = 7

// distance is how far a colour is from the nearest of the background.
func (b background) distance(c lab) float64 {
	best := float32(math.Inf(1))
	for i := range b.shades {
		s := &b.shades[i]
		x, y, z := c[0]-s.lab[0], c[1]-s.lab[1], c[2]-s.lab[2]
		if d := x*x + y*y + z*z + s.cost; d < best {
			best = d
		}
	}
	return math.Sqrt(float64(best))
}

// seeds are places where there is background, most likely: groups along the four sides of
// the picture, and near the marked rectangle by its four sides or corners.
func (g *grid) seeds(r Rectangle) (border, near [4][]int) {
	rim := max(3, min(g.w, g.h)/30)
	for y := range g.h {
		for x := range g.w {
			i := y*g.w + x
			if !g.open(i) {
				continue
			}
			if side, ok := g.rim(x, y, rim); ok {
				border[side] = append(border[side], i)
			} else if side, ok := g.beside(x, y, r); ok {
				near[side] = append(near[side], i)
			}
		}
	}
	return border, near
}

// rim says whether a place is within n of where the picture ends, and on which side.
func (g *grid) rim(x, y, n int) (side int, ok bool) {
	for side, d := range [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		u, v := x+n*d[0], y+n*d[1]
		if u < 0 || v < 0 || u >= g.w || v >= g.h || !g.valid[v*g.w+u] {
			return side, true
		}
	}
	return 0, false
}

// beside says whether a place is within 3 to 18 mm outside a sheet, and by which side; or,
// for lines of a mat, within 15 mm of a corner, and of which.
func (g *grid) beside(x, y int, r Rectangle) (side int, ok bool) {
	p := g.plane(x, y)
	a, b := float64(r.Along), float64(r.Across)
	if !r.Sheet {
		for i, c := range r.plane() {
			if max(math.Abs(p.X-c.X), math.Abs(p.Y-c.Y)) < 15e3 {
				return i, true
			}
		}
		return 0, false
	}
	out := []float64{p.X - a, p.Y - b, -p.X, -p.Y}
	for i, d := range out {
		if d > 3e3 && d < 18e3 && d == slices.Max(out) {
			return i, true
		}
	}
	return 0, false
}

// learn finds the colours of the background. A colour at the border counts when it is
// found on two sides at least: cloth that reaches out of the picture mostly leaves by one.
func (g *grid) learn(r Rectangle, shadow float64) background {
	border, near := g.seeds(r)
	all := append(g.common(border, 0.06), g.common(near, 0.12)...)
	var b background
	for _, c := range all {
		b.add(c, shadow)
	}
	b.most = g.spread(b, border, near)
	return b
}

func (b *background) add(c lab, shadow float64) {
	if len(b.shades) > 0 && b.distance(c) < sameColour/2 {
		return
	}
	for _, l := range lights {
		k := shadow * math.Log(l)
		b.shades = append(b.shades, shade{c.shaded(l), float32(k * k)})
	}
}

// common returns the colours that at least two of four sides have, each with its share of
// that side or more.
func (g *grid) common(sides [4][]int, share float64) (out []lab) {
	var c []lab
	var side []int
	for s, places := range sides {
		every := max(1, len(places)/800)
		for k := 0; k < len(places); k += every {
			c, side = append(c, g.base[places[k]]), append(side, s)
		}
	}
	middles, of := clusters(c, 6, sameColour)
	total := [4]float64{}
	count := make([][4]float64, len(middles))
	for i := range c {
		total[side[i]]++
		count[of[i]][side[i]]++
	}
	for m, middle := range middles {
		on := 0
		for s := range 4 {
			if total[s] > 0 && count[m][s] >= share*total[s] {
				on++
			}
		}
		if on >= 2 {
			out = append(out, middle)
		}
	}
	return out
}

// spread is how far from its colours the background itself strays: beyond 95 % of what is
// seen along the border and the rectangle, within reason.
func (g *grid) spread(b background, groups ...[4][]int) float64 {
	if len(b.shades) == 0 {
		return 0
	}
	var d []float32
	for _, sides := range groups {
		for _, places := range sides {
			for k := 0; k < len(places); k += 5 {
				d = append(d, float32(b.distance(g.base[places[k]])))
			}
		}
	}
	return min(max(1.5*float64(d[quantileIndex(d, 0.9)]), 6), 11)
}

// quantileIndex is the index of a value that about the share q is at most.
func quantileIndex(v []float32, q float64) int {
	order := make([]int, len(v))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case v[a] < v[b]:
			return -1
		case v[a] > v[b]:
			return 1
		}
		return a - b
	})
	return order[min(len(v)-1, int(q*float64(len(v))))]
}
