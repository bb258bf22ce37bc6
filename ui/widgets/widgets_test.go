package widgets

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"pgregory.net/rapid"

	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/looks"
)

func start(t testing.TB) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(&looks.Theme{})
}

// Wrapping loses no word, and no line is wider than it may be unless it is one word.
func TestWrapWords(t *testing.T) {
	start(t)
	rapid.Check(t, func(t *rapid.T) {
		// No units: a number and its unit are one word, however wide they are.
		words := rapid.SliceOf(rapid.StringMatching(`[abdef0-9]{1,12}`)).Draw(t, "words")
		width := rapid.Float32Range(20, 400).Draw(t, "width")
		lines := wrapWords(strings.Join(words, " "), width, 13, fyne.TextStyle{})
		if got := strings.Fields(strings.Join(lines, " ")); strings.Join(got, " ") != strings.Join(words, " ") {
			t.Fatalf("%v became %v", words, lines)
		}
		for _, l := range lines {
			if strings.Contains(l, " ") && fyne.MeasureText(l, 13, fyne.TextStyle{}).Width > width {
				t.Fatalf("%q is wider than %.0f", l, width)
			}
		}
	})
}

// A shortened text fits and begins as the whole one does.
func TestShorten(t *testing.T) {
	start(t)
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[A-Za-z ½é]{0,60}`).Draw(t, "text")
		width := rapid.Float32Range(15, 300).Draw(t, "width")
		got := Shorten(s, width, 13, fyne.TextStyle{})
		if got != s && (fyne.MeasureText(got, 13, fyne.TextStyle{}).Width > width || !strings.HasPrefix(s, strings.TrimSuffix(got, "…"))) {
			t.Fatalf("%q in %.0f became %q", s, width, got)
		}
	})
}

func TestKeysOfAList(t *testing.T) {
	start(t)
	l := NewRowList([]Column{{Title: "Size", Width: 60}})
	w := test.NewTempWindow(t, l)
	w.Resize(fyne.NewSize(400, 300))
	var rows []Row
	for i := range 100 {
		rows = append(rows, Row{Key: i, Title: "row"})
	}
	l.Set(rows)
	chosen, acted := -1, -1
	l.Chosen = func(r Row) { chosen = r.Key.(int) }
	l.Act = func(r Row) { acted = r.Key.(int) }
	page := max(int(l.Size().Height/rowHeight())-1, 1)
	for _, step := range []struct {
		key  fyne.KeyName
		want int
	}{{fyne.KeyDown, 0}, {fyne.KeyDown, 1}, {fyne.KeyUp, 0}, {fyne.KeyUp, 0}, {fyne.KeyPageDown, page}, {fyne.KeyPageDown, 2 * page},
		{fyne.KeyPageUp, page}, {fyne.KeyEnd, 99}, {fyne.KeyDown, 99}, {fyne.KeyHome, 0}} {
		l.TypedKey(&fyne.KeyEvent{Name: step.key})
		if chosen != step.want {
			t.Fatalf("%s leads to %d, want %d", step.key, chosen, step.want)
		}
	}
	l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if acted != 0 {
		t.Errorf("Enter acted on %d", acted)
	}
	l.Choose(57)
	l.Set(rows[50:]) // what was chosen stays chosen where it is still there
	if r, ok := l.ChosenRow(); !ok || r.Key != 57 {
		t.Errorf("chosen is %v", r.Key)
	}
	l.Set(rows[:10])
	if r, ok := l.ChosenRow(); ok {
		t.Errorf("%v is chosen and not there", r.Key)
	}
}

// Where names would have no room columns yield, the greatest first, and never those
// that must stay.
func TestColumnsYield(t *testing.T) {
	start(t)
	columns := []Column{{Width: 100}, {Width: 80, Yields: 1}, {Width: 90, Yields: 2}}
	for width, want := range map[float32][]bool{600: {true, true, true}, 380: {true, true, false}, 290: {true, false, false}, 100: {true, false, false}} {
		if _, shown := titleWidth(columns, width, 8); shown[0] != want[0] || shown[1] != want[1] || shown[2] != want[2] {
			t.Errorf("%.0f wide shows %v, want %v", width, shown, want)
		}
	}
}

// A wrong value says what is wrong, keeps its text, and the form is not sent.
func TestFormKeepsWhatIsWrong(t *testing.T) {
	start(t)
	w := test.NewTempWindow(t, NewButton("under it", nil))
	w.Resize(fyne.NewSize(700, 500))
	f := NewField("Length", "1 m", func(s string) (string, error) {
		if s == "good" {
			return "= good", nil
		}
		return "", errors.New("write good")
	})
	f.Needed = "Say how long it is."
	sent := 0
	form := &Form{Title: "T", Send: "Send", Fields: []*Field{f}, Rows: [][]fyne.CanvasObject{{f.Object()}}, Done: func() error { sent++; return nil }, Say: error.Error}
	form.Show(w.Canvas())
	if w.Canvas().Focused() != f.Entry {
		t.Error("the first line has not the focus")
	}
	enter := func() { f.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }
	enter()
	if sent != 0 || f.Note() != f.Needed {
		t.Errorf("empty: sent %d, says %q", sent, f.Note())
	}
	test.Type(f.Entry, "bad")
	enter()
	if sent != 0 || f.Text() != "bad" || f.Note() != "write good" || !form.Open() {
		t.Errorf("wrong: sent %d, text %q, says %q", sent, f.Text(), f.Note())
	}
	f.Entry.SetText("good")
	if f.Note() != "= good" {
		t.Errorf("the reading is %q", f.Note())
	}
	enter()
	if sent != 1 || form.Open() || !form.Sent() {
		t.Errorf("right: sent %d, open %v", sent, form.Open())
	}
	form.Show(w.Canvas())
	f.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if form.Open() || form.Sent() {
		t.Error("Escape does not close it unsent")
	}
}

// What is missing stays said when the focus only leaves, what the form complained of goes when something is changed, and
// closing leaves nothing lit.
func TestFormSaysWhatHolds(t *testing.T) {
	start(t)
	w := test.NewTempWindow(t, NewButton("under it", nil))
	w.Resize(fyne.NewSize(700, 500))
	name, other := NewField("Name", "", nil), NewField("Other", "", nil)
	name.Needed = "Give it a name."
	made, yes := NewChoice("Made", []string{"rib", "jersey"}, nil), NewCheck("Washed", nil)
	sent := 0
	form := &Form{Title: "T", Send: "Send", Fields: []*Field{name, other}, Rows: [][]fyne.CanvasObject{{name.Object(), other.Object()}, {made.Object(), yes}},
		Done: func() error { sent++; return errors.New("this cannot be") }, Say: error.Error}
	form.Show(w.Canvas())
	form.Submit()
	w.Canvas().Focus(other.Entry)
	if name.Note() != name.Needed {
		t.Errorf("while the name is missing the form says %q", name.Note())
	}
	test.Type(name.Entry, "Moss")
	for what, change := range map[string]func(){"a line": func() { test.Type(other.Entry, "x") }, "a choice": func() { made.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) }} {
		size := form.popup.Content.MinSize()
		form.Submit()
		if form.Trouble() != "this cannot be" || form.popup.Content.MinSize() != size {
			t.Errorf("it complains %q, %v and then %v large", form.Trouble(), size, form.popup.Content.MinSize())
		}
		if change(); form.Trouble() != "" {
			t.Errorf("after %s was changed it still says %q", what, form.Trouble())
		}
	}
	was := sent
	yes.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if sent != was+1 || yes.Checked {
		t.Errorf("Enter on a yes or no: sent %d times, checked %v", sent-was, yes.Checked)
	}
	yes.TypedRune(' ')
	if !yes.Checked {
		t.Error("the space bar does not change it")
	}
	w.Canvas().Focus(made)
	lit := false
	probe := NewEntry("")
	probe.Lost = func() { lit = true }
	form.Rows = append(form.Rows, []fyne.CanvasObject{probe})
	form.Close()
	form.Show(w.Canvas())
	w.Canvas().Focus(probe)
	if form.Close(); !lit {
		t.Error("closed, the form leaves the focus with its line")
	}
}

// What is wrong is said with the cure first, on as many lines as it takes once the form was to be sent; the room
// stays when it is right again.
func TestFieldNoteWraps(t *testing.T) {
	start(t)
	w := test.NewTempWindow(t, NewButton("under it", nil))
	w.Resize(fyne.NewSize(700, 500))
	f := NewField("Length", "", func(s string) (string, error) {
		_, err := measure.ParsePositiveLength(s, measure.Centimetre)
		return "= read", err
	})
	form := &Form{Title: "T", Send: "Send", Fields: []*Field{f}, Rows: [][]fyne.CanvasObject{{f.Object(), NewEntry(""), NewEntry("")}}, Say: error.Error}
	form.Show(w.Canvas())
	low := form.popup.Content.MinSize().Height
	test.Type(f.Entry, "12 3")
	if now := form.popup.Content.MinSize().Height; now != low {
		t.Errorf("while typing the form is %.0f high, before %.0f", now, low)
	}
	form.Submit()
	if !strings.HasPrefix(f.Note(), "Write 1.25 m, 114 cm or 45 in: two numbers") {
		t.Errorf("it says %q", f.Note())
	}
	var shown []string
	for _, l := range f.note.lines {
		if shown = append(shown, l.Text); l.MinSize().Width > f.Entry.Size().Width {
			t.Errorf("%q is wider than the line", l.Text)
		}
	}
	if said := strings.Join(shown, " "); said != f.Note() || len(shown) < 2 {
		t.Errorf("in sight is %q", said)
	}
	high := form.popup.Content.MinSize().Height
	f.Entry.SetText("12")
	if now := form.popup.Content.MinSize().Height; high <= low || now != high {
		t.Errorf("the form is %.0f, then %.0f, then %.0f high", low, high, now)
	}
}

// Every meaning a scene can have is drawn.
func TestEveryStyleHasAPen(t *testing.T) {
	styles := pens(looks.Light)
	for _, s := range []scene.Style{scene.Cloth, scene.Edge, scene.Selvedge, scene.Fold, scene.Flaw, scene.Reserved, scene.Piece, scene.Grain, scene.Notch,
		scene.Grid, scene.Free, scene.Overlap, scene.Dimension, scene.Label, scene.Garment, scene.Strip, scene.Stitch, scene.Join} {
		if p, ok := styles[s]; !ok || p.line.A == 0 && p.fill.A == 0 {
			t.Errorf("%s is not drawn", s)
		}
	}
}

// A scene is drawn to scale: as high as its width takes, within its limit.
func TestSceneKeepsItsProportions(t *testing.T) {
	start(t)
	d := scene.StripDrawing{Length: 600_000, Width: 60_000}
	v := NewSceneView(200, 150)
	v.Draw(d.Scene())
	v.Resize(fyne.NewSize(400, 100))
	b := v.Scene().Bounds
	if got, want := v.height(400), float32(400*b.Height()/b.Width()); got != min(want, 150) {
		t.Errorf("400 wide is %.1f high, want %.1f", got, want)
	}
	if img := v.Picture(400, 100); img.Bounds().Dx() != 400 || blank(img.Pix) {
		t.Error("nothing is drawn")
	}
	v.Draw(scene.Scene{})
	if v.MinSize().Height != 0 {
		t.Error("an empty scene takes room")
	}
}

func blank(pix []uint8) bool {
	for _, p := range pix {
		if p != 0 {
			return false
		}
	}
	return true
}

// Silhouettes of nothing are nothing; of something they are within their picture.
func TestSilhouettes(t *testing.T) {
	start(t)
	if !blank(Silhouettes(nil).Pix) {
		t.Error("nothing has a silhouette")
	}
	tall := shape.Box{Max: shape.Point{X: 900_000, Y: 200_000}}.Ring()
	if img := Silhouettes([]shape.Ring{tall, tall, tall}); blank(img.Pix) || img.Bounds().Dy() != swatchHeight {
		t.Error("no silhouettes")
	}
}

// Enter presses a button, unless it cannot be pressed; other keys go to the window.
func TestEnterPressesAButton(t *testing.T) {
	start(t)
	n := 0
	b := NewButton("Go", func() { n++ })
	w := test.NewTempWindow(t, b)
	var passed fyne.KeyName
	w.Canvas().SetOnTypedKey(func(k *fyne.KeyEvent) { passed = k.Name })
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	b.Disable()
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnter})
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if n != 1 || passed != fyne.KeyEscape {
		t.Errorf("pressed %d times, passed %q", n, passed)
	}
	if theme.TextSize() != 13 {
		t.Errorf("the text is %.0f high", theme.TextSize())
	}
}

// TestOddSwatch: a piece with a slanted end is drawn so, its long side at the bottom.
func TestOddSwatch(t *testing.T) {
	o := shape.Polygon{Outer: shape.Ring{{}, {X: 600_000}, {X: 300_000, Y: 400_000}, {Y: 400_000}}}
	img := Swatch{Colour: "#336699", Length: 1, Free: 1, Outline: &o}.Picture(96, 30)
	covered := func(y int) (n int) {
		for x := range 96 {
			if img.RGBAAt(x, y).A > 0 {
				n++
			}
		}
		return n
	}
	if top, middle, bottom := covered(0), covered(15), covered(29); top > 51 || top < 47 || middle > 74 || middle < 69 || bottom < 93 {
		t.Errorf("%d pixels of 96 at the top, %d in the middle, %d at the bottom", top, middle, bottom)
	}
}

// The small line of a row runs on beneath what its figures leave of their column; the title of a column says what it means.
func TestRoomAndHintsOfAList(t *testing.T) {
	start(t)
	l := NewRowList([]Column{{Title: "Size", Width: 126, Right: true, Hint: "how large"}, {Title: "Free", Width: 58, Right: true}})
	told := ""
	l.Tell = func(s string) { told = s }
	v := newRowView(l)
	room := func(cell Cell) float32 {
		v.row = Row{Title: "Moss jersey", Sub: "4M6K", Cells: []Cell{cell, {Text: "all"}}}
		return v.lines(fyne.NewSize(600, 50), false)[1].width
	}
	long, short, odd := room(Cell{Text: "2.355 m × 159.5 cm"}), room(Cell{Text: "2.3 m"}), room(Cell{Text: "2.3 m", Under: "at most: odd outline"})
	if !(odd < long && long < short && short < odd+126) {
		t.Errorf("beside figures long, short and with a line under them there is room for %.0f, %.0f and %.0f", long, short, odd)
	}
	h := l.Header("Fabric").(*header)
	h.Resize(fyne.NewSize(600, 20))
	for x, want := range map[float32]string{20: "", 600 - 8 - 30: "", 600 - 8 - 58 - gap - 60: "how large"} {
		told = ""
		h.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x, 5)})
		if told != want {
			t.Errorf("at %.0f it tells %q, want %q", x, told, want)
		}
	}
}
