//go:build e2e

package e2e

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestNoNetwork: neither the verbs nor the window ever open a connection: the system calls that could
// are recorded while the demo studio is made and looked at, and the same works with the network
// taken away.
func TestNoNetwork(t *testing.T) {
	home := t.TempDir()
	d := newDisplay(t, home)
	trace := filepath.Join(home, "trace")
	traced := func(args ...string) *exec.Cmd {
		cmd := exec.Command("strace", append([]string{"-f", "-qq", "-e", "trace=%network", "-o", trace, program}, args...)...)
		cmd.Env = d.env
		return cmd
	}
	if out, err := traced("demo").CombinedOutput(); err != nil {
		t.Fatalf("demo: %v\n%s", err, out)
	}
	checkTrace(t, "demo", trace)

	window := traced()
	start(t, window)
	until(t, "the window", func() (bool, string) {
		out, err := d.try("xdotool", "search", "--onlyvisible", "--name", "^Tallycloth$")
		return err == nil && strings.TrimSpace(out) != "", out
	})
	for _, place := range []string{"2", "3", "4", "5", "6", "7"} {
		d.key(t, "ctrl+"+place)
	}
	d.key(t, "F1")
	checkTrace(t, "the window", trace)

	alone := exec.Command("unshare", "--user", "--map-root-user", "--net", program, "list", "cloth")
	alone.Env = d.env
	if out, err := alone.CombinedOutput(); err != nil || len(strings.Split(string(out), "\n")) < 5 {
		t.Errorf("without a network: %v\n%s", err, out)
	}
}

// connection are sockets that lead out of the computer; those to the display are of the unix family.
var connection = regexp.MustCompile(`AF_INET6?|AF_NETLINK|AF_PACKET`)

func checkTrace(t *testing.T, what, trace string) {
	t.Helper()
	b, err := os.ReadFile(trace)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range strings.Split(string(b), "\n") {
		if connection.MatchString(l) {
			t.Errorf("%s: %s", what, l)
		}
	}
}
