package verb_test

import (
	"encoding/json"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// keys collects the names of all fields in a JSON value.
func keys(v any, into map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for k, in := range v {
			into[k] = true
			keys(in, into)
		}
	case []any:
		for _, in := range v {
			keys(in, into)
		}
	}
}

// TestHelpNamesEveryField: what a script gets with --json is described in the help of
// the verb, or of a verb that this one refers to.
func TestHelpNamesEveryField(t *testing.T) {
	d := newDesk(t).withPatterns()
	code := d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%", "--fibres", "95% cotton 5% elastane")
	kept := filepath.Join(t.TempDir(), "kept.db")
	d.done("backup", kept)
	q := []string{"--pattern", tank, "--size", "4"}
	said := map[string]string{"finding": "check", "pattern": "list", "cloth": "list", "notion": "notions", "pieces": "lay", "cost": "costs", "fit": "person"}
	word := regexp.MustCompile(`[a-z_0-9]+`)
	for _, args := range [][]string{
		append([]string{"check", code}, q...),
		append([]string{"reserve", code, "--garment", "June"}, q...),
		append([]string{"strips", "--from", code, "--garment", "June"}, q...),
		append([]string{"lay", code}, q...),
		{"sheet", "June", "--to", filepath.Join(t.TempDir(), "june.pdf")},
		{"garment", "show", "June"}, {"garment", "fitting", "June", "--note", "snug"}, {"garment", "copy", "June"},
		{"adjust", "add", "June, again", "hem 5 cm longer"}, {"adjust", "list", "June, again"},
		{"list", "fabrics"}, {"list", "cloth"}, {"list", "patterns"}, {"list", "garments"}, {"list", "history"},
		{"undo"}, {"redo"}, {"release", "June"}, {"leftover", jersey, "60", "80"}, {"log", jersey, "1 m"},
		{"bring-in", filepath.Join("..", "..", "..", "testdata", "svg", "saved_layers.svg")},
		{"log", jersey, "1 m", "--line", jersey + "; 2 m; price 12"}, {"rate", "1 USD = 0.92 EUR"}, {"purchases"},
		{"notion", "Clear elastic", "--quantity", "2", "--unit", "m", "--reorder", "3"}, {"notion", "Clear", "--used", "1"}, {"notions"}, {"shopping"},
		{"history"}, {"yardage"}, {"value"}, {"costs"},
		{"batch", "plan", d.wants("wanted.csv", "pattern,size,count\n"+tank+",4,1\nHarbour sleep shirt,4,9\n"), "--whole-lengths", "--rounds", "1", "--name", "all"},
		{"batch", "list"}, {"batch", "show", "all"}, {"batch", "drop", "all"},
		{"import", d.list(ownList)}, {"export", filepath.Join(t.TempDir(), "lists")},
		{"photo", "add", photoFile(t), "--fabric", jersey}, {"photo", "list", "--fabric", jersey},
		{"fabric", jersey}, {"classes"},
		{"stitch", "add", "--fabric", jersey, "--stitch", "zigzag"}, {"stitch", "list", "--fabric", jersey},
		{"person", "add", "Ida"}, {"person", "measure", "Ida", "--at", "bust=92", "--at", "hip=98"}, {"person", "list"}, {"person", "size", "Ida", "--pattern", tank},
		{"blend", tank, "--at", "bust=3", "--at", "hip=5"}, {"chart", tank},
		{"quick", "skirt", "--name", "Millrace skirt", "--at", "waist=72", "--at", "hip=98", "--at", "length=60"},
		{"elastic", "74 cm", "--hip", "1 m"}, {"bias", "--wanted", "10 m"}, {"technique", "Rolled rim", "three widths, one seam"},
		{"backup", filepath.Join(t.TempDir(), "copy.db")}, {"restore"}, {"restore", kept, "--dry"},
	} {
		var v any
		if err := json.Unmarshal([]byte(d.done(append(args, "--json")...)), &v); err != nil {
			t.Fatalf("%q: %v", args, err)
		}
		help := d.done(args[0], "--help")
		for _, verb := range said {
			if strings.Contains(help, verb+" ") {
				help += d.done(verb, "--help")
			}
		}
		described := map[string]bool{}
		for _, w := range word.FindAllString(help, -1) {
			described[w] = true
		}
		got := map[string]bool{}
		keys(v, got)
		for k := range got {
			if !described[k] {
				t.Errorf("%s --json says %q, which its help does not describe", args[0], k)
			}
		}
	}
}
