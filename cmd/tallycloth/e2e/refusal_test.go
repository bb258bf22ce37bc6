//go:build e2e

package e2e

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestSecondWindow: a second window on a library that is open says who has it, and
// opens it to look only, where nothing can be changed.
func TestSecondWindow(t *testing.T) {
	first := newStudio(t)
	logPurchase(first, keyboard{})
	before := first.windows()
	second := &studio{t: t, screen: first.screen, folder: first.folder}
	second.start()
	until(t, "the second window", func() (bool, string) { w := first.windows(); return w == before+1, "" })
	second.picture("refused")
	second.frontmost()
	second.screen.key(t, "space") // "Look at it without changing it" has the focus
	second.answer()
	second.await("stash.list", "shows the shelf", func(w widget) bool { return w.Visible && len(w.Rows) == 1 })
	second.says("read-only")
	second.picture("looking")
	second.screen.key(t, "ctrl+z")
	second.says("read-only")
	first.holds("what was logged", "SELECT count(*) FROM movement", "1")
	second.close()
	first.besideVerbs()
}

// besideVerbs runs verbs while the window is open: one that reads answers, one that writes
// says who has the library and writes nothing.
func (s *studio) besideVerbs() {
	s.t.Helper()
	verb := func(args ...string) (string, int) {
		cmd := exec.Command(program, append(args, "--library", s.folder)...)
		cmd.Env = s.screen.env
		out, _ := cmd.CombinedOutput()
		return string(out), cmd.ProcessState.ExitCode()
	}
	if said, code := verb("list", "cloth"); code != 0 || len(said) == 0 {
		s.t.Errorf("looking ends with %d: %s", code, said)
	}
	said, code := verb("log", "Fog terry", "1 m", "--width", "150 cm")
	if code != 4 || !strings.Contains(said, "open already (process "+s.pid) || !strings.Contains(said, "Close it there") {
		s.t.Errorf("writing ends with %d: %s", code, said)
	}
	s.holds("what was logged", "SELECT count(*) FROM movement", "1")
}

// TestDamagedLibrary: the window says what to do, and leaves the file alone.
func TestDamagedLibrary(t *testing.T) {
	home := t.TempDir()
	s := &studio{t: t, screen: newDisplay(t, home), folder: filepath.Join(home, ".local", "share", "tallycloth")}
	if err := os.MkdirAll(s.folder, 0o755); err != nil {
		t.Fatal(err)
	}
	spoilt := bytes.Repeat([]byte("not a library "), 1000)
	file := filepath.Join(s.folder, "library.db")
	if err := os.WriteFile(file, spoilt, 0o644); err != nil {
		t.Fatal(err)
	}
	s.start()
	until(t, "the window", func() (bool, string) { return s.windows() == 1, s.said.String() })
	s.picture("refused")
	s.frontmost()
	s.quit()
	if now, err := os.ReadFile(file); err != nil || !bytes.Equal(now, spoilt) {
		t.Errorf("the damaged file was changed, %v", err)
	}
}

// TestNoDisplay: without a display, or with one that does not answer, the program says
// so in a sentence.
func TestNoDisplay(t *testing.T) {
	for _, where := range []string{"", ":4711"} {
		cmd := exec.Command(program)
		cmd.Env = append(quietEnv(), "DISPLAY="+where, "HOME="+t.TempDir())
		out, err := cmd.CombinedOutput()
		if err == nil || cmd.ProcessState.ExitCode() != 1 || !strings.Contains(string(out), "display") || !strings.Contains(string(out), "verb") || strings.Contains(string(out), "goroutine") {
			t.Errorf("DISPLAY=%q: %v, %s", where, err, out)
		}
	}
}

// windows counts the program's windows on the screen.
func (s *studio) windows() int {
	s.t.Helper()
	out, err := s.screen.try("xdotool", "search", "--onlyvisible", "--name", "^Tallycloth")
	if err != nil {
		return 0
	}
	return len(strings.Fields(out))
}

// frontmost waits until the window manager has given this program's window the focus.
func (s *studio) frontmost() {
	s.t.Helper()
	until(s.t, "the focus", func() (bool, string) {
		out, err := s.screen.try("xdotool", "getwindowfocus", "getwindowpid")
		return err == nil && strings.TrimSpace(out) == s.pid, out
	})
}

// TestVerbsAreQuiet: a verb writes its answer and nothing else, in whatever locale.
func TestVerbsAreQuiet(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "library")
	for i, locale := range []string{"C.UTF-8", "C", "POSIX", "", "en_US.UTF-8", "de_AT.UTF-8"} {
		args := []string{"log", "Moss jersey", "1 m", "--json", "--library", folder}
		if i == 0 {
			args = append(args, "--width", "150")
		}
		var out, complaint bytes.Buffer
		cmd := exec.Command(program, args...)
		cmd.Env = append(quietEnv(), "LANG="+locale, "HOME="+t.TempDir())
		cmd.Stdout, cmd.Stderr = &out, &complaint
		if err := cmd.Run(); err != nil || complaint.Len() > 0 || !json.Valid(out.Bytes()) {
			t.Errorf("LANG=%q: %v\n%s%s", locale, err, out.String(), complaint.String())
		}
	}
}
