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

func TestMovePage(t *testing.T) {
	rows := [][]int{{1, 2, 3}, {4, 5}}
	for name, c := range map[string]struct {
		page, row, place int
		want             [][]int
	}{
		"swapped":     {1, 1, 1, [][]int{{5, 2, 3}, {4, 1, 0}}},
		"to the end":  {5, 1, 2, [][]int{{1, 2, 3}, {4, 0, 5}}},
		"before":      {2, 0, -1, [][]int{{2, 1, 0, 3}, {0, 4, 5, 0}}},
		"above":       {4, -1, 0, [][]int{{4, 0, 0}, {1, 2, 3}, {0, 5, 0}}},
		"its own":     {3, 0, 2, [][]int{{1, 2, 3}, {4, 5, 0}}},
		"not there":   {9, 0, 0, rows},
		"far too far": {1, -2, 0, rows},
	} {
		if got := drawn.MovePage(rows, c.page, c.row, c.place); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) { // no page is lost, and it is where it was put
		n := rapid.IntRange(1, 12).Draw(t, "pages")
		rows := drawn.Columns(1, n, rapid.IntRange(1, 4).Draw(t, "columns"))
		page, row, place := rapid.IntRange(1, n).Draw(t, "page"), rapid.IntRange(-1, 6).Draw(t, "row"), rapid.IntRange(-1, 6).Draw(t, "place")
		got := drawn.MovePage(rows, page, row, place)
		count := 0
		for k := 1; k <= n; k++ {
			if _, _, ok := drawn.PlaceOf(got, k); ok {
				count++
			}
		}
		if count != n {
			t.Fatalf("%v", got)
		}
	})
}
