package paperui

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/ui/page"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Ask is what is to go onto paper.
type Ask struct {
	Title string
	Intro string // a sentence under the title
	File  string // what the file is called, without its ending; any text
	// Full offers ways and papers of full size, else A4 and Letter.
	Full bool
	// Which are drawings to choose among, under a name; nil for one alone.
	Which     []string
	WhichName string
	// Lay lays a drawing out, away from the window's thread.
	Lay func(ctx context.Context, which int, w paper.Way, f sheet.Full) (*sheet.Document, error)
	// More are choices of its own, between those of the paper and the file, made when the view opens;
	// nil for none.
	More func(p *Preview) fyne.CanvasObject
	// Side is what stands under the choices, made when the view opens; nil for nothing.
	Side func(p *Preview) fyne.CanvasObject
}

// Preview is the view over the window.
type Preview struct {
	host    *page.Host
	ask     Ask
	habits  planner.Habits // of last time
	choices *choices
	path    *widgets.Field
	picture *canvas.Image
	pages   *widget.Label
	said    *widget.Label
	back    *widgets.Button
	forth   *widgets.Button
	goes    []*widgets.Button // save, open, print: not before there is a document
	side    *fyne.Container
	popup   *widget.PopUp
	canvas  fyne.Canvas
	keys    func(*fyne.KeyEvent)

	drawing sync.Mutex // a document is drawn by one goroutine at a time
	doc     *sheet.Document
	at      int    // the page in sight
	wrong   bool   // what is told is why there are no pages
	closed  func() // called once the view is gone, or nil
	saved   string // where this document is saved, or ""
}

// Show opens the view and lays out what was asked for.
func Show(h *page.Host, a Ask) *Preview {
	p := &Preview{host: h, ask: a, pages: widget.NewLabel("Drawing …"), said: widget.NewLabel("")}
	p.picture = &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScaleSmooth}
	p.picture.SetMinSize(fyne.NewSize(300, 300))
	p.said.Wrapping = fyne.TextWrapWord
	p.path = widgets.NewField("Save as (folder and name)", "sheet.pdf", nil)
	p.path.Needed = "Say where to save the file."
	p.habits, _ = h.Studio.Habits(context.Background()) // without them it begins as the settings say
	p.choices = newChoices(h, a, p.habits, p.again)
	p.back, p.forth = widgets.NewButton("Page before", func() { p.turn(-1) }), widgets.NewButton("Next page", func() { p.turn(1) })
	save, open, print, shut := widgets.Primary("Save", p.Save), widgets.NewButton("Open", p.Open), widgets.NewButton("Print", p.Print), widgets.NewButton("Close", p.Close)
	p.goes = []*widgets.Button{save, open, print}
	p.side = container.NewVBox()
	for name, o := range map[string]fyne.CanvasObject{"paper.path": p.path.Entry, "paper.save": save, "paper.open": open, "paper.print": print, "paper.close": shut,
		"paper.before": p.back, "paper.next": p.forth, "paper.picture": p.picture, "paper.pages": p.pages, "paper.said": p.said} {
		h.Names.Set(name, o)
	}
	if a.More != nil {
		p.choices.object.Add(a.More(p))
	}
	left := container.NewVBox(widgets.Title(a.Title), widgets.Remark("", a.Intro, widgets.Quiet), p.choices.object, p.path.Object(),
		container.NewHBox(save, open, print, layout.NewSpacer(), shut), p.said, p.side)
	right := container.NewBorder(container.NewHBox(p.back, p.forth, p.pages), nil, nil, nil, container.NewStack(ground(), container.NewPadded(p.picture)))
	p.popup = widget.NewModalPopUp(widgets.Sides(container.NewVScroll(widgets.Inset(left)), container.NewPadded(right), 0.4), h.Canvas())
	p.Side()
	p.open(h.Canvas())
	p.name()
	p.again()
	return p
}

// ground is what the picture of a page lies on, so that its edges show.
func ground() fyne.CanvasObject {
	return canvas.NewRectangle(color.NRGBA{0x80, 0x7A, 0x72, 0x50})
}

