package patternui

import (
	"context"
	"fmt"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/shape"
	"tallycloth/ui/answer"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// byHand is the layout of one cloth in hand: moved, kept in place, and gone on from by a
// longer search. It stays as it is when another cloth is looked at meanwhile.
type byHand struct {
	finder  *finder
	finding planner.Finding // as it was found
	hand    *match.Hand
	chosen  int    // the piece that keys move, −1 for none
	stop    func() // ends the search that runs, nil when none does
	far     int    // seconds that the search has been on
	told    string // what it has so far
}

var _ widgets.Mover = (*byHand)(nil)

// howTo says what can be done by hand.
const howTo = "Drag a pattern piece, or choose it with n or b and move it with the arrows. r turns it, k keeps it in place. Ctrl+Z takes a step back."

// takeInHand takes the layout in sight in hand and then does what is asked.
func (f *finder) takeInHand(then func(*byHand)) {
	d, ok := f.chosen()
	if !ok {
		f.page.host.Tell("Choose a cloth first.")
		return
	}
	if f.hand != nil {
		then(f.hand)
		return
	}
	var hand *match.Hand
	q := f.search()
	f.page.host.Tasks.Start("patterns.hand", func(ctx context.Context, _ func(func())) (err error) {
		hand, err = f.page.host.Studio.TakeInHand(ctx, d, q)
		return err
	}, func(err error) {
		if now, ok := f.chosen(); err != nil || !ok || now.Cloth.Cloth.ID != d.Cloth.Cloth.ID {
			f.page.host.Trouble(err)
			return
		}
		f.hand = &byHand{finder: f, finding: d, hand: hand, chosen: -1}
		f.hands[d.Cloth.Cloth.ID] = f.hand
		then(f.hand)
	})
}

// moveByHand lets the pieces of the layout in sight be moved.
func (f *finder) moveByHand() {
	if d, ok := f.chosen(); !ok || d.Verdict.Layout == nil && f.hand == nil {
		f.page.host.Tell("There is no layout on this cloth whose pattern pieces could be moved.")
		return
	}
	f.takeInHand(func(b *byHand) {
		if b.stop != nil {
			f.page.host.Tell("The search is still on. Stop it first.")
			return
		}
		f.panel.View.Mover = b
		b.show()
		if !b.hand.Touched() {
			f.note.SetText(howTo)
		}
		f.page.host.Focus(f.panel.View)
	})
}

// letGo shows no layout in hand; those that were moved stay as they are, for when their
// cloth is chosen again.
func (f *finder) letGo() {
	f.hand = nil
	f.panel.View.Mover = nil
	f.note.SetText("")
	f.buttons()
}

// resume shows the layout of the cloth chosen as it was left in hand; false where it was not.
func (f *finder) resume(id stash.ID) bool {
	b := f.hands[id]
	if b == nil || !b.hand.Touched() && b.stop == nil {
		return false
	}
	f.hand = b
	l := b.hand.Layout()
	f.panel.View.Draw(answer.InHand(f.page.host.Voice(), b.finding.Cloth, l, nil, b.hand.Kept))
	if b.stop != nil {
		f.note.SetText(b.progress())
		return true
	}
	f.panel.View.Mover = b
	b.show()
	return true
}

// Held tells how the piece would lie where it is held.
func (b *byHand) Held(i int, by shape.Point) {
	lines := answer.FaultLines(b.finder.page.host.Voice(), b.hand.FaultsAt(i, by))
	b.finder.note.SetText(strings.Join(lines, "\n"))
}

// Moved lays the piece where it was let go.
func (b *byHand) Moved(i int, by shape.Point) {
	b.hand.Move(i, by)
	b.show()
}

// Nudged moves the piece by a small step.
func (b *byHand) Nudged(i int, by shape.Point) {
	b.hand.Nudge(i, by)
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

// KeptOrNot keeps a piece in place, or lets it go.
func (b *byHand) KeptOrNot(i int) {
	b.hand.Keep(i, !b.hand.Kept(i))
	b.show()
}

// Chosen notes which piece keys and buttons are for.
func (b *byHand) Chosen(i int) {
	b.chosen = i
	b.finder.buttons()
}

// show draws the layout as it lies, and says what does not hold, or that everything does.
func (b *byHand) show() {
	f := b.finder
	v := f.page.host.Voice()
	l, faults := b.hand.Layout(), b.hand.Faults()
	pic := answer.InHand(v, b.finding.Cloth, l, faults, b.hand.Kept)
	if len(faults) == 0 {
		pic = answer.Labelled(v, pic, b.now().Verdict)
	}
	f.panel.View.Redraw(pic)
	lines := answer.FaultLines(v, faults)
	if len(lines) == 0 {
		lines = []string{"Everything holds. " + b.state()}
		d := b.now()
		f.panel.Say(v, d.Verdict)
		f.put(d)
	} else {
		f.panel.SayWrong(v, b.finding.Verdict)
	}
	f.note.SetText(strings.Join(lines, "\n"))
	f.buttons()
	f.ready()
}

// state says how much the layout takes, and how many pieces are kept in place.
func (b *byHand) state() string {
	s := "It takes " + b.finder.page.host.Voice().Needed(b.hand.Length()) + " of length"
	if n := b.hand.KeptCount(); n > 0 {
		s += ", " + say.Count(n, "pattern piece", "pattern pieces") + " kept in place"
	}
	return s + "."
}

// now is the finding with the layout as it lies in hand.
func (b *byHand) now() planner.Finding {
	d := b.finding
	if b.hand.Touched() {
		d.Verdict = b.hand.Verdict()
	}
	return d
}

// right says whether the layout as it lies holds every rule.
func (b *byHand) right() bool {
	return b.stop == nil && (!b.hand.Touched() || len(b.hand.Faults()) == 0)
}

// back takes the last step back, or does it again, and says which; false where there is none.
func (b *byHand) back(step func() (string, bool), what string) bool {
	if b.stop != nil {
		b.finder.page.host.Tell("The search is still on. Stop it first.")
		return true
	}
	said, ok := step()
	if !ok {
		return false
	}
	f := b.finder
	if !b.hand.Touched() && b.finding.Verdict.Layout == nil {
		f.put(b.finding)
		f.letGo()
		f.panel.Show(f.page.host.Voice(), b.finding.Cloth, b.finding.Verdict)
		f.ready()
	} else {
		f.panel.View.Mover = b
		b.show()
	}
	f.page.host.Tell(fmt.Sprintf(what, said))
	return true
}

// put puts a finding in the place of the one of the same cloth.
func (f *finder) put(d planner.Finding) {
	for i := range f.findings {
		if f.findings[i].Cloth.Cloth.ID == d.Cloth.Cloth.ID {
			f.findings[i] = d
		}
	}
	f.fill()
}

// Undo takes the last step in hand back; false where there is none.
func (f *finder) Undo() bool {
	return f.hand != nil && f.hand.back(f.hand.hand.Undo, "Took back: %s.")
}

// Redo does the step in hand again that was taken back last.
func (f *finder) Redo() bool {
	return f.hand != nil && f.hand.back(f.hand.hand.Redo, "Did again: %s.")
}
