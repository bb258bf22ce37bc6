package demo_test

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// A list of what is wanted says the same as CSV and as JSON.
func TestReadWanted(t *testing.T) {
	s, ctx := studio(t), context.Background()
	tank := wantedOf(t, s, "tank", 1)
	p, err := s.Pattern(ctx, tank.PatternID)
	if err != nil {
		t.Fatal(err)
	}
	fabrics, err := s.Fabrics(ctx)
	if err != nil {
		t.Fatal(err)
	}
	csv := "Pattern;Size;Count;Priority;For;Date;Colours;Uses\n" +
		p.Name + ";" + tank.Size + ";3;2;Ida;2026-06-01;#A8503C;binding: goes with 12\n;;;;;;;\n" +
		strings.ToUpper(p.Name) + ";" + tank.Size + ";;;;;;binding: named " + fabrics[0].Name + ", " + fabrics[1].Name + "\n"
	json := `{"wanted": [{"pattern": "` + p.Name + `", "size": "` + tank.Size + `", "count": 3, "priority": "2", "for": "Ida", "date": "2026-06-01", "colours": "#a8503c", "uses": "binding: goes with 12"},
		{"pattern": "` + p.Name + `", "size": "` + tank.Size + `", "uses": "binding: named ` + fabrics[0].Name + `,` + fabrics[1].Name + `"}]}`
	for _, text := range []string{csv, json} {
		rows, err := s.ReadWanted(ctx, []byte(text))
		if err != nil || len(rows) != 2 {
			t.Fatalf("%+v, %v", rows, err)
		}
		a, b := rows[0], rows[1]
		if a.PatternID != p.ID || a.Count != 3 || a.Priority != 2 || a.For != "Ida" || a.Date != "2026-06-01" || !slices.Equal(a.Colours, []string{"#a8503c"}) ||
			len(a.Uses) != 1 || a.Uses[0].Role != pattern.Binding || a.Uses[0].From != planner.GoesWith || a.Uses[0].Within != 12 {
			t.Errorf("%+v", a)
		}
		if b.Count != 1 || b.Priority != 1 || len(b.Uses) != 1 || b.Uses[0].From != planner.NamedFabric ||
			!slices.Equal(b.Uses[0].Fabrics, []stash.ID{fabrics[0].ID, fabrics[1].ID}) {
			t.Errorf("%+v", b)
		}
	}
}

