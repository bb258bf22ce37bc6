package drawntest

import (
	"fmt"
	"math"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// Large is a pattern of 60 pieces in 12 sizes, each outline of 200 points.
func Large() pattern.Pattern {
	p := pattern.Pattern{Name: "Large", Roles: []pattern.Role{{Name: pattern.Main}}}
	for z := range 12 {
		p.Sizes = append(p.Sizes, pattern.Size{Name: fmt.Sprint(2 * (z + 1))})
	}
	for i := range 60 {
		q := pattern.Piece{Code: pattern.Letters(i), Name: fmt.Sprint("Piece ", i+1), Role: pattern.Main, Cut: 1, Outlines: map[string]pattern.Outline{}}
		for z, size := range p.Sizes {
			o := pattern.Outline{GrainTop: shape.Point{X: -90_000}, GrainFoot: shape.Point{X: 90_000}}
			for k := range 200 {
				s, c := math.Sincos(2 * math.Pi * float64(k) / 200)
				r := 150_000 + 3000*float64(i+z) + 20_000*math.Sin(5*2*math.Pi*float64(k)/200)
				o.Cut = append(o.Cut, shape.Point{X: int64(r * c), Y: int64(r * s)})
			}
			for k := 0; k < 200; k += 50 {
				o.Notches = append(o.Notches, pattern.Notch{At: o.Cut[k], Kind: "single"})
			}
			o.Inner = [][]shape.Point{{{X: 0, Y: 5}, {X: 50_000, Y: 5}}}
			q.Outlines[size.Name] = o
		}
		p.Pieces = append(p.Pieces, q)
	}
	return p
}
