//go:build e2e

package e2e

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// studio is a person in front of the window: a screen, the running program, and the
// library it keeps.
type studio struct {
	t       *testing.T
	screen  *display
	folder  string // of the library
	socket  string
	hook    net.Conn
	answers *bufio.Reader
	left    int // of the window's content on the screen
	top     int
	said    *log
	ended   chan error
	process *os.Process
	pid     string
	args    []string
}

// log keeps what the program writes, for failures and to see that there was no data race.
type log struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *log) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *log) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// widget is what the program tells about one of its widgets.
type widget struct {
	Name                string
	X, Y, Width, Height int
	Visible             bool
	Enabled             bool
	Focused             bool
	Text                string
	Rows                []string
	Chosen              int
	Checked             bool
}

// newStudio starts the program on a library that is not there yet.
func newStudio(t *testing.T) *studio {
	t.Helper()
	home := t.TempDir()
	s := &studio{t: t, screen: newDisplay(t, home), folder: filepath.Join(home, ".local", "share", "tallycloth")}
	s.open()
	return s
}

// open starts the program and waits for its first frame.
func (s *studio) open() {
	s.t.Helper()
	s.start()
	s.answer()
}

// start starts the program.
func (s *studio) start() {
	s.t.Helper()
	s.socket = filepath.Join(s.t.TempDir(), "hook")
	s.said, s.ended = &log{}, make(chan error, 1)
	cmd := exec.Command(program, s.args...)
	cmd.Env = append(s.screen.env, "TALLYCLOTH_E2E_SOCKET="+s.socket)
	cmd.Stdout, cmd.Stderr = s.said, s.said
	if err := cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	s.process, s.pid = cmd.Process, fmt.Sprint(cmd.Process.Pid)
	ended := s.ended
	go func() { ended <- cmd.Wait() }()
	s.t.Cleanup(func() { cmd.Process.Kill() })
}

// answer waits until the program shows the shell of its window and answers.
func (s *studio) answer() {
	s.t.Helper()
	until(s.t, "the program to answer", func() (bool, string) {
		var err error
		if s.hook, err = net.Dial("unix", s.socket); err != nil {
			return false, err.Error() + s.said.String()
		}
		s.answers = bufio.NewReader(s.hook)
		return true, ""
	})
	s.findWindow()
	s.await("quiet", "is there", func(w widget) bool { return w.Visible })
}

// findWindow finds where the window's content lies on the screen, once the window
// manager has put it there for good.
func (s *studio) findWindow() {
	s.t.Helper()
	var last string
	until(s.t, "the window", func() (bool, string) {
		id, err := s.screen.try("xdotool", "search", "--onlyvisible", "--all", "--pid", s.pid, "--name", "^Tallycloth")
		if err != nil {
			return false, id + s.said.String()
		}
		id = strings.Fields(id)[0]
		info, err := s.screen.try("xwininfo", "-id", id)
		if err != nil || info != last {
			last = info
			return false, info
		}
		x, y := number(info, "Absolute upper-left X:"), number(info, "Absolute upper-left Y:")
		s.left, s.top = x, y
		_, err = s.screen.try("xdotool", "windowfocus", id)
		return err == nil, info
	})
}

// number reads the number that stands behind some words.
func number(text, words string) int {
	_, rest, _ := strings.Cut(text, words)
	var n int
	fmt.Sscan(rest, &n)
	return n
}

// ask asks the program for one widget, or for all with the name "".
func (s *studio) ask(name string, into any) {
	s.t.Helper()
	question := "widgets\n"
	if name != "" {
		question = "widget " + name + "\n"
	}
	if err := s.hook.SetDeadline(time.Now().Add(patience)); err != nil {
		s.t.Fatal(err)
	}
	_, err := s.hook.Write([]byte(question))
	var line []byte
	if err == nil {
		line, err = s.answers.ReadBytes('\n')
	}
	if err == nil {
		err = json.Unmarshal(line, into)
	}
	if err != nil {
		s.t.Fatalf("asking for %q: %v\nthe program wrote:\n%s", name, err, s.said)
	}
}

// see returns what the program says about a widget now.
func (s *studio) see(name string) widget {
	s.t.Helper()
	var w widget
	s.ask(name, &w)
	return w
}

// await waits until a widget is as it should be, and has stopped moving.
func (s *studio) await(name, what string, is func(widget) bool) widget {
	s.t.Helper()
	var w, last widget
	until(s.t, name+" "+what, func() (bool, string) {
		last, w = w, s.see(name)
		still := w.X == last.X && w.Y == last.Y && w.Width == last.Width && w.Height == last.Height
		return is(w) && still, fmt.Sprintf("%+v; the quiet line: %q", w, s.see("quiet").Text)
	})
	return w
}

// visible says whether a widget can be used.
func visible(w widget) bool { return w.Visible && w.Enabled }

// click clicks on a widget when it is there.
func (s *studio) click(name string) {
	s.t.Helper()
	w := s.await(name, "can be clicked", visible)
	s.screen.click(s.t, s.left+w.X+w.Width/2, s.top+w.Y+w.Height/2)
}

// says waits until the quiet line says something.
func (s *studio) says(words ...string) {
	s.t.Helper()
	s.await("quiet", fmt.Sprintf("says %q", words), func(w widget) bool {
		for _, x := range words {
			if !strings.Contains(w.Text, x) {
				return false
			}
		}
		return true
	})
}

// picture saves what is on the screen.
func (s *studio) picture(name string) {
	s.t.Helper()
	s.screen.picture(s.t, s.t.Name()+"-"+name)
}

// close closes the window as the window manager's button does.
func (s *studio) close() {
	s.t.Helper()
	s.hook.Close()
	s.quit()
}

// quit closes the window in front and wants the program to end well. A key that the
// window manager missed is pressed again, as a person would.
func (s *studio) quit() {
	s.t.Helper()
	end := time.NewTimer(patience)
	defer end.Stop()
	again := time.NewTicker(patience / 6)
	defer again.Stop()
	for ended := false; !ended; {
		s.screen.key(s.t, "alt+F4")
		select {
		case err := <-s.ended:
			if ended = true; err != nil {
				s.t.Errorf("the program ended with %v", err)
			}
		case <-end.C:
			s.picture("did-not-end")
			s.process.Signal(syscall.SIGQUIT) // Go programs answer with what each goroutine does
			<-s.ended
			s.t.Fatalf("the program did not end; it was doing this:\n%s", s.said)
		case <-again.C:
		}
	}
	if said := s.said.String(); strings.Contains(said, "DATA RACE") || strings.Contains(said, "panic") {
		s.t.Errorf("the program wrote:\n%s", said)
	}
}

// ledger asks the library's file, as another program sees it.
func (s *studio) ledger(query string) string {
	s.t.Helper()
	out, err := exec.Command("sqlite3", "-readonly", filepath.Join(s.folder, "library.db"), query).CombinedOutput()
	if err != nil {
		s.t.Fatalf("%s: %v\n%s", query, err, out)
	}
	return strings.TrimSpace(string(out))
}

// holds wants an answer of the library's file.
func (s *studio) holds(what, query, want string) {
	s.t.Helper()
	if got := s.ledger(query); got != want {
		s.t.Errorf("%s: the library says %q, want %q", what, got, want)
	}
}
