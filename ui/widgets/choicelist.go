package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// choiceList is the open list of a choice: one row below the other without a gap, so
// that no click falls between two words.
type choiceList struct {
	widget.BaseWidget
	choice *Choice
	at     int // the word that is lit
	popup  *widget.PopUp
	scroll *container.Scroll
}

// open shows the words beneath the choice, or above it where there is more room. There is
// only ever one list of a choice: another over it would swallow the next clicks.
func (c *Choice) open() {
	if len(c.Options) == 0 || !remembered(c, c.open) {
		return
	}
	over := CanvasOf(c)
	if c.list != nil {
		c.list.close()
	}
	l := &choiceList{choice: c, at: max(c.SelectedIndex(), 0)}
	l.ExtendBaseWidget(l)
	l.scroll = container.NewVScroll(l)
	l.popup = widget.NewPopUp(l.scroll, over)
	c.list = l
	pad := 2 * theme.InnerPadding()
	_, room := over.InteractiveArea()
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(c)
	below, above := room.Height-at.Y-c.Size().Height, at.Y
	high := l.MinSize().Height + pad
	pos := fyne.NewPos(at.X, at.Y+c.Size().Height)
	if high > below && above > below {
		high = min(high, above)
		pos.Y = at.Y - high
	} else {
		high = min(high, below)
	}
	l.popup.ShowAtPosition(pos)
	l.popup.Resize(fyne.NewSize(c.Size().Width, high))
	over.Focus(l)
	l.show()
}

// close takes the list away and gives the focus back.
func (l *choiceList) close() {
	l.popup.Hide()
	if l.choice.list == l {
		l.choice.list = nil
	}
	focusOn(l.choice, l.choice)
}

// focusOn puts the focus on something in the canvas of an object.
func focusOn(o fyne.CanvasObject, f fyne.Focusable) {
	if c := CanvasOf(o); c != nil {
		c.Focus(f)
	}
}

func (l *choiceList) choose(i int) {
	l.close()
	l.choice.take(i)
}

// AcceptsTab lets Tab take the word that is lit, where it would leave the list open without the focus.
func (l *choiceList) AcceptsTab() bool { return true }

// leave takes the word that is lit and goes on to what comes after the choice, or before it with Shift.
func (l *choiceList) leave() {
	over := CanvasOf(l.choice)
	l.choose(l.at)
	if over == nil {
		return
	}
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0 {
		over.FocusPrevious()
		return
	}
	over.FocusNext()
}

// light lights another word and brings it into sight.
func (l *choiceList) light(i int) {
	if i = min(max(i, 0), len(l.choice.Options)-1); i != l.at {
		l.at = i
		l.Refresh()
	}
	l.show()
}

func (l *choiceList) show() {
	row := choiceRow()
	high := l.scroll.Size().Height
	y := l.scroll.Offset.Y
	y = min(y, row*float32(l.at))
	y = max(y, row*float32(l.at+1)-high)
	l.scroll.ScrollToOffset(fyne.NewPos(0, y))
}

// choiceRow is how high a word of an open list is.
func choiceRow() float32 { return theme.TextSize() + 16 }

func (l *choiceList) rowAt(p fyne.Position) int {
	return min(max(int(p.Y/choiceRow()), 0), len(l.choice.Options)-1)
}

// Tapped chooses the word under the pointer.
func (l *choiceList) Tapped(e *fyne.PointEvent) { l.choose(l.rowAt(e.Position)) }

// MouseIn, MouseMoved and MouseOut light the word under the pointer.
func (l *choiceList) MouseIn(e *desktop.MouseEvent) { l.MouseMoved(e) }

// MouseMoved lights the word under the pointer.
func (l *choiceList) MouseMoved(e *desktop.MouseEvent) {
	if i := l.rowAt(e.Position); i != l.at {
		l.at = i
		l.Refresh()
	}
}

// MouseOut leaves the word lit that was.
func (l *choiceList) MouseOut() {}

// FocusGained and FocusLost have nothing to show: the list is only there with the focus.
func (l *choiceList) FocusGained() {}

// FocusLost leaves the list as it is.
func (l *choiceList) FocusLost() {}

// TypedRune lights the word that begins with the letters typed in one go.
func (l *choiceList) TypedRune(r rune) {
	if i := l.choice.typed.find(l.choice.Options, l.at, r, l.choice.Now()); i >= 0 {
		l.light(i)
	}
}

// TypedKey moves, chooses, or closes.
func (l *choiceList) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyDown:
		l.light(l.at + 1)
	case fyne.KeyUp:
		l.light(l.at - 1)
	case fyne.KeyHome:
		l.light(0)
	case fyne.KeyEnd:
		l.light(len(l.choice.Options) - 1)
	case fyne.KeySpace:
		if !l.choice.typed.going(l.choice.Now()) {
			l.choose(l.at)
		}
	case fyne.KeyReturn, fyne.KeyEnter:
		l.choose(l.at)
	case fyne.KeyTab:
		l.leave()
	case fyne.KeyEscape:
		l.close()
	}
}

// CreateRenderer draws the words.
func (l *choiceList) CreateRenderer() fyne.WidgetRenderer {
	r := &choiceRows{list: l, lit: canvas.NewRectangle(color.Transparent)}
	r.lit.CornerRadius = theme.InputRadiusSize()
	r.objects = []fyne.CanvasObject{r.lit}
	for _, word := range l.choice.Options {
		t := Line(word, Plain)
		r.words = append(r.words, t)
		r.objects = append(r.objects, t)
		var swatch *canvas.Rectangle
		if l.choice.Swatch != nil {
			if c := l.choice.Swatch(word); c != nil {
				swatch = canvas.NewRectangle(c)
				swatch.StrokeColor, swatch.StrokeWidth, swatch.CornerRadius = theme.Color(theme.ColorNameInputBorder), 1, 2
				r.objects = append(r.objects, swatch)
			}
		}
		r.swatches = append(r.swatches, swatch)
	}
	return r
}

type choiceRows struct {
	list     *choiceList
	lit      *canvas.Rectangle
	words    []*canvas.Text
	swatches []*canvas.Rectangle // nil for a word without
	objects  []fyne.CanvasObject
}

func (r *choiceRows) MinSize() fyne.Size {
	return fyne.NewSize(40, choiceRow()*float32(len(r.words)))
}

func (r *choiceRows) Objects() []fyne.CanvasObject { return r.objects }
func (r *choiceRows) Destroy()                     {}

func (r *choiceRows) Layout(s fyne.Size) {
	row, x := choiceRow(), float32(4)
	if r.list.choice.Swatch != nil {
		x += 26
	}
	for i, t := range r.words {
		y := row * float32(i)
		t.Text = Shorten(r.list.choice.Options[i], s.Width-x, theme.TextSize(), fyne.TextStyle{})
		t.Move(fyne.NewPos(x, y+(row-t.MinSize().Height)/2))
		t.Resize(t.MinSize())
		if w := r.swatches[i]; w != nil {
			w.Move(fyne.NewPos(4, y+7))
			w.Resize(fyne.NewSize(18, row-14))
		}
	}
	r.lit.Move(fyne.NewPos(0, row*float32(r.list.at)))
	r.lit.Resize(fyne.NewSize(s.Width, row))
}

func (r *choiceRows) Refresh() {
	r.lit.FillColor = theme.Color(theme.ColorNameFocus)
	r.Layout(r.list.Size())
	canvas.Refresh(r.list)
}
