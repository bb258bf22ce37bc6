package batch_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"sync/atomic"
	"testing"
	"time"

	"tallycloth/planner/batch"

	"pgregory.net/rapid"
)

// stopping is a Layer that calls stop at a question and counts the questions; later ones wait for it.
type stopping struct {
	batch.Layer
	at      int64
	asked   *atomic.Int64
	stop    func() error
	stopped chan struct{}
}

func stopAt(n int, lay batch.Layer, stop func() error) stopping {
	return stopping{lay, int64(n), new(atomic.Int64), stop, make(chan struct{})}
}

func (s stopping) Lay(ctx context.Context, cloth int, l batch.Load, effort int) (batch.Verdict, int64, int, error) {
	switch n := s.asked.Add(1); {
	case n == s.at:
		err := s.stop()
		close(s.stopped)
		if err != nil {
			return batch.Unknown, 0, 0, err
		}
	case n > s.at:
		<-s.stopped
	}
	if ctx.Err() != nil {
		return batch.Unknown, 0, 0, ctx.Err()
	}
	return s.Layer.Lay(ctx, cloth, l, effort)
}

// TestCancelled: a cancelled search asks nothing more, and returns the best plan so far; an error only
// where there is none.
func TestCancelled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, lay := smallCase(rapid.Uint64().Draw(t, "seed"), 3)
		why := errors.New("enough of it")
		ctx, cancel := context.WithCancelCause(context.Background())
		defer cancel(nil)
		const workers = 3
		s := stopAt(rapid.IntRange(1, 60).Draw(t, "at"), lay, func() error { cancel(why); return nil })
		plan, err := batch.Solve(ctx, p, s, batch.Options{Workers: workers, MostEffort: 1})
		check(t, p, lay, plan)
		if asked := s.asked.Load(); asked > s.at+workers {
			t.Fatalf("%d questions after the end", asked-s.at)
		}
		if stopped := ctx.Err() != nil; errors.Is(err, why) != (stopped && len(plan.Made) == 0) {
			t.Fatalf("%d garments, stopped %v: %v", len(plan.Made), stopped, err)
		}
	})
}

// TestLayerFails: an error of the Layer ends the search and comes with the best plan so far.
func TestLayerFails(t *testing.T) {
	p, lay, _ := randomCase(rand.New(rand.NewPCG(4, 1)))
	whole, err := batch.Solve(context.Background(), p, lay, batch.Options{MostEffort: 1})
	if err != nil {
		t.Fatal(err)
	}
	broken := errors.New("broken")
	s := stopAt(whole.Tried/2, lay, func() error { return broken })
	plan, err := batch.Solve(context.Background(), p, s, batch.Options{Workers: 1, MostEffort: 1})
	if !errors.Is(err, broken) || len(plan.Made) == 0 {
		t.Fatalf("%d garments, %v", len(plan.Made), err)
	}
	check(t, p, lay, plan)
}

// TestTimeIsUp: when the clock handed in says so, nothing more is asked.
func TestTimeIsUp(t *testing.T) {
	p, lay, _ := randomCase(rand.New(rand.NewPCG(4, 1)))
	now := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	s := stopAt(20, lay, func() error { now = now.Add(time.Hour); return nil })
	o := batch.Options{Workers: 1, MostEffort: 1, Time: time.Minute, Clock: func() time.Time { return now }}
	plan, err := batch.Solve(context.Background(), p, s, o)
	if err != nil || s.asked.Load() != 20 || plan.Complete {
		t.Fatalf("%d questions, complete %v, %v", s.asked.Load(), plan.Complete, err)
	}
	check(t, p, lay, plan)
}
