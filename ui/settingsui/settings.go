package settingsui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// Page is the place.
type Page struct {
	host   *page.Host
	fields []choice
	first  fyne.Focusable
	filled planner.Settings
	stage  *fyne.Container
	main   fyne.CanvasObject
	state  *fyne.Container // what is known of the back-ups
	back   *returning
}

// choice is one of the settings on screen.
type choice interface {
	object() fyne.CanvasObject
	words() string // what it does
	fill(planner.Settings)
	focusable() fyne.Focusable
}

// group is settings that belong together.
type group struct {
	title  string
	fields []choice
}

// New returns the place.
func New(h *page.Host) *Page {
	p := &Page{host: h, stage: container.NewStack(), state: container.NewVBox()}
	left := p.groups(p.measures(), p.looks(), p.stretch())
	right := p.groups(p.cutting(), p.backups())
	right.Add(p.library())
	columns := container.New(&halves{}, left, right)
	p.main = container.NewBorder(container.NewVBox(widgets.Heading("Settings"), widgets.Paragraph("Each is kept at once, in this library. Undo takes a change back.")),
		nil, nil, nil, container.NewVScroll(columns))
	p.back = newReturning(p)
	p.stage.Objects = []fyne.CanvasObject{p.main}
	return p
}

func (p *Page) groups(all ...group) *fyne.Container {
	box := container.NewVBox()
	for _, g := range all {
		box.Add(widgets.Caption(" "))
		box.Add(widgets.Styled(g.title, "subHeadingText", widgets.Plain, true))
		for _, f := range g.fields {
			if p.first == nil {
				p.first = f.focusable()
			}
			p.fields = append(p.fields, f)
			box.Add(container.New(&explained{}, f.object(), widgets.Remark("", f.words(), widgets.Quiet)))
		}
	}
	return box
}

// Object is the place's whole content.
func (p *Page) Object() fyne.CanvasObject { return container.NewPadded(p.stage) }

// Shown fills in what the library has, but not under the hands of who types.
func (p *Page) Shown() {
	if set := p.host.Settings(); set != p.filled {
		p.filled = set
		for _, f := range p.fields {
			f.fill(set)
		}
	}
	p.back.shown()
}

// Open follows a route; there is none into the place.
func (p *Page) Open(page.Route) {}

// Focus puts the focus on the first choice.
func (p *Page) Focus() {
	if p.back.open() {
		p.host.Focus(p.back.list)
		return
	}
	p.host.Focus(p.first)
}

// Find does nothing more than Focus: there is nothing to search.
func (p *Page) Find() { p.Focus() }

// New makes a back-up at once.
func (p *Page) New() { p.backUpNow() }

// EscapeHere leaves the list of back-ups.
func (p *Page) EscapeHere() bool {
	if !p.back.open() {
		return false
	}
	p.show(p.main)
	return true
}

func (p *Page) show(o fyne.CanvasObject) {
	p.stage.Objects = []fyne.CanvasObject{o}
	p.stage.Refresh()
	p.Focus()
}

// keep changes one setting at once.
func (p *Page) keep(change func(*planner.Settings)) {
	set := p.host.Settings()
	was := set
	if change(&set); set == was {
		return
	}
	p.host.Act("settings", func(ctx context.Context) (string, error) {
		return "Kept.", p.host.Studio.SaveSettings(ctx, set)
	}, func(err error) {
		if err != nil {
			p.filled = planner.Settings{}
			p.Shown()
		}
	})
}

// explained puts a control beside the line that explains it.
type explained struct{}

const controlWidth = 230

func (*explained) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := controlWidth * widgets.Scale()
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(w, s.Height))
	o[1].Move(fyne.NewPos(w+16, 16*widgets.Scale()))
	o[1].Resize(fyne.NewSize(s.Width-w-16, s.Height-16*widgets.Scale()))
}

func (*explained) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(controlWidth*widgets.Scale()+180, max(o[0].MinSize().Height, o[1].MinSize().Height+16*widgets.Scale()))
}

// halves are two columns of one width, or one below the other where there is no room.
type halves struct{}

func (*halves) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := (s.Width - 32 - 14) / 2 // the scroll bar stands free of the words
	for i, c := range o {
		c.Move(fyne.NewPos(float32(i)*(w+32), 0))
		c.Resize(fyne.NewSize(w, max(c.MinSize().Height, s.Height)))
	}
}

func (*halves) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(600, max(o[0].MinSize().Height, o[1].MinSize().Height))
}
