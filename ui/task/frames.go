package task

import (
	"context"
	"sync/atomic"
	"time"
)

// Frames hands the newest of many values on: whoever tells never waits, values that a
// newer one overtakes are dropped, and between two shown a while passes. It is for a
// search that finds something a thousand times a second and a window that draws it.
type Frames[T any] struct {
	newest atomic.Pointer[T]
	wake   chan struct{}
	end    chan struct{}
	ended  chan struct{}
	direct func(T) // shows at once, where work is done inline
}

// NewFrames starts to hand values on to show, on a goroutine of its own. After each,
// pause gives a channel that says when the next may be shown; nil pauses for half a
// second: a drawing of 25 ms then takes a twentieth of one core at most. With a Runner
// that does everything at once show is called by Tell.
func NewFrames[T any](r *Runner, pause func() <-chan time.Time, show func(T)) *Frames[T] {
	f := &Frames[T]{wake: make(chan struct{}, 1), end: make(chan struct{}), ended: make(chan struct{})}
	if pause == nil {
		pause = func() <-chan time.Time { return time.After(time.Second / 2) }
	}
	if r.inline {
		f.direct = show
		close(f.ended)
		return f
	}
	go f.run(pause, show)
	return f
}

func (f *Frames[T]) run(pause func() <-chan time.Time, show func(T)) {
	defer close(f.ended)
	for {
		select {
		case <-f.end:
			return
		case <-f.wake:
		}
		if v := f.newest.Swap(nil); v != nil {
			show(*v)
		}
		select {
		case <-f.end:
			return
		case <-pause():
		}
	}
}

// Tell gives a value to be shown, unless a newer one comes before its turn. It never waits.
func (f *Frames[T]) Tell(v T) {
	if f.direct != nil {
		f.direct(v)
		return
	}
	f.newest.Store(&v)
	select {
	case f.wake <- struct{}{}:
	default:
	}
}

// Close ends it and waits until nothing is being shown. What was told last may not be shown.
func (f *Frames[T]) Close() {
	close(f.end)
	<-f.ended
}

// Each calls f again and again, with so long between, until the context ends; n counts from
// one. It is on a goroutine of its own. With a Runner that does everything at once it never is.
func (r *Runner) Each(ctx context.Context, between time.Duration, f func(n int)) {
	if r.inline {
		return
	}
	go func() {
		t := time.NewTicker(between)
		defer t.Stop()
		for n := 1; ; n++ {
			select {
			case <-ctx.Done():
				return
			case <-t.C:
				f(n)
			}
		}
	}()
}
