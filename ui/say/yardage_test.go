package say

import (
	"reflect"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// What takes the same in one direction stands in the table once; rows of other sizes do not.
func TestYardageRows(t *testing.T) {
	const cm = measure.Centimetre
	p := pattern.Pattern{Yards: []pattern.YardageRow{
		{Role: "main", Width: 115 * cm, Length: 80 * cm},
		{Role: "main", Width: 115 * cm, Length: 80 * cm, WithNap: true},
		{Role: "main", Width: 150 * cm, Length: 60 * cm, Sizes: []string{"M"}},
		{Role: "main", Width: 150 * cm, Length: 70 * cm, WithNap: true, Sizes: []string{"M", "L"}},
	}}
	want := [][]string{{"Used for", "At width", "", "Length"}, {"main", "115 cm", "", "80 cm"}, {"main", "150 cm", "either way", "60 cm"}, {"main", "150 cm", "one direction", "70 cm"}}
	if got := (Voice{}).YardageRows(p, "M"); !reflect.DeepEqual(got, want) {
		t.Errorf("%q", got)
	}
	if got := (Voice{}).YardageRows(p, "S"); len(got) != 2 {
		t.Errorf("size S: %q", got)
	}
}
