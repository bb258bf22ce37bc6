package sheet

import "tallycloth/planner/scene"

// boxesOf returns the box of each item of a scene.
func boxesOf(s scene.Scene) []scene.Box {
	out := make([]scene.Box, len(s.Items))
	for i, it := range s.Items {
		out[i] = it.Box()
	}
	return out
}

// within returns what of a scene may show in a box, whole items but for runs of open lines: a
// sheet of a large drawing then holds little more than what is seen on it.
func within(s scene.Scene, boxes []scene.Box, box scene.Box) scene.Scene {
	edge := 10 * s.Hair // lines are as wide as this at most
	box = scene.Box{Min: scene.Point{X: box.Min.X - edge, Y: box.Min.Y - edge}, Max: scene.Point{X: box.Max.X + edge, Y: box.Max.Y + edge}}
	out := s
	out.Items = nil
	for i, it := range s.Items {
		if !boxes[i].Meets(box) {
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
		if l.Closed || l.Box().Meets(box) {
			out = append(out, l)
		}
	}
	return out
}
