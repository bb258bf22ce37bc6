package stashui

import (
	"context"
	"fmt"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// stretching is the form of a bench test, with what comes of it while it is typed.
type stretching struct {
	page                                   *Page
	fabric                                 stash.Fabric
	grain                                  *widgets.Choice
	before, stretched, after, wide, narrow *widgets.Field
	answer                                 *widgets.Short
}

// MeasureStretch opens the form of a bench test.
func (p *Page) MeasureStretch(fab stash.Fabric) {
	s := &stretching{page: p, fabric: fab, answer: widgets.ShortLine("", widgets.Good)}
	s.grain = widgets.NewChoice("Along which grain", []string{"crosswise, from selvedge to selvedge", "lengthwise, along the selvedge"}, nil)
	line := func(name, hint string) *widgets.Field { return p.lengthField(name, hint, measure.StripMark) }
	s.before = needed(line("Before", "10 cm"), "Mark 10 cm or 4 in and say how long it was.")
	s.stretched = needed(line("Stretched", "14 cm"), "Say how long it was while you pulled.")
	s.after = needed(line("After resting", "10.2 cm"), "Say how long it was after resting.")
	s.wide, s.narrow = line("Width before (if you like)", "8 cm"), line("Width while stretched", "7.2 cm")
	for name, o := range map[string]fyne.CanvasObject{"form.grain": s.grain, "form.before": s.before.Entry, "form.stretched": s.stretched.Entry,
		"form.after": s.after.Entry, "form.widthbefore": s.wide.Entry, "form.widthstretched": s.narrow.Entry, "form.answer": s.answer} {
		p.host.Names.Set(name, o)
	}
	form := &widgets.Form{Title: "Measure stretch of " + fab.Name, Say: say.Error, Send: "Keep the test", Done: s.keep,
		Intro:  "Fold the cloth away from the selvedge, mark 10 cm or 4 in on the fold. Pull by hand until the edge starts to curl, hold 10 seconds, let it rest for a minute. Two or three tests in different places are better than one: those of one day are averaged.",
		Rows:   [][]fyne.CanvasObject{{s.grain.Object()}, {s.before.Object(), s.stretched.Object(), s.after.Object()}, {s.wide.Object(), s.narrow.Object()}, {s.answer}},
		Fields: []*widgets.Field{s.before, s.stretched, s.after, s.wide, s.narrow}}
	for _, f := range form.Fields {
		f.Changed = s.reckon
	}
	p.open(form)
}

// test is what was typed.
func (s *stretching) test() stash.StretchTest {
	read := func(f *widgets.Field) measure.Length { return s.page.lengthIn(f, measure.StripMark) }
	return stash.StretchTest{Before: read(s.before), Stretched: read(s.stretched), After: read(s.after), WidthBefore: read(s.wide), WidthStretched: read(s.narrow)}
}

// reckon tells what this test comes to, as soon as that can be said.
func (s *stretching) reckon() { s.answer.Set(stretchWords(s.test()), widgets.Good) }

// stretchWords is what can be said of a test so far: the stretch once it was pulled, the rest once it rested.
func stretchWords(t stash.StretchTest) string {
	rested := t.After > 0
	if !rested {
		t.After = t.Before
	}
	if t.WidthStretched == 0 {
		t.WidthBefore = 0 // still being typed
	}
	if t.Stretched == 0 || t.Validate() != nil {
		return ""
	}
	words := "= stretches " + say.Percent(t.Stretch())
	if r, ok := t.Recovery(); rested && ok {
		words += ", recovers " + say.Percent(r) + ", grows by " + say.Percent(t.Growth())
	}
	if n, ok := t.Narrowing(); ok {
		words += ", narrows by " + say.Percent(n)
	}
	return words
}

// keep notes the test and tells the mean of today's.
func (s *stretching) keep() error {
	p, t := s.page, s.test()
	in := planner.StretchTest{Crosswise: s.grain.SelectedIndex() == 0, Before: t.Before, Stretched: t.Stretched, After: t.After,
		WidthBefore: t.WidthBefore, WidthStretched: t.WidthStretched}
	f, err := p.host.Studio.MeasureStretch(context.Background(), s.fabric.ID, in)
	if err != nil {
		return err
	}
	g, n := f.Lengthwise, len(f.LatestReadings(in.Crosswise))
	if in.Crosswise {
		g = f.Crosswise
	}
	told := fmt.Sprintf("%s stretches %s, recovers %s of that and grows by %s.",
		f.Name, p.host.Voice().Stretch(g.Stretch, g.Stretch), say.Reading(g.Recovery, g.Recovery), say.Reading(g.Growth, g.Growth))
	if t.WidthBefore > 0 {
		told += " It narrows by " + say.Reading(g.Narrowing, g.Narrowing) + "."
	}
	// Two meanings of recovery are published; patterns are compared with the first here.
	told += " Where recovery means 100 − growth, that is " + say.Percent(100*measure.OnePercent-g.Growth.Value) + "."
	if n > 1 {
		told = fmt.Sprintf("Mean of today's %d tests: ", n) + told
	}
	p.host.Tell(told)
	p.Shown()
	return nil
}
