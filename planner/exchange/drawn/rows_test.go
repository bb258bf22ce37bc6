package drawn_test

import (
	"reflect"
	"testing"

	"tallycloth/planner/exchange/drawn"

	"pgregory.net/rapid"
)

// TestRows: what is written of rows of pages is read back the same.
func TestRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.IntRange(0, 300), 1, 6), 1, 6).Draw(t, "rows")
		if got, err := drawn.ParseRows(drawn.FormatRows(rows)); err != nil || !reflect.DeepEqual(got, rows) {
			t.Fatalf("%v, %v", got, err)
		}
	})
	for text, want := range map[string][][]int{"1,2/3,-": {{1, 2}, {3, 0}}, " 4 5\n6 ": {{4, 5}, {6}}, "1 2 two": nil, "": nil, " / ": nil, "0": nil, "-3": nil} {
		if got, err := drawn.ParseRows(text); (err != nil) != (want == nil) || !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	if got := drawn.Columns(2, 6, 3); !reflect.DeepEqual(got, [][]int{{2, 3, 4}, {5, 6}}) {
		t.Errorf("%v", got)
	}
}
