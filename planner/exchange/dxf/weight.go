package dxf

import (
	"math"

	"tallycloth/planner/scene"
)

// Weight says how wide lines of a style are drawn whose scene has a thin line of so many mm; 0 for a style
// without lines.
type Weight func(style scene.Style, hair float64) float64

// lineWeights are the widths that group code 370 may name, in hundredths of a millimetre (DXF reference,
// common group codes).
var lineWeights = []int{0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211}

// usualWeight is the number of group code 370 for whatever the reader takes.
const usualWeight = -3

// lineWeight is the width that comes nearest to one in mm.
func lineWeight(mm float64) int {
	if mm <= 0 {
		return usualWeight
	}
	best := lineWeights[0]
	for _, w := range lineWeights {
		if math.Abs(float64(w)-mm*100) < math.Abs(float64(best)-mm*100) {
			best = w
		}
	}
	return best
}
