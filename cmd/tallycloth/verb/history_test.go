package verb_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type yards struct {
	Yardage float64 `json:"yardage_mm"`
	Area    float64 `json:"area_m2"`
}

type flowed struct{ In, Cut, Gone, Changed yards }

type movements struct {
	Lines     int
	Movements []struct {
		Noted, Kind, Fabric, Code, Garment, Note string
		yards
		BoughtOn  string `json:"bought_on"`
		TakenBack bool   `json:"taken_back"`
	}
}

// The whole life of two lengths: bought in two months and currencies, one washed, and
// one purchase taken back. Figures are worked out by hand.
func TestHistoryVerbs(t *testing.T) {
	d := newDesk(t)
	moss := d.log("Moss jersey", "2 m", "--kind", "jersey", "--width", "150 cm", "--price", "24", "--on", "2025-11-14")
	d.done("log", "Fern rib", "1 m", "--kind", "rib", "--width", "100 cm", "--price", "9 GBP", "--on", "2026-01-20")
	d.done("log", "Fern rib", "7 m")
	d.done("undo")
	d.done("wash", moss, "1.9 m", "150 cm")
	var m movements
	d.answer(&m, "history")
	if m.Lines != 5 || len(m.Movements) != 5 || m.Movements[0].Kind != "washed" || m.Movements[0].Yardage != -100 || m.Movements[1].Kind != "reversed" || !m.Movements[2].TakenBack {
		t.Errorf("history %+v", m)
	}
	m = movements{}
	d.answer(&m, "history", "--fabric", "moss", "--kind", "bought", "--words", "JERSEY")
	if m.Lines != 1 || m.Movements[0].Code != moss || m.Movements[0].BoughtOn != "2025-11-14" || m.Movements[0].Yardage != 2000 {
		t.Errorf("bought of moss %+v", m)
	}
	m = movements{}
	d.answer(&m, "history", "--cloth", strings.ToLower(moss), "--lines", "1")
	if m.Lines != 2 || len(m.Movements) != 1 {
		t.Errorf("of one cloth %+v", m)
	}
	var y struct {
		Before, After *yards
		Total         flowed
		Spans         []struct {
			From, To string
			flowed
			There yards
		}
	}
	d.answer(&y, "yardage", "--from", "1 November 2025", "--to", "31.3.2026")
	if len(y.Spans) != 5 || y.Spans[0].In.Yardage != 2000 || y.Spans[2].In != (yards{1000, 1}) || y.Total.Changed != (yards{-100, -0.15}) || y.After == nil || *y.After != (yards{2900, 3.85}) {
		t.Errorf("yardage %+v", y)
	}
	d.answer(&y, "yardage", "--by", "year", "--kind", "bought")
	if len(y.Spans) != 2 || y.After != nil || y.Total.In.Yardage != 3000 {
		t.Errorf("bought by year %+v", y)
	}
	var v struct {
		Pieces   int
		Totals   []string
		Joined   map[string]any
		Unpriced int `json:"pieces_without_a_price"`
		Fabrics  []struct {
			Fabric   string
			Pieces   int
			Totals   []string
			Unpriced int `json:"pieces_without_a_price"`
			yards
		}
		yards
	}
	if d.answer(&v, "value"); v.Pieces != 2 || strings.Join(v.Totals, ", ") != "24.00 EUR, 9.00 GBP" || v.yards != (yards{2900, 3.85}) || len(v.Fabrics) != 2 {
		t.Errorf("value %+v", v)
	}
	text := d.done("yardage", "--period", "all")
	if !strings.Contains(text, "Nov 2025") || !strings.Contains(text, "There at the end: 2.90 m (3.85 m²).") {
		t.Errorf("yardage in words:\n%s", text)
	}
}

