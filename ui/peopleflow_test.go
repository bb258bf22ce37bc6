package ui

import (
	"context"
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"tallycloth/ui/looks"
	"tallycloth/ui/widgets"
)

// Somebody is added, measured and sized, by keyboard alone.
func TestPeopleByKeyboard(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.press("patterns.people")
	b.press("people.add")
	b.focus("person.name")
	b.write("Ida")
	b.key(fyne.KeyReturn)
	if r, ok := b.list("people.list").ChosenRow(); !ok || r.Title != "Ida" || !strings.Contains(r.Sub, "not measured") {
		t.Fatalf("chosen %+v", r)
	}
	b.tabTo("person.measure")
	b.key(fyne.KeyReturn)
	b.tabTo("measure.bust")
	b.write("36 in")
	b.tabTo("measure.hip")
	b.write("40 in")
	b.key(fyne.KeyReturn)
	ps, err := b.studio.People(context.Background())
	if err != nil || len(ps) != 1 || len(ps[0].Taken) != 1 || ps[0].Taken[0].Body["bust"] != 914_400 {
		t.Fatalf("%+v, %v", ps, err)
	}
	b.choose("person.pattern", "Fennel tank")
	if got := b.text("person.size"); !strings.Contains(got, "size 4 is for") {
		t.Errorf("told %q", got)
	}
	before, _ := b.studio.Garments(context.Background())
	b.tabTo("person.want")
	b.key(fyne.KeyReturn)
	gs, _ := b.studio.Garments(context.Background())
	if len(gs) != len(before)+1 || gs[0].For != "Ida" || gs[0].Size != "4" {
		t.Errorf("wanted %+v", gs[0])
	}
	b.press("person.blend") // a hip of 40 in is size 5, the bust 4
	if q, err := b.studio.Pattern(context.Background(), gs[0].PatternID); err != nil || len(q.Sizes) != 9 {
		t.Errorf("%d sizes, %v", len(q.Sizes), err)
	}
	for range 3 {
		b.ctrl(fyne.KeyZ)
	}
	if ps, _ = b.studio.People(context.Background()); len(ps) != 1 || len(ps[0].Taken) != 0 {
		t.Errorf("after Ctrl+Z %+v", ps)
	}
}

// The same by mouse; what no body measures is said and keeps the form.
func TestPeopleByMouse(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.press("patterns.people")
	b.press("people.add")
	b.put("person.name", "Noor")
	b.press("person.send")
	b.press("person.measure")
	b.press("measure.send") // nothing yet
	b.put("measure.waist", "7")
	b.press("measure.send")
	if b.shell.Names().Get("measure.waist").(*widgets.Entry).Text != "7" {
		t.Error("the form lost what was typed")
	}
	b.put("measure.waist", "70")
	b.press("measure.send")
	if ps, _ := b.studio.People(context.Background()); len(ps) != 1 || ps[0].Taken[0].Body["waist"] != 700_000 {
		t.Fatalf("%+v", ps)
	}
	b.press("person.drop")
	if ps, _ := b.studio.People(context.Background()); len(ps) != 0 {
		t.Errorf("%+v", ps)
	}
	b.press("people.back")
	b.press("undo")
	if ps, _ := b.studio.People(context.Background()); len(ps) != 1 {
		t.Errorf("%+v", ps)
	}
}

// People take on another look though they were not in sight when it was chosen.
func TestPeopleTakeOnAnotherLook(t *testing.T) {
	b := full(t)
	b.press("rail.patterns")
	b.press("patterns.people")
	b.press("people.back")
	before := b.headings("People")
	b.press("rail.settings")
	b.choose("settings.look", "dark")
	b.press("rail.patterns")
	b.press("patterns.people")
	if after := b.headings("People"); len(before) != 0 || len(after) != 1 || after[0].Color != color.Color(looks.Now().Ink) {
		t.Errorf("%d headings before, %d after, the last in another colour than %v", len(before), len(after), looks.Now().Ink)
	}
}

// headings are the words on the window that say this.
func (b *bench) headings(text string) (out []*canvas.Text) {
	var in func(fyne.CanvasObject)
	in = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *canvas.Text:
			if o.Text == text {
				out = append(out, o)
			}
		case *container.Scroll:
			in(o.Content)
		case *fyne.Container:
			for _, x := range o.Objects {
				in(x)
			}
		}
	}
	in(b.window.Content())
	return out
}
