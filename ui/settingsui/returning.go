package settingsui

import (
	"context"
	"errors"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"tallycloth/planner"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// returning is the list of back-ups with what going back to one would change.
type returning struct {
	page   *Page
	all    []planner.Backup
	list   *widgets.RowList
	file   *widgets.Field
	tells  *fyne.Container
	go_    *widgets.Button
	chosen string // path of what is shown, "" for nothing
	whole  fyne.CanvasObject
}

func newReturning(p *Page) *returning {
	r := &returning{page: p, tells: container.NewVBox()}
	r.list = widgets.NewRowList([]widgets.Column{{Title: "Size", Width: 80, Right: true, Yields: 1}})
	r.list.Chosen = func(row widgets.Row) { r.compare(row.Key.(string)) }
	r.list.Key = func(k fyne.KeyName) {
		if k == fyne.KeyEscape {
			p.EscapeHere()
		}
	}
	r.file = widgets.NewField("Or a back-up of your own (folder and name of its file)", "/media/sewing/tallycloth-spring.db", func(t string) (string, error) {
		if !filepath.IsAbs(strings.TrimSpace(t)) {
			return "", errors.New("begin with /, such as /media/sewing/tallycloth-spring.db; Enter looks into it")
		}
		return "Enter looks into it", nil
	})
	r.file.Entry.OnSubmitted = func(t string) {
		if r.file.Valid() && strings.TrimSpace(t) != "" {
			r.list.Unchoose() // so that any row can be chosen again
			r.compare(strings.TrimSpace(t))
		}
	}
	r.go_ = widgets.Primary("Go back to this one", r.goBack)
	r.go_.Disable()
	leave := widgets.NewButton("Leave it as it is", func() { p.EscapeHere() })
	choose := widgets.NewButton("Choose a file", func() {
		p.host.ChooseFile([]string{".db"}, func(path string) { r.file.Set(path); r.list.Unchoose(); r.compare(path) })
	})
	for name, o := range map[string]fyne.CanvasObject{"return.choose": choose, "return.list": r.list, "return.file": r.file.Entry, "return.go": r.go_, "return.leave": leave} {
		p.host.Names.Set(name, o)
	}
	of := container.NewBorder(nil, nil, nil, container.NewVBox(widgets.Caption(" "), choose), r.file.Object())
	left := container.NewBorder(r.list.Header("Back-up"), of, nil, nil, r.list)
	right := container.NewBorder(nil, container.NewHBox(leave, r.go_), nil, nil, container.NewVScroll(r.tells))
	r.whole = container.NewBorder(container.NewVBox(widgets.Heading("Go back to a back-up"),
		widgets.Paragraph("Choose one to see what would change. The library as it is now is kept as a back-up first, so that you can come back.")),
		nil, nil, nil, widgets.Sides(left, widgets.Inset(right), 0.42))
	return r
}

func (r *returning) open() bool { return r.page.stage.Objects[0] == r.whole }

// shown reads the list of back-ups again.
func (r *returning) shown() {
	var all []planner.Backup
	r.page.host.Tasks.Start("settings.backups", func(ctx context.Context, _ func(func())) (err error) {
		all, err = r.page.host.Studio.Backups(ctx)
		return err
	}, func(err error) {
		if err != nil {
			r.page.host.Trouble(err)
			return
		}
		r.all = all
		var rows []widgets.Row
		for _, b := range all {
			rows = append(rows, widgets.Row{Key: b.Path, Title: say.Moment(b.At), Sub: say.BackupWhy(b.Why), Cells: []widgets.Cell{{Text: say.Bytes(b.Bytes)}}})
		}
		r.list.Set(rows)
		r.page.tellState(all)
		switch {
		case r.chosen != "" && r.open(): // what would change may be something else by now
			r.compare(r.chosen)
		case r.chosen == "":
			r.tell(widgets.Remark("", map[bool]string{true: "No day's back-up was kept yet: one is made each day that the window is opened after something was done. A copy that you saved yourself is chosen at the left.", false: "Nothing is chosen yet."}[len(all) == 0], widgets.Quiet))
		}
	})
}

func (r *returning) tell(lines ...fyne.CanvasObject) {
	r.tells.Objects = lines
	r.tells.Refresh()
}

// compare looks through a back-up and says what going back to it would change.
func (r *returning) compare(path string) {
	r.chosen = path
	r.go_.Disable()
	r.tell(widgets.Remark("", "Looking through the back-up …", widgets.Quiet))
	var got planner.Returning
	r.page.host.Tasks.Start("settings.compare", func(ctx context.Context, _ func(func())) (err error) {
		got, err = r.page.host.Studio.Compare(ctx, path)
		return err
	}, func(err error) {
		if err != nil {
			r.tell(widgets.Remark("", say.Error(err), widgets.Bad))
			return
		}
		r.say(got)
	})
}

func (r *returning) say(got planner.Returning) {
	lines := []fyne.CanvasObject{widgets.Styled("Back-up from "+say.Moment(got.Backup.At), theme.SizeNameSubHeadingText, widgets.Plain, true),
		widgets.Remark("", "It was looked through and is whole.", widgets.Quiet)}
	for i, s := range say.Returning(got) {
		tone := widgets.Plain
		if i == 0 && got.GoneAll > 0 {
			tone = widgets.Careful
		}
		lines = append(lines, widgets.Remark("", s, tone))
	}
	if got.GoneAll > 0 && !got.OtherOrigin {
		lines = append(lines, widgets.Caption(" "), widgets.Styled("What would be gone, newest first", theme.SizeNameText, widgets.Plain, true))
		for i, a := range got.Gone {
			if i == 40 {
				lines = append(lines, widgets.Remark("", say.Count(got.GoneAll-i, "more before", "more before"), widgets.Quiet))
				break
			}
			lines = append(lines, widgets.Remark("", say.Moment(a.At)+"  "+a.Sentence, widgets.Quiet))
		}
	}
	r.tell(lines...)
	if r.page.host.Library != nil && r.page.host.Studio.ReadOnly() == "" && (got.GoneAll > 0 || got.Back > 0) {
		r.go_.Enable()
	}
}

func (r *returning) goBack() { r.page.host.Library.Return(r.chosen) }
