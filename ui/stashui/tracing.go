package stashui

import (
	"context"
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/draw"

	"tallycloth/planner/trace"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// The rectangles that may lie in a picture.
const (
	sheetA4     = "a sheet of A4"
	sheetLetter = "a sheet of US Letter"
	otherSheet  = "another sheet, its size typed"
	matLines    = "lines on the mat, their size typed"
)

// tracer takes the outline of a leftover from a photo: the corners of a known rectangle
// are marked, the picture is straightened, the outline found in it is corrected.
type tracer struct {
	page *Page

	file, along, across, place *widgets.Field
	fabric, size               *widgets.Choice
	other, washed, low, high   *widgets.Check
	board                      *widgets.PhotoBoard
	told                       *fyne.Container
	tools, sizes, asked        *fyne.Container
	find, add                  *widgets.Button
	by                         map[string]stash.Fabric
	whole                      fyne.CanvasObject

	picture, small *image.RGBA
	straight       *trace.Straight // nil while corners are marked
	marks          []widgets.Trail
}

// FromPhoto opens the view that takes a leftover's outline from a photo.
func (p *Page) FromPhoto() {
	words, by := p.fabricsByName()
	if len(words) == 0 {
		p.host.Tell("Log a purchase first, so that there is a fabric the leftover is of.")
		return
	}
	if p.tracer == nil {
		p.tracer = newTracer(p)
	}
	p.tracer.by = by
	p.tracer.fabric.Words(words)
	p.lay(p.tracer)
}

// droppedPicture gives a picture to the outline that is being taken, or makes it a photo
// of the cloth chosen.
func (p *Page) droppedPicture(path string) {
	if p.tracer != nil && p.over == overShelf(p.tracer) {
		p.tracer.file.Entry.SetText(path)
		p.tracer.read()
		return
	}
	p.toShelf()
	c, ok := p.chosen()
	if !ok {
		p.host.Tell("Choose the cloth that the photo is of, then drop it again.")
		return
	}
	p.addPhoto(c, path)
}

func newTracer(p *Page) *tracer {
	t := &tracer{page: p, told: container.NewVBox()}
	t.file = widgets.NewField("Picture, with a sheet or a mat's lines beside the cloth", "leftover.jpg", nil)
	t.file.Entry.OnSubmitted = func(string) { t.read() }
	t.fabric = widgets.NewChoice("Fabric", nil, nil)
	t.size = widgets.NewChoice("The marked corners are of", []string{sheetA4, sheetLetter, otherSheet, matLines}, func(string) { t.sized() })
	t.along = p.lengthField("From corner 1 to 2", "60 cm", measure.Width)
	t.across = p.lengthField("From corner 2 to 3", "40 cm", measure.Width)
	t.other = widgets.NewCheck("It lies the other way round", nil)
	t.place = widgets.NewField("Where it is kept", "shelf, box", nil)
	t.washed = widgets.NewCheck("Washed already", nil)
	t.low = widgets.NewCheck("Selvedge right of the arrow", nil)
	t.high = widgets.NewCheck("Selvedge left of it", nil)
	t.board = widgets.NewPhotoBoard(fyne.NewSize(420, 320))
	t.board.Key = func(k fyne.KeyName) {
		switch k {
		case fyne.KeyReturn, fyne.KeyEnter:
			t.forward()
		case fyne.KeyEscape:
			t.back()
		}
	}
	t.find = widgets.Primary("Find the outline", t.trace)
	t.add = widgets.Primary("Add leftover", t.keep)
	t.lay()
	t.step()
	t.say(widgets.Remark("", firstWords, widgets.Quiet))
	return t
}

// lay puts the view together: the picture large, what is asked beside it.
func (t *tracer) lay() {
	p := t.page
	choose := widgets.NewButton("Choose a picture", func() {
		choosePicture(p.host, func(path string) { t.file.Entry.SetText(path); t.read() })
	})
	more := widgets.NewButton("Add a point", func() { t.board.Add(); p.host.Focus(t.board) })
	less := widgets.NewButton("Remove point", func() { t.board.Remove(); p.host.Focus(t.board) })
	hole := widgets.NewButton("Mark a hole or flaw", t.hole)
	again := widgets.NewButton("Back to the corners", t.corners)
	t.tools = container.NewVBox(container.NewGridWithColumns(2, more, less), container.NewGridWithColumns(2, hole, again), container.NewGridWithColumns(2, t.low, t.high))
	t.sizes = container.NewGridWithColumns(2, t.along.Object(), t.across.Object())
	for name, o := range map[string]fyne.CanvasObject{"trace.file": t.file.Entry, "trace.choose": choose, "trace.fabric": t.fabric, "trace.size": t.size,
		"trace.along": t.along.Entry, "trace.across": t.across.Entry, "trace.other": t.other, "trace.place": t.place.Entry, "trace.washed": t.washed,
		"trace.board": t.board, "trace.find": t.find, "trace.add": t.add, "trace.low": t.low, "trace.high": t.high, "trace.more": more, "trace.less": less, "trace.hole": hole,
		"trace.corners": again, "trace.told": t.told} {
		p.host.Names.Set(name, o)
	}
	for _, f := range []*widgets.Field{t.file, t.along, t.across, t.place} {
		f.Entry.Escape = func() { p.host.Focus(t.board) }
	}
	t.fabric.Escape, t.size.Escape = func() { p.host.Focus(t.board) }, func() { p.host.Focus(t.board) }
	t.asked = container.NewVBox(
		container.NewBorder(nil, nil, nil, container.NewVBox(widgets.Caption(" "), choose), t.file.Object()),
		t.size.Object(), t.sizes, t.other, t.tools, t.told,
		container.NewGridWithColumns(2, t.fabric.Object(), t.place.Object()), t.washed)
	top := p.heading("A leftover from a photo", widget.NewLabel(""), t.find, t.add)
	split := widgets.Sides(container.NewPadded(t.board), container.NewVScroll(widgets.Inset(t.asked)), 0.64)
	t.whole = container.NewPadded(container.NewBorder(top, nil, nil, nil, split))
}

func (t *tracer) object() fyne.CanvasObject { return t.whole }

// shown has nothing to read again.
func (t *tracer) shown() {}

func (t *tracer) focus() {
	if t.picture == nil {
		t.page.host.Focus(t.file.Entry)
		return
	}
	t.page.host.Focus(t.board)
}

// step shows what belongs to the step at hand.
func (t *tracer) step() {
	marking := t.straight == nil
	show := func(o fyne.CanvasObject, when bool) {
		if when {
			o.Show()
		} else {
			o.Hide()
		}
	}
	typed := t.size.Selected == otherSheet || t.size.Selected == matLines
	show(t.find, marking)
	show(t.add, !marking)
	show(t.tools, !marking)
	show(t.size.Object(), marking)
	show(t.sizes, marking && typed)
	show(t.other, marking && !typed)
	if t.picture == nil {
		t.find.Disable()
	} else {
		t.find.Enable()
	}
	t.asked.Refresh()
}

func (t *tracer) say(o ...fyne.CanvasObject) {
	t.told.Objects = o
	t.told.Refresh()
	t.asked.Refresh()
}

func (t *tracer) sized() { t.step() }

const firstWords = "Lay the cloth flat on something of another colour, a sheet of paper beside it on the same surface, and take the picture from above so that both are whole in it. Choose the picture, or drop it on the window."

const markWords = "Drag each mark onto its corner of the rectangle; the glass shows the place magnified. By keyboard: n and b choose a mark, arrows move it, Page Up and Page Down change the step, Enter goes on."

// read reads the picture named.
func (t *tracer) read() {
	path := strings.TrimSpace(t.file.Text())
	if path == "" {
		return
	}
	var full, shown *image.RGBA
	t.say(widgets.Remark("", "Reading the picture …", widgets.Quiet))
	t.page.host.Tasks.Start("trace.read", func(ctx context.Context, _ func(func())) error {
		data, err := readPicture(path)
		if err != nil {
			return err
		}
		if full, err = t.page.host.Studio.ReadPhoto(ctx, data); err != nil {
			return err
		}
		shown = forScreen(full)
		return nil
	}, func(err error) {
		if err != nil {
			t.say(widgets.Remark("× ", say.Error(err), widgets.Bad))
			return
		}
		t.picture, t.small, t.marks = full, shown, firstMarks(full)
		t.corners()
	})
}

// forScreen returns a picture no larger than a screen shows.
func forScreen(full *image.RGBA) *image.RGBA {
	const side = 1600
	w, h := full.Rect.Dx(), full.Rect.Dy()
	long := max(w, h)
	if long <= side {
		return full
	}
	out := image.NewRGBA(image.Rect(0, 0, w*side/long, h*side/long))
	draw.ApproxBiLinear.Scale(out, out.Rect, full, full.Rect, draw.Src, nil)
	return out
}

// firstMarks puts the four marks where they can be seen and taken.
func firstMarks(full *image.RGBA) []widgets.Trail {
	w, h := float64(full.Rect.Dx()), float64(full.Rect.Dy())
	at := []widgets.Spot{{X: 0.3 * w, Y: 0.3 * h}, {X: 0.7 * w, Y: 0.3 * h}, {X: 0.7 * w, Y: 0.7 * h}, {X: 0.3 * w, Y: 0.7 * h}}
	return []widgets.Trail{{Points: at, Fixed: true, Words: "corner 1"}}
}

// corners goes to the step in which corners are marked.
func (t *tracer) corners() {
	if t.picture == nil {
		return
	}
	t.straight = nil
	t.board.Put(t.picture, t.small, t.marks)
	t.say(widgets.Remark("", markWords, widgets.Quiet))
	t.step()
	t.page.host.Focus(t.board)
}

// forward is Enter: the next step. back is Escape: the step before, then the shelf.
func (t *tracer) forward() {
	if t.straight == nil {
		t.trace()
		return
	}
	t.keep()
}

func (t *tracer) back() {
	if t.straight != nil {
		t.corners()
		return
	}
	t.page.toShelf()
}
