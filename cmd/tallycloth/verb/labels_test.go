package verb_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestLabels writes labels for two lengths, on one sheet, and refuses what cannot be.
// That the codes can be read is tried in package sheet.
func TestLabels(t *testing.T) {
	d := newDesk(t)
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--fibres", "95% cotton 5% elastane")
	d.log(jersey, "30 cm")
	file := filepath.Join(t.TempDir(), "shelf.pdf")
	var a struct {
		File           string
		Labels, Sheets int
	}
	d.answer(&a, "labels", file, "--skip", "23")
	if a.Labels != 2 || a.Sheets != 2 || a.File != file {
		t.Errorf("%+v", a)
	}
	if b, err := os.ReadFile(file); err != nil || !bytes.HasPrefix(b, []byte("%PDF")) {
		t.Errorf("%d bytes, %v", len(b), err)
	}
	before, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if r := d.run("labels", file, code); r.code == 0 || !strings.Contains(r.err, "there already") {
		t.Errorf("written over: %d, %s", r.code, r.err)
	}
	if now, err := os.ReadFile(file); err != nil || !bytes.Equal(now, before) {
		t.Errorf("the file was changed: %d bytes for %d, %v", len(now), len(before), err)
	}
	d.answer(&a, "labels", filepath.Join(t.TempDir(), "one.pdf"), code, "--paper", "letter")
	if a.Labels != 1 || a.Sheets != 1 {
		t.Errorf("%+v", a)
	}
	fresh := filepath.Join(t.TempDir(), "fresh.pdf")
	for _, args := range [][]string{{"labels"}, {"labels", "shelf.txt"}, {"labels", fresh, "--paper", "a7"}, {"labels", fresh, "--skip", "24"}, {"labels", fresh, "ZZZZ"}} {
		if r := d.run(args...); r.code == 0 || r.err == "" {
			t.Errorf("%v is not refused", args)
		}
	}
}
