package sizing

import (
	"math"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Table is a published table of body measurements.
type Table struct {
	Name   string // as its publisher calls it
	Note   string // what it is and how well it is known
	Rows   []TableRow
	Memory bool // figures from memory, to be compared with the standard before they are relied on
}

// TableRow is a size of a table.
type TableRow struct {
	Size string
	Body map[string]measure.Length
}

// Body measurements besides the usual levels of a pattern.
const (
	Underbust = "underbust"
	BackWaist = "back waist"
	Height    = "height"
	InsideLeg = "inside leg"
	UpperArm  = "upper arm"
)

// Tables lists the tables that a person can start from.
func Tables() []Table {
	return []Table{
		{Name: "ASTM D5585-11e1, misses, curvy", Note: "Adult female misses figure type, table 1, inches. The hip is not in the part that was read.",
			Rows: rowsOf(measure.Inch, []string{pattern.Bust, pattern.HighBust, Underbust, pattern.Waist}, astm, false)},
		{Name: "ASTM D5585-11e1, misses, straight", Note: "The same with the waist of the straight figure.",
			Rows: rowsOf(measure.Inch, []string{pattern.Bust, pattern.HighBust, Underbust, pattern.Waist}, astm, true)},
		{Name: "US pattern industry, misses (1967/68)", Note: "Standard body measurements of the commercial pattern industry, inches; sizes 22 and 24 from one source only.",
			Rows: rowsOf(measure.Inch, []string{pattern.Bust, pattern.HighBust, pattern.Waist, pattern.Hip, BackWaist}, industry, false)},
		{Name: "EN 13402-3, women (not checked)", Note: "Letter codes with the middle of each class, centimetres. The bust classes are those printed; waist and hip were not compared with the standard.",
			Rows: rowsOf(measure.Centimetre, []string{pattern.Bust, pattern.Waist, pattern.Hip}, en13402, false), Memory: true},
		{Name: "ASTM D5585-95, misses (not checked)", Note: "Withdrawn. Not compared with the standard.",
			Rows: rowsOf(measure.Inch, []string{pattern.Bust, pattern.Waist, pattern.Hip}, astm95, false), Memory: true},
	}
}

type figures struct {
	size string
	in   []float64
}

// rowsOf makes rows of figures in a unit; where the last figure of a row is another waist,
// that one can be asked for.
func rowsOf(unit measure.Unit, names []string, all []figures, lastWaist bool) []TableRow {
	var out []TableRow
	for _, f := range all {
		r := TableRow{f.size, map[string]measure.Length{}}
		for i, n := range names {
			r.Body[n] = of(f.in[i], unit)
		}
		if lastWaist {
			r.Body[pattern.Waist] = of(f.in[len(f.in)-1], unit)
		}
		out = append(out, r)
	}
	return out
}

func of(v float64, unit measure.Unit) measure.Length {
	return measure.Length(math.Round(v * float64(unit)))
}

// astm: bust, upper chest, underbust, waist (curvy), waist (straight).
var astm = []figures{
	{"00", []float64{31.125, 31.75, 25.75, 23.875, 25.375}},
	{"0", []float64{31.75, 32.25, 26.5, 24.625, 26.125}},
	{"2", []float64{33, 33.25, 27.25, 25.375, 26.875}},
	{"4", []float64{34.125, 34.125, 28, 26.125, 27.625}},
	{"6", []float64{35.25, 35, 29, 27, 28.5}},
	{"8", []float64{36.25, 35.875, 30, 28, 29.5}},
	{"10", []float64{37.25, 36.75, 31, 29, 30.5}},
	{"12", []float64{38.75, 38, 32.5, 30.75, 32.25}},
	{"14", []float64{40.375, 39.25, 34, 32.5, 34}},
	{"16", []float64{42.125, 40.625, 35.75, 34.5, 36}},
	{"18", []float64{44, 42.25, 37.375, 36.75, 38.25}},
	{"20", []float64{46, 43.875, 39.625, 39, 40.5}},
}

// industry: bust, high bust (2 in less in every size), waist, hip, back waist.
var industry = []figures{
	{"6", []float64{30.5, 28.5, 23, 32.5, 15.5}},
	{"8", []float64{31.5, 29.5, 24, 33.5, 15.75}},
	{"10", []float64{32.5, 30.5, 25, 34.5, 16}},
	{"12", []float64{34, 32, 26.5, 36, 16.25}},
	{"14", []float64{36, 34, 28, 38, 16.5}},
	{"16", []float64{38, 36, 30, 40, 16.75}},
	{"18", []float64{40, 38, 32, 42, 17}},
	{"20", []float64{42, 40, 34, 44, 17.25}},
	{"22", []float64{44, 42, 37, 46, 17.5}},
	{"24", []float64{46, 44, 39, 48, 17.75}},
}

// en13402: bust, waist, hip; a class is called by its letters and the middle of its bust.
var en13402 = []figures{
	{"XS 76", []float64{76, 60, 84}},
	{"XS 80", []float64{80, 64, 88}},
	{"S 84", []float64{84, 68, 92}},
	{"S 88", []float64{88, 72, 96}},
	{"M 92", []float64{92, 76, 100}},
	{"M 96", []float64{96, 80, 104}},
	{"L 100", []float64{100, 84, 108}},
	{"L 104", []float64{104, 88, 112}},
	{"XL 110", []float64{110, 94, 117}},
	{"XXL 116", []float64{116, 100, 122}},
	{"XXL 122", []float64{122, 106, 127}},
	{"3XL 128", []float64{128, 112, 132}},
}

// astm95: bust, waist, hip.
var astm95 = []figures{
	{"2", []float64{32, 24, 34.5}},
	{"4", []float64{33, 25, 35.5}},
	{"6", []float64{34, 26, 36.5}},
	{"8", []float64{35, 27, 37.5}},
	{"10", []float64{36, 28, 38.5}},
	{"12", []float64{37.5, 29.5, 40}},
	{"14", []float64{39, 31, 41.5}},
	{"16", []float64{40.5, 32.5, 43}},
	{"18", []float64{42.5, 34.5, 45}},
	{"20", []float64{44.5, 36.5, 47}},
}
