package verb_test

import (
	"strings"
	"testing"
)

type good struct {
	Code, Fabric string
	Uses         []struct {
		Pattern, Size, Verdict string
		UsedFor                string `json:"used_for"`
		Proved                 bool
	}
}

// A leftover is good for what check says it is enough for, no more and no less.
func TestGoodFor(t *testing.T) {
	d := newDesk(t).withPatterns()
	d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--stretch-along", "30%")
	d.done("leftover", jersey, "62 cm", "70 cm", "--washed")
	var g good
	d.answer(&g, "good-for") // the whole length is none
	sizes := map[string]bool{}
	for _, u := range g.Uses {
		if u.Pattern == tank && u.UsedFor == "main" {
			sizes[u.Size] = true
			if !u.Proved {
				t.Errorf("size %s is not proved", u.Size)
			}
		}
	}
	for _, size := range []string{"1", "8"} {
		enough := d.run("check", g.Code, "--pattern", tank, "--size", size).code == 0
		if enough != sizes[size] {
			t.Errorf("size %s: check says %t, good-for %t", size, enough, sizes[size])
		}
	}
	words := d.done("good-for", g.Code)
	if !strings.Contains(words, g.Code+" "+jersey+": ") || len(g.Uses) > 0 != strings.Contains(words, "Still enough, by a layout, for ") {
		t.Errorf("it says %q with %d uses", words, len(g.Uses))
	}
}
