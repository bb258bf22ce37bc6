package trace

import (
	"math"

	"tallycloth/stash/shape"
)

// Doubt is a plain reason why an outline may be wrong, with what to do.
type Doubt string

// The doubts there are.
const (
	NoBackground Doubt = "The background looks different on every side. Lay the cloth on one plain surface, or draw the outline."
	NothingFound Doubt = "No cloth stands out from what it lies on. Lay it on a surface of another colour, or draw the outline."
	Alike        Doubt = "Cloth and background look alike along part of the edge. Look at the outline there."
	LikeShadow   Doubt = "The cloth looks like a shadow on its background. Look at the whole outline."
	AtRim        Doubt = "The cloth reaches the edge of the picture. Take it whole, or draw what is missing."
	SeveralParts Doubt = "Several large parts stand out. The largest was taken."
	AtSheet      Doubt = "The sheet touches the cloth or lies on it. Lay it beside the cloth, or draw the outline there."
	FarFromMarks Doubt = "The marked rectangle is small beside the cloth. Use a larger sheet, or check one length of the cloth."
	Ragged       Doubt = "The edge found is ragged. Look at it, or lay the cloth on a plainer surface."
)

// doubts are about the marks alone.
func (r Rectangle) doubts() []Doubt { return nil }

// doubts looks at what was found.
func (g *grid) doubts(r Rectangle, bg background, all []part, p shape.Polygon, shadowy bool) (out []Doubt) {
	if len(p.Outer) == 0 {
		return []Doubt{NothingFound}
	}
	edge := g.walk(p)
	add := func(d Doubt, when bool) {
		if when {
			out = append(out, d)
		}
	}
	add(LikeShadow, shadowy)
	add(AtRim, edge.rim)
	add(AtSheet, edge.sheet)
	add(Alike, edge.weak > 0.06)
	add(SeveralParts, len(all) > 1 && len(all[1].cells)*12 > len(all[0].cells))
	add(Ragged, ragged(p))
	b := p.Bounds()
	far := max(float64(b.Max.X), float64(r.Along)-float64(b.Min.X), float64(b.Max.Y), float64(r.Across)-float64(b.Min.Y))
	add(FarFromMarks, far > 6*max(float64(r.Along), float64(r.Across)))
	return out
}

// walked is what was seen along an outline.
type walked struct {
	weak       float64 // share of it without contrast
	rim, sheet bool
}

// weakContrast is the distance of colours below which an edge is not plain.
const weakContrast = 9

// walk compares the colours 6 mm inside and outside, every 5 mm.
func (g *grid) walk(p shape.Polygon) (w walked) {
	n, weak := 0, 0
	for _, r := range p.Rings() {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
			l := math.Hypot(dx, dy)
			for k := 0.5; k < l/5e3; k++ {
				t := min(k*5e3/l, 1)
				x, y := float64(a.X)+t*dx, float64(a.Y)+t*dy
				in, ok := g.cellAt(Dot{x - 6e3*dy/l, y + 6e3*dx/l})
				out, ok2 := g.cellAt(Dot{x + 6e3*dy/l, y - 6e3*dx/l})
				switch {
				case !ok || !ok2 || !g.valid[in] || !g.valid[out]:
					w.rim = true
				case g.sheet[in] || g.sheet[out]:
					w.sheet = true
				default:
					n++
					if g.base[in].distance(g.base[out]) < weakContrast {
						weak++
					}
				}
			}
		}
	}
	w.weak = float64(weak) / float64(max(n, 1))
	return w
}

func (g *grid) cellAt(p Dot) (int, bool) {
	d := g.s.Dot(p)
	x, y := int(math.Floor(d.X/float64(g.k))), int(math.Floor(d.Y/float64(g.k)))
	return y*g.w + x, x >= 0 && y >= 0 && x < g.w && y < g.h
}

// ragged says whether the way round is much longer than round the same outline drawn
// in steps of 25 mm.
func ragged(p shape.Polygon) bool {
	var dots []Dot
	for _, q := range p.Outer {
		dots = append(dots, Dot{float64(q.X), float64(q.Y)})
	}
	plain := whole(simplified(dots, 6e3))
	return p.Outer.Perimeter() > 1.12*plain.Perimeter()
}
