package drawntest

import (
	"os"
	"os/exec"
	"testing"
)

// Inkscape runs the editor's actions (Debian package inkscape) in a home of its own.
func Inkscape(t *testing.T, actions string) {
	t.Helper()
	cmd := exec.Command("inkscape", "--actions="+actions)
	cmd.Env = append(os.Environ(), "HOME="+t.TempDir(), "DISPLAY=")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("inkscape, which these tests need (Debian package inkscape): %v\n%s", err, out)
	}
}
