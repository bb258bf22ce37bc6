package widgets

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// clocked is a choice in a window with a clock that the test turns.
func clocked(t *testing.T, words ...string) (c *Choice, w fyne.Window, now *time.Time) {
	t.Helper()
	start(t)
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	c = NewChoice("How it is made", words, nil)
	c.Now = func() time.Time { return at }
	w = test.NewTempWindow(t, container.NewVBox(c.Object()))
	w.Resize(fyne.NewSize(400, 300))
	return c, w, &at
}

// Letters typed quickly are one word; after a pause a new one begins.
func TestLettersOfAChoice(t *testing.T) {
	words := []string{"jersey", "rib", "interlock", "French terry", "swim knit", "sweatshirt fleece", "red", "rose", "orange", "olive"}
	for _, x := range []struct{ from, typed, want string }{
		{"jersey", "ri", "rib"}, {"jersey", "or", "orange"}, {"jersey", "FRE", "French terry"}, {"rose", "ro", "rose"},
		{"jersey", "swim k", "swim knit"}, {"jersey", "r", "rib"}, {"rib", "r", "red"}, {"rib", "rr", "rose"},
		{"jersey", "rix", "rib"}, {"jersey", "x", "jersey"}, {"jersey", "re|ri", "rib"}, {"jersey", "o|o", "olive"},
	} {
		c, _, now := clocked(t, words...)
		c.SetSelected(x.from)
		for _, r := range x.typed {
			if r == '|' { // a pause
				*now = now.Add(typingPause)
				continue
			}
			if r == ' ' {
				c.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
			}
			c.TypedRune(r)
			*now = now.Add(200 * time.Millisecond)
		}
		if c.Selected != x.want {
			t.Errorf("%q on %s chooses %s, want %s", x.typed, x.from, c.Selected, x.want)
		}
	}
}

// The list of a choice is the only thing over the window, and once a word is chosen nothing is: the next
// click goes where it is aimed.
func TestListOfAChoiceLeavesNothingBehind(t *testing.T) {
	c, w, _ := clocked(t, "jersey", "rib", "interlock")
	over := func() int { return len(w.Canvas().Overlays().List()) }
	test.Tap(c)
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown}) // asked again while it is open
	if over() != 1 {
		t.Fatalf("%d lists lie over the window", over())
	}
	list := c.list
	for y := range int(list.Size().Height) { // no click falls between two words
		if i := list.rowAt(fyne.NewPos(5, float32(y))); i != min(y/int(choiceRow()), 2) {
			t.Fatalf("at %d lies word %d", y, i)
		}
	}
	list.Tapped(&fyne.PointEvent{Position: fyne.NewPos(5, choiceRow()*1.5)})
	if c.Selected != "rib" || over() != 0 || w.Canvas().Focused() != c {
		t.Errorf("%s is chosen, %d lists lie over the window, %T has the focus", c.Selected, over(), w.Canvas().Focused())
	}
}

// By keys: down and enter, and Escape leaves what was chosen.
func TestListOfAChoiceByKeys(t *testing.T) {
	c, w, _ := clocked(t, "jersey", "rib", "interlock")
	w.Canvas().Focus(c)
	key := func(names ...fyne.KeyName) {
		for _, n := range names {
			w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	key(fyne.KeySpace, fyne.KeyDown, fyne.KeyDown, fyne.KeyUp, fyne.KeyReturn)
	if c.Selected != "rib" {
		t.Errorf("%s is chosen", c.Selected)
	}
	key(fyne.KeyDown, fyne.KeyEnd, fyne.KeyEscape)
	if c.Selected != "rib" || c.list != nil || w.Canvas().Focused() != c {
		t.Errorf("after Escape %s is chosen, %T has the focus", c.Selected, w.Canvas().Focused())
	}
}

// Tab takes the word that is lit and goes on, as from any other line.
func TestTabInAListOfAChoice(t *testing.T) {
	c, w, _ := clocked(t, "jersey", "rib", "interlock")
	next := NewEntry("")
	w.SetContent(container.NewVBox(c.Object(), next))
	w.Canvas().Focus(c)
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	list := w.Canvas().Focused()
	if tabs, ok := list.(fyne.Tabbable); !ok || !tabs.AcceptsTab() {
		t.Fatalf("%T leaves Tab to the window", list)
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	if c.Selected != "rib" || c.list != nil || w.Canvas().Focused() != fyne.Focusable(next) {
		t.Errorf("%s is chosen, %T has the focus", c.Selected, w.Canvas().Focused())
	}
}

// A list that has no room beneath its choice opens above it and leaves it in sight.
func TestListOfAChoiceAbove(t *testing.T) {
	c, w, _ := clocked(t, "jersey", "rib", "interlock", "mesh", "ponte", "velour")
	w.SetContent(container.NewWithoutLayout(c))
	c.Resize(fyne.NewSize(200, 30))
	c.Move(fyne.NewPos(20, 240))
	test.Tap(c)
	box := c.list.popup.Content
	top := fyne.CurrentApp().Driver().AbsolutePositionForObject(box)
	if bottom := top.Y + box.Size().Height; top.Y < 0 || bottom > fyne.CurrentApp().Driver().AbsolutePositionForObject(c).Y {
		t.Errorf("it takes %.0f to %.0f, the choice begins at %.0f", top.Y, bottom, fyne.CurrentApp().Driver().AbsolutePositionForObject(c).Y)
	}
}
