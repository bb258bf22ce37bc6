package stashui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/ui/widgets"
)

// overShelf is a view that lies over the shelf: notions, or purchases.
type overShelf interface {
	object() fyne.CanvasObject
	shown() // reads again what it shows
	focus() // puts the focus where work begins
}

// elsewhere is what leads from the shelf to the views that lie over it.
func (p *Page) elsewhere() fyne.CanvasObject {
	notions := widgets.NewButton("Notions", p.Notions)
	purchases := widgets.NewButton("Purchases", p.Purchases)
	p.host.Names.Set("stash.notions", notions)
	p.host.Names.Set("stash.purchases", purchases)
	return container.NewHBox(notions, purchases)
}

// lay brings a view over the shelf.
func (p *Page) lay(o overShelf) {
	p.over = o
	p.object.Objects = []fyne.CanvasObject{o.object()}
	p.object.Refresh()
	o.shown()
	o.focus()
}

// toShelf takes away what lies over the shelf, if anything does.
func (p *Page) toShelf() {
	switch {
	case p.bringing():
		p.lister.close()
	case p.over != nil:
		p.over = nil
		p.object.Objects = []fyne.CanvasObject{p.shelf}
		p.object.Refresh()
		p.Focus()
	}
}

// heading is the line above a view: its name, how much there is, and its actions.
func (p *Page) heading(name string, count *widget.Label, actions ...fyne.CanvasObject) fyne.CanvasObject {
	back := widgets.NewButton("Back to the shelf", p.toShelf)
	p.host.Names.Set("stash.back", back)
	return container.NewBorder(nil, nil, container.NewHBox(widgets.Heading(name), count), container.NewHBox(append([]fyne.CanvasObject{back}, actions...)...))
}

// escaping takes a view away with Escape in its list.
func (p *Page) escaping(l *widgets.RowList) {
	l.Key = func(k fyne.KeyName) {
		if k == fyne.KeyEscape {
			p.toShelf()
		}
	}
}
