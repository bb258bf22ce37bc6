package helpui

import (
	"regexp"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/assets"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// Page is the place.
type Page struct {
	host   *page.Host
	back   func() // to where the person was
	list   *widgets.RowList
	scroll *container.Scroll
	object fyne.CanvasObject
}

// New returns the place; back leads to the one before.
func New(h *page.Host, back func()) *Page {
	p := &Page{host: h, back: back, scroll: container.NewVScroll(container.NewVBox())}
	p.list = widgets.NewRowList(nil)
	var rows []widgets.Row
	for i, g := range assets.Guide() {
		rows = append(rows, widgets.Row{Key: i, Title: g.Title})
	}
	p.list.Set(rows)
	p.list.Chosen = func(r widgets.Row) { p.show(assets.Guide()[r.Key.(int)]) }
	p.list.Key = func(k fyne.KeyName) {
		if k == fyne.KeyEscape || k == fyne.KeyF1 {
			p.back()
		}
	}
	h.Names.Set("help.list", p.list)
	top := container.NewVBox(widgets.Heading("Help"), widgets.Caption("Esc leads back to where you were."))
	p.object = container.NewPadded(container.NewBorder(top, nil, nil, nil, widgets.Sides(p.list, container.NewPadded(p.scroll), 0.27)))
	return p
}

// Object is the place's whole content.
func (p *Page) Object() fyne.CanvasObject { return p.object }

// Shown opens the first page the first time: its pictures take a while.
func (p *Page) Shown() {
	if _, ok := p.list.ChosenRow(); !ok {
		p.list.Choose(0)
	}
}

// about says which page of the guide, counted from 0, tells of a place.
var about = map[string]int{page.Stash: 1, page.Patterns: 2, page.Garments: 4, page.Batch: 3, page.Binding: 3, page.History: 5, page.Settings: 5}

// Open shows the page about the place that a route names as what to do.
func (p *Page) Open(r page.Route) {
	if i, ok := about[r.Do]; ok {
		p.list.Choose(i)
	}
}

// Focus puts the focus on the list of pages.
func (p *Page) Focus() { p.host.Focus(p.list) }

// Find is Focus.
func (p *Page) Find() { p.Focus() }

// New is Focus: nothing is begun here.
func (p *Page) New() { p.Focus() }

// EscapeHere leads back.
func (p *Page) EscapeHere() bool {
	p.back()
	return true
}

var picture = regexp.MustCompile(`^!\[([^]]*)\]\(([^)]+)\)$`)

// show puts a page of the guide into sight.
func (p *Page) show(g assets.GuidePage) {
	box := container.NewVBox(widgets.SubHeading(g.Title))
	for _, part := range strings.Split(g.Text, "\n\n") {
		box.Add(block(strings.TrimSpace(part)))
	}
	p.scroll.Content = box
	p.scroll.ScrollToTop()
	p.scroll.Refresh()
}

// block is a paragraph, a list, a caution or a picture.
func block(text string) fyne.CanvasObject {
	if m := picture.FindStringSubmatch(text); m != nil {
		img := canvas.NewImageFromResource(fyne.NewStaticResource(m[2], assets.GuidePicture(m[2])))
		img.FillMode = canvas.ImageFillContain
		img.SetMinSize(fyne.NewSize(560, 330))
		return container.NewVBox(img, widgets.Remark("", m[1], widgets.Quiet))
	}
	if caution, is := strings.CutPrefix(text, "> "); is {
		return widgets.Remark("!", caution, widgets.Careful)
	}
	rich := widget.NewRichTextFromMarkdown(text)
	rich.Wrapping = fyne.TextWrapWord
	return rich
}
