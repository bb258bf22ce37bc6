package verb_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tallycloth/cmd/tallycloth/verb"
	"tallycloth/stash"

	"github.com/google/uuid"
)

// desk is a library in a temporary folder and the program in front of it.
type desk struct {
	t       *testing.T
	folder  string
	env     map[string]string
	windows []string // folders that a window was opened on
	clock   time.Time
}

func newDesk(t *testing.T) *desk {
	return &desk{t: t, folder: filepath.Join(t.TempDir(), "library"), env: map[string]string{}, clock: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
}

// reply is what the program answered.
type reply struct {
	code     int
	out, err string
}

// run runs the program on the desk's library.
func (d *desk) run(args ...string) reply {
	return d.runIn(context.Background(), append([]string{"--library", d.folder}, args...)...)
}

func (d *desk) runIn(ctx context.Context, args ...string) reply {
	d.t.Helper()
	var out, err bytes.Buffer
	p := verb.Program{
		Out: &out, Err: &err,
		Getenv: func(name string) string { return d.env[name] },
		Now:    func() time.Time { d.clock = d.clock.Add(time.Second); return d.clock },
		NewID:  func() stash.ID { return uuid.Must(uuid.NewV7()) },
		Window: func(_ context.Context, folder string) error { d.windows = append(d.windows, folder); return nil },
	}
	code := p.Run(ctx, args)
	return reply{code, out.String(), err.String()}
}

// done runs the program and wants it to succeed without a word of complaint.
func (d *desk) done(args ...string) string {
	d.t.Helper()
	r := d.run(args...)
	if r.code != verb.Done || r.err != "" {
		d.t.Fatalf("%q: code %d, complaint %q", args, r.code, r.err)
	}
	return r.out
}

// answer runs a verb with --json and decodes what it says into v. Fields that v does
// not know are an error, so that the documented fields and v stay the same.
func (d *desk) answer(v any, args ...string) {
	d.t.Helper()
	dec := json.NewDecoder(strings.NewReader(d.done(append(args, "--json")...)))
	dec.DisallowUnknownFields()
	if err := dec.Decode(v); err != nil {
		d.t.Fatalf("%q: %v", args, err)
	}
	if dec.More() {
		d.t.Fatalf("%q says more than one document", args)
	}
}

// refused runs the program and wants a refusal with a code and words in its sentence,
// and nothing on standard output.
func (d *desk) refused(code int, words []string, args ...string) {
	d.t.Helper()
	r := d.run(args...)
	if r.code != code {
		d.t.Errorf("%q: code %d, want %d; said %q", args, r.code, code, r.err)
	}
	for _, w := range words {
		if !strings.Contains(r.err, w) {
			d.t.Errorf("%q says %q, which lacks %q", args, r.err, w)
		}
	}
	if r.out != "" {
		d.t.Errorf("%q was refused but answered %q", args, r.out)
	}
	if said := strings.TrimSpace(r.err); strings.Count(r.err, "\n") != 1 || !strings.HasSuffix(said, ".") {
		d.t.Errorf("%q complains in other than one line of sentences: %q", args, r.err)
	}
}

func TestWithoutAVerbTheWindowOpens(t *testing.T) {
	d := newDesk(t)
	d.done()
	d.env["HOME"] = "/home/someone"
	d.runIn(context.Background())
	d.env["XDG_DATA_HOME"] = "relative/is/ignored"
	d.runIn(context.Background())
	d.env["XDG_DATA_HOME"] = "/data"
	d.runIn(context.Background())
	want := []string{d.folder, "/home/someone/.local/share/tallycloth", "/home/someone/.local/share/tallycloth", "/data/tallycloth"}
	if strings.Join(d.windows, " ") != strings.Join(want, " ") {
		t.Errorf("windows opened on %q, want %q", d.windows, want)
	}
	if r := d.run("scissors"); r.code != verb.Mistyped || len(d.windows) != len(want) {
		t.Errorf("a slip gave code %d and %d windows", r.code, len(d.windows))
	}
}

func TestNoHome(t *testing.T) {
	d := newDesk(t)
	if r := d.runIn(context.Background(), "list", "cloth"); r.code != verb.NoAccess || !strings.Contains(r.err, "--library") {
		t.Errorf("without a home folder: %+v", r)
	}
}

func TestEveryVerbHasHelp(t *testing.T) {
	d := newDesk(t)
	for _, line := range strings.Split(between(d.done("--help"), "Verbs:", "Options:"), "\n") {
		name, short, _ := strings.Cut(strings.TrimSpace(line), " ")
		if name == "" || name == "help" {
			continue
		}
		help := d.done(name, "--help")
		if strings.TrimSpace(short) == "" || !strings.Contains(help, "--json") || len(help) < 200 {
			t.Errorf("%s --help says too little: %q", name, help)
		}
	}
	if _, err := os.Stat(d.folder); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("asking for help made a library")
	}
}

func between(s, from, to string) string {
	_, s, _ = strings.Cut(s, from)
	s, _, _ = strings.Cut(s, to)
	return s
}

func TestNothingThere(t *testing.T) {
	d := newDesk(t)
	for _, args := range [][]string{{"list", "cloth"}, {"undo"}, {"redo"}, {"backup", filepath.Join(d.folder, "x.db")}} {
		d.refused(verb.NoAccess, []string{"There is no library", "demo"}, args...)
	}
	if _, err := os.Stat(d.folder); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("looking made a library")
	}
}
