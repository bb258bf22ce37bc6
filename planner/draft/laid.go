package draft

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// laid are the lengths that the demo patterns take in sizes 1 to 8 of Chart, in
// eighths of a yard, at the widths of the yardage table: true layouts found by
// planner/nest with all heads one way, on usable width, with clearance, then strips
// and raw ends as in yards. A test lays pieces on these lengths again.
var laid = map[string][2][8]int{
	"tank":        {{7, 7, 7, 7, 7, 7, 7, 7}, {6, 6, 6, 6, 7, 7, 7, 7}},
	"sleep shirt": {{9, 9, 10, 10, 10, 11, 12, 13}, {7, 7, 7, 7, 7, 9, 9, 10}},
	"shorts":      {{5, 6, 6, 6, 8, 9, 9, 9}, {5, 5, 5, 5, 5, 5, 5, 6}},
}

// demoYards is the yardage table of a demo pattern. It serves with and without nap.
func demoYards(p pattern.Pattern) []pattern.YardageRow {
	return table(p, widths, func(column, size int) measure.Length {
		return measure.Length(laid[p.Kind][column][size]) * eighth
	})
}

// table makes the rows of a yardage table from the length of every width and size;
// sizes in a row that take the same share a row.
func table(p pattern.Pattern, widths []measure.Length, need func(column, size int) measure.Length) []pattern.YardageRow {
	var out []pattern.YardageRow
	for column, width := range widths {
		for _, nap := range []bool{false, true} {
			from := len(out)
			for k, s := range p.Sizes {
				l := need(column, k)
				if last := len(out) - 1; last >= from && out[last].Length == l {
					out[last].Sizes = append(out[last].Sizes, s.Name)
					continue
				}
				out = append(out, pattern.YardageRow{Role: pattern.Main, Sizes: []string{s.Name}, Width: width, WithNap: nap, Length: l})
			}
		}
	}
	return out
}
