package planner_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/demo"
	"tallycloth/planner/exchange/table"
	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
)

const shelfList = `Fabric;Type;Full width;Length;Lot;Price;Bought on;Code
Moss jersey;jersey;150 cm;1,50 m;A7;12,50;02.03.2026;M1
Moss jersey;;;0,75;B2;6,25;02.03.2026;
Fog terry;French terry;170 cm;2;;20,00;31.02.2026;
Slate ponte;ponte;148 cm;1,2;;;;
`

func readList(t testing.TB, s *planner.Studio, data string) (planner.ListDraft, list.Result) {
	t.Helper()
	d, err := s.ReadList(ctx, "shelf.csv", []byte(data), "")
	if err != nil {
		t.Fatal(err)
	}
	r, err := s.PlanList(ctx, d)
	if err != nil {
		t.Fatal(err)
	}
	return d, r
}

func holds(t testing.TB, s *planner.Studio) (fabrics, cloths, purchases int) {
	t.Helper()
	f, err1 := s.Fabrics(ctx)
	c, err2 := s.Cloths(ctx)
	p, err3 := s.Purchases(ctx)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	return len(f), len(c), len(p)
}

// TestImportList: a dry run writes nothing, a refused row stops the list until it is left
// out, all else comes in as one act, and one undo takes all of it back.
func TestImportList(t *testing.T) {
	s := studio(t)
	d, r := readList(t, s, shelfList)
	if f, c, p := holds(t, s); f+c+p > 0 {
		t.Fatal("the dry run wrote something")
	}
	if r.Refused != 1 || len(r.Cloths) != 3 || r.NewFabrics != 2 || r.Rows[2].Line != 4 {
		t.Fatalf("%+v", r.Rows)
	}
	if _, err := s.ImportList(ctx, d, r, false); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "Line 4") || !strings.Contains(err.Error(), "no day 31") {
		t.Errorf("a refused row: %v", err)
	}
	act, err := s.ImportList(ctx, d, r, true)
	if err != nil || act.Sentence != "Brought in 3 lengths, 2 new fabrics from shelf.csv" {
		t.Fatalf("%+v, %v", act, err)
	}
	if f, c, p := holds(t, s); f != 2 || c != 3 || p != 2 {
		t.Errorf("%d fabrics, %d cloths, %d purchases", f, c, p)
	}
	m1, err := s.ClothByCode(ctx, "M1")
	if err != nil || m1.Cloth.Length != 150*cm || m1.Cloth.Lot != "A7" || m1.Area != m1.Cloth.Area() {
		t.Errorf("%+v, %v", m1, err)
	}
	lines, err := s.Movements(ctx, m1.Cloth.ID)
	if err != nil || len(lines) != 1 || lines[0].Kind != stash.Bought {
		t.Errorf("%+v, %v", lines, err)
	}
	if _, err := s.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	if f, c, p := holds(t, s); f+c+p != 0 {
		t.Errorf("after undo %d fabrics, %d cloths, %d purchases", f, c, p)
	}
}

// TestListAgain: a list that was brought in before says so at every row.
func TestListAgain(t *testing.T) {
	s := studio(t)
	d, r := readList(t, s, shelfList)
	if _, err := s.ImportList(ctx, d, r, true); err != nil {
		t.Fatal(err)
	}
	_, again := readList(t, s, shelfList)
	if again.NewFabrics != 0 || again.Rows[0].Outcome != list.Refused || !strings.Contains(again.Rows[0].Why[0], "M1") {
		t.Errorf("%+v", again.Rows[0])
	}
	for _, i := range []int{1, 3} {
		if said := strings.Join(again.Rows[i].Remarks, " "); !strings.Contains(said, "has such cloth already") {
			t.Errorf("line %d says %q", again.Rows[i].Line, said)
		}
	}
}

