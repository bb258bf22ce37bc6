package svg

import (
	"errors"
	"fmt"
	"math"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// shape collects the runs of one object.
func (w *walker) shape(n *node, st state) error {
	subs, err := n.outline(w.points)
	if errors.Is(err, errTooManyPoints) {
		return w.lim.tooManyPoints()
	}
	if err != nil {
		w.warn(Warning{Reason: NotRead, Name: n.display(), What: fmt.Sprintf("it was left out: %v", err), Do: "Draw it again in the editor."})
		return nil
	}
	if st.unseen {
		w.warn(Warning{Reason: Hidden, Name: n.display(), What: "it is invisible and was left out", Do: "Show it in the editor and save again if it is wanted."})
		return nil
	}
	name := n.display()
	if n.given() == "" && st.named != "" && (name == "" || automatic.MatchString(name)) {
		name = st.named
	}
	w.path++
	for _, sub := range subs {
		f := flattener{m: st.m, left: w.points}
		points, err := f.flatten(sub)
		if err != nil {
			return w.lim.tooManyPoints()
		}
		w.points = f.left
		if len(sub.segments) > 0 { // a lone move draws nothing
			w.collect(points, sub.closed, Found{Name: name, ID: n.attr("id"), Group: st.groups, Inside: -1, path: w.path})
		}
	}
	return nil
}

// collect turns points in mm on the page into an outline or an open line.
func (w *walker) collect(points []vec, closed bool, f Found) {
	pts := make([]shape.Point, 0, len(points))
	for _, p := range points {
		q, ok := onPiece(p)
		if !ok {
			w.warn(Warning{Reason: NoOutline, Name: f.Name, What: "it was left out: it reaches more than 500 m away", Do: "Check its place and the unit of the drawing."})
			return
		}
		if len(pts) == 0 || pts[len(pts)-1] != q {
			pts = append(pts, q)
		}
	}
	if last := len(pts) - 1; last > 0 && pts[0] == pts[last] {
		closed, pts = true, pts[:last]
	}
	if closed {
		w.closed(pts, f)
	} else if len(pts) > 1 {
		w.open(pts, f)
	}
}

// onPiece turns a point of the page in mm into the frame of pattern pieces: x down
// the page, y to the right, which is a turn by a quarter seen from the face.
func onPiece(p vec) (shape.Point, bool) {
	x, y := math.Round(p.y*1000), math.Round(p.x*1000)
	if !(math.Abs(x) <= shape.MaxCoordinate && math.Abs(y) <= shape.MaxCoordinate) {
		return shape.Point{}, false
	}
	return shape.Point{X: int64(x), Y: int64(y)}, true
}

// onPage is the place of a point of a piece on the page.
func onPage(p shape.Point) shape.Point { return shape.Point{X: p.Y, Y: p.X} }

func (w *walker) closed(pts []shape.Point, f Found) {
	ring := shape.Ring(pts).Clean()
	if ring == nil {
		if len(pts) > 0 {
			w.warn(Warning{Reason: NoOutline, Name: f.Name, What: "it encloses nothing and was left out", At: onPage(pts[0]), Placed: true, Do: "Nothing to do if it is a mark; otherwise draw it again."})
		}
		return
	}
	if len(ring) > w.lim.Outline {
		w.warn(Warning{Reason: NoOutline, Name: f.Name, What: fmt.Sprintf("it was left out: its outline has more than %d points", w.lim.Outline), At: onPage(ring[0]), Placed: true, Do: "Simplify the path in the editor and save again."})
		return
	}
	if ring.Area2() < 0 {
		ring = ring.Reverse()
	}
	f.Ring, f.Length = ring, measure.Length(math.Round(ring.Perimeter()))
	f.Fault = ring.Validate()
	var fault *shape.Fault
	switch {
	case f.Fault == nil:
		f.Area = measure.Area(ring.Area())
	case errors.As(f.Fault, &fault):
		at := onPage(fault.At)
		w.warn(Warning{Reason: Crossing, Name: f.Name, At: at, Placed: true,
			What: fmt.Sprintf("its outline %v %s from the left and %s from the top of the page", fault.Err, mm(at.X), mm(at.Y)),
			Do:   "Move the points there apart in the editor and save again."})
	}
	w.out.Shapes = append(w.out.Shapes, f)
}

func (w *walker) open(pts []shape.Point, f Found) {
	f.Open = pts
	length := 0.0
	for i := 1; i < len(pts); i++ {
		length += apart(pts[i-1], pts[i])
	}
	f.Length = measure.Length(math.Round(length))
	first, last := pts[0], pts[len(pts)-1]
	what := fmt.Sprintf("its outline is open: its ends are %s apart", mm(int64(apart(first, last))))
	if len(pts) == 2 {
		what = "it is a single line, not an outline"
	}
	w.warn(Warning{Reason: OpenPath, Name: f.Name, At: onPage(last), Placed: true, What: what,
		Do: "Join its ends in the editor if it is an outline; inside a pattern piece it is kept as a line drawn on it."})
	w.out.Shapes = append(w.out.Shapes, f)
}

func apart(a, b shape.Point) float64 {
	d := b.Sub(a)
	return math.Hypot(float64(d.X), float64(d.Y))
}

// mm writes a distance for a message.
func mm(micrometres int64) string {
	return fmt.Sprintf("%.1f mm", float64(micrometres)/1000)
}
