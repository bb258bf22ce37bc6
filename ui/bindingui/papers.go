package bindingui

import (
	"fyne.io/fyne/v2"

	"tallycloth/stash"
	"tallycloth/ui/paper"
	"tallycloth/ui/paperui"
)

// title names what the strips are for.
func (p *Page) title() string {
	for _, g := range p.garments {
		if g.ID == p.garment && p.garment != stash.NoID {
			return "Strips for " + g.Name
		}
	}
	if q, ok := p.patternNow(); ok {
		return "Strips for " + q.Name + ", size " + p.size.Selected
	}
	return "Binding strips"
}

// Print looks at the strips' sheet before it goes onto paper.
func (p *Page) Print() {
	if p.answer != nil {
		paperui.Strips(p.host, p.title(), *p.answer)
	}
}

// Guide looks at the strips in full size, to be marked by.
func (p *Page) Guide() {
	if p.answer != nil {
		paperui.Guide(p.host, p.title(), *p.answer)
	}
}

// Copy puts the numbers of the strips where other programs paste from.
func (p *Page) Copy() {
	if p.answer == nil {
		return
	}
	fyne.CurrentApp().Clipboard().SetContent(paper.Numbers(*p.answer))
	p.host.Tell("The numbers of the strips are copied: paste them where you want them.")
}
