package sheet

import (
	"math"

	"tallycloth/planner/scene"
)

// boxesOf returns the box of each item of a scene, words as wide as they are at most.
func boxesOf(s scene.Scene) []scene.Box {
	out := make([]scene.Box, len(s.Items))
	for i, it := range s.Items {
		if it.Text != "" {
			r := it.Size * max(1, scene.TextWidth(it.Text))
			out[i] = scene.Box{Min: scene.Point{X: it.At.X - r, Y: it.At.Y - r}, Max: scene.Point{X: it.At.X + r, Y: it.At.Y + r}}
			continue
		}
		out[i] = boxOf(it.Lines)
	}
	return out
}

func boxOf(lines []scene.Line) scene.Box {
	b := scene.Box{Min: scene.Point{X: math.Inf(1), Y: math.Inf(1)}, Max: scene.Point{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, l := range lines {
		for _, p := range l.Points {
			b.Min = scene.Point{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y)}
			b.Max = scene.Point{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y)}
		}
	}
	return b
}

func meets(a, b scene.Box) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}

// within returns what of a scene may show in a box, whole items but for runs of open lines: a
// sheet of a large drawing then holds little more than what is seen on it.
func (p *Printer) within(s scene.Scene, boxes []scene.Box, box scene.Box) scene.Scene {
	edge := 10 * s.Hair // lines are as wide as this at most
	box = scene.Box{Min: scene.Point{X: box.Min.X - edge, Y: box.Min.Y - edge}, Max: scene.Point{X: box.Max.X + edge, Y: box.Max.Y + edge}}
	out := s
	out.Items = nil
	for i, it := range s.Items {
		if !meets(boxes[i], box) {
			continue
		}
		if it.Text == "" {
			if it.Lines = linesWithin(it.Lines, box); len(it.Lines) == 0 {
				continue
			}
		}
		out.Items = append(out.Items, it)
	}
	return out
}

func linesWithin(lines []scene.Line, box scene.Box) []scene.Line {
	var out []scene.Line
	for _, l := range lines {
		if l.Closed || meets(boxOf([]scene.Line{l}), box) {
			out = append(out, l)
		}
	}
	return out
}
