package tracing

import (
	"context"
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"golang.org/x/image/draw"

	"tallycloth/planner/trace"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
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

// Words are what a place says while an outline is taken, and what it does then.
type Words struct {
	Prefix string // of the names of widgets
	File   string // the label of the picture's file
	First  string // before there is a picture
	Empty  string // where no outline was found
	After  string // how it is corrected
	Arrow  string // what the arrow shows
	// Upright is whether the arrow points up before it is turned, else to the right.
	Upright bool
	Add     string // the button at the end
	Keep    func() // what the button does
	Leave   func() // Escape from the corners
}

// View takes an outline from a picture: the corners of a known rectangle are marked, the picture is
// straightened, the outline found in it is corrected.
type View struct {
	host  *page.Host
	words Words

	File          *widgets.Field
	along, across *widgets.Field
	size          *widgets.Choice
	other         *widgets.Check
	Board         *widgets.PhotoBoard
	told          *fyne.Container
	tools, sizes  *fyne.Container
	Asked         *fyne.Container // all that is asked, beside the picture
	find, Add     *widgets.Button

	picture, small *image.RGBA
	Straight       *trace.Straight // nil while corners are marked
	marks          []widgets.Trail
}

// New returns a view. tools stand beside the outline while it is corrected, asked below all.
func New(h *page.Host, w Words, tools, asked fyne.CanvasObject) *View {
	t := &View{host: h, words: w, told: container.NewVBox()}
	t.File = widgets.NewField(w.File, "picture.jpg", nil)
	t.File.Entry.OnSubmitted = func(string) { t.Read() }
	t.size = widgets.NewChoice("The marked corners are of", []string{sheetA4, sheetLetter, otherSheet, matLines}, func(string) { t.step() })
	t.along = t.lengthField("From corner 1 to 2", "60 cm")
	t.across = t.lengthField("From corner 2 to 3", "40 cm")
	t.other = widgets.NewCheck("It lies the other way round", nil)
	t.Board = widgets.NewPhotoBoard(fyne.NewSize(420, 320))
	t.Board.Key = widgets.EnterEscape(t.forward, t.back)
	t.find = widgets.Primary("Find the outline", t.trace)
	t.Add = widgets.Primary(w.Add, w.Keep)
	t.lay(tools, asked)
	t.step()
	t.Say(widgets.Remark("", w.First, widgets.Quiet))
	return t
}

func (t *View) unit() measure.Unit {
	if t.host.Voice().Units == measure.Imperial {
		return measure.Inch
	}
	return measure.Centimetre
}

func (t *View) lengthField(name, hint string) *widgets.Field {
	return widgets.NewField(name, hint, func(text string) (string, error) {
		l, err := measure.ParsePositiveLength(text, t.unit())
		if err != nil {
			return "", err
		}
		return "= " + t.host.Voice().Width(l), nil
	})
}

func (t *View) lengthIn(f *widgets.Field) measure.Length {
	l, err := measure.ParsePositiveLength(f.Text(), t.unit())
	if err != nil {
		return 0
	}
	return l
}

// lay puts together what is asked beside the picture.
func (t *View) lay(tools, asked fyne.CanvasObject) {
	choose := widgets.NewButton("Choose a picture", func() {
		t.host.ChoosePicture(func(path string) { t.File.Entry.SetText(path); t.Read() })
	})
	more := widgets.NewButton("Add a point", func() { t.Board.Add(); t.host.Focus(t.Board) })
	less := widgets.NewButton("Remove point", func() { t.Board.Remove(); t.host.Focus(t.Board) })
	hole := widgets.NewButton("Mark a hole or flaw", t.hole)
	again := widgets.NewButton("Back to the corners", t.corners)
	t.tools = container.NewVBox(container.NewGridWithColumns(2, more, less), container.NewGridWithColumns(2, hole, again), tools)
	t.sizes = container.NewGridWithColumns(2, t.along.Object(), t.across.Object())
	for name, o := range map[string]fyne.CanvasObject{"file": t.File.Entry, "choose": choose, "size": t.size, "along": t.along.Entry, "across": t.across.Entry,
		"other": t.other, "board": t.Board, "find": t.find, "add": t.Add, "more": more, "less": less, "hole": hole, "corners": again, "told": t.told} {
		t.host.Names.Set(t.words.Prefix+"."+name, o)
	}
	for _, f := range []*widgets.Field{t.File, t.along, t.across} {
		f.Entry.Escape = t.ToBoard
	}
	t.size.Escape = t.ToBoard
	t.Asked = container.NewVBox(
		container.NewBorder(nil, nil, nil, container.NewVBox(widgets.Caption(" "), choose), t.File.Object()),
		t.size.Object(), t.sizes, t.other, t.tools, t.told, asked)
}

// Buttons are those of the steps, for the head of the place.
func (t *View) Buttons() []fyne.CanvasObject { return []fyne.CanvasObject{t.find, t.Add} }

// ToBoard puts the focus on the picture.
func (t *View) ToBoard() { t.host.Focus(t.Board) }

// Focus puts the focus on the file while there is no picture, then on the picture.
func (t *View) Focus() {
	if t.picture == nil {
		t.host.Focus(t.File.Entry)
		return
	}
	t.host.Focus(t.Board)
}

// step shows what belongs to the step at hand.
func (t *View) step() {
	marking := t.Straight == nil
	show := func(o fyne.CanvasObject, when bool) {
		if when {
			o.Show()
		} else {
			o.Hide()
		}
	}
	typed := t.size.Selected == otherSheet || t.size.Selected == matLines
	show(t.find, marking)
	show(t.Add, !marking)
	show(t.tools, !marking)
	show(t.size.Object(), marking)
	show(t.sizes, marking && typed)
	show(t.other, marking && !typed)
	if t.picture == nil {
		t.find.Disable()
	} else {
		t.find.Enable()
	}
	t.Asked.Refresh()
}

// Say shows words beside the picture.
func (t *View) Say(o ...fyne.CanvasObject) {
	t.told.Objects = o
	t.told.Refresh()
	t.Asked.Refresh()
}

const markWords = "Drag each mark onto its corner of the rectangle; the glass shows the place magnified. By keyboard: n and b choose a mark, arrows move it, Page Up and Page Down change the step, Enter goes on."

// Read reads the picture named.
func (t *View) Read() {
	path := strings.TrimSpace(t.File.Text())
	if path == "" {
		return
	}
	t.Take(func(context.Context) ([]byte, error) { return page.ReadPicture(path) })
}

// Take takes the picture that a function reads, off the window's thread.
func (t *View) Take(data func(context.Context) ([]byte, error)) {
	var full, shown *image.RGBA
	t.Say(widgets.Remark("", "Reading the picture …", widgets.Quiet))
	t.host.Tasks.Start("trace.read", func(ctx context.Context, _ func(func())) error {
		data, err := data(ctx)
		if err != nil {
			return err
		}
		if full, err = t.host.Studio.ReadPhoto(ctx, data); err != nil {
			return err
		}
		shown = forScreen(full)
		return nil
	}, func(err error) {
		if err != nil {
			t.Say(widgets.Remark("× ", say.Error(err), widgets.Bad))
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
func (t *View) corners() {
	if t.picture == nil {
		return
	}
	t.Straight = nil
	t.Board.Put(t.picture, t.small, t.marks)
	t.Say(widgets.Remark("", markWords, widgets.Quiet))
	t.step()
	t.host.Focus(t.Board)
}

// forward is Enter: the next step. back is Escape: the step before, then the shelf.
func (t *View) forward() {
	if t.Straight == nil {
		t.trace()
		return
	}
	t.words.Keep()
}

func (t *View) back() {
	if t.Straight != nil {
		t.corners()
		return
	}
	t.words.Leave()
}
