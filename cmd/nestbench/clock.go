package main

import (
	"syscall"
	"time"
)

// processorClock counts the processor time of the whole process, shared out over
// the workers: on a busy machine a run then gets the work it would get on a free one.
func processorClock(workers int) func() time.Time {
	return func() time.Time {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			return time.Now()
		}
		spent := time.Duration(u.Utime.Nano() + u.Stime.Nano())
		return time.Unix(0, 0).Add(spent / time.Duration(max(workers, 1)))
	}
}
