package patternui

import (
	"tallycloth/planner"
	"tallycloth/stash/shape"
	"tallycloth/ui/answer"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// byHand is the layout of the chosen cloth while its pieces are moved by hand.
type byHand struct {
	finder  *finder
	finding planner.Finding
	hand    *answer.Hand
}

var _ widgets.Mover = (*byHand)(nil)

// takeInHand lets the pieces of the layout in sight be moved.
func (f *finder) takeInHand() {
	d, ok := f.chosen()
	if !ok || d.Verdict.Layout == nil {
		f.page.host.Tell("There is no layout on this cloth to move pieces of.")
		return
	}
	set := f.page.host.Settings()
	f.hand = &byHand{f, d, answer.NewHand(f.page.host.Voice(), d.Cloth, *d.Verdict.Layout, set.Clearance, set.EndLoss)}
	f.panel.View.Mover = f.hand
	f.note.SetText("Drag a piece, or choose it with n and move it with the arrows; r turns it. What lies over is shaded.")
	f.page.host.Focus(f.panel.View)
}

// letGo ends moving by hand; the layout that was found is there again.
func (f *finder) letGo() {
	f.hand = nil
	f.panel.View.Mover = nil
	f.note.SetText("")
}

// Held tells how the piece would lie where it is held.
func (b *byHand) Held(i int, by shape.Point) {
	told := ""
	for _, c := range b.hand.WrongAt(i, by) {
		told = say.Sentence(c.Words)
	}
	b.finder.note.SetText(told)
}

// Moved lays the piece where it was let go.
func (b *byHand) Moved(i int, by shape.Point) {
	b.hand.Move(i, by)
	b.show()
}

// Turned turns the piece where the fabric allows it.
func (b *byHand) Turned(i int) {
	if !b.hand.Turn(i) {
		b.finder.note.SetText("This fabric has one direction for everything, so nothing can be turned.")
		return
	}
	b.show()
}

// show draws the layout as it lies, what lies over shaded, and says what is wrong.
func (b *byHand) show() {
	f := b.finder
	v := f.page.host.Voice()
	l := b.hand.Layout()
	pic := answer.Picture(v, b.finding.Cloth, &l)
	wrong := b.hand.Wrong()
	for _, c := range wrong {
		if len(c.Ring) > 0 && c.Deep > 0 {
			pic.Over = append(pic.Over, widgets.Overlap{A: l.Pieces[c.Piece].Outline, B: c.Ring, Note: v.Fine(c.Deep) + " over"})
		}
	}
	f.panel.View.Redraw(pic)
	switch {
	case len(wrong) > 0:
		f.note.SetText(say.Sentence(wrong[0].Words))
	case pic.FreeLabel != "":
		f.note.SetText("Everything lies clear, in one layer: " + pic.FreeLabel + " at a stretch.")
	default:
		f.note.SetText("Everything lies clear, in one layer.")
	}
	f.ready()
}

// finding is the finding with the layout as it was moved, and whether that is right.
func (b *byHand) now() (planner.Finding, bool) {
	d := b.finding
	if !b.hand.Touched() {
		return d, true
	}
	l := b.hand.Layout()
	d.Verdict.Layout = &l
	return d, len(b.hand.Wrong()) == 0
}
