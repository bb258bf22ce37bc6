package main

import (
	"errors"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
)

// A program whose last window is closed and whose toolkit does not come back lets go of its library and
// ends; one that opened another window, or that ends by itself, is left alone.
func TestLeavingWithoutTheToolkit(t *testing.T) {
	app := test.NewTempApp(t)
	for _, c := range []struct {
		name     string
		another  bool // a window in place of the first
		comeBack bool
		trouble  error
		code     int // -1: it is left alone
	}{
		{"hangs", false, false, nil, 0},
		{"hangs and cannot close", false, false, errors.New("disk"), 1},
		{"another window", true, false, nil, -1},
		{"ends by itself", false, true, nil, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			closed := 0
			ended := make(chan int, 1)
			l := newLeaving(func() error { closed++; return c.trouble })
			l.patience, l.exit = 30*time.Millisecond, func(code int) { ended <- code }
			told := false
			w := app.NewWindow("")
			l.opened(w, func() { told = true })
			if c.another {
				l.opened(app.NewWindow(""), nil)
			}
			w.Close()
			l.ended.Store(c.comeBack)
			if !told {
				t.Error("what was to be done when it closes was not done")
			}
			wait := time.Minute // for what is to come, however busy the machine
			if c.code < 0 {
				wait = 200 * time.Millisecond
			}
			select {
			case code := <-ended:
				if code != c.code || closed != 1 {
					t.Errorf("it ended with %d, closed %d times", code, closed)
				}
			case <-time.After(wait):
				if c.code >= 0 {
					t.Error("it did not end")
				}
			}
		})
	}
}
