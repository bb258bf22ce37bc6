package planner_test

import (
	"strings"
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/draft"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

func skirtWords() planner.QuickWords {
	return planner.QuickWords{Name: " Millrace skirt ", Kind: draft.Skirt, Sizes: "S, M, L", Measured: "M", Unit: measure.Centimetre,
		Values: map[string]string{pattern.Waist: "72", pattern.Hip: "92; 98; 104", pattern.BodyLen: "24 in", draft.HemGirth: " "},
		Steps:  map[string]string{pattern.Waist: "5 cm", pattern.BodyLen: "0"}, Seam: "1", Hem: "3"}
}

func TestQuickWordsAreRead(t *testing.T) {
	f, err := skirtWords().Form()
	if err != nil {
		t.Fatal(err)
	}
	cm := measure.Centimetre
	if f.Name != "Millrace skirt" || f.Seam != cm || f.Hem != 3*cm || len(f.Sizes) != 3 {
		t.Errorf("%+v", f)
	}
	for i, want := range []map[string]measure.Length{
		{pattern.Waist: 67 * cm, pattern.Hip: 92 * cm, pattern.BodyLen: 24 * measure.Inch},
		{pattern.Waist: 72 * cm, pattern.Hip: 98 * cm, pattern.BodyLen: 24 * measure.Inch},
		{pattern.Waist: 77 * cm, pattern.Hip: 104 * cm, pattern.BodyLen: 24 * measure.Inch},
	} {
		for name, l := range want {
			if f.Sizes[i].Finished[name] != l {
				t.Errorf("size %s: %s is %d, want %d", f.Sizes[i].Name, name, f.Sizes[i].Finished[name], l)
			}
		}
	}
	if p, err := draft.Quick(f); err != nil || len(p.Sizes) != 3 {
		t.Errorf("%v", err)
	}
	w := skirtWords()
	w.Sizes, w.Measured, w.Values[pattern.Hip] = "", "", "98"
	if f, err := w.Form(); err != nil || len(f.Sizes) != 1 || f.Sizes[0].Name != "one size" {
		t.Errorf("%+v, %v", f, err)
	}
}

func TestQuickWordsRefused(t *testing.T) {
	for says, spoil := range map[string]func(*planner.QuickWords){
		"The waist \"wide\" is not a length": func(w *planner.QuickWords) { w.Values[pattern.Waist] = "wide" },
		"2 values for the hip, and 3 sizes":  func(w *planner.QuickWords) { w.Values[pattern.Hip] = "92; 98" },
		"The step \"-1\" for the waist":      func(w *planner.QuickWords) { w.Steps[pattern.Waist] = "-1" },
		"The seam allowance \"x\"":           func(w *planner.QuickWords) { w.Seam = "x" },
		"The hem allowance \"y\"":            func(w *planner.QuickWords) { w.Hem = "y" },
		"The size \"XL\" that was measured":  func(w *planner.QuickWords) { w.Measured = "XL" },
		"The size M comes twice":             func(w *planner.QuickWords) { w.Sizes = "M, M, L" },
	} {
		w := skirtWords()
		spoil(&w)
		if _, err := w.Form(); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", says, err)
		}
	}
}
