package tracing

import (
	"context"
	"math"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/trace"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// rectangle is what was marked and said of it.
func (t *View) rectangle() (trace.Rectangle, bool) {
	r := trace.Rectangle{Sheet: t.size.Selected != matLines}
	for i, s := range t.marks[0].Points {
		r.Corners[i] = trace.Dot{X: s.X, Y: s.Y}
	}
	switch t.size.Selected {
	case sheetA4:
		r.Along, r.Across = trace.Lying(r.Corners, trace.A4)
	case sheetLetter:
		r.Along, r.Across = trace.Lying(r.Corners, trace.Letter)
	default:
		if !t.along.Valid() || !t.across.Valid() {
			return r, false
		}
		r.Along, r.Across = t.lengthIn(t.along), t.lengthIn(t.across)
		return r, true
	}
	if t.other.Checked {
		r.Along, r.Across = r.Across, r.Along
	}
	return r, true
}

// trace straightens the picture and looks for the outline.
func (t *View) trace() {
	if t.picture == nil {
		return
	}
	r, ok := t.rectangle()
	if !ok {
		return
	}
	var a trace.Answer
	t.find.Disable()
	t.Say(widgets.Remark("", "Looking for the outline …", widgets.Quiet))
	t.host.Tasks.Start("trace.find", func(ctx context.Context, _ func(func())) (err error) {
		a, err = t.host.Studio.TracePhoto(ctx, t.picture, r)
		return err
	}, func(err error) {
		t.find.Enable()
		if err != nil {
			t.Say(widgets.Remark("× ", say.Error(err), widgets.Bad))
			return
		}
		t.found(a)
	})
}

// found shows the outline over the straightened picture, with what is doubtful about it.
func (t *View) found(a trace.Answer) {
	for i, c := range a.Corners { // the marks as they were used
		t.marks[0].Points[i] = widgets.Spot{X: c.X, Y: c.Y}
	}
	t.Straight = &a.Straight
	t.Board.Put(a.Straight.Image, a.Straight.Image, outlineTrails(a, t.words))
	var words []fyne.CanvasObject
	for _, d := range a.Doubts {
		words = append(words, widgets.Remark("! ", string(d), widgets.Careful))
	}
	if len(a.Outline.Outer) == 0 {
		words = append(words, widgets.Remark("", t.words.Empty, widgets.Plain))
	} else {
		v, b := t.host.Voice(), a.Outline.Outer.Bounds()
		words = append(words, widgets.Remark("", "Found "+v.Area(measure.Area(a.Outline.Area()))+", "+v.Width(measure.Length(b.Length()))+" from left to right and "+
			v.Width(measure.Length(b.Width()))+" from top to bottom. Compare that with a tape.", widgets.Plain))
	}
	words = append(words, widgets.Remark("", t.words.After, widgets.Quiet))
	t.Say(words...)
	t.step()
	t.host.Focus(t.Board)
}

// outlineTrails are the outline, its holes and the arrow of the grain, in that order with
// the arrow last; four points to drag where nothing was found.
func outlineTrails(a trace.Answer, words Words) []widgets.Trail {
	w, h := float64(a.Straight.Image.Rect.Dx()), float64(a.Straight.Image.Rect.Dy())
	var out []widgets.Trail
	for _, r := range a.Outline.Rings() {
		var points []widgets.Spot
		for _, q := range r {
			d := a.Straight.Dot(trace.Dot{X: float64(q.X), Y: float64(q.Y)})
			points = append(points, widgets.Spot{X: d.X, Y: d.Y})
		}
		if len(points) > 0 {
			out = append(out, widgets.Trail{Points: points})
		}
	}
	if len(out) == 0 {
		out = []widgets.Trail{{Points: []widgets.Spot{{X: w / 3, Y: h / 3}, {X: 2 * w / 3, Y: h / 3}, {X: 2 * w / 3, Y: 2 * h / 3}, {X: w / 3, Y: 2 * h / 3}}}}
	}
	x, y, n := 0.0, 0.0, float64(len(out[0].Points))
	for _, s := range out[0].Points {
		x, y = x+s.X/n, y+s.Y/n
	}
	arrow := widgets.Trail{Points: []widgets.Spot{{X: x - w/12, Y: y}, {X: x + w/12, Y: y}}, Fixed: true, Arrow: true, Words: words.Arrow}
	if words.Upright {
		arrow.Points = []widgets.Spot{{X: x, Y: y + w/12}, {X: x, Y: y - w/12}}
	}
	return append(out, arrow)
}

// hole adds a hole in the middle of the outline, to be dragged to its place.
func (t *View) hole() {
	if t.Straight == nil {
		return
	}
	trails := t.Board.Trails()
	last := len(trails) - 1
	at := HoleIn(trails[0], 15_000/float64(t.Straight.Pixel)) // 3 cm across
	t.Board.SetTrails(append(append(append([]widgets.Trail{}, trails[:last]...), at), trails[last]))
	t.Board.Take(last, 0, true)
	t.host.Focus(t.Board)
}

// HoleIn is a square in the middle of a line, twice half wide, to be dragged to its place.
func HoleIn(line widgets.Trail, half float64) widgets.Trail {
	x, y, n := 0.0, 0.0, float64(len(line.Points))
	for _, s := range line.Points {
		x, y = x+s.X/n, y+s.Y/n
	}
	return widgets.Trail{Points: []widgets.Spot{{X: x - half, Y: y - half}, {X: x + half, Y: y - half}, {X: x + half, Y: y + half}, {X: x - half, Y: y + half}}}
}

// Rings are the lines of a board in the frame that place gives.
func Rings(trails []widgets.Trail, place func(widgets.Spot) shape.Point) []shape.Ring {
	var out []shape.Ring
	for _, tr := range trails {
		var r shape.Ring
		for _, s := range tr.Points {
			r = append(r, place(s))
		}
		out = append(out, r)
	}
	return out
}

// Drawn is the outline on the board with its holes: lengthwise, where the arrow points, runs along x.
func (t *View) Drawn() (shape.Polygon, error) {
	trails := t.Board.Trails()
	p := planner.Wound(Rings(trails[:len(trails)-1], func(s widgets.Spot) shape.Point {
		d := t.Straight.Plane(trace.Dot{X: s.X, Y: s.Y})
		return shape.Point{X: int64(math.Round(d.X)), Y: int64(math.Round(d.Y))}
	}))
	a := trails[len(trails)-1].Points
	grain := math.Atan2(a[0].Y-a[1].Y, a[1].X-a[0].X) * 180 / math.Pi
	return planner.Laid(p, shape.Angle(math.Round(grain*1000)))
}
