package widgets

import (
	"errors"
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"tallycloth/stash/measure"
)

// Entry is a line of text that passes Escape and Enter on to the form it is in.
type Entry struct {
	widget.Entry
	Escape func()
	Lost   func() // the focus left
	Got    func() // the focus came
}

// NewEntry returns an empty line with a hint of what belongs there.
func NewEntry(hint string) *Entry {
	e := &Entry{}
	e.PlaceHolder = hint
	e.Wrapping = fyne.TextWrapOff
	e.ExtendBaseWidget(e)
	return e
}

// CreateRenderer draws a line that cannot be typed into fainter than the others: the toolkit outlines it
// more strongly.
func (e *Entry) CreateRenderer() fyne.WidgetRenderer {
	return entryRenderer{e.Entry.CreateRenderer(), e, newWheel(e)}
}

type entryRenderer struct {
	fyne.WidgetRenderer
	entry *Entry
	wheel *wheel
}

// Objects are the line's, and the wheel over them.
func (r entryRenderer) Objects() []fyne.CanvasObject {
	return append(slices.Clone(r.WidgetRenderer.Objects()), r.wheel)
}

// Layout lets the wheel cover the line.
func (r entryRenderer) Layout(s fyne.Size) {
	r.WidgetRenderer.Layout(s)
	r.wheel.Resize(s)
}

func (r entryRenderer) Refresh() {
	r.WidgetRenderer.Refresh()
	if !r.entry.Disabled() {
		return
	}
	for _, o := range r.Objects()[:2] { // the box and its outline
		if box, ok := o.(*canvas.Rectangle); ok {
			box.StrokeColor, box.FillColor = theme.Color(theme.ColorNameInputBorder), color.Transparent
			box.Refresh()
		}
	}
}

// TypedKey passes Escape on.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyF1:
		passKey(e, k)
	case k.Name != fyne.KeyEscape:
		e.Entry.TypedKey(k)
	case e.Escape != nil:
		e.Escape()
	default:
		passKey(e, k)
	}
}

// TypedShortcut lets the window have the keys that go to its places; what edits text
// stays here.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	if c, ok := s.(*desktop.CustomShortcut); ok && windowKeys[c.KeyName] {
		passShortcut(e, s)
		return
	}
	e.Entry.TypedShortcut(s)
}

// windowKeys are the keys that with Ctrl belong to the window wherever the focus is.
var windowKeys = map[fyne.KeyName]bool{fyne.Key1: true, fyne.Key2: true, fyne.Key3: true, fyne.Key4: true, fyne.Key5: true, fyne.Key6: true, fyne.Key7: true, fyne.KeyF: true, fyne.KeyN: true}

// FocusGained tells that the focus came.
func (e *Entry) FocusGained() {
	e.Entry.FocusGained()
	reveal(e)
	if e.Got != nil {
		e.Got()
	}
}

// FocusLost tells that the focus left.
func (e *Entry) FocusLost() {
	e.Entry.FocusLost()
	if e.Lost != nil {
		e.Lost()
	}
}

// Field is a labelled line that reads what is typed and shows the reading back
// beneath; a wrong value says what is wrong there and keeps the text.
//
// In a form that was sent what is wrong may take up to three lines; the room stays once it was taken, so that the
// form does not jump. While one types it is one line, which begins with what to write instead.
type Field struct {
	Name  string
	Entry *Entry
	// Read reads the text: the reading to show back, or an error. Nil takes anything.
	Read func(text string) (reading string, err error)
	// Needed refuses an empty line with this sentence; "" allows it.
	Needed  string
	Changed func()
	note    *note
	box     *fyne.Container
	touched bool
	bad     bool
	// heard tells the form that something was changed, grown that the note wants more room, left that the focus left.
	heard, grown, left func()
	worn               worn
}

// NewField returns a field with a label and a hint.
func NewField(name, hint string, read func(string) (string, error)) *Field {
	f := &Field{Name: name, Entry: NewEntry(hint), Read: read, worn: wornNow(), note: newNote(theme.SizeNameCaptionText, 1, 3)}
	f.Entry.OnChanged = func(string) {
		f.touched = true
		f.still(func() { f.look(false) })
		if f.heard != nil {
			f.heard()
		}
		if f.Changed != nil {
			f.Changed()
		}
	}
	f.Entry.Lost = func() { f.settle() }
	f.box = container.New(&fieldLayout{}, Caption(name), f.Entry, f.note)
	return f
}

