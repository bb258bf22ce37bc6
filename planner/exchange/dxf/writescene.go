package dxf

import (
	"errors"
	"io"
	"math"
	"slices"
	"strings"

	"tallycloth/planner/scene"
	"tallycloth/stash/shape"
)

// WriteScene writes a drawing, such as a layout, at true size: lines on a layer for each
// meaning (piece, cloth, grain), words on the layer of theirs. The scene's frame is that
// of the file: x to the right, y up. Errors: an empty scene, or the writer's.
func WriteScene(w io.Writer, s scene.Scene) error {
	if s.Bounds.Width() <= 0 || s.Bounds.Height() <= 0 {
		return errors.New("there is nothing to draw yet")
	}
	var layers []string
	for _, it := range s.Items {
		if l := layerOf(it.Style); !slices.Contains(layers, l) {
			layers = append(layers, l)
		}
	}
	out := newWriter(w)
	out.head(shape.Box{Min: inFile(s.Bounds.Min), Max: inFile(s.Bounds.Max)}, append([]string{"0"}, layers...))
	out.text(0, "SECTION")
	out.text(2, "ENTITIES")
	for _, it := range s.Items {
		out.item(it)
	}
	out.text(0, "ENDSEC")
	return out.close()
}

func layerOf(s scene.Style) string { return strings.ToUpper(string(s)) }

func inFile(p scene.Point) shape.Point { return shape.Point{X: micro(p.X), Y: micro(p.Y)} }

func (w *writer) item(it scene.Item) {
	l := layerOf(it.Style)
	if it.Text == "" {
		for _, run := range it.Lines {
			pts := make([]shape.Point, len(run.Points))
			for i, p := range run.Points {
				pts[i] = inFile(p)
			}
			w.polyline(l, pts, run.Closed)
		}
		return
	}
	// A text of a scene stands with its middle line at its place; that of a file on its
	// base line, which lies about a third of the height lower (common practice).
	width, sin, cos := scene.TextWidth(it.Text)*it.Size, math.Sin(it.Turn*math.Pi/180), math.Cos(it.Turn*math.Pi/180)
	back := map[scene.Align]float64{scene.Middle: width / 2, scene.End: width}[it.Align]
	down := it.Size / 3
	w.words(l, inFile(scene.Point{X: it.At.X - back*cos + down*sin, Y: it.At.Y - back*sin - down*cos}), micro(it.Size*0.7), escaped(it.Text))
	if it.Turn != 0 {
		w.number(50, it.Turn)
	}
}
