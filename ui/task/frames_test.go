package task

import (
	"context"
	"slices"
	"sync"
	"testing"
	"time"
)

// Values come in order, the newest of those waiting is shown, and none while it pauses.
func TestFramesShowTheNewest(t *testing.T) {
	r := New(func(f func()) { f() })
	defer r.Close()
	shown, next, pausing := make(chan int), make(chan time.Time), make(chan struct{}, 100)
	f := NewFrames(r, func() <-chan time.Time { pausing <- struct{}{}; return next }, func(v int) { shown <- v })
	f.Tell(1)
	if got := <-shown; got != 1 {
		t.Fatalf("%d", got)
	}
	<-pausing
	for v := 2; v <= 1000; v++ {
		f.Tell(v) // never waits, though nobody looks
	}
	select {
	case v := <-shown:
		t.Fatalf("%d was shown in the pause", v)
	default:
	}
	next <- time.Time{}
	if got := <-shown; got != 1000 {
		t.Errorf("the newest is 1000, shown was %d", got)
	}
	<-pausing
	f.Close()
	f.Tell(1001) // nobody is there, nothing waits
}

// Many tell at once; what is shown only ever goes forward, and nothing after the end.
func TestFramesFromManySides(t *testing.T) {
	r := New(func(f func()) { f() })
	defer r.Close()
	now := make(chan time.Time)
	close(now)
	var mu sync.Mutex
	var got []int
	f := NewFrames(r, func() <-chan time.Time { return now }, func(v int) { mu.Lock(); got = append(got, v); mu.Unlock() })
	for v := range 10_000 {
		f.Tell(v)
	}
	f.Close()
	n := len(got)
	if !slices.IsSorted(got) || n > 10_000 {
		t.Errorf("%d shown, out of order", n)
	}
	f.Tell(1)
	if len(got) != n {
		t.Error("shown after the end")
	}
}

// Done inline, each value is shown at once.
func TestFramesInline(t *testing.T) {
	var got []int
	f := NewFrames(Inline(), nil, func(v int) { got = append(got, v) })
	f.Tell(1)
	f.Tell(2)
	f.Close()
	if !slices.Equal(got, []int{1, 2}) {
		t.Errorf("%v", got)
	}
}

// Each counts until its context ends, and never begins where everything is done at once.
func TestEach(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	got := make(chan int)
	New(func(f func()) { f() }).Each(ctx, time.Microsecond, func(n int) {
		select {
		case got <- n:
		case <-ctx.Done():
		}
	})
	for want := 1; want < 4; want++ {
		if n := <-got; n != want {
			t.Errorf("%d, want %d", n, want)
		}
	}
	stop()
	Inline().Each(ctx, time.Nanosecond, func(int) { t.Error("called inline") })
}
