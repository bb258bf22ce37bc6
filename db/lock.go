package db

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"tallycloth/stash"
)

// fileLock is the lock on a library's folder. It belongs to the open file, so the
// system lets go of it when the program ends, however it ends.
type fileLock struct{ f *os.File }

// errHeld is what tryLock gives when another program has the lock.
var errHeld = errors.New("another program has the lock")

// takeLock locks the file at path, which then says who has it.
func takeLock(path string) (*fileLock, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	if err := tryLock(f); err != nil {
		err = errors.Join(heldBy(path, err), f.Close())
		return nil, err
	}
	if err := errors.Join(f.Truncate(0), sign(f), f.Sync()); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return &fileLock{f}, nil
}

// sign writes who has the lock.
func sign(f *os.File) error {
	host, err := os.Hostname()
	if err != nil {
		host = "this computer"
	}
	_, err = f.WriteAt(fmt.Appendf(nil, "process %d on %s\n", os.Getpid(), host), 0)
	return err
}

// heldBy says who has the lock, or passes any other error on.
func heldBy(path string, err error) error {
	if !errors.Is(err, errHeld) {
		return err
	}
	who := "another window"
	if b, err := os.ReadFile(path); err == nil && len(b) > 0 {
		who = strings.TrimSpace(string(b))
	}
	return &stash.Error{
		Kind: stash.Conflict, What: fmt.Sprintf("The library is open already (%s)", who),
		Do: "Close it there to change anything; to look at it read-only works meanwhile",
	}
}

// release lets go of the lock; nil is no lock.
func (l *fileLock) release() error {
	if l == nil {
		return nil
	}
	return errors.Join(unlock(l.f), l.f.Close())
}
