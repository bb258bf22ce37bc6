package task

import (
	"context"
	"sync/atomic"
	"testing"
	"time"
)

// Idle work waits for work that a person asked for, goes on after it, and ends when it is
// stopped.
func TestIdleGivesWay(t *testing.T) {
	r := New(func(f func()) { f() })
	defer r.Close()
	var let atomic.Bool
	running, end := make(chan struct{}), make(chan struct{})
	r.Start("asked", func(context.Context, func(func())) error { close(running); <-end; return nil }, nil)
	<-running
	stepped, ended := make(chan struct{}), make(chan error, 1)
	r.Idle("quiet", time.Microsecond, func(ctx context.Context, turn func() bool, _ func(func())) error {
		for turn() {
			if !let.Load() {
				t.Error("a step was taken while other work ran")
			}
			select {
			case stepped <- struct{}{}:
			case <-ctx.Done():
			}
		}
		ended <- ctx.Err()
		return ctx.Err()
	}, nil)
	let.Store(true)
	close(end)
	<-stepped
	<-stepped
	r.Stop("quiet")
	if err := <-ended; err == nil {
		t.Error("work that was stopped says that nothing ended it")
	}
}

// Work that is done at once has no idle hours.
func TestIdleInline(t *testing.T) {
	Inline().Idle("quiet", 0, func(context.Context, func() bool, func(func())) error { t.Error("ran"); return nil }, nil)
}
