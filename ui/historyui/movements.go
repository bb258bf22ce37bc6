package historyui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/records"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// pageLines is how many lines of history are in sight at a time.
const pageLines = 200

// movements lists lines of history, a page at a time.
type movements struct {
	page   *Page
	list   *widgets.RowList
	empty  *fyne.Container
	right  *fyne.Container
	where  *widgets.Short
	newer  *widgets.Button
	older  *widgets.Button
	whole  fyne.CanvasObject
	asked  string  // the question that the pages are of
	starts []int64 // the number before which each page begins, up to the one in sight
	lines  []planner.PastLine
	count  int
}

func newMovements(p *Page) *movements {
	m := &movements{page: p, right: container.NewVBox(), starts: []int64{0}}
	m.list = widgets.NewRowList([]widgets.Column{{Title: "Noted on", Width: 92}, {Title: "Fabric", Width: 190}, {Title: "Yardage", Width: 96, Right: true, Yields: 2}, {Title: "Garment", Width: 140, Yields: 1}})
	m.list.Chosen = func(widgets.Row) { m.detail() }
	m.list.Act = func(widgets.Row) { m.toCloth() }
	m.empty = container.NewStack()
	m.empty.Hide()
	m.where = widgets.ShortLine("", widgets.Quiet)
	m.newer, m.older = widgets.NewButton("Newer", m.toNewer), widgets.NewButton("Older", m.toOlder)
	for name, o := range map[string]fyne.CanvasObject{"history.list": m.list, "history.newer": m.newer, "history.older": m.older, "history.where": m.where} {
		p.host.Names.Set(name, o)
	}
	foot := container.NewBorder(nil, nil, nil, container.NewHBox(m.newer, m.older), m.where)
	left := container.NewBorder(m.list.Header("What happened"), foot, nil, nil, container.NewStack(m.list, m.empty))
	m.whole = p.host.Sides("movements", left, container.NewVScroll(widgets.Inset(m.right)), 0.7)
	return m
}

func (m *movements) object() fyne.CanvasObject { return m.whole }
func (m *movements) focus()                    { m.page.host.Focus(m.list) }
func (m *movements) asks() bool                { return true }

func (m *movements) shown() {
	past, ok := m.page.past()
	if !ok {
		return // a day is still being typed
	}
	if asked := m.page.asked(past); asked != m.asked {
		m.asked, m.starts = asked, []int64{0}
	}
	m.read(past)
}

func (m *movements) read(past planner.Past) {
	var lines []planner.PastLine
	var count int
	none := false
	before := m.starts[len(m.starts)-1]
	m.page.read("movements", func(ctx context.Context) (err error) {
		if lines, err = m.page.host.Studio.History(ctx, past, before, pageLines); err != nil {
			return err
		}
		if count, err = m.page.host.Studio.HistoryCount(ctx, past); err != nil || count > 0 {
			return err
		}
		all, err := m.page.host.Studio.HistoryCount(ctx, planner.Past{})
		none = all == 0
		return err
	}, func() {
		m.lines, m.count = lines, count
		m.sayEmpty(none)
		m.fill()
	})
}

// sayEmpty says what belongs here: that nothing was found, or of a history without a line how to
// begin.
func (m *movements) sayEmpty(none bool) {
	says := container.NewVBox(widgets.SubHeading("Nothing of that kind happened then"), widgets.Line("Choose another period, or empty the filter.", widgets.Quiet))
	if none {
		log := widgets.Primary("Log a purchase on the shelf", func() { m.page.host.Go(page.Route{Place: page.Stash}) })
		demo := widgets.NewButton("Open the demo studio", m.page.host.Demo)
		m.page.host.Names.Set("history.first", log)
		says = container.NewVBox(widgets.SubHeading("The history is empty"),
			widgets.Line("What is bought, washed, cut and given away will stand here, line by line.", widgets.Quiet), log, demo)
	}
	m.empty.Objects = []fyne.CanvasObject{container.NewCenter(says)}
	m.empty.Refresh()
}

func (m *movements) fill() {
	v := m.page.host.Voice()
	var rows []widgets.Row
	for _, l := range planner.Told(m.lines) {
		rows = append(rows, rowOfLine(v, l))
	}
	m.list.Set(rows)
	m.empty.Hidden = len(rows) > 0
	first := (len(m.starts)-1)*pageLines + 1
	last := first + len(m.lines) - 1
	text := fmt.Sprintf("lines %d to %d of %d", first, last, m.count)
	if len(m.lines) == 0 {
		text = ""
	}
	m.where.Set(text, widgets.Quiet)
	able(m.newer, len(m.starts) > 1)
	able(m.older, last < m.count && len(m.lines) > 0)
	m.page.count.SetText(say.Count(m.count, "line", "lines"))
	m.detail()
}

