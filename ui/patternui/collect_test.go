package patternui

import (
	"slices"
	"testing"
)

// Reports that come while a showing waits go into the next one, in order, and none is lost.
func TestReportsAreCollected(t *testing.T) {
	var waiting []func()
	var seen [][]int
	report := batched(func(f func()) { waiting = append(waiting, f) }, func(some []int) { seen = append(seen, some) })
	for i := range 5 {
		report(i)
	}
	if len(waiting) != 1 {
		t.Fatalf("%d showings asked for", len(waiting))
	}
	waiting[0]()
	report(5)
	if len(waiting) != 2 {
		t.Fatalf("%d showings asked for", len(waiting))
	}
	waiting[1]()
	if !slices.Equal(slices.Concat(seen...), []int{0, 1, 2, 3, 4, 5}) {
		t.Errorf("seen %v", seen)
	}
}
