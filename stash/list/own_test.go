package list_test

import (
	"testing"

	"tallycloth/stash/list"
	"tallycloth/stash/measure"
	"tallycloth/stash/stashtest"
)

// TestOwnTableInEitherLocale: a table of Write with decimal commas, as a spreadsheet
// program in such a locale saves it, says the same as one with points, also where three
// decimals could be thousands.
func TestOwnTableInEitherLocale(t *testing.T) {
	for _, c := range []struct {
		length, day string
		want        measure.Length
		asks        int
	}{
		{"1.125", "2026-03-02", 1125 * cm / 1000, 0},
		{"1,125", "2026-03-02", 1125 * cm / 1000, 0},
		{"1.125,5", "2026-03-02", 11255 * cm / 10, 0},
		{"90", "3/4/2026", 0, 1}, // saved again with another form of day: the program asks
	} {
		table := list.Write(nil, nil, nil)
		row := make([]list.Cell, len(table.Rows[0]))
		for k, f := range list.Fields()[:len(row)] {
			row[k].Text = map[list.Field]string{list.FabricName: "Moss", list.FullWidth: "150", list.Length: c.length, list.BoughtOn: c.day}[f]
		}
		table.Rows = append(table.Rows, row)
		m, ok := list.OwnMapping(table)
		r, err := list.Plan(table, m, list.Known{}, stashtest.IDs(), today)
		if !ok || err != nil || len(r.Questions) != c.asks || c.want != 0 && (len(r.Cloths) != 1 || r.Cloths[0].Length != c.want) {
			t.Errorf("%+v: %v, %+v, %+v", c, err, r.Questions, r.Rows)
		}
	}
}
