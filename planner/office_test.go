package planner_test

import (
	"bytes"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/stash/list"
)

// TestWholeLibraryOpensInSpreadsheetProgram: every sheet of a library that is written out
// has the same cells once the spreadsheet program of Debian's libreoffice-calc has
// opened it and saved it as CSV, with formulas shown as such.
func TestWholeLibraryOpensInSpreadsheetProgram(t *testing.T) {
	s, _ := exported(t)
	if err := s.SaveFabric(ctx, stash.Fabric{Name: "=1+1", FullWidth: 150 * cm, Construction: stash.Jersey, Notes: "@home, \"60\"\n-5", Care: "+30 °C"}); err != nil {
		t.Fatal(err)
	}
	tables, err := s.ExportAll(ctx)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "all.xlsx")
	if _, err := table.Save(path, tables, table.CSV{}); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("soffice", "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless", "--norestore",
		"--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,1033,false,true,false,true,false,-1", "--outdir", dir, path)
	cmd.Env = append(os.Environ(), "HOME="+dir)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("soffice (Debian package libreoffice-calc): %v\n%s", err, said)
	}
	for _, want := range tables {
		data, err := os.ReadFile(filepath.Join(dir, "all-"+want.Name+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		r := csv.NewReader(bytes.NewReader(data))
		got, err := r.ReadAll()
		if err != nil || len(got) != len(want.Rows) {
			t.Fatalf("%s: %d rows of %d, %v", want.Name, len(got), len(want.Rows), err)
		}
		for i, row := range want.Rows {
			for k, c := range row {
				if !sameAsShown(c, got[i][k]) {
					t.Errorf("%s, row %d: %q became %q", want.Name, i+1, c.Text, got[i][k])
				}
			}
		}
	}
}

// sameAsShown compares numbers as numbers, all else letter by letter.
func sameAsShown(want list.Cell, got string) bool {
	if want.Kind == list.Number && want.Text != "" {
		a, err1 := strconv.ParseFloat(want.Text, 64)
		b, err2 := strconv.ParseFloat(got, 64)
		return err1 == nil && err2 == nil && a == b
	}
	return strings.ReplaceAll(got, "\r\n", "\n") == want.Text
}
