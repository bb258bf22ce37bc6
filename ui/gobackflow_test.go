//go:build cgo

package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/google/uuid"

	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/widgets"
)

// A back-up is made on the day, seen in the list, and gone back to after what would change was said.
func TestGoBackInSettings(t *testing.T) {
	folder := t.TempDir()
	store, err := db.Open(t.Context(), folder, db.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { store.Close() })
	studio := planner.NewStudio(planner.Config{Store: store, Now: time.Now, NewID: func() stash.ID { return uuid.Must(uuid.NewV7()) }})
	if _, err := studio.LogPurchase(t.Context(), planner.PurchaseForm{Fabric: stash.Fabric{Name: "Moss jersey", Construction: stash.Jersey, FullWidth: 150 * measure.Centimetre}, Length: 2 * measure.Metre}); err != nil {
		t.Fatal(err)
	}
	b := newBench(t, studio)
	h := &hand{}
	b.shell.host.Library = h
	b.shell.backUpToday(0)
	if !strings.Contains(b.shell.Quiet(), "back-up of the day") {
		t.Errorf("said %q", b.shell.Quiet())
	}
	b.shell.backUpToday(0)
	b.press("rail.settings")
	b.choose("settings.text", "110 %") // something done since
	b.press("settings.return")
	if rows := b.list("return.list").Rows(); len(rows) != 1 || !strings.Contains(rows[0].Sub, "of the day") {
		t.Fatalf("%+v", rows)
	}
	if s := test.RenderToMarkup(b.window.Canvas()); !strings.Contains(s, "1 thing that you did since would be gone") || !strings.Contains(s, "Changed the settings: text size") {
		t.Error("it is not said what would be gone")
	}
	b.press("undo") // and now another thing: what is said follows
	if s := test.RenderToMarkup(b.window.Canvas()); !strings.Contains(s, "2 things that you did since would be gone") {
		t.Error("what is said did not follow the library")
	}
	damaged := filepath.Join(t.TempDir(), "damaged.db")
	if err := os.WriteFile(damaged, []byte("not a library"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.tabTo("return.file")
	b.write(damaged)
	b.key(fyne.KeyReturn)
	if !b.shell.Names().Get("return.go").(*widgets.Button).Disabled() {
		t.Error("a damaged file can be gone back to")
	}
	if _, ok := b.list("return.list").ChosenRow(); ok {
		t.Error("a row is chosen, and another file is shown")
	}
	b.list("return.list").Select(0) // a click on the only one there is, which was looked at before
	b.press("return.go")
	if all, err := store.Backups(t.Context()); err != nil || len(all) != 1 || h.returned != all[0].Path {
		t.Errorf("asked to go back to %q, %v, %v", h.returned, all, err)
	}
	b.key(fyne.KeyEscape)
	b.focus("settings.units")
}
