package main

import (
	"fmt"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
)

// patience is how long the toolkit has, once the last window is closed, to end by itself.
const patience = 5 * time.Second

// leaving ends the program where the toolkit does not: it may wait for good for a call that was asked of
// a window's thread that had just ended, with the library still held and no window to be seen.
type leaving struct {
	windows  atomic.Int32 // that are open
	ended    atomic.Bool  // the toolkit came back
	patience time.Duration
	exit     func(code int)
	close    func() error // lets go of the library, once
}

func newLeaving(closeStore func() error) *leaving {
	return &leaving{patience: patience, exit: os.Exit, close: sync.OnceValue(closeStore)}
}

// opened counts a window, and looks after the end of the program once it is closed. It is called in place
// of setting what a window does when it closes; closed may be nil.
func (l *leaving) opened(w fyne.Window, closed func()) {
	l.windows.Add(1)
	w.SetOnClosed(func() {
		if closed != nil {
			closed()
		}
		l.closed()
	})
}

func (l *leaving) closed() {
	if l.windows.Add(-1) > 0 {
		return
	}
	time.AfterFunc(l.patience, func() {
		if l.ended.Load() || l.windows.Load() > 0 {
			return
		}
		code := 0
		if err := l.close(); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = 1
		}
		l.exit(code)
	})
}
