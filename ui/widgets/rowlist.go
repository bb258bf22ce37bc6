package widgets

import (
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Row is one line of a list.
type Row struct {
	Key        any // what it stands for
	Swatch     *Swatch
	Swatches   []Swatch    // small ones beside each other, when Swatch is nil
	Drawn      *image.RGBA // a picture of one's own, SwatchWidth × SwatchHeight
	Title, Sub string
	SubTone    Tone   // of Sub; Plain is taken for Quiet
	Cells      []Cell // one for each column after the title
	Stitches   int    // how many of Stitches.Of are sewn; drawn when StitchesOf > 0
	StitchesOf int
}

// Cell is the text of one column, with a small line under it if there is one.
type Cell struct {
	Text   string
	Under  string
	Tone   Tone
	Italic bool // assumed values
}

// Column is a column after the title. Width is at a text size of 100 %.
type Column struct {
	Title string
	Width float32
	Right bool // numbers
	// Yields says that the column goes when names would have no room, the greatest first;
	// 0 always stays.
	Yields int
	// Hint says what the column means; it is told while the pointer is on the title, or clicks it.
	Hint string
}

// RowList is a list of records with a header, worked by mouse and by arrows, PgUp,
// PgDn, Home, End and Enter. One row is the chosen one; Shift and Ctrl choose more, to be copied. It does not query: it is given all rows, or makes those in
// sight from what is at hand.
type RowList struct {
	widget.List
	columns []Column
	count   int
	keyOf   func(int) any // by place; asked for every row, so that it must be quick
	rowOf   func(int) Row // asked for those in sight
	chosen  int
	ring    *ring
	marks   rowMarks
	Chosen  func(Row)          // a row was chosen
	Act     func(Row)          // Enter or a second tap on the chosen row
	Key     func(fyne.KeyName) // keys it has no use for: Escape, function keys
	// Pictured says that rows have a picture before the title, so that the header stands over the titles.
	Pictured bool
	// Modifiers says which keys are held down; nil asks the window.
	Modifiers func() fyne.KeyModifier
	// Tell tells the hint of a column.
	Tell func(string)
}

// NewRowList returns an empty list.
func NewRowList(columns []Column) *RowList {
	l := &RowList{columns: columns, chosen: -1, ring: newRing()}
	l.List.Length = func() int { return l.count }
	l.List.CreateItem = func() fyne.CanvasObject { return newRowView(l) }
	l.List.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		v := o.(*rowView)
		v.marked = l.marked(i)
		v.show(l.rowOf(i))
	}
	l.List.OnSelected = func(i widget.ListItemID) { l.pick(i) }
	l.List.HideSeparators = true
	l.ExtendBaseWidget(l)
	return l
}

// Set gives the list its rows. What was chosen stays chosen if it is still there.
func (l *RowList) Set(rows []Row) {
	l.SetLazy(len(rows), func(i int) any { return rows[i].Key }, func(i int) Row { return rows[i] })
}

// SetLazy is Set for long lists: a row is made when it comes into sight, from what is in
// memory already.
func (l *RowList) SetLazy(count int, keyOf func(int) any, rowOf func(int) Row) {
	var key any
	if l.chosen >= 0 && l.chosen < l.count {
		key = l.keyOf(l.chosen)
	}
	l.count, l.keyOf, l.rowOf, l.chosen = count, keyOf, rowOf, -1
	l.keepMarks()
	l.Refresh()
	if i := l.placeOf(key); i >= 0 {
		chosen := l.Chosen
		l.Chosen, l.marks.led = nil, true
		l.Select(i)
		l.Chosen, l.marks.led = chosen, false
		l.chosen = i
		return
	}
	l.UnselectAll()
}

// placeOf is where the row of a key stands, or -1.
func (l *RowList) placeOf(key any) int {
	if key == nil {
		return -1
	}
	for i := range l.count {
		if l.keyOf(i) == key {
			return i
		}
	}
	return -1
}

// Rows returns what the list shows, all of it.
func (l *RowList) Rows() []Row {
	out := make([]Row, l.count)
	for i := range out {
		out[i] = l.rowOf(i)
	}
	return out
}

// ChosenRow returns the row that is chosen.
func (l *RowList) ChosenRow() (Row, bool) {
	if l.chosen < 0 || l.chosen >= l.count {
		return Row{}, false
	}
	return l.rowOf(l.chosen), true
}

