package svg

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
)

// shares says of which side of the drawing around it an attribute may be a percentage (SVG 1.1, section
// 7.10): its width, its height, or for a radius its diagonal divided by √2.
var shares = map[string]byte{
	"x": 'w', "width": 'w', "cx": 'w', "rx": 'w', "x1": 'w', "x2": 'w',
	"y": 'h', "height": 'h', "cy": 'h', "ry": 'h', "y1": 'h', "y2": 'h', "r": 'd',
}

// resolved is an element with its percentages written as units of the drawing.
func (n *node) resolved(view [2]float64) *node {
	out := n
	for i, a := range n.attrs {
		side, known := shares[a.Name.Local]
		number, percent := strings.CutSuffix(strings.TrimSpace(a.Value), "%")
		if !known || !percent || a.Name.Space != "" {
			continue
		}
		v, err := strconv.ParseFloat(number, 64)
		whole := map[byte]float64{'w': view[0], 'h': view[1], 'd': math.Sqrt((view[0]*view[0] + view[1]*view[1]) / 2)}[side]
		if err != nil || !(whole > 0) {
			continue // what cannot be resolved is told where it is needed
		}
		if out == n {
			c := *n
			c.attrs = append([]xml.Attr(nil), n.attrs...)
			out = &c
		}
		out.attrs[i].Value = strconv.FormatFloat(v/100*whole, 'g', -1, 64)
	}
	return out
}

// viewOf is the width and height of what an element draws in, in its own units; those around it where it
// does not say.
func viewOf(n *node, around [2]float64) [2]float64 {
	if box, ok := viewBox(n.attr("viewBox")); ok {
		return [2]float64{box[2], box[3]}
	}
	for i, name := range []string{"width", "height"} {
		if v, err := userUnits(n.attr(name)); err == nil && v > 0 {
			around[i] = v
		}
	}
	return around
}

// orWhole is a width or height that a nested drawing need not give: all of what is around it.
func orWhole(text string, whole float64) string {
	if text == "" || text == "auto" {
		return strconv.FormatFloat(whole, 'g', -1, 64)
	}
	return text
}
