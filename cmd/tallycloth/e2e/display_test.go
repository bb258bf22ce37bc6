//go:build e2e

package e2e

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// patience is how long anything may take to come about on a slow, busy machine.
// Waiting ends as soon as it has; only a failure takes all of it.
const patience = 60 * time.Second

// until asks again and again whether something has come about, and fails the test
// with what was last seen when patience ends.
func until(t *testing.T, what string, come func() (bool, string)) {
	t.Helper()
	end := time.NewTimer(patience)
	defer end.Stop()
	again := time.NewTicker(20 * time.Millisecond)
	defer again.Stop()
	for {
		ok, seen := come()
		if ok {
			return
		}
		select {
		case <-end.C:
			t.Fatalf("waited in vain for %s; last seen: %s", what, seen)
		case <-again.C:
		}
	}
}

// display is a virtual screen with a window manager.
type display struct {
	name string // ":7"
	env  []string
}

// newDisplay starts a screen of 1366 × 768 and a window manager on it, both ended with
// the test. The screen's number is chosen by the server itself, so that two runs on one
// machine stay apart.
func newDisplay(t *testing.T, home string) *display {
	t.Helper()
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	server := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1366x768x24", "-nolisten", "tcp", "-noreset")
	server.ExtraFiles = []*os.File{w}
	start(t, server)
	w.Close()
	number, err := bufio.NewReader(r).ReadString('\n')
	if err != nil {
		t.Fatalf("Xvfb named no display: %v", err)
	}
	d := &display{name: ":" + strings.TrimSpace(number)}
	d.env = append(quietEnv(), "DISPLAY="+d.name, "HOME="+home)
	manager := exec.Command("openbox", "--sm-disable")
	manager.Env = d.env
	start(t, manager)
	until(t, "the window manager", func() (bool, string) {
		out, err := d.try("xprop", "-root", "_NET_SUPPORTING_WM_CHECK")
		return err == nil && strings.Contains(out, "window id"), out
	})
	return d
}

// quietEnv is the environment without what would tie a program to the person's own
// session, and with what makes text and size the same everywhere.
func quietEnv() []string {
	var out []string
	for _, v := range os.Environ() {
		name, _, _ := strings.Cut(v, "=")
		switch {
		case name == "DISPLAY", name == "WAYLAND_DISPLAY", name == "HOME", strings.HasPrefix(name, "XDG_"), strings.HasPrefix(name, "LC_"), name == "LANG", strings.HasPrefix(name, "FYNE_"), strings.HasPrefix(name, "DBUS_"):
		default:
			out = append(out, v)
		}
	}
	return append(out, "LANG=en_US.UTF-8", "FYNE_SCALE=1", "FYNE_DISABLE_DPI_DETECTION=1", "FYNE_THEME=light", "LIBGL_ALWAYS_SOFTWARE=1")
}

// start starts a program and ends it with the test.
func start(t *testing.T, cmd *exec.Cmd) {
	t.Helper()
	if err := cmd.Start(); err != nil {
		t.Fatalf("starting %s: %v (make test installs it)", cmd.Args[0], err)
	}
	t.Cleanup(func() {
		cmd.Process.Kill()
		cmd.Wait()
	})
}

// try runs a program on the display and returns what it wrote.
func (d *display) try(name string, args ...string) (string, error) {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = d.env
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// do is try for what must succeed.
func (d *display) do(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := d.try(name, args...)
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return out
}

// click presses a mouse button at a place on the screen.
func (d *display) click(t *testing.T, x, y int) {
	t.Helper()
	d.do(t, "xdotool", "mousemove", fmt.Sprint(x), fmt.Sprint(y), "click", "1")
}

// key presses keys by their X names, one after the other.
func (d *display) key(t *testing.T, keys ...string) {
	t.Helper()
	d.do(t, "xdotool", append([]string{"key", "--delay", "40"}, keys...)...)
}

// typeText types a text as a person would.
func (d *display) typeText(t *testing.T, text string) {
	t.Helper()
	d.do(t, "xdotool", "type", "--delay", "40", text)
}

// picture saves what the screen shows as out/e2e/NAME.png.
func (d *display) picture(t *testing.T, name string) {
	t.Helper()
	d.do(t, "import", "-window", "root", "-display", d.name, outFolder+"/"+name+".png")
}
