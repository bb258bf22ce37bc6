package garment_test

import (
	"errors"
	"testing"

	"tallycloth/planner/garment"
	"tallycloth/stash"
)

func TestLifeOfAGarment(t *testing.T) {
	s := garment.Wanted
	for _, want := range []garment.State{garment.Reserved, garment.Cut, garment.Sewing, garment.Fitted, garment.Finished} {
		if s.Next() != want || s.CanBecome(want) != nil || !s.Open() {
			t.Errorf("after %s comes %s: %v", s, s.Next(), s.CanBecome(want))
		}
		s = want
	}
	if s.Next() != "" || s.Open() || s.Step() != 5 {
		t.Errorf("after finished comes %q", s.Next())
	}
}

func TestCanBecome(t *testing.T) {
	for _, c := range []struct {
		from, to garment.State
		ok       bool
	}{
		{garment.Reserved, garment.Wanted, true},
		{garment.Cut, garment.Wanted, false}, // cut cloth does not grow together
		{garment.Wanted, garment.Cut, false},
		{garment.Sewing, garment.Finished, true},
		{garment.Cut, garment.Finished, false},
		{garment.Cut, garment.GivenUp, true},
		{garment.Finished, garment.GivenUp, false},
		{garment.GivenUp, garment.Wanted, true},
		{garment.GivenUp, garment.Sewing, false},
		{garment.Fitted, garment.Sewing, true},
		{garment.Wanted, "mended", false},
		{garment.Wanted, "", false},
		{garment.Sewing, garment.Sewing, true},
	} {
		err := c.from.CanBecome(c.to)
		if (err == nil) != c.ok {
			t.Errorf("%s to %s: %v", c.from, c.to, err)
		}
		var e *stash.Error
		if err != nil && (!errors.As(err, &e) || e.Do == "") {
			t.Errorf("%s to %s: %v does not say what to do", c.from, c.to, err)
		}
	}
	if len(garment.States()) != 7 || garment.State("").Known() || garment.GivenUp.Step() != -1 {
		t.Error("the states are not complete")
	}
}
