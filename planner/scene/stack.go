package scene

// Stack puts drawings under each other, the first on top, so many mm apart and their left
// edges in line. Drawings without size are left out.
func Stack(gap float64, all ...Scene) Scene {
	var out Scene
	y := 0.0
	for _, s := range all {
		b := s.Bounds
		if b.Width() <= 0 || b.Height() <= 0 {
			continue
		}
		out.Hair = max(out.Hair, s.Hair)
		d := Point{-b.Min.X, y - b.Max.Y}
		for _, it := range s.Items {
			out.Items = append(out.Items, it.moved(d))
		}
		y -= b.Height() + gap
		out.Bounds.Max.X = max(out.Bounds.Max.X, b.Width())
		out.Bounds.Min.Y = y + gap
	}
	return out
}

// moved is an item somewhere else.
func (it Item) moved(d Point) Item {
	it.At = Point{it.At.X + d.X, it.At.Y + d.Y}
	lines := it.Lines
	it.Lines = nil
	for _, l := range lines {
		m := Line{Closed: l.Closed, Points: make([]Point, len(l.Points))}
		for i, p := range l.Points {
			m.Points[i] = Point{p.X + d.X, p.Y + d.Y}
		}
		it.Lines = append(it.Lines, m)
	}
	return it
}
