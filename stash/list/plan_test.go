package list_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
	"tallycloth/stash/stashtest"
)

const (
	today = stash.Date("2026-05-04")
	cm    = measure.Centimetre
)

// lines makes a table of lines with a bar between cells.
func lines(text string) list.Table {
	var rows [][]string
	for _, l := range strings.Split(strings.Trim(text, "\n"), "\n") {
		cells := strings.Split(l, "|")
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		rows = append(rows, cells)
	}
	return list.TableOf(rows)
}

func plan(t *testing.T, table list.Table, known list.Known, change func(*list.Mapping)) list.Result {
	t.Helper()
	m := list.Guess(table, measure.Metric, "EUR")
	if change != nil {
		change(&m)
	}
	r, err := list.Plan(table, m, known, stashtest.IDs(), today)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func clean(t *testing.T, r list.Result) {
	t.Helper()
	for _, q := range r.Questions {
		t.Errorf("asks %s: %s", q.What, q.Do)
	}
	for _, row := range r.Rows {
		if row.Outcome == list.Refused {
			t.Errorf("line %d: %s", row.Line, strings.Join(row.Why, " "))
		}
	}
}

func TestEnglishList(t *testing.T) {
	r := plan(t, lines(`
My stash, spring | | | | | | | | |
Fabric | Type | Fiber content | Width | Length | Price per m | Date bought | Shop | Prewashed | Rating
Moss jersey | jersey | 95% cotton, 5% spandex | 150 cm | 1 1/2 yd | $12.00 | 3/14/2026 | the corner stall | yes | 4
moss  jersey | | | | 0.75 m | | 4/2/2026 | | no |
Brick rib | ribbing | cotton 100 | 48" tube | 60 cm | 8 | 4/3/2026 | market | x |
`), list.Known{}, nil)
	if len(r.Rows) != 3 || r.Rows[2].Outcome != list.Refused || !strings.Contains(r.Rows[2].Why[0], "Width") {
		t.Fatalf("%+v", r.Rows)
	}
	a, b := r.Cloths[0], r.Cloths[1]
	if len(r.Fabrics) != 1 || a.Length != 3*measure.Yard/2 || b.Length != 75*cm || a.FabricID != b.FabricID || !a.Washed || b.Washed || !a.RawStart || !a.SelvedgeLow {
		t.Errorf("%+v", r.Cloths)
	}
	f := r.Fabrics[0]
	if f.Construction != stash.Jersey || f.FullWidth != 150*cm || f.Fibres.String() != "95 % cotton, 5 % elastane" || f.Direction != stash.SameWayInGarment {
		t.Errorf("%+v", f)
	}
	if a.Notes != "Rating: 4" {
		t.Errorf("what is not understood is a note: %q", a.Notes)
	}
	// 12.00 USD × 1.3716 m = 16.4592, rounded half up.
	if p := r.Purchases[0]; p.Date != "2026-03-14" || p.Lines[0].Price != (measure.Money{Minor: 1646, Currency: "USD"}) || p.Supplier != "the corner stall" {
		t.Errorf("%+v", p)
	}
	if r.Purchases[1].Date != "2026-04-02" {
		t.Errorf("14 in the first day says that months come first: %s", r.Purchases[1].Date)
	}
	if r.Rows[0].Outcome != list.MakesFabric || r.Rows[1].Outcome != list.MakesLength || r.Rows[0].Line != 3 {
		t.Errorf("%+v", r.Rows[:2])
	}
}

func TestGermanList(t *testing.T) {
	r := plan(t, lines(`
Stoff | Stoffart | Zusammensetzung | Breite in cm | Länge (m) | Gewicht | Preis | Kaufdatum | Partie
Moosjersey | Jersey | 95 % Baumwolle, 5 % Elasthan | 150 | 1,25 | 1.180 | 1.234,50 € | 02.03.26 | A7
Moosjersey | Jersey | 95 % Baumwolle, 5 % Elasthan | 150 | 2,5 | 180 | 18,60 | 4. März 2026 | B2
Bündchen grau | Rippe | Baumwolle | 60,5 | 0,5 | 230 | | |
`), list.Known{}, nil)
	clean(t, r)
	if len(r.Fabrics) != 2 || len(r.Cloths) != 3 || len(r.Purchases) != 2 {
		t.Fatalf("%d fabrics, %d cloths, %d purchases", len(r.Fabrics), len(r.Cloths), len(r.Purchases))
	}
	if f := r.Fabrics[0]; f.Weight != 1180*measure.GramPerSquareMetre || r.Cloths[0].Length != 125*cm {
		t.Errorf("weight %d, length %d: the commas of the other columns say what 1.180 is", f.Weight, r.Cloths[0].Length)
	}
	if p := r.Purchases[0]; p.Lines[0].Price != (measure.Money{Minor: 123450, Currency: "EUR"}) || p.Date != "2026-03-02" || r.Purchases[1].Date != "2026-03-04" {
		t.Errorf("%+v", r.Purchases)
	}
	if r.Rows[1].Outcome != list.MakesLot || r.Fabrics[1].Construction != stash.Rib || r.Fabrics[1].FullWidth != 605*measure.Millimetre {
		t.Errorf("%+v %+v", r.Rows[1], r.Fabrics[1])
	}
}

func TestAsksWhatNothingDecides(t *testing.T) {
	table := lines(`
fabric | length (cm) | full width (cm) | date
Oat jersey | 1.250 | 150 | 3/4/2026
Oat jersey | 90 | 150 | 4/4/2026
`)
	r := plan(t, table, list.Known{}, nil)
	if len(r.Questions) != 2 || r.Refused != 1 || len(r.Rows[0].Why) != 2 || len(r.Cloths) != 1 {
		t.Fatalf("%+v, %+v", r.Questions, r.Rows)
	}
	r = plan(t, table, list.Known{}, func(m *list.Mapping) {
		m.Columns[1].Decimal, m.Columns[3].Order = list.Comma, list.MonthFirst
	})
	clean(t, r)
	if r.Cloths[0].Length != 1250*cm || r.Purchases[0].Date != "2026-03-04" {
		t.Errorf("%d, %s", r.Cloths[0].Length, r.Purchases[0].Date)
	}
}

func TestKnownFabricGetsAnotherLength(t *testing.T) {
	moss := stash.Fabric{ID: stashtest.IDs()(), Name: "Moss jersey", Construction: stash.Jersey, FullWidth: 150 * cm}
	moss.ID[0] = 9
	known := list.Known{Fabrics: []stash.Fabric{moss}, Lots: map[stash.ID][]string{moss.ID: {"A7"}},
		ClothByCode: func(c string) (stash.ID, bool) { return moss.ID, c == "K7PD" }}
	r := plan(t, lines(`
fabric | code | length | full width | lot | fibres
MOSS JERSEY | | 1.5 m | 150 cm | A7 | cotton
Moss jersey | | 1 m | 155 cm | B2 |
Moss jersey | K7PD | 1 m | | |
Moss jersey | M1 | 1 m | | |
Moss jersey | M1 | 1 m | | |
`), known, nil)
	var got []list.Outcome
	for _, row := range r.Rows {
		got = append(got, row.Outcome)
	}
	if want := []list.Outcome{list.MakesLength, list.MakesLot, list.Refused, list.MakesLength, list.Refused}; !slices.Equal(got, want) {
		t.Fatalf("%v", got)
	}
	if r.NewFabrics != 0 || r.Changed != 1 || len(r.Fabrics) != 1 || r.Fabrics[0].Fibres.String() != "100 % cotton" || r.Fabrics[0].ID != moss.ID {
		t.Errorf("%+v", r.Fabrics)
	}
	if len(r.Rows[1].Remarks) != 1 || !strings.Contains(r.Rows[1].Remarks[0], "full width") || r.Fabrics[0].FullWidth != 150*cm {
		t.Errorf("what the library knows stays, and is said: %+v", r.Rows[1])
	}
}

func TestSeveralInOnePurchase(t *testing.T) {
	r := plan(t, lines(`
fabric | length | width | price | postage | currency | order | bought on
Fog terry | 2 m | 170 | 30.00 | 5.95 | gbp | 17 | 2026-01-05
Fox fleece | 1 m | 170 | 11.50 | 5.95 | GBP | 17 | 2026-01-05
Slate ponte | 1 m | 150 | 1800 | | JPY | 18 | 2026-01-06
Coal mesh | 1 m | 150 | 3.00 | 4.00 | GBP | 17 | 2026-01-05
Coal net | 1 m | 150 | 3.00 | | GBP | 19 |
`), list.Known{}, nil)
	if len(r.Purchases) != 3 || len(r.Purchases[0].Lines) != 2 || r.Purchases[0].Postage != (measure.Money{Minor: 595, Currency: "GBP"}) {
		t.Fatalf("%+v", r.Purchases)
	}
	if r.Purchases[1].Lines[0].Price != (measure.Money{Minor: 1800, Currency: "JPY"}) {
		t.Errorf("%+v", r.Purchases[1])
	}
	if r.Rows[3].Outcome != list.Refused || !strings.Contains(r.Rows[3].Why[0], "postage") {
		t.Errorf("another postage in one purchase: %+v", r.Rows[3])
	}
	if p := r.Purchases[2]; p.Date != today || p.Notes == "" || len(r.Rows[4].Remarks) == 0 {
		t.Errorf("a purchase without its day says so: %+v", p)
	}
}

// The full width of a tube may be written as it lies, twice.
func TestTubeInACell(t *testing.T) {
	r := plan(t, list.TableOf([][]string{{"fabric", "length", "full width"}, {"Heron rib", "1 m", "2 x 50 cm"}}), list.Known{}, nil)
	if len(r.Rows) != 1 || r.Rows[0].Outcome == list.Refused || len(r.Fabrics) != 1 || !r.Fabrics[0].Tubular || r.Fabrics[0].FullWidth != 50*measure.Centimetre {
		t.Errorf("%+v", r)
	}
}

// TestBadCells: each says what is wrong in a sentence that names the column.
func TestBadCells(t *testing.T) {
	for _, c := range []struct{ column, cell, want string }{
		{"bought on", "31.02.2026", "no day 31"},
		{"bought on", "2026-13-01", "no month 13"},
		{"bought on", "2062-01-01", "future"},
		{"bought on", "0026-01-01", "too long ago"},
		{"bought on", "yesterday", "is not a day"},
		{"length", "three", "no number"},
		{"length", "2 x 1 m", "no unit"},
		{"length", "-1 m", "negative"},
		{"full width", "1.2.3", "decimal sign"},
		{"full width", "900 m", "wider"},
		{"fibres", "90% cotton 7% elastane", "missing"},
		{"weight", "heavy", "no number"},
		{"price", "12.505 EUR", "decimals"},
		{"price", "12 XYZ", "no currency"},
		{"washed", "maybe", "neither yes nor no"},
		{"stretch across", "1200 %", "more than 1000"},
		{"direction", "up", "no direction"},
		{"colour code", "green", "not a colour"},
		{"outline", "POLYGON ((0 0, 1 1))", "no outline"},
	} {
		head := map[string]string{"fabric": "Moss", "length": "1 m", "full width": "150 cm"}
		head[c.column] = c.cell
		var names, cells []string
		for k, v := range head {
			names, cells = append(names, k), append(cells, v)
		}
		r := plan(t, list.TableOf([][]string{names, cells}), list.Known{}, nil)
		if len(r.Rows) != 1 || r.Rows[0].Outcome != list.Refused || !r.Empty() {
			t.Errorf("%s %q: %+v", c.column, c.cell, r.Rows)
			continue
		}
		if why := strings.Join(r.Rows[0].Why, " "); !strings.Contains(why, c.want) || !strings.HasSuffix(why, ".") {
			t.Errorf("%s %q says %q, not %q", c.column, c.cell, why, c.want)
		}
	}
}

func TestWithoutHeadings(t *testing.T) {
	r := plan(t, lines(`
Moss jersey | 95% cotton 5% elastane | 1.5 m | 2026-03-02 | € 12
Fog terry | 100% cotton | 80 cm | 2026-03-02 | € 9
`), list.Known{}, func(m *list.Mapping) { m.Always = map[list.Field]string{list.FullWidth: "150 cm"} })
	clean(t, r)
	if len(r.Fabrics) != 2 || r.Cloths[1].Length != 80*cm || r.Purchases[0].Lines[0].Price.Minor != 1200 || r.Cloths[0].Width != 150*cm {
		t.Errorf("%+v %+v %+v", r.Fabrics, r.Cloths, r.Purchases)
	}
}

// TestUnitsThatNothingSays: the middle of the column tells metres from centimetres.
func TestUnitsThatNothingSays(t *testing.T) {
	for _, c := range []struct {
		width, length string
		units         measure.System
		w, l          measure.Length
	}{
		{"150", "1.5", measure.Metric, 150 * cm, 150 * cm},
		{"1.5", "150", measure.Metric, 150 * cm, 150 * cm},
		{"60", "1.5", measure.Imperial, 60 * measure.Inch, 3 * measure.Yard / 2},
		{"1.5", "90", measure.Imperial, 150 * cm, 90 * measure.Inch},
	} {
		table := list.TableOf([][]string{{"fabric", "width", "length"}, {"Moss jersey", c.width, c.length}})
		r, err := list.Plan(table, list.Guess(table, c.units, "EUR"), list.Known{}, stashtest.IDs(), today)
		if err != nil || len(r.Cloths) != 1 || r.Fabrics[0].FullWidth != c.w || r.Cloths[0].Length != c.l || !r.Columns[1].Assumed {
			t.Errorf("%+v: %+v, %v", c, r.Rows, err)
		}
	}
}

func TestTooManyRows(t *testing.T) {
	table := list.Table{Rows: make([][]list.Cell, list.MostRows+1)}
	if _, err := list.Plan(table, list.Mapping{}, list.Known{}, stashtest.IDs(), today); err == nil || !strings.Contains(err.Error(), "Split") {
		t.Error(err)
	}
}

func TestFieldsHaveWords(t *testing.T) {
	for _, f := range list.Fields() {
		if got, ok := list.FieldNamed(" " + strings.ToUpper(string(f)) + " "); !ok || got != f {
			t.Errorf("%q is not found by its name", f)
		}
		if f != list.KeepNote && f != list.LeaveOut && list.About(f) == "" {
			t.Errorf("%q says nothing about itself", f)
		}
	}
	own := list.Write(nil, nil, nil)
	m := list.Guess(own, measure.Metric, "EUR")
	for k, c := range m.Columns {
		if heading := own.Rows[0][k].Text; !strings.HasPrefix(heading, string(c.Field)) {
			t.Errorf("the heading %q is guessed to be %q", heading, c.Field)
		}
	}
	if _, ok := list.OwnMapping(own); !ok {
		t.Error("its own table is not known again")
	}
}

func ExamplePlan() {
	table := list.TableOf([][]string{{"fabric", "width", "length"}, {"Moss jersey", "150 cm", "1 1/2 yd"}, {"Moss jersey", "", "two"}})
	r, _ := list.Plan(table, list.Guess(table, measure.Metric, "EUR"), list.Known{}, stashtest.IDs(), "2026-05-04")
	for _, row := range r.Rows {
		fmt.Println(row.Line, row.Outcome, row.Says, len(row.Why))
	}
	// Output:
	// 2 new fabric New fabric Moss jersey, with a length of 1.37 m × 150 cm. 0
	// 3 refused Left out. 1
}
