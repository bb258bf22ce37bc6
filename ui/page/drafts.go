package page

import (
	"encoding/json"
	"slices"

	"fyne.io/fyne/v2"

	"tallycloth/ui/widgets"
)

// mostDrafts is how many forms that were not sent are kept; the oldest goes first.
const mostDrafts = 30

// Drafts keep what was typed in forms and not sent, in a Memory, so that it is there again after the window was
// closed. They are a widgets.Drafts.
type Drafts struct {
	memory Memory
	name   string // of all of them in the memory
}

// NewDrafts keeps drafts under a name in a memory.
func NewDrafts(memory Memory, name string) *Drafts { return &Drafts{memory, name} }

type draft struct{ Name, Text string }

func (d *Drafts) all() []draft {
	var out []draft
	if json.Unmarshal([]byte(d.memory.Get(d.name)), &out) != nil {
		return nil // never kept, or not by this program
	}
	return out
}

// Draft is what was kept under a name, or "".
func (d *Drafts) Draft(name string) string {
	for _, k := range d.all() {
		if k.Name == name {
			return k.Text
		}
	}
	return ""
}

// KeepDraft keeps a draft, as the newest; an empty one is forgotten.
func (d *Drafts) KeepDraft(name, text string) {
	if d.Draft(name) == text {
		return
	}
	all := slices.DeleteFunc(d.all(), func(k draft) bool { return k.Name == name })
	if text != "" {
		all = append(all, draft{name, text})
	}
	data, err := json.Marshal(all[max(0, len(all)-mostDrafts):])
	if err == nil { // texts alone cannot fail
		d.memory.Set(d.name, string(data))
	}
}

// ShowForm shows a form over the window, with what was typed in it and not sent the last time, and gives its
// buttons their names.
func (h *Host) ShowForm(f *widgets.Form) {
	f.Drafts = h.Drafts
	f.Show(h.Canvas())
	h.forms = append(slices.DeleteFunc(h.forms, func(other *widgets.Form) bool { return other == f || !other.Open() }), f)
	h.Names.Set("form.send", f.SendButton())
	h.Names.Set("form.close", f.CloseButton())
	h.Names.Set("form.afresh", f.AfreshButton())
}

// KeepTyped keeps what stands in the forms that are open, and in other rows that are looked after, before the window goes.
func (h *Host) KeepTyped() {
	for _, f := range h.forms {
		if f.Open() {
			f.KeepDraft()
		}
	}
	for _, k := range h.kept {
		k.keep()
	}
}

// Kept is what is typed into some rows that are no form of their own.
type Kept struct {
	name   string
	drafts widgets.Drafts
	draft  *widgets.Draft
}

// KeepRows looks after what is typed into rows that were just made: what was typed there when the window closed
// comes back, once what stands in them untouched is there.
func (h *Host) KeepRows(name string, rows func() []fyne.CanvasObject) *Kept {
	k := &Kept{name, h.Drafts, &widgets.Draft{Rows: rows}}
	k.draft.Begin()
	if h.Drafts != nil {
		k.draft.Return(h.Drafts.Draft(name))
	}
	h.kept = append(slices.DeleteFunc(h.kept, func(other *Kept) bool { return other.name == name }), k)
	return k
}

func (k *Kept) keep() {
	if k.drafts != nil {
		k.drafts.KeepDraft(k.name, k.draft.Text())
	}
}

// Forget lets go of the rows, which were sent.
func (h *Host) Forget(k *Kept) {
	h.kept = slices.DeleteFunc(h.kept, func(other *Kept) bool { return other == k })
	if h.Drafts != nil {
		h.Drafts.KeepDraft(k.name, "")
	}
}
