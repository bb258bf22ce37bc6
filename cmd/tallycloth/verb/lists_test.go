package verb_test

import (
	"archive/zip"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

const ownList = `My stash
Stoff;Art;Breite;Menge;Preis pro Meter;gekauft;Sterne
Moosjersey;Jersey;150;1,25;12,50 €;02.03.2026;4
Moosjersey;;;0,75;;;
Nebelterry;French Terry;170;2;;31.02.2026;
`

// list writes a list beside the library.
func (d *desk) list(text string) string {
	d.t.Helper()
	path := filepath.Join(d.t.TempDir(), "stash.csv")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		d.t.Fatal(err)
	}
	return path
}

// imported is what import says with --json.
type imported struct {
	Columns []struct {
		Column                        int
		Heading, Unit, Decimals, Days string
		ReadAs                        string `json:"read_as"`
		Assumed                       bool   `json:"unit_is_assumed"`
	}
	Questions []struct {
		Column  int
		What    string
		Do      string
		Choices []string
	}
	Rows []struct {
		Line          int
		Outcome, Says string
		Why, Remarks  []string
	}
	Warnings        []string
	Cloths, Refused int
	NewFabrics      int `json:"new_fabrics"`
	ChangedFabrics  int `json:"changed_fabrics"`
	Written         bool
}

func TestImportIsADryRunFirst(t *testing.T) {
	d := newDesk(t)
	path := d.list(ownList)
	said := d.done("import", path)
	for _, want := range []string{"New fabric Moosjersey", "line 5:", "no day 31", "Another length of Moosjersey", "nothing was written", "--leave-out --write"} {
		if !strings.Contains(said, want) {
			t.Errorf("the dry run lacks %q:\n%s", want, said)
		}
	}
	if _, err := os.Stat(d.folder); !errors.Is(err, fs.ErrNotExist) {
		t.Error("a dry run made a library")
	}
	d.refused(verb.Failed, []string{"Line 5", "no day 31", "leave out"}, "import", path, "--write")
	var got imported
	d.answer(&got, "import", path, "--write", "--leave-out")
	if !got.Written || got.Cloths != 2 || got.NewFabrics != 1 || got.Refused != 1 || got.Rows[2].Line != 5 {
		t.Errorf("%+v", got)
	}
	if rows := d.done("list", "cloth"); strings.Count(rows, "Moosjersey") != 2 {
		t.Error(rows)
	}
	if undone := d.done("undo"); !strings.Contains(undone, "stash.csv") || strings.Contains(d.done("list", "cloth"), "Moos") {
		t.Errorf("one undo does not take all of it back: %s", undone)
	}
}

// TestImportCorrected: what was guessed can be said otherwise.
func TestImportCorrected(t *testing.T) {
	d := newDesk(t).made()
	path := d.list("name,a,b,c\nMoss,1.250,3/4/2025,60\nFern,2.500,4/4/2025,60\n")
	var got imported
	d.answer(&got, "import", path, "--column", "A=length, m, point", "--column", "3=bought on, month first", "--column", "c=full width, in", "--every", "construction=jersey", "--skip", "3")
	if got.Refused != 0 || len(got.Questions) != 0 || len(got.Rows) != 1 || !strings.Contains(got.Rows[0].Says, "1.25 m × 152.5 cm") || got.Columns[2].Days != "month first" || got.Columns[3].Unit != "in" {
		t.Errorf("%+v", got)
	}
	d.answer(&got, "import", path, "--headings", "0")
	if len(got.Rows) != 3 || got.Written {
		t.Errorf("without headings: %+v", got.Rows)
	}
	for _, c := range []struct {
		words []string
		args  []string
	}{
		{[]string{"No column is headed", "1 to 4"}, []string{"--column", "z=length"}},
		{[]string{"nothing a column can be"}, []string{"--column", "a=size"}},
		{[]string{"does not say a column"}, []string{"--column", "length"}},
		{[]string{"cannot be said of length"}, []string{"--column", "a=length, kg"}},
		{[]string{"line 9"}, []string{"--skip", "9"}},
		{[]string{"line 9"}, []string{"--headings", "9"}},
		{[]string{"full width=150 cm"}, []string{"--every", "width is 3"}},
		{[]string{"full width", "cannot be read"}, []string{"--every", "full width=wide"}},
	} {
		d.refused(verb.Mistyped, c.words, append([]string{"import", path}, c.args...)...)
	}
	d.refused(verb.Mistyped, []string{"cannot be read"}, "import", filepath.Join(t.TempDir(), "none.csv"))
	d.refused(verb.Mistyped, []string{"cut off"}, "import", d.list("a,b\n\"x"))
}

// TestExportForms: each form has all the lists; nothing that is there is replaced.
func TestExportForms(t *testing.T) {
	d := newDesk(t)
	d.done("demo")
	folder := t.TempDir()
	lists := []string{"garments.csv", "gone.csv", "history.csv", "notion-history.csv", "notions.csv", "patterns.csv", "purchases.csv", "reserved.csv", "stash.csv"}
	for _, name := range []string{"all.xlsx", "all.zip", "stash.csv", "lists"} {
		d.done("export", filepath.Join(folder, name))
		d.refused(verb.Mistyped, []string{"is there already"}, "export", filepath.Join(folder, name))
	}
	inFolder, err := filepath.Glob(filepath.Join(folder, "lists", "*"))
	if err != nil || len(inFolder) != len(lists) {
		t.Errorf("%v, %v", inFolder, err)
	}
	z, err := zip.OpenReader(filepath.Join(folder, "all.zip"))
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	var names []string
	for _, f := range z.File {
		names = append(names, f.Name)
	}
	if slices.Sort(names); !slices.Equal(names, lists) {
		t.Errorf("%v", names)
	}
	d.refused(verb.Mistyped, []string{".xlsx"}, "export", filepath.Join(folder, "all.ods"))
	if _, err := os.Stat(filepath.Join(folder, "all.ods")); !errors.Is(err, fs.ErrNotExist) {
		t.Error("a file that could not be written is there")
	}
}

// TestExportThenImportElsewhere: what one library writes out another brings in, with
// decimal points and with commas.
func TestExportThenImportElsewhere(t *testing.T) {
	a := newDesk(t)
	a.done("demo")
	for name, more := range map[string][]string{"stash.xlsx": nil, "stash.csv": {"--comma"}} {
		b := newDesk(t)
		path := filepath.Join(t.TempDir(), name)
		a.done(append([]string{"export", path}, more...)...)
		b.done("import", path, "--write")
		// The program's reservations do not travel, so that what is free differs.
		if one, two := firstColumns(a.done("list", "cloth")), firstColumns(b.done("list", "cloth")); one != two {
			t.Errorf("%s:\n%s\n%s", name, one, two)
		}
		if one, two := a.done("list", "fabrics", "--json"), b.done("list", "fabrics", "--json"); one != two {
			t.Errorf("%s:\n%s\n%s", name, one, two)
		}
	}
}

func firstColumns(text string) string {
	var out []string
	for _, l := range strings.Split(text, "\n") {
		out = append(out, strings.Join(strings.Fields(l)[:min(4, len(strings.Fields(l)))], " "))
	}
	return strings.Join(out, "\n")
}
