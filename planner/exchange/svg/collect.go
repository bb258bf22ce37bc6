package svg

import (
	"errors"
	"fmt"

	"tallycloth/planner/exchange/drawn"
)

// shape collects the runs of one object.
func (w *walker) shape(n *node, st state) error {
	subs, err := n.outline(w.points)
	if errors.Is(err, errTooManyPoints) {
		return w.lim.TooManyPoints()
	}
	if err != nil {
		w.warn(drawn.Warning{Reason: drawn.NotRead, Name: n.display(), What: fmt.Sprintf("it was left out: %v", err), Do: "Draw it again in the editor."})
		return nil
	}
	if st.unseen {
		w.warn(drawn.Warning{Reason: drawn.Hidden, Name: n.display(), What: "it is invisible and was left out", Do: "Show it in the editor and save again if it is wanted."})
		return nil
	}
	name := n.display()
	if n.given() == "" && st.named != "" && (name == "" || drawn.Automatic(name)) {
		name = st.named
	}
	if n.name == "rect" && invisible(st.line) {
		if n.attr("class") != "BoundingBox" { // which LibreOffice Draw puts round every object
			w.unpainted++
		}
		return nil
	}
	given := n.given() != "" || name == st.named && name != ""
	w.object++
	for _, sub := range subs {
		f := flattener{m: st.m, left: w.points}
		points, err := f.flatten(sub)
		if err != nil {
			return w.lim.TooManyPoints()
		}
		w.points = f.left
		if len(sub.segments) > 0 { // a lone move draws nothing
			w.out.Add(places(points), sub.closed, drawn.Found{Name: name, Given: given, ID: n.attr("id"), Group: st.groups, Object: w.object, Line: line(st.line), Heads: heads(st.line)})
		}
	}
	return nil
}

// places are points in mm on the page.
func places(points []vec) []drawn.Place {
	out := make([]drawn.Place, len(points))
	for i, p := range points {
		out[i] = drawn.Place{X: p.x, Y: p.y}
	}
	return out
}
