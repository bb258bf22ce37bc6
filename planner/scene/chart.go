package scene

import (
	"math"
	"strconv"
	"strings"
)

// Bar is one span of a Chart, all in the chart's unit.
type Bar struct {
	Name    string
	In, Out float64 // 0 or more
	There   float64 // at the end of the span
}

// Chart shows spans of time: what came in stands above a line, what went out hangs below it; where
// Balance says so, what was there at the end of each is in a panel of its own underneath.
type Chart struct {
	Unit    string // "m"
	Bars    []Bar
	Balance bool
}

// Sizes of a chart in mm: it is made for the width of a sheet.
const (
	chartWidth  = 186.0
	chartLeft   = 17.0 // for the figures of the scale
	upperHeight = 44.0
	lowerHeight = 24.0
	chartText   = 4.4 // line height of its words
)

// Scene draws the chart, empty without bars.
func (c Chart) Scene() Scene {
	var s Scene
	if len(c.Bars) == 0 {
		return s
	}
	in, out, there, least := 0.0, 0.0, 0.0, 0.0
	for _, b := range c.Bars {
		in, out = max(in, b.In), max(out, b.Out)
		there, least = max(there, b.There), min(least, b.There)
	}
	upper := panel{top: 0, height: upperHeight, low: -out, high: in}
	upper.title = "In above the line, out below it, " + c.Unit
	foot := c.draw(&s, upper, func(b Bar) []bar { return []bar{{Came, b.In}, {Went, -b.Out}} })
	if c.Balance {
		lower := panel{top: foot - chartText, height: lowerHeight, low: least, high: there, title: "There at the end of each, " + c.Unit}
		c.draw(&s, lower, func(b Bar) []bar { return []bar{{There, b.There}} })
	}
	s.frame()
	s.Hair = 0.25
	return s
}

// bar is one bar of a span, from zero.
type bar struct {
	style Style
	value float64
}

// panel is one part of a chart with a scale of its own.
type panel struct {
	title     string
	top       float64
	height    float64
	low, high float64 // what its scale must hold
}

// at is where a value stands.
func (p panel) at(v float64) float64 {
	return p.top - chartText*1.6 - (p.high-v)/(p.high-p.low)*p.height
}

// draw draws a panel with its scale, bars and the names of spans, and returns its foot.
func (c Chart) draw(s *Scene, p panel, bars func(Bar) []bar) float64 {
	step := scaleStep(max(p.high, -p.low))
	p.high, p.low = step*math.Ceil(p.high/step), step*math.Floor(p.low/step)
	if p.high == p.low {
		p.high = p.low + step
	}
	s.write(Label, p.title, Point{0, p.top - chartText/2}, chartText, Start)
	for k := math.Round(p.low / step); k <= math.Round(p.high/step); k++ {
		y, style := p.at(k*step), Scale
		if k == 0 {
			style = Axis
		}
		s.add(style, "", stroke(Point{chartLeft, y}, Point{chartWidth, y}))
		s.write(Dimension, scaleWords(math.Abs(k*step)), Point{chartLeft - 1.5, y}, chartText, End)
	}
	each := (chartWidth - chartLeft) / float64(len(c.Bars))
	for i, b := range c.Bars {
		x := chartLeft + (float64(i)+0.5)*each
		half := min(each*0.36, 9)
		for _, part := range bars(b) {
			if part.value == 0 {
				continue
			}
			y0, y1 := p.at(0), p.at(part.value)
			box := Line{Points: []Point{{x - half, y0}, {x + half, y0}, {x + half, y1}, {x - half, y1}}, Closed: true}
			s.add(part.style, b.Name, box)
		}
	}
	foot := p.at(p.low) - chartText*1.2
	for i := 0; i < len(c.Bars); i += c.everyName(each) {
		s.write(Dimension, c.Bars[i].Name, Point{chartLeft + (float64(i)+0.5)*each, foot}, chartText, Middle)
	}
	return foot - chartText
}

// everyName says of how many spans one is named so that names stand apart.
func (c Chart) everyName(each float64) int {
	widest := 0.0
	for _, b := range c.Bars {
		widest = max(widest, TextWidth(b.Name)*chartText)
	}
	return max(1, int(math.Ceil((widest+1)/each)))
}

// scaleStep is 1, 2 or 5 times a power of ten, so that up to four of them reach a value.
func scaleStep(most float64) float64 {
	if most <= 0 {
		return 1
	}
	ten := math.Pow(10, math.Floor(math.Log10(most/4)))
	for _, f := range []float64{1, 2, 5} {
		if most <= 4*f*ten*(1+1e-9) {
			return f * ten
		}
	}
	return 10 * ten
}

func scaleWords(v float64) string {
	text := strconv.FormatFloat(v, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}
