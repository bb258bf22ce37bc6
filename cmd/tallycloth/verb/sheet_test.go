package verb_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestSheet writes a cutting sheet, its layout in full size and pattern pieces, and refuses what
// cannot be.
func TestSheet(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--fibres", "95% cotton 5% elastane")
	d.done("reserve", code, "--garment", "June", "--pattern", tank, "--size", "4")
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	var a struct {
		File, Paper string
		Sheets      int
		Arrows      []struct {
			Code, Name, Size string
			Number           int
			Foot             [2]float64 `json:"foot_mm"`
			Head             [2]float64 `json:"head_mm"`
			From             string     `json:"across_from"`
		}
	}
	d.answer(&a, "sheet", "June", "--to", at("june.pdf"))
	if a.Sheets < 1 || a.Paper != "A4" || len(a.Arrows) < 2 {
		t.Fatalf("%+v", a)
	}
	for _, r := range a.Arrows {
		if r.Code != code || r.Foot == r.Head || r.From == "" || r.Foot[1] != r.Head[1] { // all lie on the straight grain
			t.Errorf("%+v", r)
		}
	}
	text, err := exec.Command("pdftotext", "-layout", at("june.pdf"), "-").CombinedOutput()
	if err != nil {
		t.Fatalf("pdftotext (poppler-utils): %v\n%s", err, text)
	}
	for _, want := range []string{"Cutting sheet: June", "size 4", "Rest the cloth flat", "Grain arrows on " + code, "Marks to transfer", "Seams:", "Will be left", "Needle", "Rotary cutters", a.Arrows[0].Name, "page 1 of"} {
		if !bytes.Contains(text, []byte(want)) {
			t.Errorf("no %q on the sheet", want)
		}
	}
	d.answer(&a, "sheet", "--cloth", code, "--paper", "letter", "--to", at("cloth.pdf"))
	if a.Paper != "Letter" {
		t.Errorf("%+v", a)
	}
	d.answer(&a, "sheet", "June", "--full", "--paper", "a3", "--line", "0.3 mm", "--grid", "10 cm", "--overlap", "1.5 cm", "--to", at("full.pdf"))
	if a.Sheets < 4 {
		t.Errorf("%d sheets of A3", a.Sheets)
	}
	d.answer(&a, "sheet", "--pattern", tank, "--size", "4", "--one-page", "--to", at("pieces.pdf"))
	if a.Sheets != 1 {
		t.Errorf("%d sheets for one page", a.Sheets)
	}
	d.answer(&a, "sheet", "June", "--full", "--to", at("full.svg"))
	if b, err := os.ReadFile(at("full.svg")); err != nil || !bytes.Contains(b, []byte("<svg")) {
		t.Errorf("%d bytes, %v", len(b), err)
	}
	d.answer(&a, "sheet", "June", "--full", "--to", at("full.dxf"))
	if b, err := os.ReadFile(at("full.dxf")); err != nil || !bytes.Contains(b, []byte("ENTITIES")) {
		t.Errorf("%d bytes, %v", len(b), err)
	}
	for want, args := range map[string][]string{
		"there already":       {"sheet", "June", "--to", at("june.pdf")},
		"no folder":           {"sheet", "June", "--to", filepath.Join(folder, "gone", "june.pdf")},
		"end in .pdf":         {"sheet", "June", "--to", at("june.txt")},
		"No file":             {"sheet", "June"},
		"no paper":            {"sheet", "June", "--paper", "a0", "--to", at("x.pdf")},
		"No garment":          {"sheet", "--to", at("x.pdf")},
		"project sheet":       {"sheet", "--project", "--to", at("x.pdf")},
		"No batch":            {"sheet", "--by-cloth", "--to", at("x.pdf")},
		"no outlines":         {"sheet", "--pattern", tank, "--size", "4", "--piece", "Z", "--to", at("x.pdf")},
		"--grid":              {"sheet", "June", "--full", "--grid", "wide", "--to", at("x.pdf")},
		"overlap less":        {"sheet", "June", "--full", "--overlap", "18 cm", "--to", at("x.pdf")},
		"Nothing is reserved": {"sheet", "--cloth", d.log(jersey, "1 m"), "--to", at("x.pdf")},
	} {
		r := d.run(args...)
		if r.code == 0 || !strings.Contains(r.err, want) {
			t.Errorf("%v: %q", args, r.err)
		}
	}
	if files, err := os.ReadDir(folder); err != nil || len(files) != 6 {
		t.Errorf("%d files, %v", len(files), err)
	}
}

// TestSheetLists writes the other lists of cutting day: cut list, project sheet, and a batch by cloth.
func TestSheetLists(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "3 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--fibres", "95% cotton 5% elastane")
	d.done("reserve", code, "--garment", "June", "--pattern", tank, "--size", "4")
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	list := at("spring.csv")
	if err := os.WriteFile(list, []byte("pattern,size,count\n"+tank+",4,2\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if r := d.run("batch", "plan", list, "--whole-lengths", "--rounds", "1", "--name", "spring"); r.code != 0 {
		t.Fatal(r.err)
	}
	var a struct {
		File, Paper string
		Sheets      int
		Arrows      []any
	}
	for name, try := range map[string]struct {
		args  []string
		wants []string
	}{
		"cut.pdf":     {[]string{"June", "--cut-list"}, []string{"Cut list: June", code, "in all"}},
		"project.pdf": {[]string{"June", "--project", "--paper", "letter"}, []string{"Project sheet: June", "Measurements", "Order of work"}},
		"batch.pdf":   {[]string{"--batch", "spring", "--by-cloth"}, []string{"Batch by cloth: spring", code, "no. 2"}},
		"sheet.pdf":   {[]string{"--batch", "spring"}, []string{"Cutting sheet: spring", "Grain arrows on " + code}},
		"tick.pdf":    {[]string{"--batch", "spring", "--cut-list"}, []string{"Cut list: spring", "4  in all"}},
		"full.pdf":    {[]string{"--batch", "spring", "--full", "--paper", "a0"}, []string{"10 cm a side", "spring on " + code}},
	} {
		d.answer(&a, append(append([]string{"sheet"}, try.args...), "--to", at(name))...)
		text, err := exec.Command("pdftotext", "-layout", at(name), "-").CombinedOutput()
		if err != nil || a.Sheets < 1 {
			t.Fatalf("pdftotext (poppler-utils): %v\n%s", err, text)
		}
		for _, want := range try.wants {
			if !bytes.Contains(bytes.Join(bytes.Fields(text), []byte(" ")), []byte(strings.Join(strings.Fields(want), " "))) {
				t.Errorf("%s has no %q:\n%s", name, want, text)
			}
		}
	}
}