// TestLibraryChangedMeanwhile: rows that would become something else than shown are not written.
func TestLibraryChangedMeanwhile(t *testing.T) {
	s := studio(t)
	d, r := readList(t, s, shelfList)
	if err := s.SaveFabric(ctx, stash.Fabric{Name: "Moss Jersey", Construction: stash.Jersey, FullWidth: 150 * cm}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.ImportList(ctx, d, r, true); !errors.Is(err, stash.ErrConflict) || !strings.Contains(err.Error(), "changed") {
		t.Errorf("%v", err)
	}
	if f, c, _ := holds(t, s); f != 1 || c != 0 {
		t.Errorf("%d fabrics, %d cloths", f, c)
	}
}

// TestLeaveRowsOut: rows the person leaves out are not read; the others keep their lines.
func TestLeaveRowsOut(t *testing.T) {
	s := studio(t)
	d, _ := readList(t, s, shelfList)
	d.Skip = map[int]bool{2: true, 3: true}
	r, err := s.PlanList(ctx, d)
	if err != nil || !r.OK() || len(r.Rows) != 2 || r.Rows[0].Line != 2 || r.Rows[1].Line != 5 {
		t.Fatalf("%+v, %v", r.Rows, err)
	}
	if d.Skip = map[int]bool{1: true, 2: true, 3: true, 4: true}; len(d.Book.Table.Rows) != 5 {
		t.Error("the list itself was changed")
	}
	if r, err = s.PlanList(ctx, d); err != nil || !r.Empty() {
		t.Errorf("%+v, %v", r, err)
	}
	if _, err := s.ImportList(ctx, d, r, true); err == nil {
		t.Error("nothing was brought in without a word")
	}
}

// exported is the demo studio, and what it is written out as.
func exported(t testing.TB) (*planner.Studio, []list.Table) {
	t.Helper()
	s := studio(t)
	if err := demo.Fill(ctx, s); err != nil {
		t.Fatal(err)
	}
	tables, err := s.ExportAll(ctx)
	if err != nil {
		t.Fatal(err)
	}
	return s, tables
}

// TestExportThenImport: the stash of a library, written out as a workbook or as text with
// points or commas and brought into an empty one, is the same stash.
func TestExportThenImport(t *testing.T) {
	_, tables := exported(t)
	want := cells(tables[0])
	for name, write := range map[string]func(*bytes.Buffer) error{
		"workbook": func(b *bytes.Buffer) error { return table.WriteXLSX(b, tables) },
		"points":   func(b *bytes.Buffer) error { return table.WriteCSV(b, tables[0], table.CSV{}) },
		"commas":   func(b *bytes.Buffer) error { return table.WriteCSV(b, tables[0], table.CSV{Comma: true}) },
	} {
		var file bytes.Buffer
		if err := write(&file); err != nil {
			t.Fatal(err)
		}
		other := studio(t)
		d, r := readList(t, other, file.String())
		for _, row := range r.Rows {
			for _, said := range append(row.Why, row.Remarks...) {
				if !strings.Contains(said, "that it was cut from it is kept as a note") { // of cloth that is gone
					t.Errorf("%s, line %d: %s", name, row.Line, said)
				}
			}
		}
		if _, err := other.ImportList(ctx, d, r, false); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		again, err := other.ExportAll(ctx)
		if err != nil {
			t.Fatal(err)
		}
		got := cells(again[0])
		for i := range max(len(want), len(got)) {
			if i >= len(want) || i >= len(got) || want[i] != got[i] {
				t.Fatalf("%s: row %d of %d and %d differs:\n%s\n%s", name, i, len(want), len(got), want[min(i, len(want)-1)], got[min(i, len(got)-1)])
			}
		}
	}
}

var cutFrom = regexp.MustCompile(`(; )?cut from \w+$`)

// cells are the rows of the stash but for the numbers of purchases, which follow from
// IDs where two are of one day, and the codes of cloth that is gone, which become notes.
func cells(t list.Table) []string {
	var out []string
	for _, row := range t.Rows {
		var b strings.Builder
		for k, c := range row {
			if h := list.Field(t.Rows[0][k].Text); h != list.PurchaseNo && h != list.CutFrom {
				fmt.Fprintf(&b, "%s|", cutFrom.ReplaceAllString(c.Text, ""))
			}
		}
		out = append(out, b.String())
	}
	return out
}

// TestExportAll: everything is there, and what the history adds up to is what is on the shelf.
func TestExportAll(t *testing.T) {
	s, tables := exported(t)
	rows := map[string][][]list.Cell{}
	for _, x := range tables {
		rows[x.Name] = x.Rows[1:]
		for i, r := range x.Rows {
			if len(r) > len(x.Rows[0]) {
				t.Errorf("%s, row %d is longer than its heading", x.Name, i)
			}
		}
	}
	f, c, _ := holds(t, s)
	bought := 0 // a purchase has a row for each of its lines
	purchases, _ := s.Purchases(ctx)
	for _, p := range purchases {
		bought += len(p.Lines)
	}
	garments, _ := s.Garments(ctx)
	patterns, _ := s.Patterns(ctx)
	notions, _ := s.Notions(ctx)
	lines, _ := s.Movements(ctx, stash.NoID)
	cloths, _ := s.Cloths(ctx)
	for name, want := range map[string]int{"Purchases": bought, "History": len(lines), "Patterns": len(patterns), "Garments": len(garments), "Notions": len(notions)} {
		if len(rows[name]) != want || want == 0 {
			t.Errorf("%s has %d rows of %d", name, len(rows[name]), want)
		}
	}
	if n := len(rows["Stash"]); n < max(f, c) || n > f+c {
		t.Errorf("%d rows for %d fabrics and %d cloths", n, f, c)
	}
	for _, x := range cloths {
		sum := measure.Length(0)
		for i, m := range lines {
			if m.ClothID != x.Cloth.ID {
				continue
			}
			row := rows["History"][i]
			l, err := measure.ParseLength(strings.TrimPrefix(row[6].Text, "-"), measure.Centimetre)
			if err != nil || row[4].Text != x.Cloth.Code || row[5].Text != x.Fabric.Name {
				t.Fatalf("%+v, %v", row, err)
			}
			if strings.HasPrefix(row[6].Text, "-") {
				l = -l
			}
			sum += l
		}
		if x.Cloth.Plain() && sum != x.Cloth.LengthThere() {
			t.Errorf("the history of %s adds up to %d, not %d", x.Cloth.Code, sum, x.Cloth.Length)
		}
	}
	if len(rows["Reserved"]) == 0 || !slices.ContainsFunc(rows["Reserved"], func(r []list.Cell) bool { return r[2].Text != "" && r[4].Text != "" }) {
		t.Errorf("%+v", rows["Reserved"])
	}
}

// TestGoneClothIsWrittenOut: and cloth whose coming was taken back is no record any more.
func TestGoneClothIsWrittenOut(t *testing.T) {
	s := studio(t)
	a, b := bought(t, s, 160*cm), bought(t, s, 90*cm)
	if err := s.GiveAway(ctx, a.Cloth.ID, "to a class"); err != nil {
		t.Fatal(err)
	}
	tables, err := s.ExportAll(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if gone := tables[1]; gone.Name != "Gone" || len(gone.Rows) != 2 || gone.Rows[1][0].Text != a.Cloth.Code || gone.Rows[1][2].Text != "160" {
		t.Errorf("%+v", gone)
	}
	if shelf := tables[0]; len(shelf.Rows) != 2 || shelf.Rows[1][3].Text != b.Cloth.Code {
		t.Errorf("%+v", shelf.Rows)
	}
}

func TestImportStops(t *testing.T) {
	s := studio(t)
	d, _ := readList(t, s, shelfList)
	stopped, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := s.PlanList(stopped, d); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// longList is a list of n rows as a person may keep it, of n/4 fabrics.
func longList(n int) []byte {
	var b bytes.Buffer
	b.WriteString("Stoff;Art;Zusammensetzung;Breite in cm;Länge (m);Gewicht;Preis;Kaufdatum;Partie;Laden\n")
	for i := range n {
		fmt.Fprintf(&b, "Stoff %d;Jersey;95 %% Baumwolle, 5 %% Elasthan;15%d;%d,%02d;18%d;1%d,50 €;%02d.%02d.2026;P%d;Markt\n", i/4, i/4%10, 1+i%5, i%100, i/4%10, i%10, 1+i%28, 1+i%4, i%4)
	}
	return b.Bytes()
}

// BenchmarkImport100k reads a list of 100 000 rows and tries every row of it.
func BenchmarkImport100k(b *testing.B) {
	data := longList(100_000)
	s := studio(b)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		d, err := s.ReadList(ctx, "long.csv", data, "")
		if err != nil {
			b.Fatal(err)
		}
		r, err := s.PlanList(ctx, d)
		if err != nil || len(r.Cloths) != 100_000 || r.Refused > 0 {
			b.Fatalf("%v, %d cloths, %d refused", err, len(r.Cloths), r.Refused)
		}
	}
}

// BenchmarkImport100kWorkbook is the same of a workbook.
func BenchmarkImport100kWorkbook(b *testing.B) {
	book, err := table.Read(ctx, longList(100_000), table.Options{})
	if err != nil {
		b.Fatal(err)
	}
	var file bytes.Buffer
	if err := table.WriteXLSX(&file, []list.Table{book.Table}); err != nil {
		b.Fatal(err)
	}
	s := studio(b)
	for b.Loop() {
		d, err := s.ReadList(ctx, "long.xlsx", file.Bytes(), "")
		if err != nil {
			b.Fatal(err)
		}
		r, err := s.PlanList(ctx, d)
		if err != nil || len(r.Cloths) != 100_000 || r.Refused > 0 {
			b.Fatalf("%v, %d cloths, %d refused", err, len(r.Cloths), r.Refused)
		}
	}
}
