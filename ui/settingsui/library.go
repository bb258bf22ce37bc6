package settingsui

import (
	"context"
	"errors"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// library is what can be done with the library as a whole.
func (p *Page) library() fyne.CanvasObject {
	now, back := widgets.NewButton("Back up now", p.backUpNow), widgets.NewButton("Go back to a back-up …", func() { p.show(p.back.whole); p.back.shown() })
	move, other := widgets.NewButton("Move library …", p.move), widgets.NewButton("Open another library …", p.another)
	for name, b := range map[string]*widgets.Button{"backup": now, "return": back, "move": move, "other": other} {
		p.host.Names.Set("settings."+name, b)
	}
	if p.host.Library == nil {
		move.Disable()
		other.Disable()
	}
	return container.NewVBox(p.state, container.NewHBox(now, back), container.NewHBox(move, other))
}

// tellState says where the library is and what the newest back-up is.
func (p *Page) tellState(all []planner.Backup) {
	p.state.RemoveAll()
	if p.host.Library != nil {
		p.state.Add(widgets.Remark("", "This library is in "+p.host.Library.Folder()+".", widgets.Quiet))
	}
	words := "No day's back-up was kept beside the library yet; those saved elsewhere are not listed here."
	if len(all) > 0 {
		b := all[0]
		words = say.Count(len(all), "back-up", "back-ups") + "; the newest is from " + say.Moment(b.At) + ", " + say.BackupWhy(b.Why) + ", " + say.Bytes(b.Bytes) +
			". They lie on the same disk: write one to another disk now and then."
	}
	p.state.Add(widgets.Remark("", words, widgets.Quiet))
	p.state.Refresh()
}

// backUpNow asks where a copy is to be written.
func (p *Page) backUpNow() {
	path := widgets.NewField("Save as (folder and name), on another disk if you can", "tallycloth.db", nil)
	path.Needed = "Say where to save the file."
	path.Set(filepath.Join(page.Documents(), "tallycloth-"+string(p.host.Studio.Today())+".db"))
	p.host.Names.Set("form.path", path.Entry)
	f := &widgets.Form{Title: "Back up now", Send: "Save the back-up", Say: say.Error, Fields: []*widgets.Field{path}, Rows: [][]fyne.CanvasObject{{path.Object()}},
		Intro: "A whole copy of the library, photos too, looked through once it is written. You can go on working meanwhile."}
	f.Done = func() error {
		to := strings.TrimSpace(path.Text())
		p.host.Tell("Backing up …")
		p.host.Act("backup", func(ctx context.Context) (string, error) {
			return "Backed up to " + to + ".", p.host.Studio.Backup(ctx, to)
		}, func(err error) {
			if err == nil {
				p.back.file.Set(to) // where to go back to it
			}
			p.back.shown()
		})
		return nil
	}
	p.open(f)
}

func (p *Page) open(f *widgets.Form) {
	p.host.ShowForm(f)
}

// folderForm asks for a folder; what is there is said while it is typed.
func (p *Page) folderForm(title, intro, send string, look func(folder string) (string, error), do func(folder string) error) {
	folder := widgets.NewField("Folder, written whole", "/media/sewing/tallycloth", func(t string) (string, error) {
		if !filepath.IsAbs(strings.TrimSpace(t)) {
			return "", errors.New("begin with /, such as /media/sewing/tallycloth")
		}
		return look(strings.TrimSpace(t))
	})
	folder.Needed = "Say which folder."
	p.host.Names.Set("form.folder", folder.Entry)
	f := &widgets.Form{Title: title, Intro: intro, Send: send, Say: say.Error, Fields: []*widgets.Field{folder}, Rows: [][]fyne.CanvasObject{{folder.Object()}}}
	f.Done = func() error { return do(strings.TrimSpace(folder.Text())) }
	p.open(f)
}

func (p *Page) move() {
	p.folderForm("Move library", "The library with its photos and back-ups goes into another folder, empty or new. It is looked through there before anything is removed here. From then on it is opened there.",
		"Move it", p.host.Library.LooksNew, p.host.Library.Move)
}

func (p *Page) another() {
	p.folderForm("Open another library", "The folder of a library that you have, or an empty or new one for a new library. From then on that one is opened when the program starts; this one stays as it is.",
		"Open it", p.host.Library.Looks, p.host.Library.Open)
}
