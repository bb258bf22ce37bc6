package verb_test

import (
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// TestAllowanceAlongEdges: a rectangle of 20 by 30 cm that lacks its allowance gets 1 cm at its sides, 2 cm
// at its hem and none at its top; the same on a pattern that is there.
func TestAllowanceAlongEdges(t *testing.T) {
	d := newDesk(t)
	file := drawing(t, `<rect width="200" height="300"><title>Front</title></rect>`)
	if said := d.done("bring-in", file, "--name", "Bare", "--without-allowance", "--allowance", "1 cm"); !strings.Contains(said, "Edges of Front, clockwise from the top: 1 20 cm, 2 30 cm, 3 20 cm, 4 30 cm.") {
		t.Errorf("it says %q", said)
	}
	said := d.done("bring-in", file, "--name", "Vent", "--without-allowance", "--allowance", "1 cm", "--edge-allowance", "Front: 3=2 cm", "--edge-allowance", "A: 1=none")
	if !strings.Contains(said, "32 cm × 22 cm") || strings.Contains(said, "Edges of") {
		t.Errorf("it says %q", said)
	}
	d.done("bring-in", file, "--name", "Later")
	if said = d.done("edit", "Later", "Front", "--allowance", "1 cm", "--edge-allowance", "3=2 cm", "--edge-allowance", "1=0"); !strings.Contains(said, "32 cm") || !strings.Contains(said, "22 cm") {
		t.Errorf("it says %q", said)
	}
	if said = d.done("edit", "Later", "Front", "--edge-allowance", "1=1 cm"); !strings.Contains(said, "33 cm") || !strings.Contains(said, "22 cm") {
		t.Errorf("it says %q", said)
	}
	for _, args := range [][]string{
		{"bring-in", file, "--name", "No", "--edge-allowance", "Front: 1=none"},
		{"bring-in", file, "--name", "No", "--without-allowance", "--edge-allowance", "Front 1=none"},
		{"bring-in", file, "--name", "No", "--without-allowance", "--edge-allowance", "Front: 9=none"},
		{"bring-in", file, "--name", "No", "--without-allowance", "--edge-allowance", "Cuff: 1=none"},
		{"edit", "Later", "Front", "--edge-allowance", "5=1 cm"},
		{"edit", "Later", "Front", "--edge-allowance", "1=wide"},
	} {
		d.refused(verb.Mistyped, nil, args...)
	}
}
