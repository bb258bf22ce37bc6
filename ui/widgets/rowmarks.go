package widgets

import (
	"maps"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// rowMarks are the rows chosen besides the one that is looked at.
type rowMarks struct {
	keys   map[any]bool // none while only one row is chosen
	anchor any          // the row that Shift counts from, nil for the one chosen
	led    bool         // the choice is moved by a key or by the program, not by the mouse
}

// ChosenRows returns all rows that are chosen, in their order.
func (l *RowList) ChosenRows() []Row {
	if len(l.marks.keys) == 0 {
		if r, ok := l.ChosenRow(); ok {
			return []Row{r}
		}
		return nil
	}
	var out []Row
	for i := range l.count {
		if l.marks.keys[l.keyOf(i)] {
			out = append(out, l.rowOf(i))
		}
	}
	return out
}

// marked says whether a row is chosen besides the one that is looked at.
func (l *RowList) marked(i int) bool { return len(l.marks.keys) > 0 && l.marks.keys[l.keyOf(i)] }

// held says which of the keys that choose more rows are held down.
func (l *RowList) held() (shift, ctrl bool) {
	if l.Modifiers == nil {
		d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
		if !ok {
			return false, false
		}
		l.Modifiers = d.CurrentKeyModifiers
	}
	m := l.Modifiers()
	return m&fyne.KeyModifierShift != 0, m&fyne.KeyModifierShortcutDefault != 0
}

// mark sees to the rows chosen besides when the choice goes to row i; keys have seen to it before.
func (l *RowList) mark(i int) {
	if l.marks.led {
		return
	}
	shift, ctrl := l.held()
	switch {
	case shift:
		l.extend(i)
	case ctrl:
		l.toggle(i)
	default:
		l.unmark()
	}
}

// extend chooses the rows between the anchor and row i while Shift is held, and only row i otherwise.
func (l *RowList) extend(i int) {
	if shift, _ := l.held(); !shift {
		l.unmark()
		return
	}
	from := l.placeOf(l.marks.anchor)
	if from < 0 {
		from = max(l.chosen, 0)
		l.marks.anchor = l.keyOf(from)
	}
	l.marks.keys = map[any]bool{}
	for k := min(from, i); k <= max(from, i); k++ {
		l.marks.keys[l.keyOf(k)] = true
	}
	l.Refresh()
}

// toggle adds row i to the rows chosen, or takes it out.
func (l *RowList) toggle(i int) {
	if len(l.marks.keys) == 0 {
		l.marks.keys = map[any]bool{}
		if l.chosen >= 0 && l.chosen < l.count {
			l.marks.keys[l.keyOf(l.chosen)] = true
		}
	}
	key := l.keyOf(i)
	if l.marks.keys[key] {
		delete(l.marks.keys, key)
	} else {
		l.marks.keys[key] = true
	}
	l.marks.anchor = key
	l.Refresh()
}

// markAll chooses all rows.
func (l *RowList) markAll() {
	l.marks.keys = map[any]bool{}
	for i := range l.count {
		l.marks.keys[l.keyOf(i)] = true
	}
	l.Refresh()
}

// unmark leaves only the one row chosen, and says whether there were more.
func (l *RowList) unmark() bool {
	l.marks.anchor = nil
	if len(l.marks.keys) == 0 {
		return false
	}
	l.marks.keys = nil
	l.Refresh()
	return true
}

// keepMarks lets go of rows that are not in the list any more.
func (l *RowList) keepMarks() {
	if len(l.marks.keys) == 0 {
		return
	}
	there := map[any]bool{}
	for i := range l.count {
		there[l.keyOf(i)] = true
	}
	maps.DeleteFunc(l.marks.keys, func(k any, _ bool) bool { return !there[k] })
}
