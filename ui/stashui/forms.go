package stashui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// mostLength is the longest that a length or a width is taken for: no roll is longer (ours).
const mostLength = 500 * measure.Metre

// lengthField reads a length above zero and shows the reading back in full.
func (p *Page) lengthField(name, hint string, kind measure.Kind) *widgets.Field {
	v := p.host.Voice()
	return widgets.NewField(name, hint, func(text string) (string, error) {
		l, err := measure.ParsePositiveLength(text, p.bare(kind))
		if err != nil {
			return "", err
		}
		if l > mostLength {
			return "", &measure.TextError{Text: text, Wrong: "no cloth is that long", Want: "a length up to 500 m", Like: "1.5 m"}
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
	p.host.ShowForm(f)
}

// trueEnds opens the form for straightened ends.
func (p *Page) trueEnds(c stash.ClothState) {
	long := needed(p.lengthField("Length now", "", measure.FabricLength), "Measure what is left between the straight ends.")
	form := &widgets.Form{Title: "Ends cut straight", Intro: "Cut both ends along one row of stitches or one thread, then measure what is left.", Send: "Keep the new length", Say: say.Error, Rows: [][]fyne.CanvasObject{{long.Object()}}, Fields: []*widgets.Field{long}}
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
