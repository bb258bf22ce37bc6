package verb_test

import (
	"bytes"
	"os"
	"path/filepath"
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
	d.answer(&a, "labels", file, code, "--paper", "letter")
	if a.Labels != 1 || a.Sheets != 1 {
		t.Errorf("%+v", a)
	}
	for _, args := range [][]string{{"labels"}, {"labels", "shelf.txt"}, {"labels", file, "--paper", "a7"}, {"labels", file, "--skip", "24"}, {"labels", file, "ZZZZ"}} {
		if r := d.run(args...); r.code == 0 || r.err == "" {
			t.Errorf("%v is not refused", args)
		}
	}
}
