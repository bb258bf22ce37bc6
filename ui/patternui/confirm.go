package patternui

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// What the picture shows.
const (
	showsPieces = "the pattern pieces"
	showsMarks  = "what was recognised on one of them"
	showsSheet  = "everything as it lies, with the pages"
	showsEdges  = "the edges of one of them, numbered"
)

// fields makes the fields of the import.
func (im *importer) fields() {
	im.file = widgets.NewField("Drawing (folder and name of the file)", "pattern.svg", nil)
	im.file.Entry.OnSubmitted = func(string) { im.read() }
	im.name = widgets.NewField("Name of the pattern", "", nil)
	im.name.Needed = "Give the pattern a name."
	im.kind = widgets.NewField("Kind", "tank, tee, shorts", nil)
	im.size = widgets.NewField("Size drawn", "M", nil)
	im.size.Set("one size")
	im.unit = widgets.NewField("One unit of the drawing is (mm)", "1, or 25.4 for inches", readUnit)
	im.unit.Entry.OnSubmitted = func(string) { im.read() }
	im.side = widgets.NewField("It really measures", "10 cm", im.page.readLength)
	im.side.Entry.OnSubmitted = func(string) { im.rescale() }
	im.allowance = widgets.NewField("Seam allowance", "1 cm", im.page.readLength)
	im.around = widgets.NewField("Must stretch around", "30 %", readPercent)
	im.recovery = widgets.NewField("Must recover", "80 %", readPercent)
	im.bare = widgets.NewCheck("Outlines lack their seam allowance", func(bool) { im.take() })
	im.knit = widgets.NewCheck("Only for knits", func(bool) { im.take() })
	im.knit.Checked = true
	im.shows = widgets.NewChoice("The picture shows", []string{showsPieces, showsMarks, showsSheet, showsEdges}, func(string) { im.drawPreview() })
	im.shows.Escape = im.leave
	for _, f := range []*widgets.Field{im.name, im.kind, im.size, im.allowance, im.around, im.recovery} {
		f.Changed = im.take
	}
	for _, f := range []*widgets.Field{im.file, im.name, im.kind, im.size, im.unit, im.side, im.allowance, im.around, im.recovery} {
		f.Entry.Escape = im.leave
	}
	for _, c := range []*widgets.Check{im.bare, im.knit} {
		c.Escape = im.leave
	}
}

func readUnit(text string) (string, error) {
	v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(text), ",", "."), 64)
	if err != nil || !(v > 0) || v > 1000 {
		return "", errors.New("type millimetres, such as 1 or 0.2646")
	}
	return fmt.Sprintf("= %.4g mm", v), nil
}

func (im *importer) unitGiven() float64 {
	if _, err := readUnit(im.unit.Text()); err != nil {
		return 0
	}
	v, _ := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(im.unit.Text()), ",", "."), 64)
	return v
}

func readPercent(text string) (string, error) {
	p, err := measure.ParsePercent(text)
	if err != nil {
		return "", err
	}
	return "= " + measure.FormatPercent(p), nil
}

func percentIn(f *widgets.Field) measure.Percent {
	p, err := measure.ParsePercent(f.Text())
	if err != nil {
		return 0
	}
	return p
}

// nothing shows why there is nothing to save.
func (im *importer) nothing(err error) {
	im.preview.Draw(scene.Scene{})
	im.told.Objects = []fyne.CanvasObject{widgets.Remark("× ", say.Error(err), widgets.Bad)}
	im.told.Refresh()
	im.pieces.RemoveAll()
	im.rows = nil
	im.marks.box.Hide()
	im.edges.box.Hide()
	im.save.Disable()
}

// confirm asks whether the size is right: by a test square if the drawing has one.
func (im *importer) confirm() {
	d, v := im.drawing, im.page.host.Voice()
	im.square.Add(widgets.Remark("", say.Sentence("Read at the size the file gives: "+d.Scale.From), widgets.Quiet))
	if len(d.Squares) == 0 {
		im.square.Add(widgets.Remark("! ", "There is no test square in the drawing: compare a measurement you know with the sizes and the bar in the picture.", widgets.Careful))
		return
	}
	q := d.Squares[0]
	im.square.Add(widgets.Remark("? ", "A square in it measures "+v.Fine(q.Side)+". Is that right? If not, say how long its side really is.", widgets.Accent))
	if q.Likely > 0 && q.Likely != q.Side {
		im.side.Set(v.Fine(q.Likely))
	}
	right := widgets.NewButton("It is right", func() { im.page.host.Tell("The size is confirmed.") })
	other := widgets.NewButton("Use this length", im.rescale)
	im.page.host.Names.Set("outlines.right", right)
	im.page.host.Names.Set("outlines.rescale", other)
	im.square.Add(container.NewBorder(nil, nil, container.NewVBox(widgets.Caption(" "), right), container.NewVBox(widgets.Caption(" "), other), im.side.Object()))
}

// rescale reads the drawing again so that its test square has the length typed.
func (im *importer) rescale() {
	side, err := measure.ParsePositiveLength(im.side.Text(), im.page.unit())
	if err != nil || im.drawing == nil || len(im.drawing.Squares) == 0 {
		im.side.Valid()
		return
	}
	im.unit.Set(strconv.FormatFloat(im.drawing.UnitFor(im.drawing.Squares[0], side), 'g', 12, 64))
	im.read()
}

// take makes the pattern of the drawing, as the fields say, and shows it.
func (im *importer) take() {
	if im.drawing == nil {
		return
	}
	made, marks, warnings := im.drawing.MarkedPattern(im.marks.choice(drawn.Choice{Size: strings.TrimSpace(im.size.Text()), Layers: im.pick.by() != ""}))
	im.made = im.asTyped(made)
	im.marks.seen(marks, made.Pieces)
	im.list(im.made.Pieces)
	im.show(append(slices.Clone(im.drawing.Warnings), warnings...))
}

// asTyped puts what was typed into the pattern of a drawing.
func (im *importer) asTyped(q pattern.Pattern) pattern.Pattern {
	q.Name = strings.TrimSpace(im.name.Text())
	if kind := strings.TrimSpace(im.kind.Text()); kind != "" {
		q.Kind = kind
	}
	r := &q.Roles[0]
	r.Knit, r.StretchAround, r.Recovery = im.knit.Checked, percentIn(im.around), percentIn(im.recovery)
	if l, err := measure.ParsePositiveLength(im.allowance.Text(), im.page.unit()); err == nil {
		q.SeamAllowance = l
	}
	for i := range q.Pieces {
		q.Pieces[i].WithoutAllowance = q.Pieces[i].WithoutAllowance || im.bare.Checked
	}
	return q
}
