package tracetest

import (
	"math"
	"math/rand/v2"
)

// outline returns an invented leftover of about 600 mm and what kind it is.
func outline(r *rand.Rand) (kind string, outer []Point, holes [][]Point) {
	l, w := 560+80*r.Float64(), 280+200*r.Float64()
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	switch r.IntN(5) {
	case 0:
		return "trapezoid", []Point{{0, 0}, {l, between(0, 60)}, {l - between(0, 150), w}, {between(0, 150), w - between(0, 60)}}, nil
	case 1:
		x, y := l*between(0.3, 0.7), w*between(0.35, 0.65)
		return "L", []Point{{0, 0}, {l, 0}, {l, y}, {x, y}, {x, w}, {0, w}}, nil
	case 2: // a scoop out of one side, as an armhole leaves it
		c, rad := l*between(0.35, 0.65), between(0.2, 0.35)*min(l, 2*w)*0.8
		outer = []Point{{0, 0}, {l, 0}, {l, w}}
		outer = append(outer, arc(c, w, rad, rad*between(0.6, 1), 0, -math.Pi)...)
		return "scoop", append(outer, Point{0, w}), nil
	case 3: // a bite out of a corner and a curved end
		rad := between(0.3, 0.5) * w
		outer = []Point{{0, 0}, {l - 60, 0}}
		outer = append(outer, arc(l-60, w/2, between(20, 60), w/2, -math.Pi/2, math.Pi/2)...)
		outer = append(outer, arc(0, w, rad*1.3, rad, 0, -math.Pi/2)...)
		return "bite", outer, nil
	default:
		rad := between(25, 0.22*w)
		holes = [][]Point{arc(l*between(0.3, 0.4), w/2, rad, rad*between(0.7, 1), 0, 2*math.Pi)}
		if r.IntN(2) == 0 {
			x, y, s := l*between(0.65, 0.75), w*between(0.4, 0.6), between(25, 60)
			holes = append(holes, []Point{{x - s, y - s}, {x + s, y - s/2}, {x + s/2, y + s}, {x - s, y + s}})
		}
		return "holes", []Point{{0, 0}, {l, 0}, {l - between(0, 80), w}, {between(0, 80), w}}, holes
	}
}

// arc is a run of points on an ellipse; a full turn leaves its last point out.
func arc(x, y, rx, ry, from, to float64) (out []Point) {
	const steps = 40
	n := steps + 1
	if math.Abs(to-from) > 6.28 {
		n = steps
	}
	for i := range n {
		a := from + (to-from)*float64(i)/steps
		out = append(out, Point{x + rx*math.Cos(a), y + ry*math.Sin(a)})
	}
	return out
}
