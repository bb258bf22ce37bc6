package widgets

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// manyRows is a list of ten rows, a to j, with the keys that are held down.
func manyRows(t *testing.T) (l *RowList, hold *fyne.KeyModifier) {
	t.Helper()
	test.NewTempApp(t)
	l, hold = NewRowList(nil), new(fyne.KeyModifier)
	l.Modifiers = func() fyne.KeyModifier { return *hold }
	var rows []Row
	for _, r := range "abcdefghij" {
		rows = append(rows, Row{Key: string(r), Title: string(r)})
	}
	l.Set(rows)
	test.NewTempWindow(t, l).Resize(fyne.NewSize(300, 600))
	return l, hold
}

func chosenTitles(l *RowList) string {
	var b strings.Builder
	for _, r := range l.ChosenRows() {
		b.WriteString(r.Title)
	}
	return b.String()
}

// Shift and arrows, Home and End choose the rows on the way, back again fewer; a key without Shift one.
func TestSeveralRowsByKeys(t *testing.T) {
	l, hold := manyRows(t)
	press := func(k fyne.KeyName) { l.TypedKey(&fyne.KeyEvent{Name: k}) }
	l.Choose("d")
	for _, c := range []struct {
		shift bool
		key   fyne.KeyName
		want  string
	}{
		{true, fyne.KeyDown, "de"}, {true, fyne.KeyDown, "def"}, {true, fyne.KeyUp, "de"}, {true, fyne.KeyHome, "abcd"},
		{true, fyne.KeyEnd, "defghij"}, {false, fyne.KeyUp, "i"}, {true, fyne.KeyUp, "hi"}, {false, fyne.KeyEscape, "h"},
	} {
		*hold = 0
		if c.shift {
			*hold = fyne.KeyModifierShift
		}
		press(c.key)
		if got := chosenTitles(l); got != c.want {
			t.Fatalf("%s with Shift %v chooses %q, want %q", c.key, c.shift, got, c.want)
		}
	}
}

// Ctrl and a click add a row or take it out, Shift and a click choose all up to it, a click alone one.
func TestSeveralRowsByMouse(t *testing.T) {
	l, hold := manyRows(t)
	for i, c := range []struct {
		hold fyne.KeyModifier
		row  int
		want string
	}{
		{0, 1, "b"}, {fyne.KeyModifierControl, 4, "be"}, {fyne.KeyModifierControl, 6, "beg"}, {fyne.KeyModifierControl, 4, "bg"},
		{fyne.KeyModifierShift, 2, "cde"}, {0, 8, "i"}, {fyne.KeyModifierShift, 6, "ghi"},
	} {
		*hold = c.hold
		l.Select(c.row) // as a click on it does
		if got := chosenTitles(l); got != c.want {
			t.Fatalf("click %d chooses %q, want %q", i, got, c.want)
		}
	}
	*hold = fyne.KeyModifierControl // as while Ctrl+3 leads to another place
	l.Choose("a")
	if got := chosenTitles(l); got != "a" {
		t.Errorf("the program chooses one row, and %q are chosen", got)
	}
}

// All rows are chosen with Ctrl+A and copied; what is chosen stays while the list is read again, as far as it is there.
func TestAllRowsAndCopy(t *testing.T) {
	l, _ := manyRows(t)
	l.Choose("c")
	l.TypedShortcut(&fyne.ShortcutSelectAll{})
	l.Set(l.Rows()[:3])
	if got := chosenTitles(l); got != "abc" {
		t.Errorf("of all rows %q stay", got)
	}
	l.TypedShortcut(&fyne.ShortcutCopy{})
	if got := fyne.CurrentApp().Clipboard().Content(); got != "a\nb\nc\n" {
		t.Errorf("copied %q", got)
	}
	l.FocusGained()
	if !l.ring.line.Visible() {
		t.Error("the focus of the list is not seen")
	}
	l.FocusLost()
	if l.ring.line.Visible() {
		t.Error("the list shows a focus that it has not")
	}
}
