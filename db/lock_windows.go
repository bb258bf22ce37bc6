package db

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// tryLock takes an exclusive lock on a byte far beyond what f holds, so that others
// can still read who has it; or gives errHeld.
func tryLock(f *os.File) error {
	at := windows.Overlapped{Offset: 1 << 30}
	err := windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0, &at)
	if errors.Is(err, windows.ERROR_LOCK_VIOLATION) {
		return errHeld
	}
	return err
}

// unlock lets go of the lock at once.
func unlock(f *os.File) error {
	at := windows.Overlapped{Offset: 1 << 30}
	return windows.UnlockFileEx(windows.Handle(f.Fd()), 0, 1, 0, &at)
}