// Object is what is put on a screen.
func (f *Field) Object() fyne.CanvasObject { return f.box }

// Text is what stands in the line.
func (f *Field) Text() string { return f.Entry.Text }

// Set fills the line in without calling Changed.
func (f *Field) Set(text string) {
	changed := f.Changed
	f.Changed = nil
	f.Entry.SetText(text)
	f.Changed = changed
	f.touched = false
	f.look(false)
}

// still does something that must not make the form larger: while one types, or reaches for the next line or
// button, nothing may move away under the pointer.
func (f *Field) still(do func()) {
	grown := f.grown
	f.grown = nil
	do()
	f.grown = grown
}

// settle reads the line as the focus leaves it. The form stays as large as it is: a button
// that was pressed must not move away under the pointer.
func (f *Field) settle() {
	f.still(func() { f.look(f.touched) })
	if f.touched && f.left != nil {
		f.left()
	}
}

// Valid reads the line for good and shows what is wrong.
func (f *Field) Valid() bool {
	f.touched = true // what is missing stays said until it is there
	f.look(true)
	return !f.bad
}

// look reads the line; an empty needed line is only wrong when leaving is asked.
func (f *Field) look(final bool) {
	text := f.Entry.Text
	f.bad = false
	switch {
	case text == "" && f.Needed != "":
		if f.bad = final; final {
			f.say(f.Needed, Bad)
			return
		}
		f.bad = true
		f.say("", Quiet)
	case text == "" || f.Read == nil || f.Entry.Disabled():
		f.say("", Quiet)
	default:
		reading, err := f.Read(text)
		if f.bad = err != nil; f.bad {
			f.say(trouble(err), Bad)
			return
		}
		f.say(reading, Quiet)
	}
}

// trouble is what a field says of a text that cannot be read: the text itself stands above.
func trouble(err error) string {
	var text *measure.TextError
	if errors.As(err, &text) {
		return text.Cure()
	}
	return err.Error()
}

func (f *Field) say(s string, tone Tone) {
	if f.note.set(s, tone, f.grown != nil) && f.grown != nil {
		f.grown()
	}
}

// Note is what stands beneath the line now.
func (f *Field) Note() string { return f.note.text }

// fieldLayout puts label, line and note beneath each other, the note flush with the
// text of the line, and wide notes do not widen the form.
type fieldLayout struct{}

func (*fieldLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	y := float32(0)
	for i, c := range o {
		h := c.MinSize().Height
		x := float32(0)
		if i == 2 {
			x = 4
		}
		c.Move(fyne.NewPos(x, y))
		c.Resize(fyne.NewSize(s.Width-x, h))
		y += h + 2
	}
}

func (*fieldLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(120, 0)
	for _, c := range o {
		s.Height += c.MinSize().Height + 2
	}
	return s
}

// Caption is a small quiet text.
func Caption(s string) *canvas.Text { return Styled(s, theme.SizeNameCaptionText, Quiet, false) }

// Heading is the title of a detail.
func Heading(s string) *canvas.Text { return Styled(s, theme.SizeNameHeadingText, Plain, true) }

// SubHeading is the title of a part of a detail.
func SubHeading(s string) *canvas.Text {
	return Styled(s, theme.SizeNameSubHeadingText, Plain, true)
}

// Line is a text of ordinary size in a tone.
func Line(s string, tone Tone) *canvas.Text { return Styled(s, theme.SizeNameText, tone, false) }

// Styled is one line of text.
func Styled(s string, size fyne.ThemeSizeName, tone Tone, bold bool) *canvas.Text {
	t := canvas.NewText(s, tone.colour())
	t.TextSize = theme.Size(size)
	t.TextStyle.Bold = bold
	return t
}

// Paragraph is a text that wraps.
func Paragraph(s string) fyne.CanvasObject { return Remark("", s, Plain) }
