package historyui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/ui/records"
	"tallycloth/ui/widgets"
)

// yardage draws what went in and out, with the figures beside it.
type yardage struct {
	page  *Page
	step  *widgets.Choice
	chart *widgets.SceneView
	says  *fyne.Container
	list  *widgets.RowList
	whole fyne.CanvasObject
}

func newYardage(p *Page) *yardage {
	y := &yardage{page: p, says: container.NewVBox(), chart: widgets.NewSceneView(420, 560)}
	y.step = widgets.NewChoice("Add up", []string{"by month", "by year"}, nil)
	y.step.OnChanged = func(string) { y.shown() }
	y.list = widgets.NewRowList([]widgets.Column{{Title: "In", Width: 76, Right: true}, {Title: "Cut", Width: 76, Right: true}, {Title: "Gone", Width: 76, Right: true, Yields: 2},
		{Title: "Changed", Width: 76, Right: true, Yields: 3}, {Title: "There then", Width: 80, Right: true}})
	p.host.Names.Set("history.step", y.step)
	p.host.Names.Set("history.spans", y.list)
	p.host.Names.Set("history.chart", y.chart)
	left := container.NewVScroll(widgets.Inset(container.NewVBox(wideLeft(y.step.Object(), 150), y.says, y.chart)))
	note := widgets.Remark("", "Cut for garments; gone: given away and discarded, with the waste of cutting; changed by washing and measuring.", widgets.Quiet)
	y.whole = widgets.Sides(left, container.NewPadded(container.NewBorder(y.list.Header("Period"), note, nil, nil, y.list)), 0.52)
	return y
}

// wideLeft keeps something to a width at the left.
func wideLeft(o fyne.CanvasObject, width float32) fyne.CanvasObject {
	return container.NewHBox(wide(o, width))
}

func (y *yardage) object() fyne.CanvasObject { return y.whole }
func (y *yardage) focus()                    { y.page.host.Focus(y.list) }
func (y *yardage) asks() bool                { return true }

func (y *yardage) by() planner.Step { return planner.Step(max(y.step.SelectedIndex(), 0)) }

func (y *yardage) shown() {
	past, ok := y.page.past()
	if !ok {
		return
	}
	var got planner.Yardage
	y.page.read("yardage", func(ctx context.Context) (err error) {
		got, err = y.page.host.Studio.Yardage(ctx, past, y.by())
		return err
	}, func() {
		f := records.Yardage(y.page.host.Voice(), got, y.page.asked(past))
		sentences(y.says, f.Lines)
		y.chart.Draw(f.Chart)
		y.list.Set(rowsOf(f.Table, byIndex))
		y.page.count.SetText("")
		y.whole.Refresh()
	})
}

func (y *yardage) figures(ctx context.Context, _ int) (records.Figures, error) {
	past, _ := y.page.past()
	got, err := y.page.host.Studio.Yardage(ctx, past, y.by())
	return records.Yardage(y.page.host.Voice(), got, y.page.asked(past)), err
}
