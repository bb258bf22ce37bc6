package task

import (
	"context"
	"sync"
	"time"
)

// Runner starts work. The zero value is not ready: use New or Inline.
type Runner struct {
	dispatch func(func())
	inline   bool
	mu       sync.Mutex
	running  map[string]*run
	settled  map[string]time.Time // when Settle was called last
	closed   bool
	wait     sync.WaitGroup
}

type run struct{ cancel context.CancelFunc }

// New returns a Runner that hands results to the window with dispatch, fyne.Do in
// the program.
func New(dispatch func(func())) *Runner {
	return &Runner{dispatch: dispatch, running: map[string]*run{}, settled: map[string]time.Time{}}
}

// Inline returns a Runner that does everything at once on the caller: for tests.
func Inline() *Runner {
	return &Runner{dispatch: func(f func()) { f() }, inline: true, running: map[string]*run{}}
}

// Start runs work under a name and then calls done on the window's thread, unless
// it was stopped or newer work of that name has begun. Work may call show any
// number of times to have something done on the window's thread meanwhile.
func (r *Runner) Start(name string, work func(ctx context.Context, show func(func())) error, done func(error)) {
	ctx, me := r.begin(name)
	if me == nil {
		return
	}
	job := func() {
		defer r.wait.Done()
		err := work(ctx, func(f func()) { r.hand(name, me, f) })
		r.hand(name, me, func() {
			r.end(name, me)
			if done != nil {
				done(err)
			}
		})
	}
	if r.inline {
		job()
		return
	}
	go job()
}

func (r *Runner) begin(name string) (context.Context, *run) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.closed {
		return nil, nil
	}
	if old := r.running[name]; old != nil {
		old.cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	me := &run{cancel}
	r.running[name] = me
	r.wait.Add(1)
	return ctx, me
}

// hand passes f to the window's thread, where it runs only if the work still counts.
func (r *Runner) hand(name string, me *run, f func()) {
	if !r.current(name, me) {
		return
	}
	r.dispatch(func() {
		if r.current(name, me) {
			f()
		}
	})
}

func (r *Runner) current(name string, me *run) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return !r.closed && r.running[name] == me
}

func (r *Runner) end(name string, me *run) {
	r.mu.Lock()
	defer r.mu.Unlock()
	me.cancel()
	if r.running[name] == me {
		delete(r.running, name)
	}
}

// Running says whether work of that name is under way.
func (r *Runner) Running(name string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.running[name] != nil
}

// Late has f done on the window's thread if the work that runs under a name now is still under way
// after a while. Work that is done at once is never late.
func (r *Runner) Late(name string, after time.Duration, f func()) {
	r.mu.Lock()
	me := r.running[name]
	r.mu.Unlock()
	if me == nil || r.inline {
		return
	}
	time.AfterFunc(after, func() { r.hand(name, me, f) })
}

// Settle has f done on the window's thread, where it is called: at once where nothing of that name was
// asked for during the time rest, else when nothing was for so long, the newest alone. While a person
// holds an arrow down in a list it keeps what is beside the list from being filled for every row.
func (r *Runner) Settle(name string, rest time.Duration, f func()) {
	if r.inline {
		f()
		return
	}
	name = "settle " + name
	r.mu.Lock()
	last, now := r.settled[name], time.Now()
	r.settled[name] = now
	r.mu.Unlock()
	if r.Stop(name); now.Sub(last) > rest {
		f()
		return
	}
	r.Start(name, func(ctx context.Context, _ func(func())) error {
		pause(ctx, rest)
		return ctx.Err()
	}, func(err error) {
		if err == nil {
			f()
		}
	})
}

// Stop ends work of that name; its done is not called.
func (r *Runner) Stop(name string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if old := r.running[name]; old != nil {
		old.cancel()
		delete(r.running, name)
	}
}

// Post hands f to the window's thread from anywhere.
func (r *Runner) Post(f func()) { r.dispatch(f) }

// Close ends all work and waits until none is left. Nothing is shown afterwards.
func (r *Runner) Close() {
	r.mu.Lock()
	r.closed = true
	for _, old := range r.running {
		old.cancel()
	}
	r.running = map[string]*run{}
	r.mu.Unlock()
	r.wait.Wait()
}
