package main

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"tallycloth/ui/widgets"
)

// slack is how far, in the window's units, something may stick out: figures are rounded.
const slack = 2.5

// box is a rectangle of the window.
type box struct{ x0, y0, x1, y1 float32 }

func boxOf(at fyne.Position, size fyne.Size) box {
	return box{at.X, at.Y, at.X + size.Width, at.Y + size.Height}
}

// and is what two boxes have in common.
func (b box) and(o box) box {
	return box{max(b.x0, o.x0), max(b.y0, o.y0), min(b.x1, o.x1), min(b.y1, o.y1)}
}

// seen says whether there is anything of it.
func (b box) seen() bool { return b.x1-b.x0 > slack && b.y1-b.y0 > slack }

// written is a text in sight.
type written struct {
	text string
	box  box // of which is seen
}

// fitting goes through what a window shows and notes what a person could not read.
type fitting struct {
	texts  []written
	faults []string
}

// faults says what of the topmost layer of a window cannot be read: words that are cut, that lie over
// others or stick out of where they are shown, and things that have less room than they take.
func faults(c fyne.Canvas) []string {
	top, at := c.Content(), fyne.Position{}
	layers := c.Overlays().List()
	if len(layers) > 0 {
		top = layers[len(layers)-1]
	}
	f := &fitting{}
	size := c.Size()
	for _, o := range append([]fyne.CanvasObject{c.Content()}, layers...) {
		if m := o.MinSize(); m.Width > size.Width+slack || m.Height > size.Height+slack {
			f.say("%T takes %.0f × %.0f of a window of %.0f × %.0f", o, m.Width, m.Height, size.Width, size.Height)
		}
	}
	f.walk(top, at.Add(top.Position()), boxOf(fyne.Position{}, size), false)
	f.overlaps()
	return f.faults
}

func (f *fitting) say(format string, of ...any) {
	if s := fmt.Sprintf(format, of...); !slices.Contains(f.faults, s) {
		f.faults = append(f.faults, s)
	}
}

// walk looks at an object and at all within it. Scrolled says that what sticks out can be scrolled to sideways.
func (f *fitting) walk(o fyne.CanvasObject, at fyne.Position, in box, scrolled bool) {
	if !o.Visible() {
		return
	}
	own := boxOf(at, o.Size())
	switch v := o.(type) {
	case *canvas.Text:
		f.text(v, own, in, scrolled)
		return
	case *container.Scroll:
		in = in.and(own)
		if wide := v.Content.MinSize().Width; v.Direction == container.ScrollBoth && wide > own.x1-own.x0+slack && !scrolled {
			f.say("is scrolled sideways: %.0f of %.0f wide", wide, own.x1-own.x0)
		}
		scrolled = scrolled || v.Direction == container.ScrollBoth || v.Direction == container.ScrollHorizontalOnly
	case *fyne.Container:
		for _, c := range v.Objects {
			f.walk(c, at.Add(c.Position()), in, scrolled)
		}
		return
	}
	w, ok := o.(fyne.Widget)
	if !ok {
		return
	}
	if !in.and(own).seen() {
		return
	}
	f.widget(w, own)
	if _, is := o.(fyne.Focusable); is && entryOf(o) != nil {
		scrolled = true // what is typed moves along with the cursor
	}
	for _, c := range test.WidgetRenderer(w).Objects() {
		f.walk(c, at.Add(c.Position()), in, scrolled)
	}
}

// entryOf is the line of text that an object is, or nil.
func entryOf(o fyne.CanvasObject) *widget.Entry {
	switch e := o.(type) {
	case *widget.Entry:
		return e
	case *widgets.Entry:
		return &e.Entry
	}
	return nil
}

// widget looks at the room of a widget.
func (f *fitting) widget(w fyne.Widget, own box) {
	if cut, ok := w.(interface{ Cut() []string }); ok {
		for _, s := range cut.Cut() {
			f.say("cut in a row: %q", s)
		}
	}
	if e := entryOf(w); e != nil && e.Text == "" && e.PlaceHolder != "" {
		most := own.x1 - own.x0
		if wide := fyne.MeasureText(e.PlaceHolder, e.Theme().Size("text"), e.TextStyle).Width; !e.MultiLine && wide > most {
			f.say("no room for what stands in an empty line: %q", e.PlaceHolder)
		}
	}
	if _, is := w.(*container.Scroll); is {
		return // what it shows is given less room than it takes
	}
	m := w.MinSize()
	if m.Width > own.x1-own.x0+slack || m.Height > own.y1-own.y0+slack {
		f.say("%T has %.0f × %.0f and takes %.0f × %.0f: %q", w, own.x1-own.x0, own.y1-own.y0, m.Width, m.Height, firstText(w))
	}
}

// firstText is the first text in a widget, to tell which one it is.
func firstText(w fyne.Widget) string {
	for _, o := range test.WidgetRenderer(w).Objects() {
		switch v := o.(type) {
		case *canvas.Text:
			if strings.TrimSpace(v.Text) != "" {
				return v.Text
			}
		case fyne.Widget:
			if s := firstText(v); s != "" {
				return s
			}
		}
	}
	return ""
}

// text looks at a line of text.
func (f *fitting) text(t *canvas.Text, own, in box, scrolled bool) {
	seen := in.and(own)
	if strings.TrimSpace(t.Text) == "" || !seen.seen() {
		return
	}
	own.x1 = max(own.x1, own.x0+t.MinSize().Width)
	if before, cut := strings.CutSuffix(t.Text, "…"); cut && !strings.HasSuffix(before, " ") {
		f.say("cut: %q", t.Text)
	}
	if !scrolled && (own.x0 < in.x0-slack || own.x1 > in.x1+slack) {
		f.say("sticks out: %q", t.Text)
	}
	f.texts = append(f.texts, written{t.Text, seen})
}

// overlaps looks for texts that lie over others.
func (f *fitting) overlaps() {
	for i, a := range f.texts {
		for _, b := range f.texts[:i] {
			if o := a.box.and(b.box); o.x1-o.x0 > slack && o.y1-o.y0 > 2*slack {
				f.say("%q lies over %q", a.text, b.text)
			}
		}
	}
}
