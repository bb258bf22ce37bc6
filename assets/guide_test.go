package assets_test

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tallycloth/assets"
)

// TestGuide: every page has a title and few words, every picture named is there, small enough to
// travel in the program, and none lies about unused; the README leads to the guide; cautions stand
// where one cuts.
func TestGuide(t *testing.T) {
	pages := assets.Guide()
	if len(pages) < 5 {
		t.Fatalf("%d pages", len(pages))
	}
	used, all := map[string]bool{}, ""
	for _, p := range pages {
		if p.Title == "" || strings.HasPrefix(p.Title, "#") || len(strings.Fields(p.Text)) > 450 {
			t.Errorf("page %q has %d words", p.Title, len(strings.Fields(p.Text)))
		}
		for _, m := range regexp.MustCompile(`!\[([^]]+)\]\(([^)]+)\)`).FindAllStringSubmatch(p.Text, -1) {
			used[filepath.Base(m[2])] = true
			data := assets.GuidePicture(m[2])
			if c, err := png.DecodeConfig(bytes.NewReader(data)); err != nil || c.Width < 600 || len(data) > 200_000 {
				t.Errorf("%s of %q: %d bytes, %v, %v", m[2], p.Title, len(data), c, err)
			}
		}
		all += p.Text
	}
	files, err := os.ReadDir("guide/pictures")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !used[f.Name()] {
			t.Errorf("%s is shown nowhere", f.Name())
		}
	}
	for _, caution := range []string{"Rotary cutters", "irons", "fire", "local rules"} {
		if !strings.Contains(all, caution) {
			t.Errorf("no caution about %s", caution)
		}
	}
	readme, err := os.ReadFile("../README.md")
	if err != nil || !strings.Contains(string(readme), "assets/guide/1-tour.md") {
		t.Errorf("the README does not lead to the guide, %v", err)
	}
}