func able(b *widgets.Button, can bool) {
	if can {
		b.Enable()
	} else {
		b.Disable()
	}
}

func rowOfLine(v say.Voice, l planner.PastTold) widgets.Row {
	area, sum := "", l.Yards()
	if sum.Area != 0 {
		area = v.Area(sum.Area)
	}
	return widgets.Row{Key: l.ID, Title: say.Told(l), Sub: say.Besides(l), Cells: []widgets.Cell{
		{Text: say.ShortDay(stash.On(l.At)), Tone: widgets.Quiet},
		{Text: l.Names(planner.PastLine.FabricName), Under: l.Names(planner.PastLine.ClothCode)},
		{Text: v.Yards(sum), Under: area}, {Text: l.Names(planner.PastLine.GarmentName)}}}
}

func (m *movements) toNewer() {
	if len(m.starts) > 1 {
		m.starts = m.starts[:len(m.starts)-1]
		m.move()
	}
}

func (m *movements) toOlder() {
	if n := len(m.lines); n > 0 {
		m.starts = append(m.starts, m.lines[n-1].Seq)
		m.move()
	}
}

// move shows another page from its beginning.
func (m *movements) move() {
	m.list.Set(nil)
	m.shown()
	m.list.ScrollToTop()
}

func (m *movements) chosen() (planner.PastTold, bool) {
	if r, ok := m.list.ChosenRow(); ok {
		for _, l := range planner.Told(m.lines) {
			if l.ID == r.Key {
				return l, true
			}
		}
	}
	return planner.PastTold{}, false
}

// detail shows the line that is chosen, and what leads on from it.
func (m *movements) detail() {
	m.right.RemoveAll()
	defer m.right.Refresh()
	l, ok := m.chosen()
	if !ok {
		if len(m.lines) > 0 {
			m.right.Add(widgets.Remark("", "Choose a line to see it in full.", widgets.Quiet))
		}
		return
	}
	v := m.page.host.Voice()
	m.right.Add(widgets.Title(capital(say.Told(l))))
	m.right.Add(widgets.Remark("", "Noted on "+say.Day(stash.On(l.At))+", "+l.At.Format("15:04")+".", widgets.Quiet))
	for _, s := range details(v, l) {
		if s != "" {
			m.right.Add(widgets.Remark("", say.Sentence(s), widgets.Plain))
		}
	}
	m.lead(l.Fabric, "fabric", "All of this fabric", only{fabric: l.FabricID, name: l.Fabric})
	m.lead("Cloth "+l.Code, "cloth", "All of this cloth", only{code: l.Code, name: "cloth " + l.Code})
	if l.Garment != "" {
		m.lead(l.Garment, "garment", "All for this garment", only{garment: l.GarmentID, name: l.Garment})
	}
	open := widgets.NewButton("Show it on the shelf", m.toCloth)
	m.page.host.Names.Set("history.toshelf", open)
	m.right.Add(container.NewHBox(open))
}

// capital writes the first letter large.
func capital(s string) string { return strings.TrimSuffix(say.Sentence(s), ".") }

// describe says what a line changed.
func describe(v say.Voice, l planner.PastLine) string {
	if l.Area == 0 {
		return ""
	}
	word := "in"
	y := planner.YardsOf(l.Area, l.FullWidth)
	if y.Area < 0 {
		word, y = "out", planner.Yards{}.Less(y)
	}
	return v.YardsAndArea(y) + " " + word
}

// details are what a line says in full; of several told together, what each of them was.
func details(v say.Voice, t planner.PastTold) []string {
	if !t.Together() {
		return []string{say.Note(t.PastLine), describe(v, t.PastLine)}
	}
	out := []string{say.Besides(t)}
	for _, l := range t.All() {
		text := l.Code + ", " + say.Undone(l)
		if l.Garment != "" {
			text += " for " + l.Garment
		}
		if d := describe(v, l); d != "" {
			text += ": " + d
		}
		out = append(out, text)
	}
	return out
}

// lead adds a name and the button that shows it alone.
func (m *movements) lead(name, key, text string, o only) {
	b := widgets.NewButton(text, func() { m.page.alone(o); m.focus() })
	m.page.host.Names.Set("history.only."+key, b)
	m.right.Add(widgets.Remark("", name, widgets.Plain))
	m.right.Add(container.NewHBox(b))
}

// toCloth leads to the cloth of the line that is chosen.
func (m *movements) toCloth() {
	if l, ok := m.chosen(); ok {
		m.page.host.Go(page.Route{Place: page.Stash, ID: l.ClothID})
	}
}

func (m *movements) figures(ctx context.Context, most int) (records.Figures, error) {
	past, _ := m.page.past()
	return records.AllMovements(ctx, m.page.host.Studio, m.page.host.Voice(), past, most, m.page.asked(past))
}
