package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// drafted are the rows of a form whose kind brings a line of its own, as they were made over a record.
func drafted(name string) (*Draft, map[string]*Field, *Choice, *Check) {
	fields := map[string]*Field{}
	for _, n := range []string{"Name", "Waist", "Bust"} {
		fields[n] = NewField(n, "", nil)
	}
	fields["Name"].Set(name)
	box := container.NewVBox(fields["Waist"].Object())
	kind := NewChoice("Kind", []string{"skirt", "tee"}, nil)
	kind.OnChanged = func(s string) {
		box.Objects = []fyne.CanvasObject{map[string]*Field{"skirt": fields["Waist"], "tee": fields["Bust"]}[s].Object()}
	}
	tick := NewCheck("Washed", nil)
	d := &Draft{Rows: func() []fyne.CanvasObject {
		return []fyne.CanvasObject{fields["Name"].Object(), box, kind.Object(), container.NewVScroll(tick)}
	}}
	d.Begin()
	return d, fields, kind, tick
}

// What was typed comes back, also in a line that only a choice brings; what was not touched stays as the record
// is now, and so does a line whose record has become another.
func TestDraft(t *testing.T) {
	test.NewTempApp(t)
	d, fields, kind, tick := drafted("Ann")
	if text := d.Text(); text != "" {
		t.Errorf("of nothing typed it keeps %q", text)
	}
	fields["Name"].Entry.SetText("Anna")
	kind.SetSelected("tee")
	fields["Bust"].Entry.SetText("96")
	tick.SetChecked(true)
	kept := d.Text()

	d, fields, kind, tick = drafted("Ann")
	if !d.Return(kept) || fields["Name"].Text() != "Anna" || kind.Selected != "tee" || fields["Bust"].Text() != "96" || !tick.Checked {
		t.Errorf("%q, %s, %q, %v came back", fields["Name"].Text(), kind.Selected, fields["Bust"].Text(), tick.Checked)
	}
	if again := d.Text(); again != kept {
		t.Errorf("%s is kept as %s the next time", kept, again)
	}
	d.Undo()
	if d.Text() != "" || fields["Name"].Text() != "Ann" || kind.Selected != "skirt" || tick.Checked {
		t.Errorf("afresh it says %s", d.Text())
	}

	d, fields, _, _ = drafted("Berta") // renamed elsewhere
	if d.Return(kept); fields["Name"].Text() != "Berta" || fields["Bust"].Text() != "96" {
		t.Errorf("%q, %q came back over another record", fields["Name"].Text(), fields["Bust"].Text())
	}
	d, fields, _, _ = drafted("Ann")
	if d.Return("not a draft"); fields["Name"].Text() != "Ann" {
		t.Error("what is no draft changed something")
	}
}
