package ui

import (
	"context"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// bench is a window over a library in memory, everything done at once.
type bench struct {
	t      testing.TB
	shell  *Shell
	studio *planner.Studio
	window fyne.Window
}

func newBench(t testing.TB, studio *planner.Studio) *bench {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(1366, 768))
	s := New(w, Deps{Studio: studio, Tasks: task.Inline(), Effort: planner.Effort{Steps: 4}, Planning: planner.BatchEffort{Rounds: 1}})
	t.Cleanup(s.Close)
	return &bench{t, s, studio, w}
}

// full is a bench over the sample studio.
func full(t *testing.T) *bench {
	t.Helper()
	studio, err := sample.New(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return newBench(t, studio)
}

// away is a bench over the sample studio whose work is done away from the window's thread, as in the
// program: the test is that thread, and until does what is handed to it until something has come about.
func away(t *testing.T) (b *bench, until func(come func() bool)) {
	t.Helper()
	studio, err := sample.New(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	app := test.NewTempApp(t)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(1366, 768))
	handed := make(chan func(), 1000)
	s := New(w, Deps{Studio: studio, Tasks: task.New(func(f func()) { handed <- f })})
	t.Cleanup(s.Close)
	return &bench{t, s, studio, w}, func(come func() bool) {
		for !come() {
			(<-handed)()
		}
	}
}

// key presses a key as the driver does: the focused widget has it first.
func (b *bench) key(names ...fyne.KeyName) {
	b.t.Helper()
	for _, name := range names {
		c := b.window.Canvas()
		e := &fyne.KeyEvent{Name: name}
		switch f := c.Focused(); {
		case name == fyne.KeyTab:
			c.FocusNext()
		case f != nil:
			f.TypedKey(e)
		case c.OnTypedKey() != nil:
			c.OnTypedKey()(e)
		}
	}
}

// ctrl presses a key together with Ctrl.
func (b *bench) ctrl(name fyne.KeyName) {
	b.t.Helper()
	var s fyne.Shortcut = &desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierControl}
	switch name {
	case fyne.KeyZ:
		s = &fyne.ShortcutUndo{}
	case fyne.KeyY:
		s = &fyne.ShortcutRedo{}
	}
	if f, ok := b.window.Canvas().Focused().(fyne.Shortcutable); ok {
		f.TypedShortcut(s)
		return
	}
	b.window.Canvas().(fyne.Shortcutable).TypedShortcut(s)
}

// write types a text where the focus is.
func (b *bench) write(text string) {
	b.t.Helper()
	f := b.window.Canvas().Focused()
	if f == nil {
		b.t.Fatalf("nothing has the focus for %q", text)
	}
	for _, r := range text {
		f.TypedRune(r)
	}
}

// focus checks that a named widget has the focus.
func (b *bench) focus(name string) {
	b.t.Helper()
	f, ok := b.shell.Names().Get(name).(fyne.Focusable)
	if !ok || b.window.Canvas().Focused() != f {
		b.t.Fatalf("%s has not the focus, %T has", name, b.window.Canvas().Focused())
	}
}

// tabTo goes on by Tab until a named widget has the focus.
func (b *bench) tabTo(name string) {
	b.t.Helper()
	want, ok := b.shell.Names().Get(name).(fyne.Focusable)
	for range 80 {
		if ok && b.window.Canvas().Focused() == want {
			return
		}
		b.key(fyne.KeyTab)
	}
	b.t.Fatalf("Tab does not come to %s", name)
}

// press clicks a named button.
func (b *bench) press(name string) {
	b.t.Helper()
	o, ok := b.shell.Names().Get(name).(fyne.Tappable)
	if !ok {
		b.t.Fatalf("there is no button %s", name)
	}
	if d, ok := o.(fyne.Disableable); ok && d.Disabled() {
		b.t.Fatalf("%s cannot be pressed", name)
	}
	test.Tap(o)
}

// put types a text into a named line, by mouse: it is clicked first.
func (b *bench) put(name, text string) {
	b.t.Helper()
	e, ok := b.shell.Names().Get(name).(*widgets.Entry)
	if !ok {
		b.t.Fatalf("there is no line %s", name)
	}
	test.Tap(e)
	e.SetText("")
	test.Type(e, text)
}

func (b *bench) list(name string) *widgets.RowList {
	b.t.Helper()
	l, ok := b.shell.Names().Get(name).(*widgets.RowList)
	if !ok {
		b.t.Fatalf("there is no list %s", name)
	}
	return l
}

func (b *bench) cloths() []stash.ClothState {
	b.t.Helper()
	cs, err := b.studio.Cloths(context.Background())
	if err != nil {
		b.t.Fatal(err)
	}
	return cs
}

// reservations counts the live reservations in the library.
func (b *bench) reservations() int {
	n := 0
	for _, c := range b.cloths() {
		n += len(c.Reservations)
	}
	return n
}
