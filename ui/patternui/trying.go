package patternui

import (
	"context"
	"errors"
	"fmt"
	"time"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/stash/measure"
	"tallycloth/ui/answer"
	"tallycloth/ui/say"
	"tallycloth/ui/task"
)

// tryOrStop goes on searching from the layout in sight, or stops the search that runs.
func (f *finder) tryOrStop() {
	if f.hand != nil && f.hand.stop != nil {
		f.hand.stop()
		return
	}
	if d, ok := f.chosen(); !ok || !triable(d) {
		f.page.host.Tell("There is nothing to try on this cloth: no layout can exist, or the pattern has no outlines.")
		return
	}
	f.takeInHand((*byHand).try)
}

// triable says whether a search could go on: from a layout, or where none was found though
// none was ruled out.
func triable(d planner.Finding) bool {
	return d.Verdict.Layout != nil || d.Verdict.Grade == match.NotEnough && d.Verdict.Proof == match.BySearch
}

// try goes on searching from the layout as it lies. Each improvement is shown, the newest a
// few times a second, drawn away from the window's thread; the search waits for nothing.
func (b *byHand) try() {
	f := b.finder
	h := f.page.host
	start := b.hand.Start()
	ctx, stop := context.WithCancel(context.Background())
	b.stop = stop
	f.panel.View.Mover = nil
	b.far, b.told = 0, "nothing better yet."
	f.note.SetText(b.progress())
	f.buttons()
	f.ready()
	var got match.Tried
	name := "patterns.try " + b.finding.Cloth.Cloth.ID.String()
	h.Tasks.Start(name, func(task1 context.Context, show func(func())) (err error) {
		ends := context.AfterFunc(task1, stop)
		defer ends()
		frames := task.NewFrames(h.Tasks, nil, func(t match.Trial) {
			l, keep := t.Layout()
			show(func() { b.frame(t, l, keep, start.Length()) })
		})
		defer frames.Close()
		h.Tasks.Each(ctx, time.Second, func(n int) { show(func() { b.seconds(n) }) })
		got, err = h.Studio.KeepTrying(ctx, start, h.Effort, frames.Tell)
		return err
	}, func(err error) {
		stopped := ctx.Err() != nil
		stop()
		b.stop = nil
		b.tried(got, err, stopped, start.Length())
	})
}

// frame shows what the search has so far, if its cloth is in sight.
func (b *byHand) frame(t match.Trial, l match.Layout, keep []bool, was measure.Length) {
	f := b.finder
	if f.hand != b {
		return
	}
	v := f.page.host.Voice()
	f.panel.View.Follow(answer.InHand(v, b.finding.Cloth, l, nil, func(i int) bool { return i < len(keep) && keep[i] }))
	b.told = progress(v, t, was)
	f.note.SetText(b.progress())
}

// seconds tells how long the search has been on.
func (b *byHand) seconds(n int) {
	if b.far = n; b.finder.hand == b && b.stop != nil {
		b.finder.note.SetText(b.progress())
	}
}

// progress is the line under the drawing while the search is on.
func (b *byHand) progress() string {
	if b.far == 0 {
		return "Trying … " + b.told
	}
	return fmt.Sprintf("Trying for %d s … %s", b.far, b.told)
}

// progress says what a search has so far.
func progress(v say.Voice, t match.Trial, was measure.Length) string {
	if t.Laid < t.Of {
		return fmt.Sprintf("%d of %d outlines have found a place.", t.Laid, t.Of)
	}
	s := v.Length(t.Length) + " of length"
	switch {
	case was == 0:
		return "everything has found a place, on " + s + "."
	case t.Length < was:
		return s + ", " + v.Fine(was-t.Length) + " less than before."
	}
	return s + ", nothing shorter yet."
}

// tried takes over what the search found.
func (b *byHand) tried(got match.Tried, err error, stopped bool, was measure.Length) {
	f := b.finder
	v := f.page.host.Voice()
	told := ""
	var wrong *match.KeptWrong
	switch {
	case errors.As(err, &wrong):
		told = "What is kept in place does not hold there. Move it, or let it go, and try again."
	case err != nil:
		told = say.Error(err)
	case got.Impossible:
		told = "No layout can exist with what is kept where it is. Let a pattern piece go, and try again."
	case got.Left > 0:
		told = say.Count(got.Left, "outline", "outlines") + " found no place. The cloth is as it was."
	case got.Better:
		b.hand.Replace(got.Layout, got.Keep, "what the search found")
		told = shorter(v, was, b.hand.Length())
	case got.Proved:
		told = "No shorter layout exists."
		if b.hand.KeptCount() > 0 {
			told = "No shorter layout exists with what is kept in place."
		}
	case stopped:
		told = "Stopped. Nothing shorter was found."
	default:
		told = "Nothing shorter was found. It can be tried again, for longer."
	}
	if f.hand != b {
		if d := b.now(); b.right() {
			f.put(d)
		}
		return
	}
	b.after(told)
}

// after shows the layout again once a search ended, with what came of it.
func (b *byHand) after(told string) {
	f := b.finder
	if len(b.hand.Layout().Pieces) == 0 {
		f.panel.Show(f.page.host.Voice(), b.finding.Cloth, b.finding.Verdict)
		f.letGo()
		f.ready()
		f.note.SetText(told)
		return
	}
	f.panel.View.Mover = b
	b.show()
	f.note.SetText(told + "\n" + f.note.Text)
}

// shorter says what was gained.
func shorter(v say.Voice, was, now measure.Length) string {
	switch {
	case was == 0:
		return "Everything found a place."
	case now < was:
		return v.Fine(was-now) + " shorter than before."
	}
	return "Everything is set clear."
}
