package patternui

import (
	"context"

	"fyne.io/fyne/v2"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// bareChart says whether a pattern says of no size which body it is for.
func bareChart(q pattern.Pattern) bool {
	for _, s := range q.Sizes {
		if len(s.Body) > 0 {
			return false
		}
	}
	return len(q.Sizes) > 0
}

// startChart gives the sizes of a pattern the bodies of a published table.
func (p *Page) startChart(q pattern.Pattern) {
	tables := sizing.Tables()
	var names []string
	for _, t := range tables {
		names = append(names, t.Name)
	}
	first := widgets.NewChoice("Its first size, "+q.Sizes[0].Name+", is size", nil, nil)
	which := widgets.NewChoice("Table", names, nil)
	chosen := func() sizing.Table { return tables[max(which.SelectedIndex(), 0)] }
	fill := func(string) {
		var sizes []string
		for _, r := range chosen().Rows {
			sizes = append(sizes, r.Size)
		}
		first.Words(sizes)
	}
	fill("")
	which.OnChanged = fill
	p.host.Names.Set("chart.table", which)
	p.host.Names.Set("chart.first", first)
	form := &widgets.Form{Title: "Bodies from a published table", Send: "Take them over", Say: say.Error, Width: 460,
		Intro: "They say which body each size is for. Compare those marked “not checked” with the standard.",
		Rows:  [][]fyne.CanvasObject{{which.Object()}, {first.Object()}}}
	form.Done = func() error {
		sizes, err := sizing.Started(q.Sizes, chosen(), first.Selected)
		if err != nil {
			return err
		}
		t := chosen()
		q.Sizes = sizes
		p.host.Act("body chart", func(ctx context.Context) (string, error) {
			_, err := p.host.Studio.SavePattern(ctx, q)
			return "The sizes are for the bodies of " + t.Name + ". " + t.Note, err
		}, func(error) { p.Shown() })
		return nil
	}
	p.host.ShowForm(form)
	p.host.Names.Set("chart.send", form.SendButton())
}
