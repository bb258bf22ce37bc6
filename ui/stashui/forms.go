package stashui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// lengthField reads a length above zero and shows the reading back in full.
func (p *Page) lengthField(name, hint string, kind measure.Kind) *widgets.Field {
	v := p.host.Voice()
	return widgets.NewField(name, hint, func(text string) (string, error) {
		l, err := measure.ParsePositiveLength(text, p.bare(kind))
		if err != nil {
			return "", err
		}
		return "= " + measure.Style{System: v.Units, Kind: kind}.Format(l), nil
	})
}

// bare is the unit a bare number takes: yards or metres along, inches or
// centimetres across.
func (p *Page) bare(kind measure.Kind) measure.Unit {
	imperial := p.host.Voice().Units == measure.Imperial
	switch {
	case kind == measure.FabricLength && imperial:
		return measure.Yard
	case kind == measure.FabricLength:
		return measure.Metre
	case imperial:
		return measure.Inch
	}
	return measure.Centimetre
}

func (p *Page) lengthIn(f *widgets.Field, kind measure.Kind) measure.Length {
	l, err := measure.ParsePositiveLength(f.Text(), p.bare(kind))
	if err != nil {
		return 0
	}
	return l
}

func needed(f *widgets.Field, sentence string) *widgets.Field {
	f.Needed = sentence
	return f
}

// saved tells what was saved and shows it.
func (p *Page) saved(c stash.ClothState, told string) {
	p.wanted = c.Cloth.ID
	p.filter.SetText("")
	p.host.Tell(told)
	p.Shown()
}

// reopened shows a form again that was closed without being sent, with what was typed
// in it, as long as the shelf is as it was.
func (p *Page) reopened(f *widgets.Form) bool {
	if f == nil || f.Sent() || p.formShelf != p.shelfStamp() {
		return false
	}
	p.open(f)
	return true
}

// shelfStamp changes when fabrics come or go, which forms offer to choose from.
func (p *Page) shelfStamp() string {
	words, _ := p.fabricsByName()
	return strings.Join(words, "|")
}

func (p *Page) open(f *widgets.Form) {
	p.formShelf = p.shelfStamp()
	f.Show(p.host.Canvas())
	p.host.Names.Set("form.send", f.SendButton())
	p.host.Names.Set("form.close", f.CloseButton())
}

// MeasureStretch opens the form of a bench test.
func (p *Page) MeasureStretch(fab stash.Fabric) {
	grain := widgets.NewChoice("Along which grain", []string{"crosswise, from selvedge to selvedge", "lengthwise, along the selvedge"}, nil)
	before := needed(p.lengthField("Before", "10 cm", measure.PieceLength), "Mark 10 cm or 4 in and say how long it was.")
	stretched := needed(p.lengthField("Stretched", "14 cm", measure.PieceLength), "Say how long it was while you pulled.")
	after := needed(p.lengthField("After resting", "10.2 cm", measure.PieceLength), "Say how long it was after resting.")
	wide := p.lengthField("Width before (if you like)", "8 cm", measure.PieceLength)
	narrow := p.lengthField("Width while stretched", "7.2 cm", measure.PieceLength)
	p.host.Names.Set("form.widthbefore", wide.Entry)
	p.host.Names.Set("form.widthstretched", narrow.Entry)
	p.host.Names.Set("form.grain", grain)
	p.host.Names.Set("form.before", before.Entry)
	p.host.Names.Set("form.stretched", stretched.Entry)
	p.host.Names.Set("form.after", after.Entry)
	form := &widgets.Form{Title: "Measure stretch of " + fab.Name, Say: say.Error, Send: "Keep the test",
		Intro: "Fold the cloth away from the selvedge, mark 10 cm or 4 in on the fold. Pull by hand until the edge starts to curl, hold 10 seconds, let it rest for a minute. Two or three tests in different places are better than one: those of one day are averaged.",
		Rows:  [][]fyne.CanvasObject{{grain.Object()}, {before.Object(), stretched.Object(), after.Object()}, {wide.Object(), narrow.Object()}}, Fields: []*widgets.Field{before, stretched, after, wide, narrow}}
	form.Done = func() error {
		t := planner.StretchTest{Crosswise: grain.SelectedIndex() == 0, Before: p.lengthIn(before, measure.PieceLength),
			Stretched: p.lengthIn(stretched, measure.PieceLength), After: p.lengthIn(after, measure.PieceLength),
			WidthBefore: p.lengthIn(wide, measure.PieceLength), WidthStretched: p.lengthIn(narrow, measure.PieceLength)}
		f, err := p.host.Studio.MeasureStretch(context.Background(), fab.ID, t)
		if err != nil {
			return err
		}
		g, n := f.Lengthwise, len(f.LatestReadings(t.Crosswise))
		if t.Crosswise {
			g = f.Crosswise
		}
		told := fmt.Sprintf("%s stretches %s; it grows by %s. Recovery: %s of the extension goes back; counted as 100 − growth it is %s.",
			f.Name, p.host.Voice().Stretch(g.Stretch, g.Stretch), say.Reading(g.Growth, g.Growth), say.Reading(g.Recovery, g.Recovery),
			measure.FormatPercent(100*measure.OnePercent-g.Growth.Value))
		if t.WidthBefore > 0 {
			told += " It narrows by " + say.Reading(g.Narrowing, g.Narrowing) + "."
		}
		if n > 1 {
			told = fmt.Sprintf("Mean of today's %d tests: ", n) + told
		}
		p.host.Tell(told)
		p.Shown()
		return nil
	}
	p.open(form)
}

// trueEnds opens the form for straightened ends.
func (p *Page) trueEnds(c stash.ClothState) {
	long := needed(p.lengthField("Length now", "", measure.FabricLength), "Measure what is left between the straight ends.")
	form := &widgets.Form{Title: "Ends trued", Send: "Keep the new length", Say: say.Error, Rows: [][]fyne.CanvasObject{{long.Object()}}, Fields: []*widgets.Field{long}}
	form.Done = func() error {
		if err := p.host.Studio.TrueEnds(context.Background(), c.Cloth.ID, p.lengthIn(long, measure.FabricLength)); err != nil {
			return err
		}
		p.host.Tell("Both ends of " + c.Cloth.Code + " are straight now.")
		p.Shown()
		return nil
	}
	p.open(form)
}

// leave takes a cloth off the shelf; undo brings it back.
func (p *Page) leave(c stash.ClothState, word string, do func(context.Context, stash.ID, string) error) {
	p.host.Act("leave", func(ctx context.Context) (string, error) {
		return word + " " + c.Fabric.Name + " " + c.Cloth.Code + ". Ctrl+Z brings it back.", do(ctx, c.Cloth.ID, "")
	}, func(error) { p.Shown() })
}
