package db

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"sync/atomic"
	"time"

	"tallycloth/stash"
)

// atOnce is the size of a library's file, in bytes, up to which all of it is looked
// through before it opens. It takes about a second for a hundred megabytes, so that a
// larger one is looked through while it is open already.
var atOnce int64 = 8 << 20

// grace is how long a large library is left alone first: reading the shelf comes before.
var grace = 5 * time.Second

// isLarge says whether a library is looked through after it was opened.
func isLarge(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Size() > atOnce
}

// watch looks a library through while it is open. Once damage is found nothing more is
// written to it.
type watch struct {
	stop  context.CancelFunc
	done  chan struct{}
	found atomic.Pointer[stash.Error]
}

// begin starts looking through the file that dsn names; end must be called.
func begin(dsn string) *watch {
	ctx, stop := context.WithCancel(context.Background())
	w := &watch{stop: stop, done: make(chan struct{})}
	go func() {
		defer close(w.done)
		select {
		case <-ctx.Done():
			return
		case <-time.After(grace):
		}
		d, err := sql.Open("sqlite3", dsn)
		if err != nil {
			return // it is open elsewhere: what is wrong shows there
		}
		defer d.Close()
		d.SetMaxOpenConns(1)
		var own *stash.Error
		if err := soundness(ctx, d, "quick_check"); errors.As(err, &own) {
			w.found.Store(own)
		}
	}()
	return w
}

// end stops looking; a nil watch never looked.
func (w *watch) end() {
	if w == nil {
		return
	}
	w.stop()
	<-w.done
}

// damage is what was found so far, or nil.
func (w *watch) damage() *stash.Error {
	if w == nil {
		return nil
	}
	return w.found.Load()
}
