package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/ui/widgets"
)

// marked is a drawing of a piece with its name written in it, two straight lines, two notches and a dot.
const marked = `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400"><rect width="200" height="300"/><text x="20" y="150" font-size="10">Sleeve</text>
<path d="M150 250V50m-5 8l5-8 5 8"/><path d="M20 100H120"/><path d="M0 100h6"/><path d="M200 100h-6"/><circle cx="100" cy="250" r="3"/></svg>`

// markedIn drops that drawing on the window.
func (b *bench) markedIn() {
	path := filepath.Join(b.t.TempDir(), "sleeve.svg")
	if err := os.WriteFile(path, []byte(marked), 0o600); err != nil {
		b.t.Fatal(err)
	}
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(path)})
}

// broughtOutline saves what is on the screen and returns its only outline.
func (b *bench) broughtOutline() pattern.Outline {
	b.t.Helper()
	b.press("outlines.save")
	ps := b.named("sleeve")
	if len(ps) != 1 || len(ps[0].Pieces) != 1 || ps[0].Pieces[0].Name != "Sleeve" {
		b.t.Fatalf("%+v", ps)
	}
	return ps[0].Pieces[0].Outlines[drawn.OneSize]
}

// TestMarksByKeyboard: what was recognised is shown, another line is taken for the grain, one notch is said
// to be a line, and so it is saved.
func TestMarksByKeyboard(t *testing.T) {
	b := full(t)
	b.markedIn()
	grain := b.shell.Names().Get("outlines.grain").(*widgets.Choice)
	if !strings.HasPrefix(grain.Selected, "along line 1") {
		t.Errorf("the grain runs %q", grain.Selected)
	}
	b.tabTo("outlines.mark.2")
	b.key(fyne.KeyReturn)
	b.tabTo("outlines.grain")
	b.key(fyne.KeyRight)
	if !strings.HasPrefix(grain.Selected, "along line 2") {
		t.Errorf("the grain runs %q", grain.Selected)
	}
	b.tabTo("outlines.grainturn")
	b.key(fyne.KeyReturn)
	o := b.broughtOutline()
	if box := o.Cut.Bounds(); box.Length() != 200_000 || len(o.Notches) != 1 || len(o.Dots) != 1 || len(o.Inner) != 3 {
		t.Errorf("%+v", o)
	}
}

// TestMarksByMouse: clicks in the picture change what was recognised, and change it back.
func TestMarksByMouse(t *testing.T) {
	b := full(t)
	b.markedIn()
	b.choose("outlines.shows", "what was recognised on one of them")
	picture := b.shell.Names().Get("outlines.picture").(interface {
		fyne.CanvasObject
		fyne.Tappable
		Spot(string) (fyne.Position, bool)
	})
	click := func(id string) {
		t.Helper()
		at, ok := picture.Spot(id)
		if !ok {
			t.Fatalf("%s is not in the picture", id)
		}
		picture.Tapped(&fyne.PointEvent{Position: at})
	}
	test.WidgetRenderer(picture.(fyne.Widget)).Layout(fyne.NewSize(600, 420))
	picture.Resize(fyne.NewSize(600, 420))
	click("notch 1")
	click("dot 1")
	click("notch 1")
	click("grain line 1") // off: up the page
	if grain := b.shell.Names().Get("outlines.grain").(*widgets.Choice); grain.Selected != "up the page" {
		t.Errorf("the grain runs %q", grain.Selected)
	}
	click("grain line 2")
	o := b.broughtOutline()
	if box := o.Cut.Bounds(); box.Length() != 200_000 || len(o.Notches) != 2 || len(o.Dots) != 0 {
		t.Errorf("%+v", o)
	}
}

// TestOnlyLines: all of it may be left as lines.
func TestOnlyLines(t *testing.T) {
	b := full(t)
	b.markedIn()
	b.tabTo("outlines.onlylines")
	b.key(fyne.KeyReturn)
	if o := b.broughtOutline(); len(o.Notches)+len(o.Dots) != 0 || len(o.Inner) < 5 {
		t.Errorf("%+v", o)
	}
}

// TestFoldIsRecognised: a half with a bent arrow at its right edge is on the fold, which is said with its
// reason, and can be said to be whole.
func TestFoldIsRecognised(t *testing.T) {
	b := full(t)
	path := filepath.Join(t.TempDir(), "yoke.svg")
	if err := os.WriteFile(path, []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400"><path d="M20 10 H200 V300 H50 Z"><title>Yoke</title></path>
<path d="M198 100 H170 V250 H198" fill="none" stroke="black"/></svg>`), 0o600); err != nil {
		t.Fatal(err)
	}
	b.shell.Drop(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(path)})
	fold := b.shell.Names().Get("outlines.fold.1").(*widgets.Choice)
	if fold.Selected != "right edge on fold" {
		t.Errorf("it is drawn %q", fold.Selected)
	}
	if words := b.text("outlines.marks"); !strings.Contains(words, "Its right edge is on the fold: a bent arrow points to it.") {
		t.Errorf("it says %q", words)
	}
	b.choose("outlines.fold.1", "whole")
	b.press("outlines.save")
	if q := b.named("yoke")[0].Pieces[0]; q.OnFold || q.Outlines[drawn.OneSize].Cut.Bounds().Width() != 180_000 {
		t.Errorf("%+v", q)
	}
}
