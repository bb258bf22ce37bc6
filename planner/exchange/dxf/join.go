package dxf

import "tallycloth/planner/exchange/drawn"

// join joins open runs of one layer whose ends meet, where no third one does; see drawn.Join.
func join(marks []mark) (out []mark, forks int) {
	runs := make([]drawn.Run, len(marks))
	for i, m := range marks {
		runs[i] = drawn.Run{Points: make([]drawn.Place, len(m.points)), Closed: m.closed, Key: m.layer, Tag: i}
		for k, p := range m.points {
			runs[i].Points[k] = drawn.Place(p)
		}
	}
	runs, forks = drawn.Join(runs, drawn.Near)
	for _, r := range runs {
		m := marks[r.Tag]
		m.closed, m.points = r.Closed, make([]Vec, len(r.Points))
		for k, p := range r.Points {
			m.points[k] = Vec(p)
		}
		out = append(out, m)
	}
	return out, forks
}

func micro(v float64) int64 { return drawn.Micro(v) }