// A row that names a person takes the size proposed for her, which is her blend once that is
// kept; a size that was chosen stays. A variant travels on to the garment.
func TestRowForPerson(t *testing.T) {
	s, ctx := studio(t), context.Background()
	wren, err := s.SavePerson(ctx, sizing.Person{Name: "Wren"})
	if err != nil {
		t.Fatal(err)
	}
	// 36 in is the bust of size 4 in the table of 1967/68, 40 in the hip of size 5.
	if _, err := s.MeasurePerson(ctx, wren.ID, sizing.Taken{Body: map[string]measure.Length{pattern.Bust: 36 * measure.Inch, pattern.Hip: 40 * measure.Inch}}); err != nil {
		t.Fatal(err)
	}
	tank := wantedOf(t, s, "tank", 1)
	p, err := s.Pattern(ctx, tank.PatternID)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := s.ReadWanted(ctx, []byte("pattern,person,size,variant\n"+p.Name+",wren,,cropped\n"+p.Name+",Wren,,\n"+p.Name+",Wren,6,\n"))
	if err != nil || len(rows) != 3 {
		t.Fatalf("%+v, %v", rows, err)
	}
	for i, size := range []string{"4", "4", "6"} {
		if r := rows[i]; r.Size != size || r.PersonID != wren.ID || r.For != "Wren" {
			t.Errorf("row %d: %+v", i, r)
		}
	}
	sizes, err := s.RowSizes(ctx, rows)
	if err != nil || len(sizes) != 3 || !sizes[0].Between() || sizes[2].Choice.Size != "4" {
		t.Fatalf("%+v, %v", sizes, err)
	}
	rows, told, err := s.BlendRows(ctx, rows)
	if err != nil || len(told) != 1 || !strings.Contains(told[0], "for Wren") || rows[0].Size == "4" || rows[1].Size != rows[0].Size || rows[2].Size != "6" {
		t.Fatalf("%+v, %v, %v", rows, told, err)
	}
	if sizes, err = s.RowSizes(ctx, rows); err != nil || sizes[0].Between() || sizes[0].Choice.Size != rows[0].Size {
		t.Errorf("blended: %+v, %v", sizes, err)
	}
	b := planner.Batch{Rows: rows[:1], May: planner.MayUse{WholeLengths: true}}
	plan, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 1}, nil)
	if err != nil || len(plan.Made) != 1 {
		t.Fatalf("%+v, %v", plan.Missing, err)
	}
	made, err := s.ReserveAll(ctx, b, plan)
	if err != nil || made[0].Variant != "cropped" || made[0].Size != rows[0].Size || made[0].Name != p.Name+", size "+rows[0].Size+", cropped, for Wren" {
		t.Errorf("%+v, %v", made, err)
	}
	for text, want := range map[string]string{"Nobody": "No person", "Wren": "No size"} {
		empty, err := s.SavePerson(ctx, sizing.Person{ID: wren.ID, Name: "Wren"})
		if err != nil || len(empty.Taken) != 0 {
			t.Fatal(err)
		}
		var wrong *planner.WrongRows
		if _, err := s.ReadWanted(ctx, []byte("pattern,person\n"+p.Name+","+text+"\n")); !errors.As(err, &wrong) || !strings.Contains(wrong.Rows[0].What, want) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// What is kept for a person is taken over by a row, in words too; the layouts of its plan are of
// what is cut then, and the garment has it.
func TestRowAdjusted(t *testing.T) {
	s, ctx := studio(t), context.Background()
	longer := adjust.Step{Kind: adjust.Hem, Amount: 3 * measure.Centimetre}
	never := adjust.Step{Kind: adjust.TakeIn, Amount: measure.Centimetre, Seam: "inseam"} // a tank has none
	if _, err := s.SavePerson(ctx, sizing.Person{Name: "Wren", Adjustments: []sizing.Kept{{Step: longer}, {Step: never}}}); err != nil {
		t.Fatal(err)
	}
	tank := wantedOf(t, s, "tank", 1)
	p, err := s.Pattern(ctx, tank.PatternID)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := s.ReadWanted(ctx, []byte("pattern,person,size,adjustments\n"+p.Name+",Wren,4,kept\n"+p.Name+",,4,hem 30 mm longer;\n"+p.Name+",,4,\n"))
	if err != nil || len(rows) != 3 || !reflect.DeepEqual(rows[0].Adjustments, []adjust.Step{longer}) || !reflect.DeepEqual(rows[1].Adjustments, rows[0].Adjustments) || len(rows[2].Adjustments) != 0 {
		t.Fatalf("%+v, %v", rows, err)
	}
	longest := func(row planner.Wanted) (int64, planner.Batch, planner.BatchPlan) {
		b := planner.Batch{Rows: []planner.Wanted{row}, May: planner.MayUse{WholeLengths: true}}
		plan, err := s.PlanBatch(ctx, b, planner.BatchEffort{Rounds: 1}, nil)
		if err != nil || len(plan.Made) != 1 {
			t.Fatalf("%+v, %v", plan.Missing, err)
		}
		out := int64(0)
		for _, part := range plan.Cuts[0].Parts {
			for _, q := range part.Layout.Pieces {
				out = max(out, q.Outline.Bounds().Length())
			}
		}
		return out, b, plan
	}
	was, _, _ := longest(rows[2])
	now, b, plan := longest(rows[0])
	if now-was != int64(longer.Amount) {
		t.Errorf("laid out are %d µm, and %d without the adjustment", now, was)
	}
	made, err := s.ReserveAll(ctx, b, plan)
	if err != nil || !reflect.DeepEqual(made[0].Adjustments, rows[0].Adjustments) {
		t.Errorf("%+v, %v", made, err)
	}
	var wrong *planner.WrongRows
	_, err = s.ReadWanted(ctx, []byte("pattern,size,adjustments\n"+p.Name+",4,kept\n"+p.Name+",4,make it nicer\n"+p.Name+",4,let out 1 cm along the inseam\n"))
	if !errors.As(err, &wrong) || len(wrong.Rows) != 3 {
		t.Errorf("%v", err)
	}
}

// Every row that is wrong is told at once, by its line and with what to do.
func TestReadWantedRefuses(t *testing.T) {
	s, ctx := studio(t), context.Background()
	tank := wantedOf(t, s, "tank", 1)
	p, err := s.Pattern(ctx, tank.PatternID)
	if err != nil {
		t.Fatal(err)
	}
	good := p.Name + "," + tank.Size
	_, err = s.ReadWanted(ctx, []byte("pattern,size,count,date,colours,uses\n"+good+"\nNo such,4\n"+p.Name+",no size\n"+good+",many\n"+good+",1,31 May\n"+
		good+",1,,no such colour\n"+good+",1,,,binding of anything\n"+good+",1,,,binding: whatever\n"+good+",1,,,binding: goes with nearly\n"))
	var wrong *planner.WrongRows
	if !errors.As(err, &wrong) || len(wrong.Rows) != 8 {
		t.Fatalf("%v", err)
	}
	for i, want := range []string{"No such", "no size", "many", "31 May", "no such colour", "binding of anything", "whatever", "nearly"} {
		r := wrong.Rows[i]
		if !strings.Contains(r.What, want) || r.Do == "" || r.Place == "" {
			t.Errorf("row %d: %+v", i, r)
		}
	}
	for text, want := range map[string]string{
		"":                          "empty",
		"size,count\n4,1\n":         "no column called pattern",
		"pattern,sise\nTank,4\n":    `"sise"`,
		"pattern,pattern\nTank,4\n": "Two columns",
		"pattern,size\n":            "nothing that is wanted",
		"[{]":                       "JSON",
		`[{"pattern": ["x"]}]`:      "something else",
		`[{"pieces": "x"}]`:         `"pieces"`,
	} {
		var known *stash.Error
		if _, err := s.ReadWanted(ctx, []byte(text)); !errors.As(err, &known) || known.Kind != stash.Invalid || !strings.Contains(known.What, want) || known.Do == "" {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// FuzzReadWanted: whatever is in a file, it is read or refused with a sentence.
func FuzzReadWanted(f *testing.F) {
	for _, text := range []string{"pattern,size\nFennel tank,4\n", `[{"pattern": "Fennel tank", "count": 2}]`, `{"wanted": []}`, "pattern;uses\nTank;binding: named ,;"} {
		f.Add([]byte(text))
	}
	s, ctx := studio(f), context.Background()
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := s.ReadWanted(ctx, data)
		var known *stash.Error
		var wrong *planner.WrongRows
		if err == nil && len(rows) == 0 || err != nil && !errors.As(err, &known) && !errors.As(err, &wrong) {
			t.Errorf("%d rows, %v", len(rows), err)
		}
	})
}
