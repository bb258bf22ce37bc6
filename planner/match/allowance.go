package match

import (
	"fmt"
	"math"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"

	"github.com/peterstace/simplefeatures/geom"
)

// roundSides is how many sides stand for a circle when an allowance is added; they
// lie outside it by at most 2 % of the allowance, never inside.
const roundSides = 16

// withAllowance returns an outline that lacks its seam allowance with it added, by
// round corners: the union of the outline with what a circle covers that runs along
// it. Hollows narrower than twice the allowance close. Of a half on the fold, y = 0
// stays the fold.
func withAllowance(r shape.Ring, allowance int64, onFold bool) (shape.Ring, error) {
	whole := r
	if onFold {
		whole = pattern.Unfold(r)
	}
	parts := []geom.Geometry{polygonOf(whole).AsGeometry()}
	for i, p := range whole {
		q := whole[(i+1)%len(whole)]
		parts = append(parts, polygonOf(append(circle(p, allowance), circle(q, allowance)...).Hull()).AsGeometry())
	}
	all, err := geom.UnionMany(parts)
	if err != nil {
		return nil, fmt.Errorf("adding the seam allowance: %w", err)
	}
	p, ok := all.AsPolygon()
	if !ok {
		return nil, fmt.Errorf("adding the seam allowance: the outline falls apart")
	}
	out := ringOf(p)
	if onFold {
		out = upperHalf(out)
	}
	return out, out.Validate()
}

func circle(c shape.Point, radius int64) shape.Ring {
	out := make(shape.Ring, roundSides)
	outer := float64(radius) / math.Cos(math.Pi/roundSides)
	for i := range out {
		// Corners at whole steps from the fold line, so that y = 0 stays a corner.
		t := 2 * math.Pi * float64(i) / roundSides
		out[i] = shape.Point{X: c.X + int64(math.Round(outer*math.Cos(t))), Y: c.Y + int64(math.Round(outer*math.Sin(t)))}
	}
	return out
}

func polygonOf(r shape.Ring) geom.Polygon {
	xy := make([]float64, 0, 2*len(r)+2)
	for i := range len(r) + 1 {
		p := r[i%len(r)]
		xy = append(xy, float64(p.X), float64(p.Y))
	}
	return geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))})
}

// ringOf rounds the outer ring to whole µm, counter-clockwise.
func ringOf(p geom.Polygon) shape.Ring {
	seq := p.ExteriorRing().Coordinates()
	var out shape.Ring
	for i := range seq.Length() - 1 {
		c := seq.GetXY(i)
		out = append(out, shape.Point{X: int64(math.Round(c.X)), Y: int64(math.Round(c.Y))})
	}
	out = out.Clean()
	if out.Area2() < 0 {
		return out.Reverse()
	}
	return out
}

// upperHalf keeps what lies in y ≥ 0, its cut along y = 0.
func upperHalf(r shape.Ring) shape.Ring {
	var out shape.Ring
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if p.Y >= 0 {
			out = append(out, p)
		}
		if p.Y < 0 && q.Y > 0 || p.Y > 0 && q.Y < 0 {
			k := float64(p.Y) / float64(p.Y-q.Y)
			out = append(out, shape.Point{X: p.X + int64(math.Round(k*float64(q.X-p.X)))})
		}
	}
	return out.Clean()
}
