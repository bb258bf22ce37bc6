package widgets

import (
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Form is a form over the window: Enter sends it, Escape closes it, and what was
// typed stays when something is wrong.
type Form struct {
	Title  string
	Intro  string // a sentence under the title, or ""
	Send   string // what the button says
	Rows   [][]fyne.CanvasObject
	Fields []*Field
	// Done is called with every field valid; its error is shown and the form stays.
	Done func() error
	// Say turns an error into a sentence.
	Say   func(error) string
	Width float32
	// Drafts keep what was typed and not sent, under the title and what the form is About where several have
	// that title; nil forgets it when the form is made anew.
	Drafts Drafts
	About  string
	// More is what is entered besides lines, choices and ticks; nil for nothing.
	More More

	draft   *Draft
	afresh  *Button // while what is shown was typed before
	popup   *widget.PopUp
	trouble *note // beside the buttons, where there is room for it from the start
	send    *Button
	cancel  *Button
	sent    bool
	worn    worn
	// canvas and keys are the window's keys while the form is not open.
	canvas fyne.Canvas
	keys   func(*fyne.KeyEvent)
}

// Show opens the form over a canvas, with the focus in its first field.
func (f *Form) Show(c fyne.Canvas) {
	f.trouble = newNote(theme.SizeNameText, 2, 6)
	f.send = Primary(f.Send, f.try)
	f.cancel = NewButton("Close", f.Close)
	f.sent = false
	before := f.typedBefore()
	width := f.Width
	if width == 0 {
		width = 560
	}
	width = min(width*Scaled(1), c.Size().Width-2*formRim)
	f.wear()
	// The form is as wide from the start as it will be, so that wrapped words know their height.
	wide := canvas.NewRectangle(color.Transparent)
	wide.SetMinSize(fyne.NewSize(width-30, 0))
	body := container.NewVBox(wide)
	if f.Intro != "" {
		body.Add(Paragraph(f.Intro))
	}
	for _, row := range f.Rows {
		body.Add(container.NewGridWithColumns(len(row), row...))
	}
	foot := container.NewBorder(nil, nil, nil, container.NewVBox(layout.NewSpacer(), container.New(lastFirst{}, f.send, f.cancel, f.afresh)), f.trouble)
	f.popup = widget.NewModalPopUp(Inset(formBox(c, width-30, Heading(f.Title), body, foot)), c)
	f.wire(c)
	f.canvas, f.keys = c, c.OnTypedKey()
	c.SetOnTypedKey(f.typed)
	f.popup.Show()
	f.popup.Resize(f.popup.MinSize())
	if before {
		f.trouble.set("What you typed before is here again.", Quiet, false)
	}
	if first := f.first(); first != nil {
		c.Focus(first)
	}
}

// typedBefore brings back what was typed when the form was not sent, and says whether anything stands in it
// that was; then it can be begun afresh.
func (f *Form) typedBefore() bool {
	f.afresh = NewButton("Start afresh", f.Afresh)
	f.afresh.Importance = widget.LowImportance
	if first := f.draft == nil; first {
		f.draft = &Draft{Rows: f.objects, More: f.More}
		f.draft.Begin()
		if f.Drafts != nil {
			f.draft.Return(f.Drafts.Draft(f.draftName()))
		}
	}
	if f.draft.Text() != "" {
		return true
	}
	f.afresh.Hide()
	return false
}

func (f *Form) objects() []fyne.CanvasObject { return slices.Concat(f.Rows...) }

func (f *Form) draftName() string { return strings.TrimSpace(f.Title + " " + f.About) }

// Afresh makes everything in the form as it was before anything was typed.
func (f *Form) Afresh() {
	f.draft.Undo()
	f.KeepDraft()
	f.hush()
	f.afresh.Hide()
	f.Refit()
	if first := f.first(); first != nil && f.Open() {
		f.canvas.Focus(first)
	}
}

// KeepDraft keeps what stands in the form.
func (f *Form) KeepDraft() {
	if f.Drafts == nil || f.draft == nil {
		return
	}
	text := ""
	if !f.sent {
		text = f.draft.Text()
	}
	f.Drafts.KeepDraft(f.draftName(), text)
}

// wear gives the form's rows the look of today.
func (f *Form) wear() {
	was := f.worn
	if was.size == 0 && len(f.Fields) > 0 {
		was = f.Fields[0].worn
	}
	for _, row := range f.Rows {
		w := was
		w.catchUp(row)
	}
	f.worn = wornNow()
	for _, field := range f.Fields {
		field.worn = f.worn
	}
}

// Refit gives the form the room that its rows take now, after some came or went.
func (f *Form) Refit() {
	if !f.Open() {
		return
	}
	for _, row := range f.Rows {
		for _, o := range row {
			f.wireObject(o)
		}
	}
	f.popup.Refresh()
	f.popup.Resize(f.popup.MinSize())
}

// typed takes the keys that no line or button of the form has a use for.
func (f *Form) typed(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		f.Close()
	case fyne.KeyReturn, fyne.KeyEnter:
		f.try()
	}
}

