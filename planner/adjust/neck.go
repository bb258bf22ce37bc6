package adjust

import (
	"math"
	"slices"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// leastNeck is how deep a neck stays below its end at the shoulder (ours).
const leastNeck = int64(5 * measure.Millimetre)

// necked moves a neckline: at the fold down, at its end along the edge it meets there. v is the
// share of the way from the fold to the end, by breadth; v²(3 − 2v) of the end's way is gone.
type necked struct {
	down   int64
	dx, dy float64 // of the end
}

func (n necked) line(l line) line {
	end := float64(l[len(l)-1].Y)
	out := slices.Clone(l)
	for i, p := range out {
		v := max(0, min(1, float64(p.Y)/end))
		k := v * v * (3 - 2*v)
		out[i].X += int64(math.Round((1-k)*float64(n.down) + k*n.dx))
		out[i].Y += int64(math.Round(k * n.dy))
	}
	return out
}

// neckline widens, narrows, deepens or raises the neck of a half.
func (b *body) neckline(s Step) error {
	if !b.OnFold {
		return invalid(b.called()+" is drawn whole, and its neckline is changed on a half", "Mirror a half of it first.")
	}
	all := runs(b.o.Cut)
	n := len(all)
	fold := slices.IndexFunc(all, func(l line) bool { return l[0].Y == 0 && l[len(l)-1].Y == 0 })
	if n < 4 || fold < 0 || len(paths(b.o, "waist")) > 0 || b.sleeve() || all[fold][0].X > b.levels[HemLevel]/2 {
		return invalid(b.called()+" has no neckline that can be told", "Choose the pattern pieces with the neck, cut on the fold.")
	}
	k := (fold + n - 1) % n
	along := b.alongRuns(all)
	neck, shoulder := all[k].reversed(), all[(k+n-1)%n].reversed() // both from the fold outwards
	move, edge, err := b.neckEnd(int64(s.Out), shoulder)
	if err != nil {
		return err
	}
	move.down = int64(s.Down)
	neck = move.line(neck)
	if neck[0].X < neck[len(neck)-1].X+leastNeck {
		return invalid("the neck of "+b.called()+" would not be hollow any more", "Raise it by less.")
	}
	for i, e := range b.o.Edges {
		switch along[i] {
		case k:
			b.o.Edges[i].Points = b.neckEdge(move, e.Points)
		case (k + n - 1) % n:
			b.o.Edges[i].Points = shoulderEdge(e.Points, move)
		}
	}
	edge[0] = neck[len(neck)-1]
	foldLine := slices.Clone(all[fold])
	foldLine[0] = neck[0]
	all[k], all[(k+n-1)%n], all[fold] = neck.reversed(), edge.reversed(), foldLine
	return b.set(joined(all), "Change the neckline by less.")
}

// neckEnd is how the end of the neck moves along the edge it meets, and that edge from there.
func (b *body) neckEnd(out int64, shoulder line) (necked, line, error) {
	if out == 0 {
		return necked{}, slices.Clone(shoulder), nil
	}
	d := shoulder[len(shoulder)-1].Sub(shoulder[0])
	if d.Y <= out+leastNeck {
		return necked{}, nil, invalid("the edge at the end of the neck of "+b.called()+" is not wide enough", "Widen it by less, or move the strap point instead.")
	}
	move := necked{dx: float64(d.X) / float64(d.Y) * float64(out), dy: float64(out)}
	edge := line{shoulder[0]}
	for _, p := range shoulder[1:] {
		if p.Y > shoulder[0].Y+out {
			edge = append(edge, p)
		}
	}
	if len(edge) < 2 {
		edge = append(edge, shoulder[len(shoulder)-1])
	}
	return move, edge, nil
}

// neckEdge moves the stitching line of the neck.
func (b *body) neckEdge(move necked, pts []shape.Point) line {
	l := line(pts)
	if l[0].Y > l[len(l)-1].Y {
		return move.line(l.reversed()).reversed()
	}
	return move.line(l)
}

// shoulderEdge moves the end of the stitching line at the neck along it.
func shoulderEdge(pts []shape.Point, move necked) line {
	out := slices.Clone(line(pts))
	i := 0
	if pts[0].Y > pts[len(pts)-1].Y {
		i = len(pts) - 1
	}
	out[i].X += int64(math.Round(move.dx))
	out[i].Y += int64(math.Round(move.dy))
	return out
}