func TestCostsVerb(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--price", "30")
	d.done("reserve", code, "--pattern", tank, "--size", "4", "--garment", "June")
	var c []struct {
		Garment, Pattern, Size, State string
		Area                          float64 `json:"area_m2"`
		Waste                         float64 `json:"waste_m2"`
		Totals                        []string
		Joined                        map[string]any
		Unpriced                      int `json:"parts_without_a_price"`
		Planned                       bool
		Cloth                         []struct {
			Fabric, Code, Cost string
			Area               float64 `json:"area_m2"`
			Waste              float64 `json:"waste_m2"`
			Planned            bool
		}
		Notions []struct {
			Name, Unit, Cost string
			Quantity         float64
		}
	}
	if d.answer(&c, "costs"); len(c) != 1 || !c[0].Planned || c[0].Waste != 0 || c[0].Cloth[0].Code != code {
		t.Errorf("before cutting %+v", c)
	}
	d.done("cut", "June")
	d.done("notion", "Elastic", "--unit", "m", "--quantity", "0")
	d.done("notion", "Elastic", "--bought", "10", "--paid", "5")
	d.done("notion", "Elastic", "--used", "2", "--garment", "June")
	c = nil
	if d.answer(&c, "costs", "June"); len(c) != 1 || c[0].Planned || c[0].Waste <= 0 || len(c[0].Totals) != 1 {
		t.Fatalf("after cutting %+v", c)
	}
	if text := d.done("costs"); !strings.Contains(text, "2 m of Elastic") || !strings.Contains(text, "1.00 EUR") || !strings.Contains(text, c[0].Totals[0]) {
		t.Errorf("costs in words:\n%s", text)
	}
	d.refused(verb.Mistyped, []string{"July"}, "costs", "July")
}

// TestFiguresOnPaper: each verb of figures prints what it says, and writes its numbers out.
func TestFiguresOnPaper(t *testing.T) {
	d := newDesk(t)
	d.done("log", "Moss jersey", "2 m", "--kind", "jersey", "--width", "150 cm", "--price", "24")
	d.done("notion", "Thread", "--unit", "spools", "--quantity", "1", "--reorder", "3")
	folder := t.TempDir()
	for name, words := range map[string][]string{
		"history": {"Movements", "Moss jersey", "bought", "page 1 of 1"}, "yardage": {"Yardage", "2.00 m", "In all", "page 1 of 1"},
		"value": {"Value on hand", "24.00 EUR"}, "costs": {"Garment costs"}, "shopping": {"Shopping list", "2 spools", "Thread"},
	} {
		pdf, csv, book := filepath.Join(folder, name+".pdf"), filepath.Join(folder, name+".csv"), filepath.Join(folder, name+".xlsx")
		d.done(name, "--pdf", pdf, "--csv", csv)
		d.done(name, "--csv", book)
		out, err := exec.Command("pdftotext", "-layout", pdf, "-").CombinedOutput()
		if err != nil {
			t.Fatalf("pdftotext (poppler-utils): %v\n%s", err, out)
		}
		for _, w := range words {
			if !strings.Contains(string(out), w) {
				t.Errorf("the printed %s does not say %q:\n%s", name, w, out)
			}
		}
		data, err := os.ReadFile(csv)
		if err != nil || !strings.Contains(string(data), ",") {
			t.Errorf("%s as CSV %q, %v", name, data, err)
		}
		if info, err := os.Stat(book); err != nil || info.Size() == 0 {
			t.Errorf("%s as a workbook: %v", name, err)
		}
		d.refused(verb.Mistyped, []string{"is there already"}, name, "--pdf", pdf)
	}
}

func TestHistoryThatCannotBe(t *testing.T) {
	d := newDesk(t).made()
	for name, c := range map[string]struct{ args, words []string }{
		"a period and days":      {[]string{"history", "--period", "last year", "--from", "2026-01-01"}, []string{"Say one of them"}},
		"no such period":         {[]string{"yardage", "--period", "next week"}, []string{"this month"}},
		"a day that is none":     {[]string{"history", "--from", "2026-02-30"}, []string{"2026-02-30"}},
		"days back to front":     {[]string{"yardage", "--from", "2026-02-02", "--to", "2026-01-01"}, []string{"earlier day first"}},
		"no such kind":           {[]string{"history", "--kind", "eaten"}, []string{"bought"}},
		"by week":                {[]string{"yardage", "--by", "week"}, []string{"month"}},
		"fewer than no lines":    {[]string{"history", "--lines", "-1"}, []string{"--lines"}},
		"a PDF of another name":  {[]string{"history", "--pdf", "x.txt"}, []string{".pdf"}},
		"two garments":           {[]string{"costs", "a", "b"}, []string{"quotation marks"}},
		"a month for a lifetime": {[]string{"yardage", "--from", "1900-01-01", "--to", "2026-01-01"}, []string{"by year"}},
	} {
		t.Run(name, func(t *testing.T) { d.t = t; d.refused(verb.Mistyped, c.words, c.args...) })
	}
}
