package task

import (
	"context"
	"time"
)

// Idle is for work that nobody waits for. It starts once nothing was asked for so long, and
// asks turn before each of its steps, which waits until nothing else runs and until it has
// rested three times as long as the step before took; turn says false when the work is to
// end. Idle work of a name that is asked for again begins anew. With a Runner that does
// everything at once it never is.
func (r *Runner) Idle(name string, quiet time.Duration, work func(ctx context.Context, turn func() bool, show func(func())) error, done func(error)) {
	if r.inline {
		return
	}
	r.Start(name, func(ctx context.Context, show func(func())) error {
		if !pause(ctx, quiet) {
			return ctx.Err()
		}
		var stepped time.Time
		return work(ctx, func() bool {
			if !stepped.IsZero() && !pause(ctx, 3*time.Since(stepped)) {
				return false
			}
			for r.others(name) {
				if !pause(ctx, quiet/4) {
					return false
				}
			}
			stepped = time.Now()
			return ctx.Err() == nil
		}, show)
	}, done)
}

// pause waits; it says false when the context ended meanwhile.
func pause(ctx context.Context, d time.Duration) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-t.C:
		return true
	}
}

// others says whether work of another name is under way.
func (r *Runner) others(name string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	for n := range r.running {
		if n != name {
			return true
		}
	}
	return false
}
