package widgets

import (
	"image"
	"image/color"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/draw"
)

// rowView draws a Row as one picture, so that a list moves smoothly. It is reused for other rows as the list scrolls.
// Texts with letters that the window's font lacks are left to the toolkit, which looks for another font.
type rowView struct {
	widget.BaseWidget
	list    *RowList
	row     Row
	shown   bool // whether row was given
	marked  bool // chosen besides the one that is looked at
	img     *canvas.Image
	strange []*canvas.Text
	painted rowPainting
}

// rowPainting is all that the picture hangs on besides the row.
type rowPainting struct {
	size       fyne.Size
	density    float64
	ink, quiet color.NRGBA
	text       float32
	columns    int // what they take
	ground     color.NRGBA
}

// rowLine is one text of a row and the box it has: width wide, from x and y on.
type rowLine struct {
	text        string
	size        float32
	style       fyne.TextStyle
	tone        Tone
	x, y, width float32
	level       bool // in the middle between the row's edges, y is not taken
	right       bool
}

func newRowView(l *RowList) *rowView {
	v := &rowView{list: l, img: &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}}
	v.ExtendBaseWidget(v)
	return v
}

func (v *rowView) show(r Row) {
	if v.shown && v.row.same(r) {
		v.paint(false)
		return
	}
	v.row, v.shown = r, true
	v.paint(true)
}

// same says whether two rows look the same.
func (r Row) same(o Row) bool {
	return r.Title == o.Title && r.Sub == o.Sub && r.SubTone == o.SubTone && r.Drawn == o.Drawn && r.Stitches == o.Stitches && r.StitchesOf == o.StitchesOf &&
		(r.Swatch == o.Swatch || r.Swatch != nil && o.Swatch != nil && *r.Swatch == *o.Swatch) &&
		slices.Equal(r.Swatches, o.Swatches) && slices.Equal(r.Cells, o.Cells)
}

// lines are the texts of the row, each with its box, and where the picture before them begins.
func (v *rowView) lines(size fyne.Size, pictured bool) []rowLine {
	r, text, small := v.row, theme.TextSize(), theme.CaptionTextSize()
	x := float32(8)
	if pictured {
		x += v.list.pictureRoom(size.Width)
	}
	left, shown := titleWidth(v.list.columns, size.Width, x)
	top := (size.Height - text - small - 9) / 2
	under := top + text + 5
	tone := r.SubTone
	if tone == Plain {
		tone = Quiet
	}
	bold := fyne.TextStyle{Bold: true}
	out := []rowLine{
		{text: r.Title, size: text, style: bold, x: x, y: top, width: left, level: r.Sub == ""}, // alone it stands level with the columns
		{text: r.Sub, size: small, tone: tone, x: x, y: under, width: left},
	}
	if first, rest := v.parted(out[0]); rest != "" { // a row has the height for it
		step := text * titleStep
		high := (size.Height - 2*step) / 2
		if r.Sub != "" {
			high = (size.Height - 2*step - small*titleStep) / 2
		}
		out[0].text, out[0].y, out[0].level = first, high, false
		out[1].y = high + 2*step
		out = append(out, rowLine{text: rest, size: text, style: bold, x: x, y: high + step, width: left})
	}
	x += left + gap
	for i, c := range v.list.columns {
		if !shown[i] {
			continue
		}
		w := Scaled(c.Width)
		if i < len(r.Cells) {
			cell := r.Cells[i]
			if i == 0 && c.Right && cell.Under == "" { // figures leave room to the small line beside them
				out[1].width += max(w-rowLine{text: cell.Text, size: text}.wide(densityOf(v)), 0)
			}
			out = append(out, rowLine{text: cell.Text, size: text, style: fyne.TextStyle{Italic: cell.Italic}, tone: cell.Tone, x: x, y: top, width: w, level: cell.Under == "", right: c.Right},
				rowLine{text: cell.Under, size: small, tone: Quiet, x: x, y: under, width: w, right: c.Right})
		}
		x += w + gap
	}
	return slices.DeleteFunc(out, func(l rowLine) bool { return l.text == "" })
}

// titleStep is how far it is from a line of a title to the next, of its height.
const titleStep = 1.18

// parted is a title in two lines, where one has no room for it.
func (v *rowView) parted(title rowLine) (first, rest string) {
	if title.wide(densityOf(v)) <= title.width {
		return title.text, ""
	}
	lines := wrapWords(title.text, title.width, title.size, title.style)
	return lines[0], strings.Join(lines[1:], " ")
}

