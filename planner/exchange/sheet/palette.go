package sheet

import (
	"image/color"

	"tallycloth/planner/scene"
)

// look is how a style is drawn: widths and dashes in hairs of the scene.
type look struct {
	fill, line color.RGBA
	width      float64
	dash       []float64
}

func rgb(v uint32) color.RGBA {
	return color.RGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

// clear returns a colour seen through, alpha in 255ths, premultiplied.
func clear(c color.RGBA, a uint8) color.RGBA {
	p := func(v uint8) uint8 { return uint8(int(v) * int(a) / 255) }
	return color.RGBA{p(c.R), p(c.G), p(c.B), a}
}

// The inks of paper (ours).
var (
	ink    = rgb(0x2A2521)
	muted  = rgb(0x6B6259)
	accent = rgb(0x1F6B5E)
	alarm  = rgb(0x9B2F23)
)

// looks by style. Colour is never the only signal: dotted is reserved, dashed is free, a
// selvedge has two lines, an overlap is measured in words.
var looks = map[scene.Style]look{
	scene.Cloth:     {fill: rgb(0xF5EFE4)},
	scene.Edge:      {line: muted, width: 2},
	scene.Selvedge:  {line: muted, width: 2},
	scene.Fold:      {line: accent, width: 1.5, dash: []float64{12, 3, 2, 3}},
	scene.Flaw:      {fill: rgb(0xE9CFC6), line: alarm, width: 1.2},
	scene.Reserved:  {line: muted, width: 1.8, dash: []float64{1.8, 4}},
	scene.Piece:     {fill: rgb(0xFFFFFF), line: ink, width: 1.5},
	scene.Grain:     {line: ink, width: 1},
	scene.Notch:     {line: ink, width: 1},
	scene.Grid:      {line: rgb(0xDCD2C3), width: 0.7},
	scene.Free:      {fill: rgb(0xF7FAF8), line: accent, width: 1.2, dash: []float64{8, 4}},
	scene.Overlap:   {fill: clear(alarm, 130), line: alarm, width: 1},
	scene.Dimension: {line: muted, width: 0.8},
	scene.Label:     {line: ink},
	scene.Garment:   {line: muted, width: 9},
	scene.Strip:     {line: accent, width: 6},
	scene.Stitch:    {line: alarm, width: 2, dash: []float64{7, 4}},
	scene.Join:      {line: alarm, width: 2, dash: []float64{4, 2}},
	scene.Axis:      {line: ink, width: 1.2},
	scene.Scale:     {line: rgb(0xDCD2C3), width: 0.7},
	scene.Came:      {fill: rgb(0xBFDCD3), line: accent, width: 1},
	scene.Went:      {fill: rgb(0xF0D2B0), line: rgb(0x85570A), width: 1},
	scene.There:     {fill: rgb(0xE3DBCF), line: muted, width: 1},
}

// words are the colours of texts, where they are not the line's.
var words = map[scene.Style]color.RGBA{scene.Grid: muted, scene.Strip: ink, scene.Garment: ink}

// lookOf returns the look of an item.
func lookOf(it scene.Item) look {
	l := looks[it.Style]
	if it.Tint > 0 {
		m := scene.MarkOf(it.Tint)
		l.fill, l.dash = color.RGBA{m.Paper[0], m.Paper[1], m.Paper[2], 255}, m.Dash
	}
	return l
}

// inkOf returns the colour of an item's words.
func inkOf(it scene.Item) color.RGBA {
	if c, ok := words[it.Style]; ok {
		return c
	}
	return looks[it.Style].line
}

// LineWidth is how wide lines of a style are drawn where a thin line of their scene has hair mm, 0 for a
// style without lines.
func LineWidth(style scene.Style, hair float64) float64 { return looks[style].width * hair }
