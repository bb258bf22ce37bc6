package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// again is a bench over the same library after the window was closed.
func (b *bench) again(memory page.Memory) *bench {
	b.t.Helper()
	if b.shell != nil {
		b.shell.Close()
	}
	w := test.NewTempWindow(b.t, nil)
	w.Resize(fyne.NewSize(1366, 768))
	s := New(w, Deps{Studio: b.studio, Tasks: task.Inline(), Memory: memory})
	return &bench{b.t, s, b.studio, w}
}

// remembering is a bench whose window is closed and opened again.
func remembering(t *testing.T, studio *planner.Studio) (*bench, page.Memory) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	memory := &page.Forgetful{}
	return (&bench{t: t, studio: studio}).again(memory), memory
}

func (b *bench) typed(name string) string {
	b.t.Helper()
	e, ok := b.shell.Names().Get(name).(*widgets.Entry)
	if !ok {
		b.t.Fatalf("there is no line %s", name)
	}
	return e.Text
}

// A purchase that is half filled in when the window closes is there again, with the lines of its list, and can be
// logged as if nothing had been; once it is logged the form is empty.
func TestHalfAPurchaseComesBack(t *testing.T) {
	b, memory := remembering(t, sample.Empty())
	b.press("stash.log")
	b.put("form.name", "Moss jersey")
	b.choose("form.made", "rib")
	b.put("form.width", "155 cm")
	b.put("form.length", "2 m")
	b.put("form.lot", "A7")
	b.press("form.addline")
	b.choose("form.fabric", "Moss jersey (new, above)")
	b.put("form.length", "75 cm")
	b.put("form.shop", "the market")
	b.put("form.postage", "four")
	b = b.again(memory) // closed with the form open
	b.press("stash.log")
	for name, want := range map[string]string{"form.length": "75 cm", "form.shop": "the market", "form.postage": "four", "form.name": "Moss jersey", "form.lot": ""} {
		if got := b.typed(name); got != want {
			t.Errorf("%s is %q, %q was typed", name, got, want)
		}
	}
	b.put("form.postage", "")
	b.key(fyne.KeyEscape)
	b = b.again(memory) // closed with the form closed
	b.press("stash.log")
	b.press("form.send")
	cs := b.cloths()
	if len(cs) != 2 || cs[0].Fabric.ID != cs[1].Fabric.ID || cs[0].Fabric.Construction != "rib" || cs[0].Cloth.Length+cs[1].Cloth.Length != 275*measure.Centimetre {
		t.Fatalf("logged %+v", cs)
	}
	b = b.again(memory)
	defer b.shell.Close()
	b.press("stash.log")
	if b.typed("form.name") != "" || b.typed("form.shop") != "" {
		t.Error("what was logged comes back")
	}
}

// What came back can be thrown away in one go.
func TestStartAfresh(t *testing.T) {
	b, memory := remembering(t, sample.Empty())
	b.press("stash.log")
	if b.shell.Names().Get("form.afresh").Visible() {
		t.Error("an empty form can be begun afresh")
	}
	b.put("form.name", "Moss jersey")
	b.choose("form.made", "rib")
	b.put("form.width", "155 cm")
	b.put("form.length", "2 m")
	b.press("form.addline")
	b = b.again(memory)
	b.press("stash.log")
	b.press("form.afresh")
	if _, there := b.shell.Names().Get("form.afresh").(*widgets.Button); b.typed("form.name") != "" || !there {
		t.Errorf("the name is still %q", b.typed("form.name"))
	}
	b.put("form.name", "Brick rib")
	b.put("form.width", "110")
	b.put("form.length", "1 m")
	b.press("form.send")
	if cs := b.cloths(); len(cs) != 1 || cs[0].Fabric.Name != "Brick rib" {
		t.Errorf("logged %+v", cs)
	}
	b.shell.Close()
}

// A leftover, a record that is changed and measurements for a quick outline come back too; a record that has
// become another meanwhile is not written over.
func TestOtherFormsComeBack(t *testing.T) {
	studio, err := sample.New(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	b, memory := remembering(t, studio)
	b.press("stash.add")
	b.choose("form.shape", "one end slanted")
	b.put("form.length", "60")
	b.put("form.other", "45")
	b.key(fyne.KeyEscape)
	l := b.list("stash.list")
	l.Choose(l.Rows()[3].Key)
	b.press("stash.change")
	b.put("form.weight", "181 g/m²")
	b.key(fyne.KeyEscape)
	b.ctrl(fyne.Key2)
	b.press("patterns.quick")
	b.choose("quick.kind", "tee")
	b.put("quick.name", "Pond tee")
	b.put("quick.bust", "96")
	b = b.again(memory)
	defer b.shell.Close()
	b.ctrl(fyne.Key2)
	b.press("patterns.quick")
	if kind := b.shell.Names().Get("quick.kind").(*widgets.Choice).Selected; kind != "tee" || b.typed("quick.name") != "Pond tee" || b.typed("quick.bust") != "96" {
		t.Errorf("the quick outline is a %s, %q, %q", kind, b.typed("quick.name"), b.typed("quick.bust"))
	}
	b.ctrl(fyne.Key1)
	b.press("stash.add")
	if b.typed("form.length") != "60" || b.typed("form.other") != "45" || !b.shell.Names().Get("form.other").Visible() {
		t.Errorf("the leftover is %q and %q", b.typed("form.length"), b.typed("form.other"))
	}
	b.key(fyne.KeyEscape)
	l = b.list("stash.list")
	l.Choose(l.Rows()[3].Key)
	b.press("stash.change")
	if got := b.typed("form.weight"); got != "181 g/m²" {
		t.Errorf("the weight is %q", got)
	}
	b.press("form.send")
	b.press("stash.change")
	if b.shell.Names().Get("form.afresh").Visible() {
		t.Error("what was kept is said to have been typed")
	}
}
