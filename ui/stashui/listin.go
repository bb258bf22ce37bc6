package stashui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/list"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// lister brings a person's own list in: what its columns are taken for and what every
// row would become is seen, and can be corrected, before anything is saved.
type lister struct {
	page *Page

	file, width     *widgets.Field
	sheet, headings *widgets.Choice
	leave, only     *widgets.Check
	columns         []*listColumn
	preview, told   *fyne.Container
	rows            *widgets.RowList
	detail          *fyne.Container
	send, stop      *widgets.Button
	object          fyne.CanvasObject

	draft  *planner.ListDraft // nil until a list was read
	result list.Result
	asking bool   // the dry run is under way
	end    func() // stops the writing, while a list is being brought in
}

// BringIn opens the view that brings a list in.
func (p *Page) BringIn() {
	if p.lister == nil {
		p.lister = newLister(p)
	}
	p.over = nil
	p.object.Objects = []fyne.CanvasObject{p.lister.object}
	p.object.Refresh()
	p.host.Focus(p.lister.file.Entry)
}

// Dropped reads a list or a photo that was dropped on the window.
func (p *Page) Dropped(path string) {
	if page.IsPicture(path) {
		p.droppedPicture(path)
		return
	}
	p.BringIn()
	p.lister.file.Entry.SetText(path)
	p.lister.read("")
}

// bringing says whether a list is in sight.
func (p *Page) bringing() bool {
	return p.lister != nil && len(p.object.Objects) == 1 && p.object.Objects[0] == p.lister.object
}

// close goes back to the shelf; the list is still there the next time.
func (im *lister) close() {
	p := im.page
	p.object.Objects = []fyne.CanvasObject{p.shelf}
	p.object.Refresh()
	p.Focus()
}

func newLister(p *Page) *lister {
	im := &lister{page: p, preview: container.NewHBox(), told: container.NewVBox(), detail: container.NewVBox()}
	im.file = widgets.NewField("List (folder and name of a .xlsx or .csv file)", "stash.xlsx", nil)
	im.file.Entry.OnSubmitted = func(string) { im.read("") }
	im.width = p.lengthField("Full width if not said", "150 cm or 60 in", measure.Width)
	im.width.Entry.OnSubmitted = func(string) { im.plan() }
	im.width.Entry.Lost = func() { im.widthLeft() }
	im.sheet = widgets.NewChoice("Sheet", nil, func(name string) { im.read(name) })
	im.headings = widgets.NewChoice("The headings are in", nil, func(string) { im.below() })
	im.leave = widgets.NewCheck("Leave out the rows that are refused", func(bool) { im.count() })
	im.only = widgets.NewCheck("Show only rows with a remark", func(bool) { im.fill() })
	im.rows = widgets.NewRowList([]widgets.Column{{Title: "Line", Width: 54, Right: true}, {Title: "Outcome", Width: 96}})
	im.rows.Chosen = func(r widgets.Row) { im.show(r.Key.(int)) }
	im.rows.Act = func(r widgets.Row) { im.skip(r.Key.(int)) }
	im.rows.Key = func(k fyne.KeyName) {
		if k == fyne.KeyEscape {
			im.close()
		}
	}
	im.send = widgets.Primary("Bring in", im.bring)
	im.send.Disable()
	im.stop = widgets.NewButton("Stop", im.halt)
	im.stop.Hide()
	im.lay()
	return im
}

