package scene

import "math"

// GarmentMark is how the pattern pieces of one garment are told from those of others: by
// the paper they are drawn on and by the line round them, so that colour is never alone.
type GarmentMark struct {
	Paper [3]uint8  // red, green, blue
	Dash  []float64 // drawn and left out in turn, in hairs; nil is a whole line
	Line  string    // the line in words
}

// papers and lines are ours. Their numbers have no common divisor, so that 42 garments differ.
var (
	papers = [][3]uint8{{0xDC, 0xE8, 0xF2}, {0xF3, 0xE3, 0xC3}, {0xE4, 0xDC, 0xEF}, {0xDD, 0xEB, 0xD6}, {0xF4, 0xDA, 0xD6}, {0xD9, 0xEC, 0xEC}, {0xF6, 0xF0, 0xE6}}
	lines  = []GarmentMark{
		{Line: "whole line"}, {Line: "long dashes", Dash: []float64{14, 3}}, {Line: "short dashes", Dash: []float64{6, 3}},
		{Line: "dashes and dots", Dash: []float64{14, 3, 3, 3}}, {Line: "short dashes and dots", Dash: []float64{6, 2, 2, 2}},
		{Line: "very long dashes", Dash: []float64{20, 4}},
	}
)

// MarkOf returns the mark of a tint from 1 on, as Item.Tint counts.
func MarkOf(tint int) GarmentMark {
	k := max(tint, 1) - 1
	m := lines[k%len(lines)]
	m.Paper = papers[k%len(papers)]
	return m
}

// Dashes cuts a run of points into what is drawn of it with a dash: the dash runs on round
// corners. Lengths are in the unit of the points; a dash of nothing returns the run whole.
func Dashes(l Line, dash []float64) []Line {
	points := l.Points
	if l.Closed && len(points) > 0 {
		points = append(points[:len(points):len(points)], points[0])
	}
	whole := 0.0
	for _, d := range dash {
		whole += d
	}
	if whole <= 0 || len(points) < 2 {
		return []Line{{Points: points}}
	}
	var out []Line
	on, k, left := true, 0, dash[0]
	run := []Point{points[0]}
	for i, p := range points[1:] {
		from := points[i]
		for l := math.Hypot(p.X-from.X, p.Y-from.Y); l > left; l = math.Hypot(p.X-from.X, p.Y-from.Y) {
			from = Point{from.X + (p.X-from.X)*left/l, from.Y + (p.Y-from.Y)*left/l}
			if on {
				out = append(out, Line{Points: append(run, from)})
			}
			on, k = !on, (k+1)%len(dash)
			run, left = []Point{from}, dash[k]
		}
		left -= math.Hypot(p.X-from.X, p.Y-from.Y)
		run = append(run, p)
	}
	if on && len(run) > 1 {
		out = append(out, Line{Points: run})
	}
	return out
}