// Choose chooses the row of that key, if it is there, and brings it into sight.
func (l *RowList) Choose(key any) bool {
	i := l.placeOf(key)
	if i >= 0 {
		if !l.marked(i) {
			l.unmark()
		}
		l.goTo(i)
	}
	return i >= 0
}

// Unchoose leaves no row chosen, where what is shown is of none.
func (l *RowList) Unchoose() {
	l.unmark()
	l.chosen = -1
	l.UnselectAll()
}

func (l *RowList) pick(i int) {
	if i < 0 || i >= l.count {
		return
	}
	again := i == l.chosen
	l.mark(i)
	l.chosen = i
	if !again && l.Chosen != nil {
		l.Chosen(l.rowOf(i))
	}
}

// goTo moves the choice to row i and scrolls there.
func (l *RowList) goTo(i int) {
	if l.count == 0 {
		return
	}
	i = min(max(i, 0), l.count-1)
	l.ScrollTo(i)
	l.marks.led = true
	l.Select(i)
	l.marks.led = false
}

// step is goTo by a key: with Shift the rows on the way are chosen too.
func (l *RowList) step(i int) {
	if l.count > 0 {
		l.extend(min(max(i, 0), l.count-1))
	}
	l.goTo(i)
}

// TypedKey moves the choice.
func (l *RowList) TypedKey(e *fyne.KeyEvent) {
	page := max(int(l.Size().Height/rowHeight())-1, 1)
	switch e.Name {
	case fyne.KeyDown:
		l.step(l.chosen + 1)
	case fyne.KeyUp:
		l.step(max(l.chosen-1, 0))
	case fyne.KeyPageDown:
		l.step(l.chosen + page)
	case fyne.KeyPageUp:
		l.step(l.chosen - page)
	case fyne.KeyHome:
		l.step(0)
	case fyne.KeyEnd:
		l.step(l.count - 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		if r, ok := l.ChosenRow(); ok && l.Act != nil {
			l.Act(r)
		}
	case fyne.KeyEscape:
		if l.unmark() {
			return
		}
		fallthrough
	default:
		if l.Key != nil {
			l.Key(e.Name)
		}
		if e.Name == fyne.KeyF1 {
			passKey(l, e)
		}
	}
}

// TypedShortcut chooses all rows with Ctrl+A, copies what is chosen with Ctrl+C and the whole table with
// Ctrl+Shift+C, as text; other keys are the window's.
func (l *RowList) TypedShortcut(s fyne.Shortcut) {
	text := ""
	switch k := s.(type) {
	case *fyne.ShortcutSelectAll:
		l.markAll()
		return
	case *fyne.ShortcutCopy:
		for _, r := range l.ChosenRows() {
			text += r.text() + "\n"
		}
	case *desktop.CustomShortcut:
		if k.KeyName == fyne.KeyC && k.Modifier == fyne.KeyModifierControl|fyne.KeyModifierShift {
			text = l.Text()
		}
	}
	if text == "" {
		passShortcut(l, s)
		return
	}
	fyne.CurrentApp().Clipboard().SetContent(text)
}

// Text is the whole table as lines with tabs between the columns, as spreadsheet programs take it.
func (l *RowList) Text() string {
	head := []string{""}
	for _, c := range l.columns {
		head = append(head, c.Title)
	}
	var b strings.Builder
	b.WriteString(strings.TrimRight(strings.Join(head, "\t"), "\t") + "\n")
	for i := range l.count {
		b.WriteString(l.rowOf(i).text() + "\n")
	}
	return b.String()
}

// text is a row with tabs between its columns.
func (r Row) text() string {
	cells := []string{joined(r.Title, r.Sub)}
	for _, c := range r.Cells {
		cells = append(cells, joined(c.Text, c.Under))
	}
	return strings.Join(cells, "\t")
}

// joined puts the small line under a text behind it.
func joined(text, under string) string {
	if text != "" && under != "" {
		text += ", "
	}
	return strings.NewReplacer("\t", " ", "\n", " ").Replace(text + under)
}

// Header returns a line of column titles that keeps to the list's columns.
func (l *RowList) Header(title string) fyne.CanvasObject {
	h := &header{list: l, title: title}
	h.ExtendBaseWidget(h)
	return h
}

func rowHeight() float32 { return theme.TextSize()*2 + theme.CaptionTextSize() + 9 }

// Scaled is a width at the text size in force, of one at 100 %.
func Scaled(w float32) float32 { return w * theme.TextSize() / 13 }

const swatchWidth, swatchHeight, gap = 96, 30, 10

// leastTitle is the room for names below which columns yield.
const leastTitle = 120

// titleWidth is what the columns shown leave for the title, which begins at x; columns
// that yield are not shown where names would have no room.
func titleWidth(columns []Column, width, x float32) (title float32, shown []bool) {
	shown = make([]bool, len(columns))
	left := width - x - gap - 8
	for i, c := range columns {
		shown[i] = true
		left -= Scaled(c.Width) + gap
	}
	for left < Scaled(leastTitle) {
		next := -1
		for i, c := range columns {
			if shown[i] && c.Yields > 0 && (next < 0 || c.Yields > columns[next].Yields) {
				next = i
			}
		}
		if next < 0 {
			break
		}
		shown[next] = false
		left += Scaled(columns[next].Width) + gap
	}
	return max(left, 40), shown
}

// pictureRoom is the room of the pictures before the titles: none where names would have no room beside them.
func (l *RowList) pictureRoom(width float32) float32 {
	const room = swatchWidth + gap
	if title, _ := titleWidth(l.columns, width, 8+room); title < Scaled(leastTitle)*2/3 {
		return 0
	}
	return room
}

// Widen sets the width of a column, for rows whose figures are longer.
func (l *RowList) Widen(column int, width float32) { l.columns[column].Width = width }

// header is the line of column titles.
type header struct {
	widget.BaseWidget
	list  *RowList
	title string
	told  string // the hint that is told
}

// hint tells what the column at x means.
func (h *header) hint(x float32) {
	told := ""
	right := h.Size().Width - 8
	_, shown := titleWidth(h.list.columns, h.Size().Width, h.left())
	for i := len(shown) - 1; i >= 0; i-- {
		if !shown[i] {
			continue
		}
		w := Scaled(h.list.columns[i].Width)
		if right -= w; x >= right && x < right+w {
			told = h.list.columns[i].Hint
		}
		right -= gap
	}
	if told != "" && told != h.told && h.list.Tell != nil {
		h.list.Tell(told)
	}
	h.told = told
}

// left is where the titles of rows begin.
func (h *header) left() float32 {
	if h.list.Pictured {
		return 8 + h.list.pictureRoom(h.Size().Width)
	}
	return 8
}

// MouseIn, MouseMoved and Tapped tell the hint of the column under the pointer.
func (h *header) MouseIn(e *desktop.MouseEvent) { h.hint(e.Position.X) }

// MouseMoved tells the hint of the column under the pointer.
func (h *header) MouseMoved(e *desktop.MouseEvent) { h.hint(e.Position.X) }

// MouseOut forgets what was told, so that it is told again.
func (h *header) MouseOut() { h.told = "" }

// Tapped tells the hint of the column that was clicked.
func (h *header) Tapped(e *fyne.PointEvent) { h.told = ""; h.hint(e.Position.X) }

// CreateRenderer draws the titles.
func (h *header) CreateRenderer() fyne.WidgetRenderer {
	r := &headerRenderer{h: h}
	for range len(h.list.columns) + 1 {
		t := newFitted(theme.SizeNameCaptionText, fyne.TextStyle{})
		r.texts = append(r.texts, t)
		r.objects = append(r.objects, t.text)
	}
	r.Refresh()
	return r
}

type headerRenderer struct {
	h       *header
	texts   []*fitted
	objects []fyne.CanvasObject
}

func (r *headerRenderer) MinSize() fyne.Size           { return fyne.NewSize(120, theme.CaptionTextSize()+10) }
func (r *headerRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *headerRenderer) Destroy()                     {}
func (r *headerRenderer) Layout(s fyne.Size) {
	x, y := r.h.left(), float32(4)
	left, shown := titleWidth(r.h.list.columns, s.Width, x)
	r.texts[0].place(x, y, left, false)
	x += left + gap
	for i, c := range r.h.list.columns {
		if r.texts[i+1].text.Hidden = !shown[i]; !shown[i] {
			continue
		}
		r.texts[i+1].place(x, y, Scaled(c.Width), c.Right)
		x += Scaled(c.Width) + gap
	}
}
func (r *headerRenderer) Refresh() {
	r.texts[0].set(r.h.title, Quiet, false)
	for i, c := range r.h.list.columns {
		r.texts[i+1].set(c.Title, Quiet, false)
	}
	for _, t := range r.texts {
		t.text.TextSize = theme.CaptionTextSize()
		t.shorten()
	}
	r.Layout(r.h.Size())
}