// lay puts the view together.
func (im *lister) lay() {
	choose := widgets.NewButton("Choose a file", im.choose)
	back := widgets.NewButton("Back to the shelf", im.close)
	for name, o := range map[string]fyne.CanvasObject{"list.file": im.file.Entry, "list.choose": choose, "list.width": im.width.Entry, "list.sheet": im.sheet,
		"list.headings": im.headings, "list.leave": im.leave, "list.only": im.only, "list.rows": im.rows, "list.send": im.send, "list.stop": im.stop, "list.back": back, "list.told": im.told} {
		im.page.host.Names.Set(name, o)
	}
	for _, f := range []*widgets.Field{im.file, im.width} {
		f.Entry.Escape = im.close
	}
	for _, c := range []*widgets.Choice{im.sheet, im.headings} {
		c.Escape = im.close
	}
	im.leave.Escape, im.only.Escape = im.close, im.close
	im.sheet.Object().Hide()
	im.leave.Hide()
	im.only.Hide()
	head := container.NewBorder(nil, nil, widgets.Heading("Bring in a list"), container.NewHBox(back, im.stop, im.send))
	from := container.NewGridWithColumns(2,
		container.NewBorder(nil, nil, nil, container.NewVBox(widgets.Caption(" "), choose), im.file.Object()),
		container.NewGridWithColumns(3, im.width.Object(), im.headings.Object(), im.sheet.Object()))
	top := container.NewVBox(head,
		widgets.Remark("", "A list that you keep already, from a spreadsheet. Say above each column what it is. Nothing is kept before you have seen what becomes of every row; one Undo takes all of it back.", widgets.Quiet),
		from, container.NewHScroll(im.preview), im.told,
		container.NewHBox(im.leave, im.only))
	verdicts := container.NewBorder(im.rows.Header("What becomes of each row"), nil, nil, nil, im.rows)
	split := widgets.Sides(verdicts, container.NewVScroll(widgets.Inset(im.detail)), 0.62)
	im.object = container.NewPadded(container.NewBorder(top, nil, nil, nil, split))
	im.told.Add(widgets.Remark("", "Choose a file, or drop one on the window.", widgets.Quiet))
}

// choose opens the file dialog.
func (im *lister) choose() {
	im.page.host.ChooseFile(listEndings, func(path string) {
		im.file.Entry.SetText(path)
		im.read("")
	})
}

// listEndings are the endings of files that may be lists.
var listEndings = []string{".xlsx", ".xlsm", ".csv", ".tsv", ".tab", ".txt"}

// IsList says whether a file may be a list, by its name.
func IsList(path string) bool {
	for _, e := range listEndings {
		if strings.EqualFold(filepath.Ext(path), e) {
			return true
		}
	}
	return false
}

// mostList is the largest file that is read, in bytes.
const mostList = 64 << 20

// read reads the file named.
func (im *lister) read(sheet string) {
	path := strings.TrimSpace(im.file.Text())
	if path == "" {
		return
	}
	var d planner.ListDraft
	im.say(widgets.Remark("", "Reading the list …", widgets.Quiet))
	im.page.host.Tasks.Start("list.read", func(ctx context.Context, _ func(func())) error {
		f, err := os.Open(path)
		if err != nil {
			return page.CannotRead(path, err)
		}
		defer f.Close()
		data, err := io.ReadAll(io.LimitReader(f, mostList+1))
		if err != nil {
			return page.CannotRead(path, err)
		}
		d, err = im.page.host.Studio.ReadList(ctx, filepath.Base(path), data, sheet)
		return err
	}, func(err error) { im.seen(d, err) })
}

func (im *lister) say(o ...fyne.CanvasObject) {
	im.told.Objects = o
	im.told.Refresh()
}

// seen shows the list that was read, or why it cannot be.
func (im *lister) seen(d planner.ListDraft, err error) {
	if err != nil {
		im.clear()
		im.say(widgets.Remark("× ", say.Error(err), widgets.Bad))
		return
	}
	im.draft = &d
	im.leave.Checked = false
	im.leave.Refresh()
	im.offer()
	im.pillars()
	im.plan()
}

// clear forgets the list.
func (im *lister) clear() {
	im.page.host.Tasks.Stop("list.plan")
	im.draft, im.result, im.columns, im.asking = nil, list.Result{}, nil, false
	im.preview.RemoveAll()
	im.fill()
	im.count()
}

// noHeadings is the choice for a list that begins with its first row.
const noHeadings = "no line"

// offer fills in the choices of sheet and headings.
func (im *lister) offer() {
	d := im.draft
	im.sheet.Object().Hide()
	if len(d.Book.Sheets) > 1 {
		silently(im.sheet, d.Book.Sheets, d.Book.Table.Name)
		im.sheet.Object().Show()
	}
	words := []string{noHeadings}
	for i := range min(len(d.Book.Table.Rows), 20) {
		words = append(words, fmt.Sprintf("line %d", d.Book.Table.Line(i)))
	}
	silently(im.headings, words, words[d.Mapping.Headings+1])
}

