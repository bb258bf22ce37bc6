package sizing_test

import (
	"errors"
	"strings"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
)

// TestAChildGrows: of each measurement the last one taken until a day counts.
func TestAChildGrows(t *testing.T) {
	p := sizing.Person{Name: "Ida"}
	p = p.With(sizing.Taken{Date: "2026-03-01", Body: body{sizing.Height: 122 * cm, pattern.Bust: 62 * cm}, Note: "before lunch"})
	p = p.With(sizing.Taken{Date: "2025-03-01", Body: body{sizing.Height: 116 * cm, pattern.Waist: 55 * cm}})
	p = p.With(sizing.Taken{Date: "2026-03-01", Body: body{pattern.Bust: 63 * cm}})
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	if len(p.Taken) != 2 || p.Taken[0].Date != "2025-03-01" || p.Taken[1].Note != "before lunch" {
		t.Fatalf("%+v", p.Taken)
	}
	now, then := p.Latest(""), p.Latest("2025-12-31")
	if now[sizing.Height] != 122*cm || now[pattern.Bust] != 63*cm || now[pattern.Waist] != 55*cm {
		t.Errorf("now %v", now)
	}
	if then[sizing.Height] != 116*cm || then[pattern.Bust] != 0 {
		t.Errorf("then %v", then)
	}
}

func TestPersonRefused(t *testing.T) {
	taken := func(d stash.Date, b body) []sizing.Taken { return []sizing.Taken{{Date: d, Body: b}} }
	for says, p := range map[string]sizing.Person{
		"no name":              {Name: " "},
		"not a day":            {Name: "Ida", Taken: taken("yesterday", nil)},
		"a waist of 700 cm":    {Name: "Ida", Taken: taken("2026-01-01", body{pattern.Waist: 700 * cm})},
		"is not measured here": {Name: "Ida", Taken: taken("2026-01-01", body{"hat": 50 * cm})},
		"order of their days":  {Name: "Ida", Taken: append(taken("2026-01-02", nil), taken("2026-01-02", nil)...)},
	} {
		var e *stash.Error
		if err := p.Validate(); err == nil || !strings.Contains(err.Error(), says) || !errors.As(err, &e) || e.Do == "" {
			t.Errorf("%s: %v", says, err)
		}
	}
	for _, at := range sizing.Places() {
		if at.Where == "" || !strings.HasSuffix(at.Where, ".") {
			t.Errorf("%s: %q", at.Name, at.Where)
		}
	}
}
