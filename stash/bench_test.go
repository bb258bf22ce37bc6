package stash_test

import (
	"errors"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// TestReadingsAreAveraged: 80 → 116 → 84 mm are 45 %, growth 5 %, recovery 88.89 %; 80 → 112
// → 82 mm 40 %, 2.5 %, 93.75 %: their means are 42.5 %, 3.75 % and 91.32 %. A later day
// stands for itself, and the other grain and the shrinkage stay.
func TestReadingsAreAveraged(t *testing.T) {
	t.Parallel()
	mm := measure.Millimetre
	f := stash.Fabric{}
	f.Crosswise.Shrinkage = stash.Measured(-300)
	f.Lengthwise.Stretch = stash.Measured(2000)
	read := func(day stash.Date, l0, ls, lr measure.Length) stash.BenchReading {
		return stash.BenchReading{Date: day, Crosswise: true, StretchTest: stash.StretchTest{Before: l0 * mm, Stretched: ls * mm, After: lr * mm}}
	}
	f, err := f.WithReadings(read("2026-05-04", 80, 116, 84))
	if err != nil || f.Crosswise.Stretch != stash.Measured(4500) {
		t.Fatalf("%+v, %v", f.Crosswise, err)
	}
	if f, err = f.WithReadings(read("2026-05-04", 80, 112, 82)); err != nil {
		t.Fatal(err)
	}
	c := f.Crosswise
	if c.Stretch != stash.Measured(4250) || c.Growth != stash.Measured(375) || c.Recovery != stash.Measured(9132) || c.Shrinkage != stash.Measured(-300) {
		t.Errorf("two readings: %+v", c)
	}
	if f.Lengthwise.Stretch != stash.Measured(2000) || f.Lengthwise.Growth.Known {
		t.Errorf("the other grain: %+v", f.Lengthwise)
	}
	later, err := f.WithReadings(read("2026-06-01", 100, 150, 105))
	if err != nil || later.Crosswise.Stretch != stash.Measured(5000) || len(later.LatestReadings(true)) != 1 || len(later.Bench) != 3 {
		t.Errorf("a later day: %+v, %v", later.Crosswise, err)
	}
	if len(f.Bench) != 2 || len(f.LatestReadings(true)) != 2 || len(f.LatestReadings(false)) != 0 {
		t.Errorf("kept %+v", f.Bench)
	}
	earlier, err := later.WithReadings(read("2026-01-01", 100, 110, 100))
	if err != nil || earlier.Crosswise.Stretch != stash.Measured(5000) || earlier.Bench[0].Date != "2026-01-01" {
		t.Errorf("an earlier day: %+v, %v", earlier.Crosswise, err)
	}
	if _, err := f.WithReadings(read("2026-07-01", 100, 90, 100)); !errors.Is(err, stash.ErrInvalid) {
		t.Errorf("shorter when stretched: %v", err)
	}
}
