package widgets

import (
	"encoding/json"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// Drafts keep what was typed and chosen somewhere, by a name of the place it was typed in.
type Drafts interface {
	// Draft is what was kept under a name, or "".
	Draft(name string) string
	// KeepDraft keeps a draft; an empty one is forgotten.
	KeepDraft(name, draft string)
}

// More is what was entered besides lines, choices and ticks, as a text.
type More interface {
	Typed() string
	// Retype brings it back; "" empties it.
	Retype(text string)
}

// Draft looks after what is typed into some rows: the lines, choices and ticks in them, by their labels. What
// stood there before anything was typed is remembered, so that only what a person changed is brought back, and
// nothing over a record that has become another meanwhile.
type Draft struct {
	Rows func() []fyne.CanvasObject
	More More // nil for nothing
	base map[string]string
}

// typedLine is a line that was changed: what stood in it, and what stands there now.
type typedLine struct{ Name, Was, Now string }

// typedText is a draft as it is kept.
type typedText struct {
	Lines []typedLine `json:",omitempty"`
	More  string      `json:",omitempty"`
}

// Begin remembers what stands there untouched, once.
func (d *Draft) Begin() {
	if d.base != nil {
		return
	}
	d.base = map[string]string{}
	for _, l := range linesIn(d.Rows()) {
		d.base[l.name] = l.text()
	}
}

// Text is what was typed, to be kept, or "" where nothing was.
func (d *Draft) Text() string {
	var out typedText
	for _, l := range linesIn(d.Rows()) {
		if was, now := d.base[l.name], l.text(); was != now {
			out.Lines = append(out.Lines, typedLine{l.name, was, now})
		}
	}
	if d.More != nil {
		out.More = d.More.Typed()
	}
	if len(out.Lines) == 0 && out.More == "" {
		return ""
	}
	data, err := json.Marshal(out)
	if err != nil { // texts alone cannot fail
		return ""
	}
	return string(data)
}

// Return brings a draft back and says whether there was something to bring back.
func (d *Draft) Return(draft string) bool {
	var in typedText
	if draft == "" || json.Unmarshal([]byte(draft), &in) != nil {
		return false
	}
	if d.More != nil && in.More != "" {
		d.More.Retype(in.More)
	}
	now := map[string]string{}
	for _, l := range in.Lines {
		if was, known := d.base[l.Name]; !known || was == l.Was {
			now[l.Name] = l.Now
		}
	}
	d.write(now)
	return d.Text() != ""
}

// Undo makes everything as it was before anything was typed.
func (d *Draft) Undo() {
	if d.More != nil {
		d.More.Retype("")
	}
	d.write(d.base)
}

// write fills lines in, as a person would: a choice may bring other lines, so the rows are looked at again after
// each, and choices and ticks come before the lines that depend on them.
func (d *Draft) write(texts map[string]string) {
	for _, entries := range []bool{false, true} {
		done := map[string]bool{}
		for again := true; again; {
			again = false
			for _, l := range linesIn(d.Rows()) {
				text, has := texts[l.name]
				if !has || done[l.name] || l.entry != entries {
					continue
				}
				done[l.name] = true
				if l.text() != text {
					l.set(text)
					again = true
					break
				}
			}
		}
	}
}

// lineIn is something that is filled in.
type lineIn struct {
	name  string
	entry bool
	text  func() string
	set   func(string)
}

// linesIn finds what can be filled in, in reading order, each under a name of its own.
func linesIn(rows []fyne.CanvasObject) []lineIn {
	var out []lineIn
	twice := map[string]int{}
	var walk func(label string, o fyne.CanvasObject)
	walk = func(label string, o fyne.CanvasObject) {
		switch w := o.(type) {
		case *fyne.Container:
			if _, labelled := w.Layout.(*fieldLayout); labelled {
				if text, ok := w.Objects[0].(*canvas.Text); ok {
					label = text.Text
				}
			}
			for _, in := range w.Objects {
				walk(label, in)
			}
		case *container.Scroll:
			walk(label, w.Content)
		case *container.Split:
			walk(label, w.Leading)
			walk(label, w.Trailing)
		default:
			l, ok := lineOf(o)
			if !ok {
				return
			}
			if c, tick := o.(*Check); tick {
				label = c.Text
			}
			twice[label]++
			l.name = fmt.Sprintf("%s/%d", label, twice[label])
			out = append(out, l)
		}
	}
	for _, o := range rows {
		walk("", o)
	}
	return out
}

// lineOf is how one thing is filled in; a line that cannot be typed into is left as it is.
func lineOf(o fyne.CanvasObject) (lineIn, bool) {
	switch w := o.(type) {
	case *Entry:
		return lineIn{entry: true, text: func() string { return w.Text }, set: func(s string) {
			if !w.Disabled() {
				w.SetText(s)
			}
		}}, true
	case *Choice:
		return lineIn{text: func() string { return w.Selected }, set: func(s string) {
			if !w.Disabled() {
				w.SetSelected(s)
			}
		}}, true
	case *Check:
		return lineIn{text: func() string { return yesNo(w.Checked) }, set: func(s string) { w.SetChecked(s == yesNo(true)) }}, true
	}
	return lineIn{}, false
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
