package ui

import (
	"context"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/ui/widgets"
)

// pick chooses a word of a named choice.
func (b *bench) pick(name, word string) {
	b.t.Helper()
	c, ok := b.shell.Names().Get(name).(*widgets.Choice)
	if !ok {
		b.t.Fatalf("there is no choice %s", name)
	}
	for i, w := range c.Options {
		if strings.HasPrefix(w, word) {
			c.SetSelectedIndex(i)
			return
		}
	}
	b.t.Fatalf("%s offers %v, not %s", name, c.Options, word)
}

// fill types a text into a named line, in place of what stands there.
func (b *bench) fill(name, text string) {
	b.t.Helper()
	e, ok := b.shell.Names().Get(name).(*widgets.Entry)
	if !ok {
		b.t.Fatalf("there is no line %s", name)
	}
	e.SetText(text)
}

// A typed neck in a fabric: the ways to hold it in, what worked kept, offered the next time, taken
// up, and taken back.
func TestWhatWorkedIsOfferedByMouse(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	b.fill("binding.part.1.length", "60 cm")
	b.pick("binding.part.1.runs", "inside")
	b.fill("binding.part.1.turns", "360")
	b.pick("binding.technique", "folded band")
	b.pick("binding.fabric", "Brick rib")
	b.pick("binding.held", "rule of thumb")
	ruled := b.text("binding.answer")
	if !strings.Contains(ruled, "Cut 47 cm") { // rib, 3/4 of 60 cm (home sewing trade association), and two seams of 1 cm
		t.Fatalf("it says %q", ruled)
	}
	b.press("binding.worked")
	b.fill("binding.worked.note", "lies flat")
	b.press("binding.worked.send")
	b.pick("binding.held", "by the curve")
	if got := b.text("binding.answer"); strings.Contains(got, "Cut 47 cm") || !strings.Contains(got, "lies flat") {
		t.Errorf("it says %q", got)
	}
	b.pick("binding.held", "worked last time")
	if got := b.text("binding.answer"); !strings.Contains(got, "Cut 47 cm") {
		t.Errorf("it says %q", got)
	}
	b.press("undo")
	b.press("rail.stash")
	b.press("rail.binding")
	if c := b.shell.Names().Get("binding.held").(*widgets.Choice); strings.Contains(strings.Join(c.Options, " "), "worked last time") {
		t.Errorf("after Undo it offers %v", c.Options)
	}
}

// Neck and armhole, typed by keyboard alone: the neck is kept, the armhole that catches it
// grows by its band.
func TestTwoEdgesByKeyboard(t *testing.T) {
	b := full(t)
	b.ctrl(fyne.Key5)
	b.focus("binding.pattern")
	b.tabTo("binding.part.1.length")
	b.write("55 cm")
	b.tabTo("binding.name")
	b.write("neck")
	b.tabTo("binding.keep")
	b.key(fyne.KeyReturn)
	b.focus("binding.part.1.length")
	b.write("42 cm")
	b.tabTo("binding.technique")
	b.key(fyne.KeyRight)
	b.key(fyne.KeyRight)
	b.tabTo("binding.catches")
	b.key(fyne.KeyRight)
	got := b.text("binding.answer")
	if !strings.Contains(got, "Neck") || !strings.Contains(got, "catches the end of neck") {
		t.Errorf("it says %q", got)
	}
	b.tabTo("binding.clear")
	b.key(fyne.KeySpace)
	b.tabTo("binding.lap")
	b.write("2 cmx")
	if d := b.shell.Names().Get("binding.reserve").(*widgets.Button); !d.Disabled() {
		t.Error("a lap that cannot be read is reserved")
	}
}

// A technique of one's own is drawn while its layers are typed, and used.
func TestOwnTechniqueByMouse(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	b.press("binding.own")
	b.fill("binding.own.name", "Rolled rim")
	b.fill("binding.own.layers", "three widths, one seam")
	b.press("binding.own.send")
	b.pick("binding.technique", "Rolled rim")
	b.fill("binding.part.1.length", "62 cm")
	if got := b.text("binding.answer"); !strings.Contains(got, "× 40 mm") {
		t.Errorf("three widths and a seam of 1 cm are 4 cm, it says %q", got)
	}
}

// A technique of one's own is removed in the window, and Undo brings it back.
func TestOwnTechniqueRemoved(t *testing.T) {
	b := full(t)
	if err := b.studio.AddTechnique(context.Background(), "Rolled rim", "three widths, one seam"); err != nil {
		t.Fatal(err)
	}
	offered := func() bool {
		b.press("rail.stash")
		b.press("rail.binding")
		return slices.Contains(b.shell.Names().Get("binding.technique").(*widgets.Choice).Options, "Rolled rim")
	}
	if !offered() {
		t.Fatal("it is not offered")
	}
	b.press("binding.own")
	b.press("binding.own.drop.Rolled rim")
	b.key(fyne.KeyEscape)
	if offered() {
		t.Error("it is offered still")
	}
	b.press("undo")
	if !offered() {
		t.Error("Undo does not bring it back")
	}
}

