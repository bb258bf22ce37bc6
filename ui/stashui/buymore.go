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

// buyMore opens the form that puts a fabric on the shopping list, or takes it off.
func (p *Page) buyMore(f stash.Fabric) {
	much := p.lengthField("How much (empty: take it off)", "1.5 m or 1 3/4 yd", measure.FabricLength)
	what := widgets.NewField("What for", "the autumn class", nil)
	if f.Buy > 0 {
		much.Set(measure.Style{System: p.host.Voice().Units, Kind: measure.FabricLength}.Exact(f.Buy))
	}
	what.Set(f.BuyFor)
	p.host.Names.Set("form.much", much.Entry)
	p.host.Names.Set("form.what", what.Entry)
	form := &widgets.Form{Title: "Buy more of " + f.Name, Send: "Keep it on the shopping list", Say: say.Error,
		Intro: "The list stands beside the notions. What you log as bought comes off it by itself.",
		Rows:  [][]fyne.CanvasObject{{much.Object(), what.Object()}}, Fields: []*widgets.Field{much, what}}
	form.Done = func() error {
		length := measure.Length(0)
		if strings.TrimSpace(much.Text()) != "" {
			length = p.lengthIn(much, measure.FabricLength)
		}
		now, err := p.host.Studio.PlanToBuy(context.Background(), f.ID, length, what.Text())
		if err != nil {
			return err
		}
		if now.Buy == 0 {
			p.host.Tell(f.Name + " is not on the shopping list.")
		} else {
			p.host.Tell(p.host.Voice().Length(now.Buy) + " of " + f.Name + " is on the shopping list.")
		}
		p.Shown()
		return nil
	}
	p.open(form)
}

// toBuy says what of a fabric is on the shopping list.
func toBuy(v say.Voice, f stash.Fabric) string {
	switch {
	case f.Buy == 0:
		return "no"
	case f.BuyFor != "":
		return v.Length(f.Buy) + ", for " + strings.TrimPrefix(f.BuyFor, "for ")
	}
	return v.Length(f.Buy)
}
