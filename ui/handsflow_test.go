package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/ui/page"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// F1 opens the guide from a list, a line of text and a button; Escape leads back to where one was.
func TestHelpFromAnywhere(t *testing.T) {
	b := full(t)
	for _, from := range []string{"garments.list", "garments.filter", "undo", "rail.batch"} {
		b.ctrl(fyne.Key3)
		b.window.Canvas().Focus(b.shell.Names().Get(from).(fyne.Focusable))
		b.key(fyne.KeyF1)
		if b.shell.Place() != page.Help {
			t.Errorf("F1 from %s leads to %s", from, b.shell.Place())
		}
		b.focus("help.list")
		for _, r := range b.list("help.list").Rows() {
			if r.Title == "Keys" {
				b.list("help.list").Choose(r.Key)
			}
		}
		if s := test.RenderToMarkup(b.window.Canvas()); !strings.Contains(s, "F1: this guide") {
			t.Error("the page of keys has none")
		}
		b.key(fyne.KeyEscape)
		if b.shell.Place() != page.Garments {
			t.Errorf("Escape leads to %s", b.shell.Place())
		}
	}
	b.ctrl(fyne.Key5)
	b.key(fyne.KeyF1)
	if row, _ := b.list("help.list").ChosenRow(); !strings.Contains(row.Title, "binding") {
		t.Errorf("F1 from Binding tells about %q", row.Title)
	}
	b.press("rail.help")
	b.press("rail.stash")
	if b.shell.Place() != page.Stash {
		t.Error("one does not come out of the help by mouse")
	}
}

// A button that was pressed has the focus, by key and by mouse, and what it opened leads back to it, though
// the button is drawn anew meanwhile.
func TestFocusComesBack(t *testing.T) {
	b, until := away(t)
	until(func() bool { return len(b.list("stash.list").Rows()) > 0 })
	for _, c := range b.cloths() {
		if !c.Cloth.Washed {
			b.list("stash.list").Choose(c.Cloth.ID)
		}
	}
	until(func() bool { return b.shell.Names().Get("stash.wash") != nil })
	b.tabTo("stash.add")
	b.key(fyne.KeySpace)
	b.focus("form.fabric")
	b.key(fyne.KeyEscape)
	b.focus("stash.add")
	b.press("stash.log")
	b.key(fyne.KeyEscape)
	b.focus("stash.log")

	focused := func(name string) func() bool {
		return func() bool {
			f, ok := b.window.Canvas().Focused().(fyne.CanvasObject)
			return ok && f == b.shell.Names().Get(name)
		}
	}
	b.tabTo("stash.move")
	before := b.shell.Names().Get("stash.move")
	b.key(fyne.KeyReturn)
	b.write("top shelf")
	b.key(fyne.KeyReturn)
	until(func() bool { return b.shell.Names().Get("stash.move") != before })
	until(focused("stash.move"))
	before.(*widgets.Button).TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if b.window.Canvas().Overlays().Top() != nil {
		t.Error("a button that has gone was pressed")
	}

	b.tabTo("stash.wash") // what is washed has no such button any more
	b.key(fyne.KeyReturn)
	b.write("1.38 m")
	b.key(fyne.KeyTab)
	b.write("165 cm")
	b.key(fyne.KeyReturn)
	until(focused("stash.list"))
}

// What is told before the window has its size does not make it grow, however little room there is.
func TestTellingDoesNotMakeTheWindowGrow(t *testing.T) {
	b := full(t)
	b.window.Resize(fyne.NewSize(100, 100))
	b.shell.quiet.Resize(fyne.NewSize(120, 30))
	before := b.window.Content().MinSize().Height
	b.shell.tell("Everything is saved at once in /home/studio/library, and this goes on and on for longer than the line has room.")
	if after := b.window.Content().MinSize().Height; after != before {
		t.Errorf("it needed a height of %g, with words %g", before, after)
	}
}

// A row is copied as text with Ctrl+C, the table with Ctrl+Shift+C; the keys of the window work from
// a list all the same.
func TestCopyFromLists(t *testing.T) {
	b := full(t)
	l := b.list("stash.list")
	b.window.Canvas().Focus(l)
	b.key(fyne.KeyHome)
	l.TypedShortcut(&fyne.ShortcutCopy{})
	row, _ := l.ChosenRow()
	clip := func() string { return fyne.CurrentApp().Clipboard().Content() }
	if got := clip(); !strings.HasPrefix(got, row.Title) || strings.Count(got, "\t") != len(row.Cells) || !strings.HasSuffix(got, "\n") {
		t.Errorf("copied %q of %+v", got, row)
	}
	l.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyC, Modifier: fyne.KeyModifierControl | fyne.KeyModifierShift})
	lines := strings.Split(strings.TrimSuffix(clip(), "\n"), "\n")
	if len(lines) != 1+len(l.Rows()) || !strings.Contains(clip(), row.Title) {
		t.Errorf("copied %d lines of %d rows", len(lines), len(l.Rows()))
	}
	b.ctrl(fyne.Key3)
	if b.shell.Place() != page.Garments {
		t.Error("Ctrl+3 does not work from a list")
	}
	b.ctrl(fyne.KeyF)
	b.focus("garments.filter")
}

// The window comes back with its place and filters, each library with its own.
func TestRemembers(t *testing.T) {
	memory := &page.Forgetful{}
	visit := func(folder string) (*Shell, fyne.Window) {
		t.Helper()
		studio, err := sample.New(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		w := test.NewTempWindow(t, nil)
		w.Resize(fyne.NewSize(1100, 700))
		return New(w, Deps{Studio: studio, Tasks: task.Inline(), Folder: folder, Memory: memory}), w
	}
	test.NewTempApp(t).Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	first, _ := visit("/a")
	if first.Place() != page.Stash || first.lastSize() != usualSize {
		t.Errorf("at first %s, %v", first.Place(), first.lastSize())
	}
	first.Names().Get("stash.filter").(*widgets.Entry).SetText("rib")
	all := len(first.Names().Get("stash.list").(*widgets.RowList).Rows())
	first.Go(page.Route{Place: page.Patterns})
	first.Names().Get("garments.divider").(*widgets.Divider).SetShare(0.45)
	first.Close()
	again, _ := visit("/a")
	defer again.Close()
	if again.Place() != page.Patterns || again.Names().Get("stash.filter").(*widgets.Entry).Text != "rib" || again.lastSize() != fyne.NewSize(1100, 700) {
		t.Errorf("it came back at %s, %v", again.Place(), again.lastSize())
	}
	again.Go(page.Route{Place: page.Stash})
	if at := again.Names().Get("garments.divider").(*widgets.Divider).Share(); at != 0.45 {
		t.Errorf("the line in Garments came back at %g", at)
	}
	if n := len(again.Names().Get("stash.list").(*widgets.RowList).Rows()); n != all {
		t.Errorf("the filter shows %d rows, before it were %d", n, all)
	}
	other, _ := visit("/b")
	defer other.Close()
	if other.Place() != page.Stash || other.Names().Get("stash.filter").(*widgets.Entry).Text != "" {
		t.Errorf("another library came up at %s", other.Place())
	}
}
