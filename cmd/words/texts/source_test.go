package texts

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// TestReadSource finds what is said, put together as a person reads it, and leaves out what is not.
func TestReadSource(t *testing.T) {
	path := filepath.Join(t.TempDir(), "page.go")
	source := `package page

import "fmt"

var label = "Log purchase"

func say(s string, n int) string {
	names.Set("stash.log", label)
	host.Act("keep it", func() {})
	flags.StringVar(&s, "lot", "", "the dye lot")
	if s == "asked for" || strings.HasPrefix(s, "look for") {
		return "Bought " + fmt.Sprint(n) + " lengths" + ", " + "all " + "washed"
	}
	switch s {
	case "heard only":
		return kinds["by name"]
	}
	return fmt.Sprintf("%d of %.1f m, 40 %% off", n, 2.0)
}
`
	if err := os.WriteFile(path, []byte(source), 0o600); err != nil {
		t.Fatal(err)
	}
	found, err := readSource(path, "ui/page.go")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range found {
		got = append(got, f.Said)
	}
	want := []string{"Log purchase", "the dye lot", "Bought … lengths, all washed", "… of … m, 40 % off"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, not %q", got, want)
	}
}

// TestCollectPlaces: every place says something, and each text stands once in a place.
func TestCollectPlaces(t *testing.T) {
	all, err := Collect("../../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range all {
		seen := map[string]bool{}
		for _, s := range p.Texts {
			if seen[s.Said] {
				t.Errorf("%s says %q twice", p.Name, s.Said)
			}
			seen[s.Said] = true
		}
		if len(seen) == 0 {
			t.Errorf("%s says nothing", p.Name)
		}
	}
}
