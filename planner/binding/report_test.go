package binding_test

import (
	"context"
	"strings"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
)

func TestText(t *testing.T) {
	s, err := binding.Work(tankArmhole(), binding.FabricFacts{})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"armhole: cut 2 × 42 mm × ", "strap: 15.5 cm for 16 cm (97 %, drawn out in sewing)", "mark strap point, end of neck: ", "mind: ", "Choose the fabric"} {
		if !strings.Contains(s.Text(), want) {
			t.Errorf("no %q in\n%s", want, s.Text())
		}
	}
	e := binding.ElasticCut{Ring: 72 * cm, Cut: 72*cm + in, Casing: 3 * in / 2}
	if got := e.Text(measure.Imperial); got != "elastic: cut 29 3/8 in, a ring of 28 3/8 in; casing 1 1/2 in below its fold" {
		t.Error(got)
	}
}

func TestPlanChecks(t *testing.T) {
	strips := []binding.Strip{strip(90*cm, 4*cm, cm, 1), strip(30*cm, 4*cm, cm, 2)}
	plan, err := binding.Plan(context.Background(), strips, []binding.Source{{Across: 60 * cm, Along: 8 * cm}})
	if err == nil {
		t.Fatal("there is cloth for 120 cm less a join only")
	}
	text := ""
	for _, c := range plan.Checks(strips) {
		text += c.Text + "\n"
	}
	if !strings.Contains(text, "is joined from 2 lengths, at ") || !strings.Contains(text, "the strip 2: there is no cloth for 30 cm of strip") {
		t.Error(text)
	}
}
