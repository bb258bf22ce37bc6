package stashui

import (
	"fmt"
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"tallycloth/stash/list"
	"tallycloth/stash/measure"
	"tallycloth/ui/widgets"
)

// listColumn is a column of the list with the choosers above it: what it is, its unit,
// and how its decimals or days are written.
type listColumn struct {
	im                *lister
	at                int
	field, unit, sign *widgets.Choice
	object            fyne.CanvasObject
}

const (
	// shownRows is how many rows of the list stand under the choosers.
	shownRows = 4
	// pillarWidth is how wide a column is at a text size of 100 %.
	pillarWidth = 158
)

// fieldWords are what a column can be.
var fieldWords = func() []string {
	out := []string{string(list.LeaveOut), string(list.KeepNote)}
	for _, f := range list.Fields() {
		if f != list.LeaveOut && f != list.KeepNote {
			out = append(out, string(f))
		}
	}
	return out
}()

// pillars makes the columns of the list that was read.
func (im *lister) pillars() {
	im.columns = nil
	im.preview.RemoveAll()
	for k := range im.draft.Mapping.Columns {
		c := im.pillar(k)
		im.columns = append(im.columns, c)
		im.preview.Add(c.object)
	}
	im.preview.Refresh()
}

func (im *lister) pillar(k int) *listColumn {
	c := &listColumn{im: im, at: k}
	c.field = widgets.NewChoice("", fieldWords, nil)
	c.field.SetSelected(string(im.draft.Mapping.Columns[k].Field))
	c.field.OnChanged = func(word string) {
		im.draft.Mapping.Columns[k] = list.Column{Field: list.Field(word)}
		im.plan()
	}
	c.unit = widgets.NewChoice("", nil, func(string) { c.take() })
	c.sign = widgets.NewChoice("", nil, func(string) { c.take() })
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(pillarWidth*theme.TextSize()/13, c.field.MinSize().Height))
	t, m := im.draft.Book.Table, im.draft.Mapping
	heading := t.At(m.Headings, k).Text
	if heading == "" {
		heading = fmt.Sprintf("Column %d", k+1)
	}
	box := container.NewVBox(widgets.NewShort(heading, theme.SizeNameText, widgets.Plain, true),
		container.NewStack(room, c.field.Bare()), container.NewStack(room, c.unit.Bare()), container.NewStack(room, c.sign.Bare()))
	for i := m.Headings + 1; i < min(len(t.Rows), m.Headings+1+shownRows); i++ {
		box.Add(widgets.NewShort(t.At(i, k).Text, theme.SizeNameText, widgets.Quiet, false))
	}
	under := canvas.NewRectangle(color.Transparent) // room for the scroll bar
	under.SetMinSize(fyne.NewSize(1, theme.Size(theme.SizeNameScrollBar)))
	box.Add(under)
	for name, o := range map[string]*widgets.Choice{"field": c.field, "unit": c.unit, "sign": c.sign} {
		o.Escape = im.close
		im.page.host.Names.Set(fmt.Sprintf("list.%s.%d", name, k+1), o)
	}
	c.object = box
	return c
}

// settle shows what was decided of the column.
func (c *listColumn) settle(s list.Settled) {
	said := c.im.draft.Mapping.Columns[c.at]
	units := c.units(s)
	switch {
	case len(units) == 0:
		c.unit.Bare().Hide()
	default:
		found := "in " + c.usual(s) + ", assumed"
		switch {
		case said.Unit != "":
			found = "unit as found"
		case s.Unit != "" && !s.Assumed:
			found = "in " + s.Unit + " as found"
		}
		offer(c.unit, found, units, said.Unit)
	}
	switch {
	case list.HasDays(s.Field):
		found := "order as found"
		if s.Order != "" && said.Order == "" {
			found = string(s.Order) + " (found)"
		}
		offer(c.sign, found, []string{string(list.DayFirst), string(list.MonthFirst)}, string(said.Order))
	case list.HasNumbers(s.Field):
		found := "decimals as found"
		if s.Decimal != "" && said.Decimal == "" {
			found = decimalWord(s.Decimal) + ", as found"
		}
		offer(c.sign, found, []string{decimalWord(list.Point), decimalWord(list.Comma)}, decimalWord(said.Decimal))
	default:
		c.sign.Bare().Hide()
	}
}

func decimalWord(d list.Decimal) string {
	if d == list.Undecided {
		return ""
	}
	return "decimal " + string(d)
}

// offer gives a choice what was found and what can be said instead; chosen is "" where
// nothing was said.
func offer(c *widgets.Choice, found string, words []string, chosen string) {
	if chosen == "" {
		chosen = found
	}
	silently(c, append([]string{found}, words...), chosen)
	c.Bare().Show()
}

// usual is the unit of bare numbers where nothing says one.
func (c *listColumn) usual(s list.Settled) string {
	units := list.UnitsOf(s.Field)
	switch {
	case s.Unit != "":
		return s.Unit
	case slices.Contains(units, list.AnyCurrency):
		return c.im.page.host.Settings().Currency
	case c.im.page.host.Settings().Units == measure.Imperial:
		return units[len(units)-1]
	}
	return units[0]
}

// units are what the column may be in; currencies are the person's own and usual ones.
func (c *listColumn) units(s list.Settled) []string {
	var out []string
	for _, u := range list.UnitsOf(s.Field) {
		if u != list.AnyCurrency {
			out = append(out, u)
			continue
		}
		for _, code := range []string{c.im.page.host.Settings().Currency, s.Unit, "EUR", "USD", "GBP", "CHF", "CAD", "AUD", "SEK", "JPY"} {
			if code != "" && !slices.Contains(out, code) {
				out = append(out, code)
			}
		}
	}
	return out
}

// take reads unit and sign off their choosers and tries the list again.
func (c *listColumn) take() {
	col := list.Column{Field: list.Field(c.field.Selected)}
	if i := c.unit.SelectedIndex(); i > 0 && c.unit.Bare().Visible() {
		col.Unit = c.unit.Selected
	}
	if c.sign.Bare().Visible() {
		switch c.sign.Selected {
		case string(list.DayFirst), string(list.MonthFirst):
			col.Order = list.Order(c.sign.Selected)
		case decimalWord(list.Point):
			col.Decimal = list.Point
		case decimalWord(list.Comma):
			col.Decimal = list.Comma
		}
	}
	c.im.draft.Mapping.Columns[c.at] = col
	c.im.plan()
}