// How far straps drew out when they were measured last is what the next ones are cut by.
func TestStrapsDrawOutAsLastTime(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	b.pick("binding.fabric", "Brick rib")
	b.fill("binding.part.1.length", "50 cm")
	b.pick("binding.part.1.runs", "strap")
	b.fill("binding.extra", "0")
	if got := b.text("binding.answer"); !strings.Contains(got, "Cut 48.5 cm") { // 50/1.03
		t.Errorf("it says %q", got)
	}
	b.press("binding.worked")
	b.fill("binding.worked.drawn", "25 %")
	b.press("binding.worked.send")
	if got := b.text("binding.answer"); !strings.Contains(got, "Cut 40 cm") { // 50/1.25
		t.Errorf("it says %q", got)
	}
	if e := b.shell.Names().Get("binding.drawn").(*widgets.Entry); e.PlaceHolder != "25 % last time" || e.Text != "" {
		t.Errorf("the field says %q, %q", e.PlaceHolder, e.Text)
	}
}

// What the end of each part catches is shown and chosen part by part; a standing band lengthens just that.
func TestEachPartCatches(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	b.pick("binding.technique", "folded band")
	b.fill("binding.part.1.length", "40 cm")
	b.press("binding.keep")
	b.fill("binding.part.1.length", "20 cm")
	b.press("binding.part.add")
	b.fill("binding.part.2.name", "under")
	b.fill("binding.part.2.length", "10 cm")
	b.pick("binding.catches.part", "armhole")
	b.pick("binding.catches", "edge") // the one kept
	b.pick("binding.catches.part", "under")
	if c := b.shell.Names().Get("binding.catches").(*widgets.Choice); c.Selected != "nothing" {
		t.Errorf("the second part catches %s", c.Selected)
	}
	got := b.text("binding.answer")
	if !strings.Contains(got, "Armhole catches the end of edge, which makes it 10 mm longer") || strings.Contains(got, "Under catches") {
		t.Errorf("it says %q", got)
	}
	b.pick("binding.catches.part", "armhole")
	b.pick("binding.catches", "nothing")
	if got := b.text("binding.answer"); strings.Contains(got, "catches") {
		t.Errorf("it says %q", got)
	}
}

// All edges of a pattern at once: each with its ways to be held in side by side, and a choice of its own.
func TestEveryEdgeHeldInByMouse(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	b.pick("binding.pattern", "Fennel tank")
	b.pick("binding.size", "5")
	b.pick("binding.edge", "all of them")
	b.pick("binding.fabric", "Brick rib")
	before := b.text("binding.answer")
	if n := strings.Count(before, "Ways to hold it in"); n < 2 {
		t.Fatalf("%d edges offer a choice: %q", n, before)
	}
	edges := b.shell.Names().Get("binding.edge").(*widgets.Choice).Options
	b.pick("binding.held."+edges[len(edges)-1], "rule of thumb")
	after := b.text("binding.answer")
	cut := func(text string) (out []string) {
		for _, l := range strings.Split(text, "\n") {
			if strings.HasPrefix(l, "Cut ") { // all finished alike are cut alike wide
				length, _, _ := strings.Cut(l, " × ")
				out = append(out, length)
			}
		}
		return out
	}
	was, now := cut(before), cut(after)
	changed := 0
	for i := range was {
		if i < len(now) && was[i] != now[i] {
			changed++
		}
	}
	if len(was) != len(now) || changed != 1 {
		t.Errorf("one edge is held in another way: %q, before %q", now, was)
	}
}

// Elastic and continuous bias follow what is typed.
func TestElasticAndBiasForms(t *testing.T) {
	b := full(t)
	b.press("rail.binding")
	b.press("binding.elastic")
	b.fill("binding.elastic.girth", "74 cm")
	b.fill("binding.elastic.hip", "102 cm")
	if got := b.text("binding.elastic.told"); !strings.Contains(got, "67.9 cm") || !strings.Contains(got, "hip") { // 90 % of 74 cm and 1/2 in
		t.Errorf("it says %q", got)
	}
	b.key(fyne.KeyEscape)
	b.press("binding.bias")
	for name, text := range map[string]string{"wide": "20 in", "long": "20 in", "cut": "2 in", "seam": "0", "wanted": "250 in"} {
		b.fill("binding.bias."+name, text)
	}
	// 20 in square: 200 in, printed; 250 in take a square of √500 in = 56.8 cm.
	if got := b.text("binding.bias.told"); !strings.Contains(got, "5.08 m") || !strings.Contains(got, "56.8 cm") {
		t.Errorf("it says %q", got)
	}
}
