package sample

import (
	"context"
	"testing"
)

// The sample has what the screens are to show: plain lengths, odd leftovers, a
// reservation.
func TestSampleHasSomethingOfEverything(t *testing.T) {
	ctx := context.Background()
	s, err := New(ctx)
	if err != nil {
		t.Fatal(err)
	}
	cloths, err := s.Cloths(ctx)
	if err != nil {
		t.Fatal(err)
	}
	odd, reserved := 0, 0
	for _, c := range cloths {
		if !c.Cloth.Plain() {
			odd++
		}
		reserved += len(c.Reservations)
	}
	if len(cloths) < 15 || odd < 2 || reserved != 1 {
		t.Errorf("%d cloths, %d odd, %d reservations", len(cloths), odd, reserved)
	}
}
