package verb_test

import (
	"regexp"
	"strings"
	"testing"
)

// TestManual: the manual page has every verb that the help lists, and no line of a text is
// taken for an instruction.
func TestManual(t *testing.T) {
	d := newDesk(t)
	page := d.done("manual")
	verbs := regexp.MustCompile(`(?m)^  ([a-z-]+) +\S`).FindAllStringSubmatch(strings.SplitN(d.done("--help"), "Verbs:", 2)[1], -1)
	if len(verbs) < 30 {
		t.Fatalf("%d verbs in the help", len(verbs))
	}
	for _, v := range verbs {
		if name := strings.ReplaceAll(v[1], "-", `\-`); !strings.Contains(page, "\n.SS "+name) {
			t.Errorf("%s is not in the manual page", v[1])
		}
	}
	for _, l := range strings.Split(page, "\n") {
		if strings.HasPrefix(l, "'") || strings.HasPrefix(l, ".") && !regexp.MustCompile(`^\.(TH|SH|SS|PP|TP|B|nf|fi)\b`).MatchString(l) {
			t.Errorf("an instruction nobody wrote: %q", l)
		}
	}
}
