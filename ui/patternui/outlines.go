package patternui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/planner/pattern"
	"tallycloth/ui/page"
	"tallycloth/ui/widgets"
)

// importer brings outlines in from a drawing: what the file holds is seen and its size
// confirmed before anything is saved.
type importer struct {
	page *Page

	file, name, kind, size, unit, side *widgets.Field
	allowance, around, recovery        *widgets.Field
	bare, knit                         *widgets.Check
	sheets                             *sheets
	pick                               *picker
	shows                              *widgets.Choice
	square                             *fyne.Container
	pieces                             *fyne.Container
	rows                               []*pieceRow
	preview                            *sceneBoard
	marks                              *recognised
	edges                              *edgeRows
	told                               *fyne.Container
	save                               *widgets.Button
	object                             fyne.CanvasObject

	called  string          // the name that the last file gave
	whole   *drawn.Drawing  // as the file has it
	drawing *drawn.Drawing  // as sizes were picked of it
	made    pattern.Pattern // as the fields make it of the drawing
	drawn   []pattern.Piece // its pieces as drawn, before any is put on the fold
}

// New brings outlines in.
func (p *Page) New() {
	if p.find != nil {
		p.back()
	}
	if p.bring == nil {
		p.bring = newImporter(p)
	}
	p.object.Objects = []fyne.CanvasObject{p.bring.object}
	p.object.Refresh()
	p.host.Focus(p.bring.file.Entry)
}

// leave goes back to the patterns; what was typed is still there the next time.
func (im *importer) leave() {
	p := im.page
	p.object.Objects = []fyne.CanvasObject{p.shelf}
	p.object.Refresh()
	p.Focus()
}

func newImporter(p *Page) *importer {
	im := &importer{page: p, square: container.NewVBox(), pieces: container.NewVBox(), told: container.NewVBox()}
	im.fields()
	im.sheets, im.pick = newSheets(im), newPicker(im)
	im.marks, im.edges = newRecognised(im), newEdgeRows(im)
	im.preview = newSceneBoard(320, 420)
	im.preview.Tap, im.preview.Drag, im.preview.Key, im.preview.Escape = im.marks.clicked, im.sheets.dragged, im.sheets.key, im.leave
	im.save = widgets.NewButton("Keep the pattern", im.keep)
	im.save.Importance = widget.HighImportance
	im.save.Disable()
	choose := widgets.NewButton("Choose a file", im.choose)
	back := widgets.NewButton("Back to patterns", im.leave)
	for name, o := range map[string]fyne.CanvasObject{
		"outlines.file": im.file.Entry, "outlines.choose": choose, "outlines.name": im.name.Entry, "outlines.size": im.size.Entry,
		"outlines.unit": im.unit.Entry, "outlines.side": im.side.Entry, "outlines.save": im.save, "outlines.back": back, "outlines.allowance": im.allowance.Entry, "outlines.bare": im.bare, "outlines.told": im.told, "outlines.shows": im.shows, "outlines.picture": im.preview,
	} {
		p.host.Names.Set(name, o)
	}
	im.unit.Object().Hide()
	head := container.NewBorder(nil, nil, widgets.Heading("Bring in outlines"), container.NewHBox(back, im.save))
	left := container.NewVBox(
		widgets.Remark("", "From a DXF file for sewn products, an SVG or DXF drawing, or a PDF with its lines: closed outlines, one for each pattern piece, at full size. Nothing is kept before you have seen it. Help (F1) says how to draw for it, under “Outlines that come in”.", widgets.Quiet),
		container.NewBorder(nil, nil, nil, container.NewVBox(widgets.Caption(" "), choose), im.file.Object()),
		im.unit.Object(), im.sheets.box, im.square,
		container.NewGridWithColumns(3, im.name.Object(), im.kind.Object(), im.size.Object()),
		im.pick.box, im.bare,
		container.NewGridWithColumns(3, im.allowance.Object(), im.around.Object(), im.recovery.Object()),
		im.edges.box,
		im.knit,
		im.pieces)
	right := container.NewVBox(im.shows.Object(), im.preview, im.marks.box, im.told)
	split := widgets.Sides(container.NewVScroll(widgets.Inset(left)), container.NewVScroll(widgets.Inset(right)), 0.5)
	im.object = container.NewPadded(container.NewBorder(head, nil, nil, nil, split))
	return im
}

