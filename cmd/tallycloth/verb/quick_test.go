package verb_test

import (
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// TestQuickOutline: drafted, marked as approximate, kept, found enough by a layout, undone.
func TestQuickOutline(t *testing.T) {
	d := newDesk(t)
	args := []string{"quick", "skirt", "--name", "Millrace skirt", "--sizes", "S,M,L", "--at", "waist=72", "--step", "waist=5", "--at", "hip=92; 98; 104", "--at", "length=24 in"}
	type quicked struct {
		patternLine
		Approximate bool `json:"approximate"`
	}
	var p quicked
	d.answer(&p, append(args, "--dry")...)
	if !p.Approximate || len(p.Sizes) != 3 || len(p.Pieces) != 1 || p.Pieces[0].Sizes != 3 || !p.Pieces[0].OnFold {
		t.Fatalf("drafted %+v", p)
	}
	var all []quicked
	d.answer(&all, "list", "patterns")
	if len(all) != 0 {
		t.Error("--dry kept it")
	}
	d.answer(&p, args...)
	d.answer(&all, "list", "patterns")
	if len(all) != 1 || all[0].Name != "Millrace skirt" || !all[0].Approximate {
		t.Fatalf("kept %+v", all)
	}
	code := d.log(jersey, "150 cm", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%")
	var f finding
	d.answer(&f, "check", code, "--pattern", "Millrace", "--size", "M")
	if f.Proof != "layout" {
		t.Errorf("checked %+v", f)
	}
}

// TestQuickOutlineRefuses: what was typed cannot be, in words, and nothing is kept.
func TestQuickOutlineRefuses(t *testing.T) {
	d := newDesk(t).made()
	for _, c := range []struct {
		says []string
		args []string
	}{
		{[]string{"kind of garment", "skirt"}, []string{"quick", "tent"}},
		{[]string{"hip", "missing", "Measure it"}, []string{"quick", "skirt", "--name", "x", "--at", "waist=72", "--at", "length=60"}},
		{[]string{"12.0 cm", "cannot be"}, []string{"quick", "skirt", "--name", "x", "--at", "waist=72", "--at", "hip=12", "--at", "length=60"}},
		{[]string{"--at", "not understood"}, []string{"quick", "skirt", "--at", "72"}},
		{[]string{"--step", "twice"}, []string{"quick", "skirt", "--step", "hip=5", "--step", "Hip=6"}},
		{[]string{"no name"}, []string{"quick", "skirt", "--at", "waist=72", "--at", "hip=98", "--at", "length=60"}},
	} {
		d.refused(verb.Mistyped, c.says, c.args...)
	}
}
