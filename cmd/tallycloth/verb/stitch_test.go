package verb_test

import (
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

type stitchLine struct {
	Number                        int
	Of, Name, Seam, Stitch        string
	Width, Length, Feed, Needle   string
	Thread, Tension, Note, Fabric string
	Still                         bool
	Doubts                        []string
}

// TestStitchVerbs notes a stitch with the photo of its scrap, changes and removes it; the
// garment that is cut keeps what was noted then.
func TestStitchVerbs(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--stretch-along", "30%")
	var n stitchLine
	d.answer(&n, "stitch", "add", "--fabric", jersey, "--seam", "side", "--stitch", "straight", "--needle", "universal 80", "--scrap", photoFile(t))
	if n.Number != 1 || n.Fabric != jersey || len(n.Doubts) != 2 {
		t.Fatalf("%+v", n)
	}
	var photos []photoLine
	if d.answer(&photos, "photo", "list", "--fabric", jersey); len(photos) != 1 || photos[0].Kind != "scrap" || photos[0].Stitch != 1 {
		t.Errorf("%+v", photos)
	}
	d.answer(&n, "stitch", "change", "1", "--fabric", jersey, "--stitch", "narrow zigzag", "--needle", "stretch 75/11", "--tension", "3")
	if n.Stitch != "narrow zigzag" || n.Tension != "3" || len(n.Doubts) != 0 {
		t.Errorf("%+v", n)
	}
	d.done("reserve", code, "--pattern", tank, "--size", "4", "--garment", "Tank for June")
	d.done("cut", "Tank for June")
	d.done("stitch", "change", "1", "--fabric", jersey, "--tension", "5")
	d.done("stitch", "add", "--garment", "June", "--stitch", "lockstitch", "--still", "--needle", "jersey 80", "--for", jersey)
	var all []stitchLine
	d.answer(&all, "stitch", "list", "--garment", "June")
	if len(all) != 2 || all[0].Tension != "3" || all[0].Fabric != jersey || !all[1].Still || len(all[1].Doubts) != 0 {
		t.Fatalf("%+v", all)
	}
	if text := d.done("stitch", "list", "--garment", "June"); !strings.Contains(text, "need not stretch") {
		t.Errorf("it says\n%s", text)
	}
	d.done("stitch", "remove", "1", "--fabric", jersey)
	if d.answer(&all, "stitch", "list", "--fabric", jersey); len(all) != 0 {
		t.Errorf("%+v", all)
	}
}

func TestStitchVerbsRefuse(t *testing.T) {
	d := newDesk(t)
	d.log(jersey, "2 m", "--width", "150 cm")
	for _, c := range []struct {
		words []string
		args  []string
	}{
		{[]string{"add, list, change or remove"}, []string{"stitch"}},
		{[]string{"--fabric"}, []string{"stitch", "add", "--stitch", "zigzag"}},
		{[]string{"no stitch"}, []string{"stitch", "add", "--fabric", jersey, "--seam", "side"}},
		{[]string{"no stitch note", "stitch list"}, []string{"stitch", "remove", "1", "--fabric", jersey}},
		{[]string{"no stitch note"}, []string{"stitch", "change", "first", "--fabric", jersey}},
	} {
		d.refused(verb.Mistyped, c.words, c.args...)
	}
}
