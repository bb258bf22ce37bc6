//go:build unix

package db

import (
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/pattern"
)

// limited is what makes the test binary the program whose disk fails: the folder.
const limited = "TALLYCLOTH_TEST_DISK_FAILS"

// TestDiskFails lets the system refuse every write beyond a size, which SQLite takes for a
// disk that fails: the sentence says so, and what was saved before is there afterwards. It
// is another process, for the limit is that of a whole process.
func TestDiskFails(t *testing.T) {
	if folder := os.Getenv(limited); folder != "" {
		failUnder(t, folder)
		return
	}
	folder := t.TempDir()
	cmd := exec.Command(os.Args[0], "-test.run=^TestDiskFails$", "-test.v")
	cmd.Env = append(os.Environ(), limited+"="+folder)
	out, err := cmd.CombinedOutput()
	if said := string(out); err != nil || !strings.Contains(said, "The disk does not read or write as it should, nothing was saved. Look whether the disk") {
		t.Errorf("%v: %s", err, said)
	}
	hasOnly(t, folder, "rings")
}

func failUnder(t *testing.T, folder string) {
	l, err := Open(t.Context(), folder, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := counting(t, l, "rings"); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(filepath.Join(folder, fileName))
	if err != nil {
		t.Fatal(err)
	}
	signal.Ignore(syscall.SIGXFSZ) // the write fails instead
	size := uint64(info.Size())
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: size, Max: size}); err != nil {
		t.Fatal(err)
	}
	_, err = l.Write(t.Context(), "Brought a pattern in", func(tx planner.Tx) error {
		return tx.PutPattern(t.Context(), pattern.Pattern{ID: newID(), Name: "tank", Notes: strings.Repeat("x", 1<<20)})
	})
	fmt.Println(err)
}
