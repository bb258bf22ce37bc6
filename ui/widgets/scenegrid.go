package widgets

import (
	"math"

	"tallycloth/planner/scene"
)

// gridWords says which of a grid's figures are written: along each side every one, or every second or
// third of them, evenly, so that none lies against the next.
type gridWords struct{ every, seen map[scene.Align]int }

// gridFigures measures how close a grid's figures would stand. Those of one side are aligned alike and
// come in order.
func gridFigures(items []scene.Item, m sceneMap) gridWords {
	f := gridWords{every: map[scene.Align]int{}, seen: map[scene.Align]int{}}
	wide := map[scene.Align]float64{}
	apart := map[scene.Align]float64{}
	last := map[scene.Align]scene.Item{}
	for _, it := range items {
		if it.Style != scene.Grid || it.Text == "" {
			continue
		}
		w, h := extent(it, m)
		if before, ok := last[it.Align]; ok {
			x, y := m.at(it.At)
			u, v := m.at(before.At)
			dx, dy := math.Abs(float64(x-u)), math.Abs(float64(y-v))
			if dx < dy {
				w = h // they stand above each other
			}
			apart[it.Align] = max(dx, dy)
			wide[it.Align] = max(wide[it.Align], w)
		}
		last[it.Align] = it
	}
	for side, w := range wide {
		f.every[side] = max(1, int(math.Ceil(1.2*w/apart[side])))
	}
	return f
}

// next says whether the next figure of a side is written.
func (f gridWords) next(it scene.Item) bool {
	f.seen[it.Align]++
	every := f.every[it.Align]
	return every < 2 || f.seen[it.Align]%every == 0
}
