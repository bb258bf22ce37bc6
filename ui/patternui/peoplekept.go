package patternui

import (
	"context"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/sizing"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// addKept lists the adjustments that are kept for a person.
func (f *people) addKept(body *fyne.Container, who sizing.Person) {
	body.Add(widgets.SubHeading("Kept adjustments"))
	if len(who.Adjustments) == 0 {
		body.Add(widgets.Remark("", "None yet. An adjustment of a garment that is for them is kept there, and offered at the next.", widgets.Quiet))
		return
	}
	v := f.page.host.Voice()
	for i, k := range who.Adjustments {
		remove := widgets.NewButton("Remove", func() { f.forget(who, i+1) })
		remove.Importance = widget.LowImportance
		f.page.host.Names.Set(fmt.Sprintf("person.forget.%d", i+1), remove)
		body.Add(container.NewBorder(nil, nil, nil, container.NewVBox(remove), widgets.Remark("· ", say.Sentence(v.Kept(k)), widgets.Plain)))
	}
	body.Add(widgets.Remark("", "They are offered on each garment that is for them, and in a batch row by their measurements.", widgets.Quiet))
}

// forget keeps an adjustment no longer.
func (f *people) forget(who sizing.Person, at int) {
	h := f.page.host
	h.Act("forget adjustment", func(ctx context.Context) (string, error) {
		_, err := h.Studio.ForgetAdjustment(ctx, who.ID, at)
		return "Removed it. Garments that took it over stay as they are. Ctrl+Z keeps it again.", err
	}, func(error) { f.read() })
}
