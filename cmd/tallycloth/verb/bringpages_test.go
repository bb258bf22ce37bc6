package verb_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type broughtPages struct {
	brought
	Pages struct {
		Count    int
		Rows     string
		Told     string
		Pictures []int
	}
}

// TestPagesOfAPDF: pattern pieces printed in full size come in again, their sheets joined as they
// were found to fit or as they are said to lie.
func TestPagesOfAPDF(t *testing.T) {
	d := newDesk(t)
	d.done("demo")
	var all []patternLine
	d.answer(&all, "list", "patterns")
	was := all[0]
	file := filepath.Join(t.TempDir(), "full.pdf")
	d.done("sheet", "--pattern", was.Name, "--size", was.Sizes[0], "--full", "--paper", "a3", "--to", file)
	var b broughtPages
	d.answer(&b, "bring-in", file, "--name", "Again")
	if b.Pages.Count < 3 || !strings.Contains(b.Pages.Told, "joined by their frames") || len(b.Pattern.Pieces) != len(was.Pieces) {
		t.Fatalf("%+v", b)
	}
	rows := b.Pages.Rows
	d.answer(&b, "bring-in", file, "--name", "By hand", "--pages", rows, "--cut-off", "12 mm", "--shared", "10 mm")
	if b.Pages.Rows != rows || len(b.Pattern.Pieces) != len(was.Pieces) {
		t.Errorf("%+v", b)
	}
	d.refused(verb.Mistyped, []string{"--pages"}, "bring-in", file, "--pages", "one two")
	d.refused(verb.Mistyped, []string{"no page 99"}, "bring-in", file, "--pages", "1 99")
	d.refused(verb.Mistyped, []string{"two things"}, "bring-in", file, "--pages", "1 2", "--apart")
	d.refused(verb.Mistyped, []string{"--cut-off"}, "bring-in", file, "--cut-off", "1 cm")
	d.refused(verb.Mistyped, []string{"four"}, "bring-in", file, "--pages", "1 2", "--cut-off", "1 cm, 2 cm")
	d.refused(verb.Mistyped, []string{"--shared"}, "bring-in", file, "--pages", "1 2", "--shared", "much")
}

// TestSizesByColour: lines of one colour are one size, and lines that all sizes have belong to each.
func TestSizesByColour(t *testing.T) {
	const page = "100 100 m 100 500 l S 1 0 0 RG 100 500 m 400 500 l 400 100 l 100 100 l S 0 0 1 RG 100 500 m 440 500 l 440 100 l 100 100 l S"
	file := filepath.Join(t.TempDir(), "nested.pdf")
	text := "%PDF-1.4\n1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n2 0 obj\n<< /Type /Pages /Kids [3 0 R] /Count 1 >>\nendobj\n" +
		"3 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R >>\nendobj\n4 0 obj\n<< /Length 143 >>\nstream\n" + page + "\nendstream\nendobj\ntrailer\n<< /Root 1 0 R /Size 5 >>\n%%EOF\n"
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	d := newDesk(t)
	var b broughtPages
	d.answer(&b, "bring-in", file, "--name", "Skirt", "--by", "colour", "--line", "#ff0000=S", "--line", "#0000ff=M", "--line", "#000000=all")
	if strings.Join(b.Pattern.Sizes, " ") != "S M" || len(b.Pattern.Pieces) != 1 || b.Pattern.Pieces[0].Sizes != 2 {
		t.Errorf("%+v", b.Pattern)
	}
	d.refused(verb.Mistyped, []string{"#0000ff", "1 line", "--line"}, "bring-in", file, "--by", "colour")
	d.refused(verb.Mistyped, []string{"layer, colour or dash"}, "bring-in", file, "--by", "mood")
	d.refused(verb.Mistyped, []string{"names no colour"}, "bring-in", file, "--by", "colour", "--line", "green=S")
}
