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

// WriteScene writes a drawing, such as a layout, at full size: lines on a layer for each
// meaning (piece, cloth, grain), as wide as weight says, words on the layer of theirs. The scene's frame is
// that of the file: x to the right, y up. Errors: an empty scene, or the writer's.
func WriteScene(w io.Writer, s scene.Scene, weight Weight) error {
	if s.Bounds.Width() <= 0 || s.Bounds.Height() <= 0 {
		return errors.New("there is nothing to draw yet")
	}
	layers := []weighted{{"0", usualWeight}}
	for _, it := range s.Items {
		l := weighted{layerOf(it.Style), lineWeight(weight(it.Style, s.Hair))}
		if !slices.Contains(layers, l) {
			layers = append(layers, l)
		}
	}
	out := newPlot(w)
	out.head(shape.Box{Min: inFile(s.Bounds.Min), Max: inFile(s.Bounds.Max)}, layers)
	out.section("ENTITIES", func() {
		for _, it := range s.Items {
			out.item(it)
		}
	})
	return out.foot()
}

func layerOf(s scene.Style) string { return strings.ToUpper(string(s)) }

func inFile(p scene.Point) shape.Point { return shape.Point{X: micro(p.X), Y: micro(p.Y)} }

func (p *plot) item(it scene.Item) {
	l := layerOf(it.Style)
	if it.Text == "" {
		for _, run := range it.Lines {
			pts := make([]shape.Point, len(run.Points))
			for i, q := range run.Points {
				pts[i] = inFile(q)
			}
			p.polyline(l, pts, run.Closed)
		}
		return
	}
	// A text of a scene stands with its middle line at its place; that of a file on its
	// base line, which lies about a third of the height lower (common practice).
	width, sin, cos := scene.TextWidth(it.Text)*it.Size, math.Sin(it.Turn*math.Pi/180), math.Cos(it.Turn*math.Pi/180)
	back := map[scene.Align]float64{scene.Middle: width / 2, scene.End: width}[it.Align]
	down := it.Size / 3
	p.words(l, inFile(scene.Point{X: it.At.X - back*cos + down*sin, Y: it.At.Y - back*sin - down*cos}), micro(it.Size*0.7), escaped(it.Text), it.Turn)
}
