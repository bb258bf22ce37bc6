package stashui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// notSaid is the first word of a choice of treatment.
const notSaid = "not said"

// careTitles are what the form calls the treatments.
var careTitles = map[stash.Treatment]string{stash.Washing: "Washing", stash.Bleaching: "Bleaching", stash.TumbleDrying: "Tumble drying",
	stash.NaturalDrying: "Drying without a dryer", stash.Ironing: "Ironing", stash.ProfessionalCare: "Professional care"}

// Care opens the form for how a fabric is treated, a choice for each care symbol.
func (p *Page) Care(fab stash.Fabric) {
	now := stash.ParseCare(fab.Care)
	other := widgets.NewField("What else the label or your own test says", "inside out", nil)
	other.Set(now.Other)
	var choices []*widgets.Choice
	var cells []fyne.CanvasObject
	for _, t := range stash.Treatments() {
		c := widgets.NewChoice(careTitles[t], append([]string{notSaid}, stash.CareWords(t)...), nil)
		if now.Says[t] != "" {
			c.SetSelected(now.Says[t])
		}
		p.host.Names.Set("care."+strings.ReplaceAll(t.String(), " ", ""), c)
		choices, cells = append(choices, c), append(cells, c.Object())
	}
	p.host.Names.Set("care.other", other.Entry)
	form := &widgets.Form{Title: "Care of " + fab.Name, Send: "Keep the care", Say: say.Error, Width: 640,
		Intro:  "The most that the fabric bears, as the label says it in symbols or words. Try a scrap first: a label is of the fabric as it was sold.",
		Rows:   [][]fyne.CanvasObject{cells[0:2], cells[2:4], cells[4:6], {other.Object()}},
		Fields: []*widgets.Field{other}}
	form.Done = func() error {
		var c stash.Care
		for i, t := range stash.Treatments() {
			if choices[i].Selected != notSaid {
				c.Says[t] = choices[i].Selected
			}
		}
		c.Other = strings.TrimSpace(other.Text())
		out := fab
		out.Care = c.String()
		if err := p.host.Studio.SaveFabric(context.Background(), out); err != nil {
			return err
		}
		p.host.Tell("Kept how " + out.Name + " is cared for.")
		p.Shown()
		return nil
	}
	p.open(form)
}
