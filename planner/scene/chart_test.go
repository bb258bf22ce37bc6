package scene

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// Every bar is as high as its value on the scale of its panel, what came in stands above
// the line, what went out below it, and no names of spans meet.
func TestChart(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := Chart{Unit: "m", Balance: rapid.Bool().Draw(rt, "balance")}
		for i := range rapid.IntRange(1, 60).Draw(rt, "spans") {
			c.Bars = append(c.Bars, Bar{Name: fmt.Sprintf("Jan 20%02d", i), In: rapid.Float64Range(0, 400).Draw(rt, "in"),
				Out: rapid.Float64Range(0, 90).Draw(rt, "out"), There: rapid.Float64Range(-5, 4000).Draw(rt, "there")})
		}
		s := c.Scene()
		ratio := 0.0
		var names []Box
		for _, it := range s.Items {
			b := Box{Point{1e9, 1e9}, Point{-1e9, -1e9}}
			for _, p := range it.corners() {
				b.Min, b.Max = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}, Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
			}
			if b.Min.X < s.Bounds.Min.X || b.Max.X > s.Bounds.Max.X || b.Min.Y < s.Bounds.Min.Y || b.Max.Y > s.Bounds.Max.Y {
				rt.Fatalf("%+v lies outside", it)
			}
			if it.Text != "" && it.Align == Middle {
				for _, o := range names {
					if b.Min.X < o.Max.X && o.Min.X < b.Max.X && b.Min.Y < o.Max.Y && o.Min.Y < b.Max.Y {
						rt.Fatalf("%q meets another name", it.Text)
					}
				}
				names = append(names, b)
			}
			if it.Style != Came && it.Style != Went {
				continue
			}
			var of Bar
			for _, x := range c.Bars {
				if x.Name == it.ID {
					of = x
				}
			}
			rise := it.Lines[0].Points[2].Y - it.Lines[0].Points[0].Y
			value := of.In
			if it.Style == Went {
				value = -of.Out
			}
			if rise*value < 0 {
				rt.Fatalf("%s of %v rises %v", it.Style, value, rise)
			}
			if value < -1 || value > 1 {
				if ratio == 0 {
					ratio = rise / value
				}
				if d := rise/value - ratio; d > 1e-9 || d < -1e-9 {
					rt.Fatalf("%v rises %v, others by %v for each", value, rise, ratio)
				}
			}
		}
	})
	if s := (Chart{}).Scene(); len(s.Items) > 0 || s.Bounds.Width() != 0 {
		t.Error("a chart of nothing is drawn")
	}
}

func TestScaleStep(t *testing.T) {
	for most, want := range map[float64]float64{0: 1, 4: 1, 4.1: 2, 8: 2, 20: 5, 21: 10, 0.3: 0.1, 3900: 1000} {
		if got := scaleStep(most); got != want {
			t.Errorf("up to %v in steps of %v, want %v", most, got, want)
		}
	}
}