// silently gives a choice its words and one of them without calling anything.
func silently(c *widgets.Choice, words []string, chosen string) {
	changed := c.OnChanged
	c.OnChanged = nil
	c.SetOptions(words)
	c.SetSelected(chosen)
	c.OnChanged = changed
}

// below takes another row for the headings, and guesses again.
func (im *lister) below() {
	if im.draft == nil {
		return
	}
	m := im.draft.Mapping
	im.draft.Mapping = list.GuessBelow(im.draft.Book.Table, im.headings.SelectedIndex()-1, m.Units, m.Currency)
	im.draft.Skip = nil
	im.pillars()
	im.plan()
}

// widthLeft tries the list again when the width was typed and left.
func (im *lister) widthLeft() {
	if im.draft != nil && im.width.Valid() && im.width.Text() != im.draft.Mapping.Always[list.FullWidth] {
		im.plan()
	}
}

// plan tries the list as the choosers say, and shows what becomes of every row.
func (im *lister) plan() {
	if im.draft == nil || !im.width.Valid() || im.end != nil {
		return
	}
	im.draft.Mapping.Always = nil
	if w := im.page.lengthIn(im.width, measure.Width); w > 0 {
		exact := measure.Style{System: measure.Metric, Kind: measure.Width}.Exact(w)
		im.draft.Mapping.Always = map[list.Field]string{list.FullWidth: exact}
	}
	d := *im.draft
	d.Skip = map[int]bool{}
	for i := range im.draft.Skip {
		d.Skip[i] = true
	}
	var r list.Result
	im.asking = true
	im.send.Disable()
	if n := len(d.Book.Table.Rows); n > manyRows {
		im.say(widgets.Remark("", fmt.Sprintf("Looking what would become of %d rows …", n), widgets.Quiet))
	}
	im.page.host.Tasks.Start("list.plan", func(ctx context.Context, _ func(func())) (err error) {
		r, err = im.page.host.Studio.PlanList(ctx, d)
		return err
	}, func(err error) {
		im.asking = false
		if im.draft == nil {
			return
		}
		if err != nil {
			im.say(widgets.Remark("× ", say.Error(err), widgets.Bad))
			return
		}
		im.result = r
		for k, c := range im.columns {
			c.settle(r.Columns[k])
		}
		im.fill()
		im.count()
	})
}

// manyRows is from how many rows on looking through them takes long enough to say so.
const manyRows = 2000

// bring writes the list into the library. The window goes on meanwhile; until all of it is
// saved it can be stopped, and then none of it is.
func (im *lister) bring() {
	d, r, leaveOut := *im.draft, im.result, im.leave.Checked
	ctx, end := context.WithCancel(context.Background())
	im.end = end
	im.send.Disable()
	im.stop.Show()
	var act stash.Act
	im.page.host.Tasks.Start("list.bring", func(window context.Context, show func(func())) (err error) {
		defer context.AfterFunc(window, end)()
		d.Report = func(done, of int) {
			show(func() {
				im.say(widgets.Remark("", fmt.Sprintf("Bringing it in: %d of %d records. Stop leaves the library as it was.", done, of), widgets.Accent))
			})
		}
		act, err = im.page.host.Studio.ImportList(ctx, d, r, leaveOut)
		return err
	}, func(err error) {
		im.end = nil
		end()
		im.stop.Hide()
		im.brought(act, err)
	})
}

// halt stops the writing.
func (im *lister) halt() {
	if im.end != nil {
		im.end()
		im.say(widgets.Remark("", "Stopping …", widgets.Quiet))
	}
}

// brought says what came of it.
func (im *lister) brought(act stash.Act, err error) {
	switch {
	case errors.Is(err, context.Canceled):
		im.say(widgets.Remark("", "Stopped. Nothing was brought in.", widgets.Accent))
		im.send.Enable()
	case err != nil:
		im.say(widgets.Remark("× ", say.Error(err), widgets.Bad))
		im.send.Enable()
	default:
		im.page.host.Tell(say.Sentence(act.Sentence) + " Undo takes all of it back.")
		im.file.Set("")
		im.clear()
		if im.page.bringing() {
			im.close()
		}
	}
}