// choose opens the file dialog.
func (im *importer) choose() {
	im.page.host.ChooseFile(outlines.Endings(), func(path string) {
		im.file.Entry.SetText(path)
		im.read()
	})
}

// TakesPicture says whether a picture that is dropped is for the pattern piece being traced.
func (p *Page) TakesPicture() bool {
	return p.tracer != nil && len(p.object.Objects) == 1 && p.object.Objects[0] == p.tracer.object
}

// Dropped reads a drawing that was dropped on the window, or the picture to trace.
func (p *Page) Dropped(path string) {
	if page.IsPicture(path) {
		p.tracer.view.File.Entry.SetText(path)
		p.tracer.view.Read()
		return
	}
	p.New()
	p.bring.file.Entry.SetText(path)
	p.bring.read()
}

// read reads the file named, with the unit given if there is one.
func (im *importer) read() {
	path := strings.TrimSpace(im.file.Text())
	if path == "" {
		return
	}
	unit, plan := im.unitGiven(), im.sheets.plan()
	var d drawn.Drawing
	im.page.host.Tasks.Start("patterns.drawing", func(ctx context.Context, _ func(func())) error {
		f, err := os.Open(path)
		if err != nil {
			return page.CannotRead(path, err)
		}
		defer f.Close()
		d, err = outlines.Read(ctx, f, path, outlines.Options{Unit: unit, Plan: plan})
		return err
	}, func(err error) { im.seen(path, d, err) })
}

// seen shows what a drawing holds, or why it cannot be read.
func (im *importer) seen(path string, d drawn.Drawing, err error) {
	im.drawing, im.whole = nil, nil
	im.marks.forget()
	im.edges.forget()
	im.square.RemoveAll()
	if errors.Is(err, drawn.ErrNoUnits) {
		im.unit.Object().Show()
		im.page.host.Focus(im.unit.Entry)
	}
	if err != nil {
		im.nothing(err)
		return
	}
	im.drawing, im.whole = &d, &d
	if n := im.name.Text(); n == "" || n == im.called { // nobody typed another
		im.called = im.nameOf(path)
		im.name.Set(im.called)
	}
	if slices.ContainsFunc(d.Warnings, func(w drawn.Warning) bool { return w.Reason == drawn.Unit }) {
		im.unit.Object().Show() // to read it again with another one
	}
	im.sizesAsked(d.Stated == nil)
	im.confirm()
	im.sheets.seen(path, d.Pages)
	im.scans(path)
	im.pick.seen(&d)
	im.pick.take()
}

// nameOf is the name that the file gives its pattern, else that of the file.
func (im *importer) nameOf(path string) string {
	if s := im.drawing.Stated; s != nil && s.Name != "" {
		return s.Name
	}
	base := filepath.Base(path)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// sizesAsked shows the fields about sizes where the file does not say them itself.
func (im *importer) sizesAsked(asked bool) {
	for _, o := range []fyne.CanvasObject{im.size.Object(), im.pick.box} {
		if asked {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

// scans offers to trace the pages of a file that are pictures.
func (im *importer) scans(path string) {
	if im.drawing.Pages == nil {
		return
	}
	for i, n := range im.drawing.Pages.Scans {
		if i == 12 {
			return
		}
		b := widgets.NewButton(fmt.Sprintf("Trace page %d", n), func() { im.page.tracePage(path, n) })
		im.page.host.Names.Set(fmt.Sprintf("outlines.trace.%d", n), b)
		im.square.Add(container.NewHBox(b))
	}
}