// paint draws the row if it, its size or the look of the window changed.
func (v *rowView) paint(changed bool) {
	size := v.Size()
	p := rowPainting{size: size, density: densityOf(v), ink: Plain.nrgba(), quiet: Quiet.nrgba(), text: theme.TextSize(), columns: v.list.widths()}
	if v.marked {
		p.ground = color.NRGBAModel.Convert(theme.Color(theme.ColorNameSelection)).(color.NRGBA)
	}
	if w, h := p.pixels(); w < 2 || h < 2 || !v.shown || p == v.painted && !changed {
		return
	}
	v.painted = p
	picture := v.row.picture()
	v.strange = v.strange[:0]
	img := v.ground(p)
	if p.ground.A > 0 {
		draw.Draw(img, img.Rect, image.NewUniform(p.ground), image.Point{}, draw.Src)
	}
	if picture != nil && v.list.pictureRoom(size.Width) > 0 {
		box := image.Rect(0, 0, p.px(swatchWidth), p.px(swatchHeight)).Add(image.Pt(p.px(8), p.px((size.Height-swatchHeight)/2)))
		draw.NearestNeighbor.Scale(img, box, picture, picture.Bounds(), draw.Over, nil)
	}
	for _, l := range v.lines(size, picture != nil || len(v.row.Swatches) > 0) {
		if !l.write(img, p, size.Height) {
			v.strange = append(v.strange, l.object(size.Height))
		}
	}
	v.img.Resize(size)
	v.img.Refresh()
}

func (p rowPainting) px(units float32) int { return int(math.Round(float64(units) * p.density)) }
func (p rowPainting) pixels() (w, h int)   { return p.px(p.size.Width), p.px(p.size.Height) }

// ground is the picture, empty; it is the one before where that is as large.
func (v *rowView) ground(p rowPainting) *image.RGBA {
	w, h := p.pixels()
	if old, ok := v.img.Image.(*image.RGBA); ok && old.Rect == image.Rect(0, 0, w, h) {
		clear(old.Pix)
		return old
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	v.img.Image = img
	return img
}

// write draws the text into the row's picture; it says false where the font lacks a letter.
func (l rowLine) write(img *image.RGBA, p rowPainting, height float32) bool {
	f := lettersIn(l.style, float64(l.size)*p.density)
	if f == nil || !f.has(l.text) {
		return false
	}
	level := f // slanted letters are of another font, and stand on the line of the upright ones
	if l.style.Italic {
		upright := l.style
		upright.Italic = false
		if u := lettersIn(upright, float64(l.size)*p.density); u != nil {
			level = u
		}
	}
	text, wide := f.fit(l.text, float64(l.width)*p.density)
	x, y := float64(l.x)*p.density, p.px(l.y)
	if l.right {
		x += float64(l.width)*p.density - wide
	}
	if l.level {
		y = (p.px(height) - level.height) / 2
	}
	y += level.ascent - f.ascent
	f.write(img, text, x, y, l.tone.nrgba())
	return true
}

// wide is how wide the whole text is, without end where the font cannot be read.
func (l rowLine) wide(density float64) float32 {
	f := lettersIn(l.style, float64(l.size)*density)
	if f == nil {
		return math.MaxFloat32
	}
	_, wide := f.fit(l.text, 0)
	return float32(wide / density)
}

// Cut are the titles and figures that the row has no room for. The small line under a title is told whole in
// the detail of what the row stands for.
func (v *rowView) Cut() []string {
	var out []string
	if !v.shown {
		return nil
	}
	for _, l := range v.lines(v.Size(), v.row.picture() != nil || len(v.row.Swatches) > 0) {
		if l.text != v.row.Sub && l.wide(densityOf(v)) > l.width+0.5 {
			out = append(out, l.text)
		}
	}
	return out
}

// object is the text as the toolkit draws it.
func (l rowLine) object(height float32) *canvas.Text {
	t := canvas.NewText(Shorten(l.text, l.width, l.size, l.style), l.tone.colour())
	t.TextSize, t.TextStyle = l.size, l.style
	size := t.MinSize()
	at := fyne.NewPos(l.x, l.y)
	if l.right {
		at.X += l.width - size.Width
	}
	if l.level {
		at.Y = (height - size.Height) / 2
	}
	t.Move(at)
	t.Resize(size)
	return t
}

// widths adds up what the columns take, to notice that one was widened.
func (l *RowList) widths() int {
	var sum float32
	for _, c := range l.columns {
		sum += c.Width
	}
	return int(sum)
}

// CreateRenderer draws the row.
func (v *rowView) CreateRenderer() fyne.WidgetRenderer { return &rowRenderer{v} }

type rowRenderer struct{ v *rowView }

func (r *rowRenderer) Layout(fyne.Size)   { r.v.paint(false) }
func (r *rowRenderer) MinSize() fyne.Size { return fyne.NewSize(120, rowHeight()) }
func (r *rowRenderer) Destroy()           {}

// Refresh draws the row anew: the theme or the text size may have changed.
func (r *rowRenderer) Refresh() { r.v.paint(false) }

func (r *rowRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.v.img}
	for _, t := range r.v.strange {
		out = append(out, t)
	}
	return out
}
