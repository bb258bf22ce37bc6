//go:build e2e

package e2e

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestDemoStudio opens the demo studio from the empty window, then asks in it which
// cloth is enough and what a leftover can make.
func TestDemoStudio(t *testing.T) {
	s := newStudio(t)
	s.click("stash.demo")
	demo := &studio{t: t, screen: s.screen, folder: filepath.Join(filepath.Dir(s.folder), "tallycloth-demo")}
	until(t, "the demo studio", func() (bool, string) {
		out, err := s.screen.try("sqlite3", "-readonly", filepath.Join(demo.folder, "library.db"), "SELECT count(*) FROM garment WHERE present")
		return err == nil && strings.TrimSpace(out) == "10", out
	})
	demo.holds("its cloth", "SELECT count(*) >= 40 FROM cloth WHERE present", "1")
	until(t, "its window alone", func() (bool, string) {
		out, err := s.screen.try("xdotool", "search", "--onlyvisible", "--name", "demo studio")
		return err == nil && len(strings.Fields(out)) == 1 && s.windows() == 1, s.said.String()
	})
	s.frontmost()
	s.quit()

	demo.args = []string{"--library", demo.folder}
	demo.open()
	demo.await("stash.list", "shows the shelf", func(w widget) bool { return w.Visible && len(w.Rows) >= 40 })
	demo.picture("shelf")
	mouse{}.place(demo, "patterns")
	w := demo.await("patterns.list", "has the patterns", func(w widget) bool { return w.Visible && len(w.Rows) == 3 })
	tank := slices.IndexFunc(w.Rows, func(r string) bool { return strings.Contains(r, "Fennel tank") })
	mouse{}.row(demo, "patterns.list", tank)
	demo.picture("pattern")
	demo.click("pattern.find")
	demo.await("find.state", "has compared the whole shelf", func(w widget) bool { return strings.Contains(w.Text, "would do, best first") })
	found := demo.see("find.list")
	if !strings.Contains(found.Rows[0], "Enough") || !strings.Contains(found.Rows[len(found.Rows)-1], "Unsuitable") {
		t.Errorf("the shelf is not sorted best first: %q … %q", found.Rows[0], found.Rows[len(found.Rows)-1])
	}
	mouse{}.row(demo, "find.list", 0)
	demo.picture("find")
	mouse{}.place(demo, "garments")
	demo.await("garments.list", "has the garments", func(w widget) bool { return w.Visible && len(w.Rows) == 10 })
	demo.picture("garments")
	demo.close()
}