// first is what is filled in first: the first line or choice of the form.
func (f *Form) first() fyne.Focusable {
	for _, row := range f.Rows {
		for _, o := range row {
			if w := firstIn(o); w != nil {
				return w
			}
		}
	}
	return nil
}

func firstIn(o fyne.CanvasObject) fyne.Focusable {
	switch w := o.(type) {
	case *fyne.Container:
		for _, in := range w.Objects {
			if got := firstIn(in); got != nil {
				return got
			}
		}
	case *Entry:
		if !w.Disabled() {
			return w
		}
	case *Choice:
		return w
	}
	return nil
}

// wire lets Enter send and Escape close from every field.
func (f *Form) wire(c fyne.Canvas) {
	for _, field := range f.Fields {
		field.Entry.OnSubmitted = func(string) { f.try() }
		field.Entry.Escape = f.Close
		field.heard, field.grown, field.left = f.hush, f.Refit, f.KeepDraft
	}
	for _, row := range f.Rows {
		for _, o := range row {
			f.wireObject(o)
		}
	}
}

func (f *Form) wireObject(o fyne.CanvasObject) {
	if b, ok := o.(*fyne.Container); ok {
		for _, in := range b.Objects {
			f.wireObject(in)
		}
	}
	switch w := o.(type) {
	case *Choice:
		w.Escape, w.Enter, w.touched = f.Close, f.try, f.hush
	case *Check:
		w.Escape, w.Enter = f.Close, f.try
	}
}

func (f *Form) try() {
	ok := true
	for _, field := range f.Fields {
		if !field.Valid() {
			if ok {
				if c := CanvasOf(field.Entry); c != nil {
					c.Focus(field.Entry)
				}
			}
			ok = false
		}
	}
	if !ok {
		return
	}
	if err := f.Done(); err != nil {
		f.Complain(f.Say(err))
		return
	}
	f.sent = true
	f.Close()
}

// Sent says whether the form was sent; one that was only closed keeps what was typed
// and can be shown again.
func (f *Form) Sent() bool { return f.sent }

// Complain shows a sentence beside the buttons, until something is changed.
func (f *Form) Complain(sentence string) {
	if f.trouble.set(sentence, Bad, true) {
		f.Refit()
	}
}

// hush takes back what was complained about: it may be right now.
func (f *Form) hush() { f.trouble.set("", Plain, false) }

// Submit sends the form as its button does.
func (f *Form) Submit() { f.try() }

// Close takes the form away.
func (f *Form) Close() {
	if !f.Open() {
		return
	}
	f.KeepDraft()
	f.canvas.Unfocus() // or what had the focus would look as if it still had it when the form is shown again
	f.popup.Hide()
	f.canvas.SetOnTypedKey(f.keys)
}

// Open says whether the form is on screen.
func (f *Form) Open() bool { return f.popup != nil && f.popup.Visible() }

// Trouble is the sentence shown about what went wrong, or "".
func (f *Form) Trouble() string {
	if f.trouble == nil {
		return ""
	}
	return f.trouble.text
}

// SendButton and CloseButton are the form's buttons.
func (f *Form) SendButton() *Button  { return f.send }
func (f *Form) CloseButton() *Button { return f.cancel }

// AfreshButton empties the form of what was typed before; it is hidden where nothing was.
func (f *Form) AfreshButton() *Button { return f.afresh }
