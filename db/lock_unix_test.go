//go:build unix

package db

import (
	"testing"

	"golang.org/x/sys/unix"
)

// A library that is closed is free at once, even while a program that is just being started
// still has the lock file open.
func TestLockEndsWithTheLibrary(t *testing.T) {
	folder := t.TempDir()
	l, err := Open(t.Context(), folder, Options{})
	if err != nil {
		t.Fatal(err)
	}
	fd, err := unix.Dup(int(l.lock.f.Fd()))
	if err != nil {
		t.Fatal(err)
	}
	defer unix.Close(fd)
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := Open(t.Context(), folder, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := again.Close(); err != nil {
		t.Error(err)
	}
}
