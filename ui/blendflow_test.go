package ui

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"tallycloth/planner/pattern"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// chosenPattern brings a pattern into sight by its name.
func (b *bench) chosenPattern(name string) pattern.Pattern {
	b.t.Helper()
	for _, p := range b.named(name) {
		b.shell.Go(page.Route{Place: page.Patterns, ID: p.ID})
		return p
	}
	b.t.Fatalf("there is no pattern %q", name)
	return pattern.Pattern{}
}

// Sizes are chosen level by level, one at the bust and another at the hip: the form says what
// that is when it is sewn, and that there is nothing to blend while all are one.
func TestBlendByMouse(t *testing.T) {
	b := full(t)
	p := b.chosenPattern(b.patternNames()["tank"])
	b.press("pattern.blend")
	if said := b.text("blend.told"); !strings.Contains(said, "Choose another size") {
		t.Errorf("one size everywhere: %q", said)
	}
	b.choose("blend.bust", "3")
	b.choose("blend.waist", "4")
	b.choose("blend.hip", "5")
	if said := b.text("blend.told"); !strings.Contains(said, "Size 3 to 5, sewn bust") {
		t.Errorf("it says %q", said)
	}
	b.press("blend.send")
	now, err := b.studio.Pattern(context.Background(), p.ID)
	if err != nil || len(now.Sizes) != len(p.Sizes)+1 {
		t.Fatalf("%d sizes, %v: %s", len(now.Sizes), err, b.shell.Quiet())
	}
	s, _ := now.Size("3 to 5")
	for level, from := range map[string]string{pattern.Bust: "3", pattern.Waist: "4", pattern.Hip: "5"} {
		if of, _ := p.Size(from); s.Finished[level] != of.Finished[level] {
			t.Errorf("the %s is %d µm, size %s has %d", level, s.Finished[level], from, of.Finished[level])
		}
	}
	if got := b.shell.Names().Get("pattern.size").(*widgets.Choice).Selected; got != "3 to 5" {
		t.Errorf("shown is size %s", got)
	}
	b.ctrl(fyne.KeyZ)
	if now, _ = b.studio.Pattern(context.Background(), p.ID); len(now.Sizes) != len(p.Sizes) {
		t.Errorf("undone, it has %d sizes", len(now.Sizes))
	}
}

// The same by keyboard alone.
func TestBlendByKeyboard(t *testing.T) {
	b := full(t)
	p := b.chosenPattern(b.patternNames()["tank"])
	b.tabTo("pattern.blend")
	b.key(fyne.KeyReturn)
	b.tabTo("blend.hip")
	b.key(fyne.KeyRight)
	b.key(fyne.KeyReturn)
	if now, err := b.studio.Pattern(context.Background(), p.ID); err != nil || len(now.Sizes) != len(p.Sizes)+1 {
		t.Errorf("%d sizes, %v: %s", len(now.Sizes), err, b.shell.Quiet())
	}
}
