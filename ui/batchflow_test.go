package ui

import (
	"context"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// sentence is what is said by of a named remark.
func (b *bench) sentence(name string) string {
	b.t.Helper()
	r, ok := b.shell.Names().Get(name).(interface{ Said() string })
	if !ok {
		b.t.Fatalf("there is no sentence %s", name)
	}
	return r.Said()
}

// want adds garments of a pattern by mouse.
func (b *bench) want(pattern, count string) {
	b.t.Helper()
	b.press("batch.add")
	b.choose("form.pattern", pattern)
	b.put("form.count", count)
	b.press("form.send")
}

// patternNames are the names of the patterns in the library, one of each kind.
func (b *bench) patternNames() map[string]string {
	b.t.Helper()
	all, err := b.studio.Patterns(context.Background())
	if err != nil {
		b.t.Fatal(err)
	}
	out := map[string]string{}
	for _, p := range all {
		out[p.Kind] = p.Name
	}
	return out
}

// By mouse: rows, a plan with its layouts, a cloth left out, another plan, both kept and
// compared, everything reserved and released again; reserving twice is refused in words.
func TestBatchByMouse(t *testing.T) {
	b := full(t)
	names := b.patternNames()
	b.press("rail.batch")
	if b.shell.Place() != page.Batch {
		t.Fatalf("in %s", b.shell.Place())
	}
	b.press("batch.first")
	b.choose("form.pattern", names["tank"])
	b.put("form.count", "2")
	b.put("form.colours", "moss")
	b.press("form.send")
	b.want(names["shorts"], "1")
	b.choose("batch.whole", "whole lengths as well")
	rows := b.list("batch.rows").Rows()
	if len(rows) != 2 || rows[0].Cells[0].Text != "2" || !strings.Contains(rows[0].Sub, "in moss") {
		t.Fatalf("wanted are %+v", rows)
	}
	b.press("batch.go")
	if got := b.sentence("batch.says"); !strings.HasPrefix(got, "All 3 garments can be made") {
		t.Fatalf("planned: %s", got)
	}
	view := b.shell.Names().Get("batch.layout").(*widgets.LayoutView)
	if n := len(view.Picture().Pieces); n == 0 || len(view.Picture().Left) == 0 {
		t.Errorf("the layout shows %d pieces and %d leftovers", n, len(view.Picture().Left))
	}
	b.press("batch.keep")
	b.put("form.name", "with everything")
	b.press("form.send")
	used := b.list("batch.cuts").Rows()[0].Key.(stash.ID)
	b.list("batch.cuts").Choose(used)
	b.press("batch.cutsnot")
	b.press("batch.go")
	for _, r := range b.list("batch.cuts").Rows() {
		if r.Key == used {
			t.Error("the cloth left out is cut")
		}
	}
	b.press("batch.keep")
	b.put("form.name", "without one")
	b.press("form.send")
	b.press("batch.view.compare")
	if got := b.titles("batch.kept"); len(got) != 2 || got[0] != "without one" || got[1] != "with everything" {
		t.Errorf("kept are %v", got)
	}
	b.list("batch.kept").Choose(b.list("batch.kept").Rows()[1].Key)
	b.press("batch.open")
	if got := b.sentence("batch.says"); !strings.HasPrefix(got, "All 3 garments can be made") {
		t.Errorf("opened: %s", got)
	}
	before := b.reservations()
	b.press("batch.reserve")
	if b.reservations() <= before {
		t.Fatalf("nothing is reserved: %s", b.shell.Quiet())
	}
	reserve := b.shell.Names().Get("batch.reserve").(*widgets.Button)
	if got := b.sentence("batch.says"); !reserve.Disabled() || !strings.Contains(got, "reserved now") {
		t.Errorf("could be reserved twice: %s", got)
	}
	b.press("undo")
	if reserve.Disabled() {
		t.Error("what was taken back cannot be reserved again")
	}
	if got := b.reservations(); got != before {
		t.Errorf("%d reservations after undo, %d before", got, before)
	}
	if got := b.sentence("batch.says"); !strings.HasPrefix(got, "All 3 garments can be made") {
		t.Errorf("after undo: %s", got)
	}
}

// A batch that is in hand when the window closes is there again with its plan, which is no act and so
// nothing to take back; once its cloth has changed the plan says so and reserves nothing.
func TestBatchInHandComesBack(t *testing.T) {
	b, memory := remembering(t, full(t).studio)
	b.press("rail.batch")
	b.want(b.patternNames()["tank"], "1")
	b.choose("batch.whole", "whole lengths as well")
	b.press("batch.go")
	planned := b.sentence("batch.says")
	if !strings.HasPrefix(planned, "The garment can be made") && !strings.HasPrefix(planned, "All ") {
		t.Fatalf("planned: %s", planned)
	}
	before := b.lastAct()
	b = b.again(memory)
	b.press("rail.batch")
	if got := b.sentence("batch.says"); got != planned || len(b.list("batch.rows").Rows()) != 1 {
		t.Errorf("after closing: %s, before: %s", got, planned)
	}
	if got := b.lastAct(); got != before {
		t.Errorf("closing was an act: %s", got)
	}
	used := b.list("batch.cuts").Rows()[0].Key.(stash.ID)
	if err := b.studio.Discard(context.Background(), used, ""); err != nil {
		t.Fatal(err)
	}
	b = b.again(memory)
	b.press("rail.batch")
	if got := b.sentence("batch.says"); !strings.Contains(got, "gone since the plan was made") || !strings.Contains(got, "Plan the batch again") {
		t.Errorf("with its cloth discarded: %s", got)
	}
	if !b.shell.Names().Get("batch.reserve").(*widgets.Button).Disabled() {
		t.Error("it can be reserved")
	}
}

// lastAct is what was done last in the library.
func (b *bench) lastAct() string {
	b.t.Helper()
	acts, err := b.studio.Acts(context.Background(), 1)
	if err != nil || len(acts) == 0 {
		b.t.Fatal(acts, err)
	}
	return acts[0].Sentence
}

// By keyboard alone: Ctrl+4, a row, the plan, a garment kept on its cloth, planned again and
// reserved; Ctrl+Z releases all of it.
func TestBatchByKeyboard(t *testing.T) {
	b := full(t)
	b.ctrl(fyne.Key4)
	b.focus("batch.rows")
	b.ctrl(fyne.KeyN)
	b.focus("form.pattern")
	b.tabTo("form.count")
	b.window.Canvas().Focused().(*widgets.Entry).SetText("")
	b.write("two")
	b.key(fyne.KeyReturn)
	if len(b.list("batch.rows").Rows()) != 0 {
		t.Fatal("two, in words, was taken")
	}
	b.window.Canvas().Focused().(*widgets.Entry).SetText("")
	b.write("2")
	b.key(fyne.KeyReturn)
	if len(b.list("batch.rows").Rows()) != 1 {
		t.Fatal("nothing is wanted")
	}
	b.tabTo("batch.whole")
	b.write("w")
	b.tabTo("batch.go")
	b.key(fyne.KeyReturn)
	if got := b.sentence("batch.says"); !strings.HasPrefix(got, "All 2 garments can be made") {
		t.Fatalf("planned: %s", got)
	}
	b.tabTo("batch.garments")
	b.key(fyne.KeyReturn)
	r, _ := b.list("batch.garments").ChosenRow()
	if !strings.Contains(r.Sub, "stays here") || b.sentence("batch.about") == "" {
		t.Errorf("not kept: %s", r.Sub)
	}
	on := b.list("batch.cuts").Rows()[0].Key
	b.tabTo("batch.go")
	b.key(fyne.KeyReturn)
	if !b.list("batch.cuts").Choose(on) {
		t.Errorf("the cloth that a garment stays on is not cut: %s", b.sentence("batch.says"))
	}
	before := b.reservations()
	b.tabTo("batch.reserve")
	b.key(fyne.KeyReturn)
	if b.reservations() <= before {
		t.Fatalf("nothing is reserved: %s", b.shell.Quiet())
	}
	b.ctrl(fyne.KeyZ)
	if got := b.reservations(); got != before {
		t.Errorf("%d reservations after Ctrl+Z, %d before", got, before)
	}
	b.ctrl(fyne.Key4)
	b.key(fyne.KeyDelete)
	if len(b.list("batch.rows").Rows()) != 0 {
		t.Error("Delete did not take the row out")
	}
}

// A row for a person takes the size that her measurements ask for, and her blend once the
// sizes are blended; the variant is kept, and another size than hers is said.
func TestBatchRowForPerson(t *testing.T) {
	b := full(t)
	ctx := context.Background()
	longer := adjust.Step{Kind: adjust.Hem, Amount: 3 * measure.Centimetre}
	wren, err := b.studio.SavePerson(ctx, sizing.Person{Name: "Wren", Adjustments: []sizing.Kept{{Step: longer}}})
	if err != nil {
		t.Fatal(err)
	}
	// 36 in is the bust of size 4 in the table of 1967/68, 40 in the hip of size 5.
	if _, err := b.studio.MeasurePerson(ctx, wren.ID, sizing.Taken{Body: map[string]measure.Length{pattern.Bust: 36 * measure.Inch, pattern.Hip: 40 * measure.Inch}}); err != nil {
		t.Fatal(err)
	}
	b.press("rail.batch")
	b.press("batch.add")
	b.choose("form.pattern", b.patternNames()["tank"])
	b.choose("form.size", "7")
	b.put("form.variant", "cropped")
	b.choose("form.person", "Wren")
	size := b.shell.Names().Get("form.size").(*widgets.Choice)
	if size.Selected != "4" || !strings.Contains(b.sentence("form.proposed"), "size 5 at the hip") {
		t.Fatalf("size %s: %s", size.Selected, b.sentence("form.proposed"))
	}
	b.press("form.blend")
	if size.Selected != "4 to 5" {
		t.Fatalf("blended is %s of %v", size.Selected, size.Options)
	}
	b.shell.Names().Get("form.adjust.1").(*widgets.Check).SetChecked(true)
	b.press("form.send")
	if got := b.list("batch.rows").Rows()[0].Sub; !strings.HasPrefix(got, "size 4 to 5 · cropped · for Wren · hem 30 mm longer") {
		t.Fatalf("the row says %s", got)
	}
	b.choose("batch.whole", "whole lengths as well")
	b.press("batch.go")
	b.press("batch.reserve")
	all, err := b.studio.Garments(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(all, func(g garment.Garment) bool {
		return g.Size == "4 to 5" && g.Variant == "cropped" && g.For == "Wren" && len(g.Adjustments) == 1
	}) {
		t.Errorf("garments %+v", all)
	}
	b.press("rail.batch")
	b.list("batch.rows").Choose(0)
	b.press("batch.change")
	b.choose("form.size", "7")
	if !b.shell.Names().Get("form.adjust.1").(*widgets.Check).Checked {
		t.Error("the adjustment of the row is not ticked any more")
	}
	b.press("form.send")
	if got := b.list("batch.rows").Rows()[0].Sub; !strings.HasPrefix(got, "size 7 (the measurements say 4 to 5)") {
		t.Errorf("the row says %s", got)
	}
}

// Each use of fabric has its own rule: several fabrics named, or how near the colour must be.
func TestBatchRules(t *testing.T) {
	b := full(t)
	names := b.patternNames()
	b.press("rail.batch")
	b.press("batch.add")
	b.choose("form.pattern", names["tank"])
	b.choose("form.use.2", "only fabrics that I choose")
	b.press("form.send")
	if len(b.list("batch.rows").Rows()) != 0 {
		t.Fatal("a rule without a fabric was taken")
	}
	b.press("form.fabrics.2")
	b.put("fabrics.filter", "moss")
	check := b.shell.Names().Get("fabrics.1").(*widgets.Check)
	test.Tap(check)
	b.put("fabrics.filter", "brick")
	other := b.shell.Names().Get("fabrics.2").(*widgets.Check)
	test.Tap(other)
	b.press("fabrics.send")
	b.press("form.send")
	rows := b.list("batch.rows").Rows()
	if len(rows) != 1 || strings.Count(rows[0].Sub, " or ") != 1 || !strings.Contains(rows[0].Sub, "binding: only ") {
		t.Fatalf("the row says %+v", rows)
	}
	b.list("batch.rows").Choose(0)
	b.press("batch.change")
	if got := b.shell.Names().Get("form.use.2").(*widgets.Choice).Selected; got != "only fabrics that I choose" {
		t.Errorf("the form says %s", got)
	}
	b.choose("form.use.2", "what goes with main")
	near := b.shell.Names().Get("form.near.2").(*widgets.Choice)
	near.SetSelectedIndex(1)
	b.press("form.send")
	if got := b.list("batch.rows").Rows()[0].Sub; !strings.Contains(got, "binding: what goes with main, hardly another colour") {
		t.Errorf("the row says %s", got)
	}
	b.choose("batch.whole", "whole lengths as well")
	b.press("batch.go")
	cloths, err := b.studio.Cloths(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	colour := map[string]string{}
	for _, c := range cloths {
		colour[c.Cloth.Code+" "+c.Fabric.Name] = c.Fabric.Colour
	}
	b.press("batch.view.made")
	made := b.list("batch.made").Rows()[0]
	at := strings.TrimPrefix(made.Cells[1].Text, "binding: ")
	if d, ok := stash.ColourDifference(colour[made.Cells[0].Text], colour[at]); !ok || d > planner.ColourClose {
		t.Errorf("binding of %q beside %q, %.1f apart", at, made.Cells[0].Text, d)
	}
}

// What cannot be made is told with its nearest miss and what to buy, and whole lengths can
// be allowed from there.
func TestBatchThatFallsShort(t *testing.T) {
	b := full(t)
	names := b.patternNames()
	b.press("rail.batch")
	b.want(names["sleep shirt"], "2")
	b.press("batch.go")
	b.press("batch.view.missing")
	var all []string
	for _, f := range b.findSaid(b.shell.stage) {
		all = append(all, f.Said())
	}
	text := strings.Join(all, "\n")
	for _, want := range []string{"2 of 2 not made", "short on", "a whole length, if you allow those", "cm wide", "Fabric for main"} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q:\n%s", want, text)
		}
	}
	b.press("batch.shop.1")
	b.choose("form.fabric", b.shell.Names().Get("form.fabric").(*widgets.Choice).Options[0])
	b.press("form.send")
	list, err := b.studio.ShoppingList(context.Background())
	if err != nil || len(list) == 0 || list[0].Kind != planner.FabricKind || list[0].Buy < 1 || !strings.Contains(list[0].Note, names["sleep shirt"]) {
		t.Errorf("on the shopping list: %+v, %v", list, err)
	}
	b.press("batch.allow")
	if got := b.sentence("batch.says"); !strings.Contains(got, "2 garments can be made") {
		t.Errorf("with whole lengths: %s", got)
	}
}

// Where more may be possible than was found, the window says so and offers to plan on from the
// plan in sight.
func TestBatchKeepsPlanning(t *testing.T) {
	b := full(t)
	b.press("rail.batch")
	b.want(b.patternNames()["tank"], "2")
	// Lengths may be cut, but only such as are reserved in part.
	b.choose("batch.whole", "whole lengths as well")
	l := b.list("batch.cloth")
	for _, r := range l.Rows() {
		if strings.HasSuffix(r.Sub, "· whole length") {
			l.Choose(r.Key)
			b.press("batch.cloth.not")
		}
	}
	b.press("batch.go")
	if got := b.sentence("batch.says"); !strings.Contains(got, "at most 1 more is possible") || b.shell.Names().Get("batch.go").(*widgets.Button).Text != "Keep planning" {
		t.Fatal(got)
	}
	b.press("batch.view.missing")
	if on := b.shell.Names().Get("batch.on").(*widgets.Button); !on.Visible() {
		t.Error("nothing offers to plan on")
	}
	b.choose("batch.whole", "leftovers only")
	if got := b.shell.Names().Get("batch.go").(*widgets.Button).Text; got != "Plan again" {
		t.Errorf("asked anew, the button says %s", got)
	}
}

// findSaid lists the sentences in sight.
func (b *bench) findSaid(o fyne.CanvasObject) (out []interface{ Said() string }) {
	if s, ok := o.(interface{ Said() string }); ok {
		out = append(out, s)
	}
	switch c := o.(type) {
	case *fyne.Container:
		for _, in := range c.Objects {
			out = append(out, b.findSaid(in)...)
		}
	case fyne.Widget:
		for _, in := range test.WidgetRenderer(c).Objects() {
			out = append(out, b.findSaid(in)...)
		}
	}
	return out
}

// Which cloth may be used: only what a filter shows, some first, some left out.
func TestBatchCloth(t *testing.T) {
	b := full(t)
	b.press("rail.batch")
	b.want(b.patternNames()["tank"], "1")
	b.ctrl(fyne.KeyF)
	b.write("moss")
	b.press("batch.cloth.only")
	b.choose("batch.whole", "whole lengths as well")
	n := len(b.list("batch.cloth").Rows())
	b.list("batch.cloth").Choose(b.list("batch.cloth").Rows()[0].Key)
	b.press("batch.cloth.first")
	b.list("batch.cloth").Choose(b.list("batch.cloth").Rows()[1].Key)
	b.press("batch.cloth.not")
	if got := []string{b.list("batch.cloth").Rows()[0].Cells[1].Text, b.list("batch.cloth").Rows()[1].Cells[1].Text}; !strings.Contains(got[0], "first") || !strings.Contains(got[1], "left out") {
		t.Errorf("the list says %v", got)
	}
	b.press("batch.go")
	for _, r := range b.list("batch.cuts").Rows() {
		if !strings.Contains(r.Title, "Moss") {
			t.Errorf("%s is cut, of %d pieces that may be used", r.Title, n)
		}
	}
	b.press("batch.view.cloth")
	b.put("batch.filter", "")
	b.press("batch.cloth.all")
	for _, r := range b.list("batch.cloth").Rows() {
		if !strings.Contains(r.Cells[1].Text, "yes") {
			t.Errorf("%s: %s", r.Title, r.Cells[1].Text)
		}
	}
}

// Planning goes on while another place is in sight, its best so far can be kept, and what is
// in hand when the window closes is there again.
func TestBatchGoesOnElsewhere(t *testing.T) {
	studio, err := sample.New(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	app := test.NewTempApp(t)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(1366, 768))
	handed := make(chan func(), 1000)
	s := New(w, Deps{Studio: studio, Tasks: task.New(func(f func()) { handed <- f }), Planning: planner.BatchEffort{Rounds: 1 << 30}})
	b := &bench{t, s, studio, w}
	until := func(come func() bool) {
		for !come() {
			(<-handed)()
		}
	}
	says := func() string { return b.sentence("batch.says") }
	s.Go(page.Route{Place: page.Batch})
	until(func() bool { return len(b.list("batch.cloth").Rows()) > 0 })
	b.want(b.patternNames()["tank"], "4")
	b.want(b.patternNames()["sleep shirt"], "3")
	b.choose("batch.whole", "whole lengths as well")
	b.press("batch.go")
	s.Go(page.Route{Place: page.Stash})
	until(func() bool { return len(b.list("batch.cuts").Rows()) > 0 || strings.Contains(says(), "can be made") })
	s.Go(page.Route{Place: page.Batch})
	if strings.Contains(says(), "so far") {
		b.press("batch.stop")
	}
	until(func() bool { return strings.Contains(says(), "can be made") })
	made := len(b.list("batch.cuts").Rows())
	if made == 0 {
		t.Errorf("the plan is not there: %s", says())
	}
	s.Close()

	again := newBench(t, studio)
	again.ctrl(fyne.Key4)
	if len(again.list("batch.rows").Rows()) != 2 || len(again.list("batch.cuts").Rows()) != made {
		t.Errorf("%d rows and %d of %d cloths after the window was closed", len(again.list("batch.rows").Rows()), len(again.list("batch.cuts").Rows()), made)
	}
}
