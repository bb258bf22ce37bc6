package verb_test

import (
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type stretchWord struct {
	Word string
	UpTo *float64 `json:"up_to_percent"`
}

// TestClasses chooses words for stretch; the list of fabrics uses them, undo takes them back.
func TestClasses(t *testing.T) {
	d := newDesk(t)
	d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%")
	if text := d.done("list", "fabrics"); !strings.Contains(text, "60 % very stretchy") {
		t.Errorf("it says\n%s", text)
	}
	var all []stretchWord
	d.answer(&all, "classes", "firm up to 12,5 %, wild")
	if len(all) != 2 || all[0].Word != "firm" || *all[0].UpTo != 12.5 || all[1].UpTo != nil {
		t.Fatalf("%+v", all)
	}
	if text := d.done("list", "fabrics"); !strings.Contains(text, "60 % wild") {
		t.Errorf("it says\n%s", text)
	}
	d.done("undo")
	if d.answer(&all, "classes"); len(all) != 4 {
		t.Errorf("%+v", all)
	}
	d.refused(verb.Mistyped, []string{"stable up to 18 %"}, "classes", "firm, wild up to 30 %")
}
