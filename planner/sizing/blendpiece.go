package sizing

import (
	"math"
	"strings"

	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// way is how a pattern piece runs over to the size of a level: it leaves the size above at one
// depth, and has that of the level at the other and below.
type way struct {
	level    string
	from, at measure.Length
}

// waysOf are the ways of a pattern piece from the top down, found on its outline in the size it
// begins with; none where the piece cannot be blended.
func waysOf(q pattern.Piece, size string) []way {
	o := q.Outlines[size]
	switch {
	case q.OnFold && deepest(o, "armhole") > 0:
		if d, ok := torsoDepths(o); ok {
			return []way{{pattern.Waist, d.bust, d.waist}, {pattern.Hip, d.waist, d.hip}}
		}
	case q.OnFold && deepest(o, "waist") > 0 && deepest(o, "side") > 0:
		top := deepest(o, "waist") + measure.Centimetre
		if _, hip := sideLevels(o, top); hip > top {
			return []way{{pattern.Hip, top, hip}}
		}
	case deepest(o, "cap") > 0:
		from := deepest(o, "cap") + measure.Centimetre
		if foot := measure.Length(o.Cut.Bounds().Max.X); foot > from+4*measure.Centimetre {
			return []way{{UpperArm, from, from + (foot-from)/2}}
		}
	case deepest(o, "waist") > 0 && deepest(o, "inseam") > 0:
		top, crotch := deepest(o, "waist")+measure.Centimetre, shallowest(o, "inseam")
		hip := crotch - hipOverCrotch
		if hip > top {
			return []way{{pattern.Hip, top, hip}, {pattern.Thigh, hip, crotch}}
		}
	}
	return nil
}

// hipOverCrotch is how far above the crotch legs are as wide as at the hip (ours, about where
// the seat is fullest).
const hipOverCrotch = 6 * measure.Centimetre

// deepest is how deep the edges of a name, or that begin with it, reach; 0 where there is none.
func deepest(o pattern.Outline, name string) measure.Length {
	x := int64(0)
	for _, e := range o.Edges {
		if named(e, name) {
			for _, p := range e.Points {
				x = max(x, p.X, 1)
			}
		}
	}
	return measure.Length(x)
}

// shallowest is how deep the edges of a name begin.
func shallowest(o pattern.Outline, name string) measure.Length {
	x := int64(math.MaxInt64)
	for _, e := range o.Edges {
		if named(e, name) {
			for _, p := range e.Points {
				x = min(x, p.X)
			}
		}
	}
	return measure.Length(x)
}

func named(e pattern.EdgePath, name string) bool {
	return len(e.Points) > 0 && (e.Name == name || strings.HasPrefix(e.Name, name+" "))
}

// depths are how deep the levels lie on a half.
type depths struct{ bust, waist, hip measure.Length }

// torsoDepths finds the levels of a half with an armhole: the bust at the underarm, the waist
// where the side is narrowest below it, the hip where it is widest below the waist.
func torsoDepths(o pattern.Outline) (depths, bool) {
	d := depths{bust: deepest(o, "armhole") + 2*measure.Centimetre} // below what the seam allowance of the armhole takes
	d.waist, d.hip = sideLevels(o, d.bust)
	return d, d.bust < d.waist && d.waist < d.hip
}

// sideLevels are where the side of a half is narrowest below a depth, and widest below that.
func sideLevels(o pattern.Outline, from measure.Length) (narrow, wide measure.Length) {
	foot := measure.Length(o.Cut.Bounds().Max.X)
	side := func(x measure.Length) measure.Length {
		if c := adjust.Crossings(o.Cut, int64(x)); len(c) == 2 {
			return measure.Length(c[1])
		}
		return 0
	}
	low, high := measure.Length(1<<62), measure.Length(0)
	for x := from; x < foot-4*measure.Centimetre; x += measure.Centimetre / 2 {
		if y := side(x); y > 0 && y < low {
			low, narrow = y, x
		}
	}
	for x := narrow; x < foot; x += measure.Centimetre / 2 {
		if y := side(x); y > high+measure.Millimetre/10 {
			high, wide = y, x
		}
	}
	return narrow, wide
}

// leg is a stretch of the way from size to size: the outline of the next, and where it comes in.
type leg struct {
	next  pattern.Outline
	stops []Stop
}

// blend runs the outline of a piece over to the sizes of its levels, at says which.
func blend(q pattern.Piece, o pattern.Outline, ways []way, base string, at map[string]string) (pattern.Outline, error) {
	var legs []leg
	now := base
	for _, w := range ways {
		size := at[w.level]
		if size == now {
			continue
		}
		next, ok := q.Outlines[size]
		if !ok {
			return o, invalid("it has no outline in size "+size, "Bring in the missing outline.")
		}
		legs, now = append(legs, leg{next, []Stop{{w.from, 0}, {w.at, 1}}}), size
	}
	if len(legs) == 0 {
		return o, nil
	}
	return along(o, legs)
}

// along blends cutting line, edges and notches.
func along(o pattern.Outline, legs []leg) (pattern.Outline, error) {
	var sizes []shape.Ring
	var stops [][]Stop
	for _, l := range legs {
		sizes, stops = append(sizes, l.next.Cut), append(stops, l.stops)
	}
	cut, err := blendAll(o.Cut, sizes, stops)
	if err != nil {
		return o, err
	}
	out := o
	out.Cut, out.Edges, out.Notches = cut, nil, nil
	for i := range o.Edges {
		if e, ok := blendEdge(o.Edges, i, legs, stops); ok {
			out.Edges = append(out.Edges, e)
		}
	}
	for i, n := range o.Notches {
		row := []shape.Point{n.At}
		for _, l := range legs {
			if len(l.next.Notches) == len(o.Notches) {
				row = append(row, l.next.Notches[i].At)
			} else {
				row = append(row, n.At)
			}
		}
		if p := runOver(row, stops); p != n.At {
			n.At = pattern.Onto(cut, p)
		} else if shareAt(stops[0], n.At.X) > 0 {
			n.At = pattern.Onto(cut, n.At)
		}
		out.Notches = append(out.Notches, n)
	}
	return out, nil
}

// sameEdge is the edge of the other size that goes by the same name, the second to the second.
func sameEdge(all, others []pattern.EdgePath, i int) (pattern.EdgePath, bool) {
	nth := 0
	for _, e := range all[:i] {
		if e.Name == all[i].Name {
			nth++
		}
	}
	for _, e := range others {
		if e.Name != all[i].Name {
			continue
		}
		if nth == 0 {
			return e, len(e.Points) > 1 && len(all[i].Points) > 1
		}
		nth--
	}
	return pattern.EdgePath{}, false
}

// blendEdge blends a stretch of the stitching line as the cutting line is blended; false where
// a size has no edge of its name.
func blendEdge(all []pattern.EdgePath, i int, legs []leg, stops [][]Stop) (pattern.EdgePath, bool) {
	out := all[i]
	lines := [][]shape.Point{out.Points}
	still := true
	for k, l := range legs {
		other, ok := sameEdge(all, l.next.Edges, i)
		if !ok {
			return out, false
		}
		lines = append(lines, other.Points)
		for _, p := range out.Points {
			still = still && shareAt(stops[k], p.X) == 0
		}
	}
	if still {
		return out, true
	}
	var last []shape.Point
	out.Points = nil
	for _, l := range lines {
		last = append(last, l[len(l)-1])
	}
	for _, row := range append(abreast(lines), last) {
		out.Points = append(out.Points, runOver(row, stops))
	}
	out.Turn = pattern.Turning(out.Points)
	return out, true
}
