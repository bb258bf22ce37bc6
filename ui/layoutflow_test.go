package ui

import (
	"context"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/stash/shape"
	"tallycloth/ui/page"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// findFabric compares the shelf with the first pattern and chooses the long moss jersey.
func (b *bench) findFabric() *widgets.LayoutView {
	b.t.Helper()
	b.ctrl(fyne.Key2)
	b.key(fyne.KeyHome, fyne.KeyReturn)
	l := b.list("find.list")
	for _, r := range l.Rows() {
		if strings.Contains(r.Sub, "1.80 m") {
			l.Choose(r.Key)
		}
	}
	return b.shell.Names().Get("find.layout").(*widgets.LayoutView)
}

func (b *bench) note() string { return b.shell.Names().Get("find.note").(*widget.Label).Text }

// ends is how far the pieces of a drawing reach.
func ends(v *widgets.LayoutView) (end int64) {
	for _, p := range v.Picture().Pieces {
		end = max(end, p.Outline.Bounds().Max.X)
	}
	return end
}

// By keyboard alone: a piece is chosen, moved, kept in place and let go, the search goes on
// from there, its layout is seen, taken back, done again and reserved.
func TestKeepTryingByKeyboard(t *testing.T) {
	b := full(t)
	v := b.findFabric()
	before := v.Picture()
	b.tabTo("find.move")
	b.key(fyne.KeyReturn)
	b.focus("find.layout")
	b.write("n")
	for range 60 { // 30 cm along, beyond the others
		b.key(fyne.KeyRight)
	}
	moved := v.Picture().Pieces[0].Outline.Bounds()
	if moved.Min.X-before.Pieces[0].Outline.Bounds().Min.X != 300_000 || !v.Picture().Pieces[0].Kept {
		t.Fatalf("moved to %v, kept %v", moved, v.Picture().Pieces[0].Kept)
	}
	b.write("k")
	if v.Picture().Pieces[0].Kept {
		t.Error("k did not let it go")
	}
	b.ctrl(fyne.KeyZ)
	if !v.Picture().Pieces[0].Kept || !strings.Contains(b.shell.Quiet(), "let") {
		t.Errorf("taking back k: %q", b.shell.Quiet())
	}
	b.write("k")
	was := ends(v)
	b.tabTo("find.try")
	b.key(fyne.KeyReturn)
	found := ends(v)
	if found >= was || !strings.Contains(b.note(), "shorter") || len(v.Picture().Pieces) != len(before.Pieces) {
		t.Fatalf("from %d to %d µm: %s", was, found, b.note())
	}
	b.ctrl(fyne.KeyZ)
	if ends(v) != was {
		t.Errorf("taken back it ends at %d, before at %d", ends(v), was)
	}
	b.shell.Redo()
	if ends(v) != found {
		t.Errorf("done again it ends at %d", ends(v))
	}
	n := b.reservations()
	b.tabTo("find.reserve")
	b.key(fyne.KeyReturn)
	b.focus("reserve.which")
	b.key(fyne.KeyReturn)
	if b.reservations() != n+1 {
		t.Errorf("not reserved: %s", b.shell.Quiet())
	}
}

// What is kept stays where it is while the search goes on; by mouse.
func TestWhatIsKeptStays(t *testing.T) {
	b := full(t)
	v := b.findFabric()
	b.press("find.move")
	v.Mover.Moved(0, shape.Point{X: 350_000})
	at := v.Picture().Pieces[0].Outline.Bounds()
	name := v.Picture().Pieces[0].Name
	b.press("find.try")
	for _, p := range v.Picture().Pieces {
		if p.Name == name && p.Outline.Bounds() == at && p.Kept {
			return
		}
	}
	t.Errorf("%s is not at %v any more: %s", name, at, b.note())
}

// Every rule that does not hold is said in a sentence of its own, its piece shaded, and the
// layout cannot be reserved; what was done in hand is there again after looking elsewhere.
func TestWhatDoesNotHold(t *testing.T) {
	b := full(t)
	v := b.findFabric()
	b.press("find.move")
	v.Mover.Moved(0, shape.Point{Y: -2_000_000})
	reserve := b.shell.Names().Get("find.reserve").(*widgets.Button)
	lines := strings.Split(b.note(), "\n")
	if !reserve.Disabled() || !v.Picture().Pieces[0].Wrong || len(lines) != 1 || !strings.HasSuffix(lines[0], ".") {
		t.Fatalf("%q", b.note())
	}
	l := b.list("find.list")
	chosen, _ := l.ChosenRow()
	l.Choose(l.Rows()[0].Key)
	if v.Picture().Pieces[0].Wrong || reserve.Disabled() {
		t.Error("the other cloth has the fault")
	}
	l.Choose(chosen.Key)
	if !v.Picture().Pieces[0].Wrong || !reserve.Disabled() {
		t.Error("what was done in hand is gone")
	}
	b.ctrl(fyne.Key1)
	b.ctrl(fyne.Key2) // the shelf is compared again
	if now, _ := l.ChosenRow(); now.Key != chosen.Key || !v.Picture().Pieces[0].Wrong {
		t.Error("what was done in hand is gone after looking at the stash")
	}
	b.press("undo")
	if v.Picture().Pieces[0].Wrong || reserve.Disabled() {
		t.Errorf("taken back: %s", b.note())
	}
	before := len(b.acts())
	b.press("undo") // nothing is left to take back in hand: now it is the library's
	if len(b.acts()) == before {
		t.Error("the library's undo is out of reach")
	}
}

func (b *bench) acts() []string {
	all, err := b.studio.Acts(context.Background(), 1000)
	if err != nil {
		b.t.Fatal(err)
	}
	var out []string
	for _, a := range all {
		out = append(out, a.Sentence)
	}
	return out
}

// With the search away from the window's thread: frames come while it runs, the window
// answers meanwhile, and Stop keeps the best.
func TestTheSearchIsSeen(t *testing.T) {
	studio, err := sample.New(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	app := test.NewTempApp(t)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(1366, 768))
	handed := make(chan func(), 1000)
	s := New(w, Deps{Studio: studio, Tasks: task.New(func(f func()) { handed <- f }), Effort: planner.Effort{Time: time.Hour}}) // until it is stopped
	defer s.Close()
	until := func(come func() bool) {
		for !come() {
			(<-handed)()
		}
	}
	s.Go(page.Route{Place: page.Patterns})
	list := func(name string) *widgets.RowList { l, _ := s.Names().Get(name).(*widgets.RowList); return l }
	until(func() bool { return len(list("patterns.list").Rows()) > 0 })
	list("patterns.list").Choose(list("patterns.list").Rows()[0].Key)
	test.Tap(s.Names().Get("pattern.find").(fyne.Tappable))
	until(func() bool { return list("find.list") != nil && len(list("find.list").Rows()) == 16 })
	compared := s.Names().Get("find.state").(*widget.Label)
	until(func() bool { return strings.Contains(compared.Text, "would do") }) // the list stays as it is from here on
	view := s.Names().Get("find.layout").(*widgets.LayoutView)
	try := s.Names().Get("find.try").(*widgets.Button)
	note := s.Names().Get("find.note").(*widget.Label)
	seen := func() bool { return try.Text == "Stop" && strings.Contains(note.Text, "of length") } // a frame was shown
	for _, r := range list("find.list").Rows() {                                                  // on some cloth it is proved at once that nothing is shorter
		list("find.list").Choose(r.Key)
		if !strings.Contains(r.Cells[0].Text, "Enough") || try.Disabled() {
			continue
		}
		until(func() bool { return len(view.Picture().Pieces) > 0 })
		test.Tap(try)
		until(func() bool { return try.Text == "Stop" })
		if until(func() bool { return seen() || try.Text != "Stop" }); seen() {
			break
		}
	}
	if !seen() {
		t.Fatal("no search was seen on any cloth")
	}
	view.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 25)})
	view.MouseMoved(&desktop.MouseEvent{})
	list("find.list").TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) // nothing is reserved while it runs
	if !strings.Contains(s.Quiet(), "Stop it first") {
		t.Errorf("Enter while the search is on: %q", s.Quiet())
	}
	w.Canvas().Focus(try)
	try.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) // as Stop does
	until(func() bool { return try.Text == "Keep trying" })
	if strings.Contains(note.Text, "Trying") || len(view.Picture().Pieces) == 0 {
		t.Errorf("after Stop: %q", note.Text)
	}
}
