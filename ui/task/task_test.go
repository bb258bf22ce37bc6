package task

import (
	"context"
	"errors"
	"testing"
	"time"
)

func TestNewerWorkEndsOlder(t *testing.T) {
	queue := make(chan func(), 16)
	r := New(func(f func()) { queue <- f })
	started := make(chan struct{})
	ended := make(chan error, 1)
	r.Start("find", func(ctx context.Context, _ func(func())) error {
		close(started)
		<-ctx.Done()
		ended <- ctx.Err()
		return ctx.Err()
	}, func(error) { t.Error("stopped work must not report") })
	<-started
	got := ""
	r.Start("find", func(_ context.Context, show func(func())) error {
		show(func() { got += "shown " })
		return errors.New("full")
	}, func(err error) { got += err.Error() })
	if err := <-ended; !errors.Is(err, context.Canceled) {
		t.Errorf("older work ended with %v", err)
	}
	(<-queue)()
	(<-queue)()
	if got != "shown full" {
		t.Errorf("got %q", got)
	}
	if r.Running("find") {
		t.Error("work that is done still counts as running")
	}
	r.Close()
}

func TestNothingAfterClose(t *testing.T) {
	r := Inline()
	r.Close()
	r.Start("x", func(context.Context, func(func())) error { t.Error("ran"); return nil }, nil)
}

func TestLate(t *testing.T) {
	queue := make(chan func(), 16)
	r := New(func(f func()) { queue <- f })
	defer r.Close()
	end := make(chan struct{})
	said := ""
	r.Start("plan", func(context.Context, func(func())) error { <-end; return nil }, func(error) { said += "done" })
	r.Late("plan", 0, func() { said += "late " })
	(<-queue)()
	close(end)
	(<-queue)()
	if said != "late done" {
		t.Errorf("it said %q", said)
	}
	r.Late("plan", 0, func() { t.Error("work that is done is not late") })
}

// The first is done at once, of those that follow quickly the newest alone, once it is quiet.
func TestSettle(t *testing.T) {
	queue := make(chan func(), 16)
	r := New(func(f func()) { queue <- f })
	defer r.Close()
	said := ""
	say := func(s string) func() { return func() { said += s } }
	r.Settle("row", time.Hour, say("first "))
	if said != "first " {
		t.Errorf("at once it said %q", said)
	}
	for range 3 {
		r.Settle("row", 10*time.Minute, say("overtaken "))
	}
	r.Settle("other", time.Hour, say("other "))
	r.Settle("row", time.Minute, say("still waiting "))
	r.settled["settle row"] = time.Now().Add(time.Hour) // so that the next is no first one, however slow the computer
	r.Settle("row", time.Millisecond, say("last"))
	(<-queue)()
	if said != "first other last" {
		t.Errorf("in the end it said %q", said)
	}
	Inline().Settle("row", time.Hour, say(", inline"))
	if said != "first other last, inline" {
		t.Errorf("inline it said %q", said)
	}
}