// Side makes anew what stands under the choices.
func (p *Preview) Side() {
	p.side.RemoveAll()
	if p.ask.Side != nil {
		p.side.Add(p.ask.Side(p))
	}
	p.side.Refresh()
}

func (p *Preview) open(c fyne.Canvas) {
	p.canvas, p.keys = c, c.OnTypedKey()
	c.SetOnTypedKey(p.typed)
	p.path.Entry.OnSubmitted = func(string) { p.Save() }
	p.path.Entry.Escape = p.Close
	p.choices.escape(p.Close)
	p.popup.Show()
	p.popup.Resize(fyne.NewSize(c.Size().Width-40, c.Size().Height-40))
	c.Focus(p.choices.paper)
}

// typed takes the keys that nothing in the view has a use for.
func (p *Preview) typed(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		p.Close()
	case fyne.KeyPageDown:
		p.turn(1)
	case fyne.KeyPageUp:
		p.turn(-1)
	}
}

// Close takes the view away.
func (p *Preview) Close() {
	if !p.popup.Visible() {
		return
	}
	p.host.Tasks.Stop("paper")
	p.popup.Hide()
	p.canvas.SetOnTypedKey(p.keys)
	if p.closed != nil {
		p.closed()
	}
}

// Say tells something in the view.
func (p *Preview) Say(text string) {
	p.said.SetText(text)
}

// again lays everything out anew, after something was chosen.
func (p *Preview) again() {
	f, err := p.choices.full()
	if err != nil {
		p.host.Tasks.Stop("paper")
		p.trouble(err)
		return
	}
	p.doc = nil // what was drawn before is not what is asked for now: it must not be saved for it
	p.able()
	which, way := p.choices.which.SelectedIndex(), p.choices.wayNow()
	p.pages.SetText("Drawing …")
	p.rename(way)
	var doc *sheet.Document
	p.host.Tasks.Start("paper", func(ctx context.Context, _ func(func())) (err error) {
		p.drawing.Lock()
		defer p.drawing.Unlock()
		doc, err = p.ask.Lay(ctx, max(which, 0), way, f)
		return err
	}, func(err error) {
		if err != nil {
			p.trouble(err)
			return
		}
		p.doc, p.saved = doc, ""
		if p.wrong {
			p.wrong = false
			p.Say("")
		}
		p.at = min(p.at, doc.Sheets()-1)
		p.draw()
	})
}

// trouble shows what stands in the way instead of pages.
func (p *Preview) trouble(err error) {
	p.doc, p.wrong = nil, true
	p.picture.Image = nil
	p.picture.Refresh()
	p.pages.SetText("")
	p.Say(say.Error(err))
	p.able()
}

// turn goes on by a page.
func (p *Preview) turn(by int) {
	if p.doc == nil || p.at+by < 0 || p.at+by >= p.doc.Sheets() {
		return
	}
	p.at += by
	p.draw()
}

// draw shows the page in sight.
func (p *Preview) draw() {
	doc, at := p.doc, p.at
	pixels := 700
	if h := p.picture.Size().Height; h > 100 {
		pixels = int(h * p.canvas.Scale())
	}
	if on := doc.Paper(at); on.Width > on.Height { // lying pages fill the width
		pixels = int(float64(pixels) * on.Height / on.Width)
	}
	var img *image.RGBA
	p.able()
	p.host.Tasks.Start("paper", func(_ context.Context, _ func(func())) (err error) {
		p.drawing.Lock()
		defer p.drawing.Unlock()
		img, err = doc.Picture(at, pixels)
		return err
	}, func(err error) {
		if err != nil {
			p.trouble(err)
			return
		}
		p.picture.Image = img
		p.picture.Refresh()
		on := doc.Paper(at)
		p.pages.SetText(fmt.Sprintf("Page %d of %d, %s", at+1, doc.Sheets(), sizeWords(p.host.Voice(), on)))
		p.able()
	})
}

// able lets buttons be pressed for as far as there is something to do.
func (p *Preview) able() {
	set := func(b *widgets.Button, on bool) {
		if on {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	for _, b := range p.goes {
		set(b, p.doc != nil)
	}
	set(p.back, p.doc != nil && p.at > 0)
	set(p.forth, p.doc != nil && p.at+1 < p.doc.Sheets())
}
