package db

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"syscall"
	"testing"

	"tallycloth/stash"

	"github.com/mattn/go-sqlite3"
)

// TestBackupOnFullDisk: a full disk is called one, other trouble is not, and stopping is none.
func TestBackupOnFullDisk(t *testing.T) {
	for _, full := range []error{sqlite3.Error{Code: sqlite3.ErrFull}, fmt.Errorf("writing: %w", syscall.ENOSPC)} {
		var own *stash.Error
		if err := explainTarget(full); !errors.As(err, &own) || !strings.Contains(own.What, "disk is full") || !strings.Contains(own.Do, "Make room") {
			t.Errorf("%v: %v", full, err)
		}
	}
	if err := explainTarget(syscall.EACCES); strings.Contains(err.Error(), "full") {
		t.Error(err)
	}
	if err := explainTarget(context.Canceled); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}
