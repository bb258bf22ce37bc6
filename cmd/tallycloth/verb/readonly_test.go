package verb_test

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"tallycloth/cmd/tallycloth/verb"
	"tallycloth/stash"

	"github.com/google/uuid"
)

// ordinary is the variable that makes the test binary the program itself, with the
// arguments in it: permissions mean nothing to root, so what a read-only folder does is
// seen by a child that runs as an ordinary user.
const ordinary = "TALLYCLOTH_ORDINARY_USER"

func TestMain(m *testing.M) {
	if args := os.Getenv(ordinary); args != "" {
		os.Exit(verb.Program{
			Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv, Now: time.Now,
			NewID:  func() stash.ID { return uuid.Must(uuid.NewV7()) },
			Window: func(context.Context, string) error { return nil },
		}.Run(context.Background(), strings.Split(args, "\x1f")))
	}
	os.Exit(m.Run())
}

// reachable makes the folders above a temporary one open to everybody.
func reachable(t *testing.T, folder string) {
	t.Helper()
	for p := folder; p != os.TempDir() && p != "/"; p = filepath.Dir(p) {
		if err := os.Chmod(p, 0o755); err != nil {
			t.Fatal(err)
		}
	}
}

// runAsOrdinaryUser runs the program on the desk's library as nobody in particular.
func (d *desk) runAsOrdinaryUser(args ...string) reply {
	d.t.Helper()
	self := copyOfSelf(d.t)
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), ordinary+"="+strings.Join(append([]string{"--library", d.folder}, args...), "\x1f"))
	var out, complaint bytes.Buffer
	cmd.Stdout, cmd.Stderr, cmd.Dir = &out, &complaint, "/"
	if os.Getuid() == 0 {
		const nobody = 65534
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		d.t.Fatal(err)
	}
	return reply{cmd.ProcessState.ExitCode(), out.String(), complaint.String()}
}

// copyOfSelf puts the test binary where everybody may run it.
func copyOfSelf(t *testing.T) string {
	t.Helper()
	own, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	in, err := os.Open(own)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	folder := t.TempDir()
	reachable(t, folder)
	path := filepath.Join(folder, "program")
	out, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY, 0o755)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(out, in); err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestReadOnlyLibrary(t *testing.T) {
	d := newDesk(t).made()
	before := d.readFile()
	if err := os.Chmod(d.file(), 0o444); err != nil {
		t.Fatal(err)
	}
	reachable(t, filepath.Dir(d.folder))
	if err := os.Chmod(d.folder, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(d.folder, 0o755) })
	if r := d.runAsOrdinaryUser("list", "cloth", "--json"); r.code != verb.Done || strings.TrimSpace(r.out) != "[]" {
		t.Errorf("looking at a read-only library: %+v", r)
	}
	for _, args := range [][]string{{"log", "Moss", "2 m", "--width", "150"}, {"undo"}} {
		r := d.runAsOrdinaryUser(args...)
		if r.code != verb.NoAccess || !strings.Contains(r.err, "permissions") || !strings.Contains(r.err, d.folder) {
			t.Errorf("%q in a read-only library: %+v", args, r)
		}
	}
	if !bytes.Equal(before, d.readFile()) {
		t.Error("the read-only library was written to")
	}
}
