package match

import (
	"tallycloth/stash/measure"
)

// inch in µm, exact (NIST SP 811).
const inch = 25400

// yard in µm, exact (NIST SP 811).
const yard = 36 * inch

// chartWidths are the columns of the width conversion chart in inches; a column
// printed as a range stands at its middle.
var chartWidths = [...]float64{32, 35.5, 39, 41, 44.5, 50, 53, 59, 66}

// chart is the fabric width conversion chart of the Cooperative Extension Service
// of New Jersey (Rutgers University; the credit line is from memory), in yards:
// each row is one amount of fabric at every width. Columns 35–36 in to 66 in
// agree in three reprints cell for cell; the column of 32 in is from memory but
// for the row of 2 yd at 60 in.
var chart = [12][len(chartWidths)]float64{
	{1.875, 1.75, 1.5, 1.5, 1.375, 1.25, 1.125, 1, 0.875},
	{2.25, 2, 1.75, 1.75, 1.625, 1.5, 1.375, 1.25, 1.125},
	{2.5, 2.25, 2, 2, 1.75, 1.625, 1.5, 1.375, 1.25},
	{2.75, 2.5, 2.25, 2.25, 2.125, 1.75, 1.75, 1.625, 1.5},
	{3.125, 2.875, 2.5, 2.5, 2.25, 2, 1.875, 1.75, 1.625},
	{3.375, 3.125, 2.75, 2.75, 2.5, 2.25, 2, 1.875, 1.75},
	{3.75, 3.375, 3, 2.875, 2.75, 2.375, 2.25, 2, 1.875},
	{4, 3.75, 3.25, 3.125, 2.875, 2.625, 2.375, 2.25, 2.125},
	{4.375, 4.25, 3.5, 3.375, 3.125, 2.75, 2.625, 2.375, 2.25},
	{4.625, 4.5, 3.75, 3.625, 3.375, 3, 2.75, 2.625, 2.5},
	{5, 4.75, 4, 3.875, 3.625, 3.25, 2.875, 2.75, 2.625},
	{5.25, 5, 4.25, 4.125, 3.875, 3.375, 3.125, 2.875, 2.75},
}

// byChart converts a length at one full width to another by the chart, straight
// between its cells. Lengths beyond its rows go on in proportion; false when a
// width lies outside its columns.
func byChart(length, from, to measure.Length) (measure.Length, bool) {
	a, ok := column(from)
	b, ok2 := column(to)
	if !ok || !ok2 {
		return 0, false
	}
	yards := float64(length) / yard
	last := len(chart) - 1
	if yards <= a.at(0) {
		return measure.Length(yards / a.at(0) * b.at(0) * yard), true
	}
	for i := 1; i <= last; i++ {
		if lo, hi := a.at(i-1), a.at(i); yards <= hi {
			k := (yards - lo) / (hi - lo)
			return measure.Length((b.at(i-1) + k*(b.at(i)-b.at(i-1))) * yard), true
		}
	}
	return measure.Length(yards / a.at(last) * b.at(last) * yard), true
}

// between is a place between two columns of the chart.
type between struct {
	low   int
	share float64
}

func (c between) at(row int) float64 {
	v := chart[row][c.low]
	if c.share > 0 {
		v += c.share * (chart[row][c.low+1] - v)
	}
	return v
}

// column finds where a full width lies among the columns. Half an inch beyond the
// outer ones still counts as theirs.
func column(width measure.Length) (between, bool) {
	w := float64(width) / inch
	last := len(chartWidths) - 1
	if w < chartWidths[0]-0.5 || w > chartWidths[last]+0.5 {
		return between{}, false
	}
	w = min(max(w, chartWidths[0]), chartWidths[last])
	for i := 1; i <= last; i++ {
		if w < chartWidths[i] {
			return between{i - 1, (w - chartWidths[i-1]) / (chartWidths[i] - chartWidths[i-1])}, true
		}
	}
	return between{last, 0}, true
}
