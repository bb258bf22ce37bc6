package batchui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// shop asks which fabric is bought for what is missing, and puts it on the shopping list.
func (p *Page) shop(item planner.ClothToBuy, what string) {
	if len(p.fabrics) == 0 {
		p.host.Tell("There is no fabric in the library yet that could stand on the shopping list.")
		return
	}
	voice := p.voice()
	var names []string
	at := 0
	for i, f := range p.fabrics {
		names = append(names, f.Name+", "+voice.Width(f.OpenWidth())+" wide")
		if f.ID == item.FabricID {
			at = i
		}
	}
	much := widgets.NewField("How much in all", "1.5 m", func(text string) (string, error) {
		l, err := p.readLength(text)
		return "= " + voice.Length(l), err
	})
	much.Needed = "Say how much."
	why := widgets.NewField("What for", "", nil)
	why.Set(what)
	which := widgets.NewChoice("Fabric", names, nil)
	fill := func(string) { much.Set(voice.Length(p.toShop(item, p.fabrics[max(which.SelectedIndex(), 0)]))) }
	which.SetSelectedIndex(at)
	fill("")
	which.OnChanged = fill
	f := &widgets.Form{Title: "Put on the shopping list", About: what + names[at], Send: "Put it on the list", Say: say.Error, Fields: []*widgets.Field{much, why},
		Intro: "It must be " + voice.Asks(item.Asks) + ". The length is for the usual width that this fabric reaches. What stands on the list for it already is in it.",
		Rows:  [][]fyne.CanvasObject{{which.Object()}, {much.Object(), why.Object()}}}
	f.Done = func() error {
		l, err := p.readLength(much.Text())
		if err != nil {
			return err
		}
		chosen := p.fabrics[max(which.SelectedIndex(), 0)]
		p.host.Act("shop", func(ctx context.Context) (string, error) {
			_, err := p.host.Studio.PlanToBuy(ctx, chosen.ID, l, strings.TrimSpace(why.Text()))
			return voice.Length(l) + " of " + chosen.Name + " is on the shopping list.", err
		}, func(error) { p.Shown() })
		return nil
	}
	p.host.ShowForm(f)
	for name, o := range map[string]fyne.CanvasObject{"form.fabric": which, "form.much": much.Entry, "form.what": why.Entry} {
		p.host.Names.Set(name, o)
	}
}

// readLength reads a length of fabric; a bare number is metres, or yards.
func (p *Page) readLength(text string) (measure.Length, error) {
	bare := measure.Metre
	if p.voice().Units == measure.Imperial {
		bare = measure.Yard
	}
	return measure.ParsePositiveLength(text, bare)
}

// toShop is how much of a fabric to buy: the length at the widest usual width that it
// reaches, else at the narrowest, and what is on the list already.
func (p *Page) toShop(item planner.ClothToBuy, f stash.Fabric) measure.Length {
	best := item.Lengths[0]
	for _, l := range item.Lengths {
		if l.Width <= f.OpenWidth() && (best.Width > f.OpenWidth() || l.Width > best.Width) {
			best = l
		}
	}
	return best.Buy + f.Buy
}
