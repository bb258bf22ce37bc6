//go:build unix

package db

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// tryLock takes an exclusive lock on f, or gives errHeld.
func tryLock(f *os.File) error {
	err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
	if errors.Is(err, unix.EWOULDBLOCK) {
		return errHeld
	}
	return err
}

// unlock lets go of the lock at once: closing f alone would not while another program that
// is just being started still has it open.
func unlock(f *os.File) error { return unix.Flock(int(f.Fd()), unix.LOCK_UN) }
