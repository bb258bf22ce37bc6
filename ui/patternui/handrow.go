package patternui

import (
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/ui/widgets"
)

// handRow are the buttons under the drawing.
type handRow struct{ move, keep, turn, open *widgets.Button }

// noteLines is how many sentences are seen at once under the drawing; the rest scrolls, so
// that the drawing never jumps.
const noteLines = 3

// underDrawing makes what is under the drawing: buttons for the layout, and what is to be
// said about it.
func (f *finder) underDrawing(leave func(fyne.KeyName)) fyne.CanvasObject {
	h := f.page.host
	f.note = widget.NewLabel("")
	f.note.Wrapping = fyne.TextWrapWord
	f.try = widgets.NewButton("Keep trying", f.tryOrStop)
	f.handRow = handRow{
		move: widgets.NewButton("Move by hand", f.moveByHand),
		keep: widgets.NewButton("Keep in place", func() { f.withChosen(func(b *byHand, i int) { b.KeptOrNot(i) }) }),
		turn: widgets.NewButton("Turn", func() { f.withChosen(func(b *byHand, i int) { b.Turned(i) }) }),
		open: widgets.NewButton("Open the fold", func() {
			if f.hand != nil {
				f.hand.hand.OpenOut()
				f.hand.show()
			}
		}),
	}
	for name, o := range map[string]fyne.CanvasObject{"find.try": f.try, "find.move": f.handRow.move, "find.keep": f.handRow.keep,
		"find.turn": f.handRow.turn, "find.open": f.handRow.open, "find.note": f.note} {
		h.Names.Set(name, o)
	}
	said := container.NewVScroll(f.note)
	line := fyne.MeasureText("X", theme.TextSize(), fyne.TextStyle{}).Height
	said.SetMinSize(fyne.NewSize(0, noteLines*line+4*theme.InnerPadding()))
	steady := func(b *widgets.Button) fyne.CanvasObject { // as wide with the other of its two words
		return container.NewGridWrap(b.MinSize(), b)
	}
	row := container.NewHBox(steady(f.try), f.handRow.move, steady(f.handRow.keep), f.handRow.turn, f.handRow.open)
	f.buttons()
	return container.NewVBox(row, said)
}

// withChosen does something with the piece that was chosen.
func (f *finder) withChosen(do func(*byHand, int)) {
	b := f.hand
	if b == nil || b.stop != nil || b.chosen < 0 || b.chosen >= len(b.hand.Layout().Pieces) {
		f.page.host.Tell("Choose a pattern piece first: click it, or press n in the drawing.")
		return
	}
	do(b, b.chosen)
}

// buttons lets the buttons under the drawing say what they would do now.
func (f *finder) buttons() {
	able := func(b *widgets.Button, can bool) {
		if can == b.Disabled() {
			if can {
				b.Enable()
			} else {
				b.Disable()
			}
		}
	}
	d, ok := f.chosen()
	b := f.hand
	searching := b != nil && b.stop != nil
	moving := f.panel.View.Mover != nil
	piece := moving && b != nil && b.chosen >= 0 && b.chosen < len(b.hand.Layout().Pieces)
	name := func(w *widgets.Button, text string) {
		if w.Text != text {
			w.SetText(text)
		}
	}
	name(f.try, map[bool]string{false: "Keep trying", true: "Stop"}[searching])
	able(f.try, searching || ok && triable(d))
	able(f.handRow.move, ok && d.Verdict.Layout != nil && !searching && !moving)
	able(f.handRow.keep, piece)
	able(f.handRow.turn, piece)
	able(f.handRow.open, moving && b.hand.Folded())
	name(f.handRow.keep, map[bool]string{false: "Keep in place", true: "Let go"}[piece && b.hand.Kept(b.chosen)])
}

// stopAll ends all searches and lets go of every layout in hand: they answer another question.
func (f *finder) stopAll() {
	for id, b := range f.hands {
		f.page.host.Tasks.Stop("patterns.try " + id.String())
		if b.stop != nil {
			b.stop()
		}
	}
	clear(f.hands)
}

// sameCloth keeps, once the shelf was compared again, the layouts in hand whose cloth is
// as it was, and their verdicts; the others are let go of.
func (f *finder) sameCloth() {
	for i, d := range f.findings {
		b := f.hands[d.Cloth.Cloth.ID]
		switch {
		case b == nil:
		case !sameState(b.finding, d):
			f.page.host.Tasks.Stop("patterns.try " + d.Cloth.Cloth.ID.String())
			delete(f.hands, d.Cloth.Cloth.ID)
		case b.hand.Touched() && b.right():
			f.findings[i] = b.now()
		}
	}
}

func sameState(a, b planner.Finding) bool { return reflect.DeepEqual(a.Cloth, b.Cloth) }
