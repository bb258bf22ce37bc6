package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"time"

	"tallycloth/cmd/tallycloth/verb"
	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui"
	"tallycloth/ui/say"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// settled is how long after its start a window has read its library, and what follows from it.
const settled = 20 * time.Second

// openWindow opens the window on the library in a folder and returns when the last
// window is closed, or the context ends.
func openWindow(ctx context.Context, folder string) error {
	if os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		return &stash.Error{Kind: stash.Unsupported, What: "There is no display to open the window on", Do: "Use a verb instead, see tallycloth --help"}
	}
	debug.SetGCPercent(50) // a shelf in memory hardly changes: less is kept beside it
	d := &desktop{ctx: ctx, app: app.NewWithID("tallycloth")}
	d.leaving = newLeaving(d.close)
	// What reading a large shelf left behind is given back to the system once the window has settled.
	defer time.AfterFunc(settled, debug.FreeOSMemory).Stop()
	stop := context.AfterFunc(ctx, func() { fyne.Do(d.app.Quit) })
	defer stop()
	if err := d.try(func() { d.begin(folder) }); err != nil {
		return errors.Join(err, d.leaving.close())
	}
	d.app.Run()
	d.leaving.ended.Store(true)
	return d.leaving.close()
}

// try does what makes the first window. The toolkit panics when the display does not
// answer; a person gets a sentence instead.
func (d *desktop) try(first func()) (err error) {
	defer func() {
		if trouble := recover(); trouble != nil {
			err = &stash.Error{
				Kind: stash.Unsupported, What: "The window cannot be opened on this display", Err: fmt.Errorf("%v", trouble),
				Do: "Check DISPLAY or WAYLAND_DISPLAY and the graphics driver, or use a verb, see tallycloth --help",
			}
		}
	}()
	first()
	return nil
}

// desktop is the program while its windows are open. All of it runs on the window's
// own thread.
type desktop struct {
	ctx     context.Context
	app     fyne.App
	store   *db.Library // the one in sight, nil while there is none
	leaving *leaving
}

// begin opens the library and shows it, or says in a small window why it cannot be.
func (d *desktop) begin(folder string) {
	d.beginOver(folder, nil)
}

// beginOver is begin in place of a window that there is.
func (d *desktop) beginOver(folder string, before fyne.Window) {
	store, err := d.openOrMiss(folder)
	if err != nil {
		d.refuse(folder, err)
		if before != nil {
			before.Close()
		}
		return
	}
	d.show(store, before)
}

// openOrMiss opens a library for writing. One that was opened last and is gone now, with the
// disk it lies on perhaps, is missed rather than begun anew.
func (d *desktop) openOrMiss(folder string) (*db.Library, error) {
	if _, err := os.Stat(filepath.Join(folder, "library.db")); err != nil && folder == verb.Remembered(os.Getenv) {
		return nil, &stash.Error{
			Kind: stash.NotFound, What: "The library that was opened last is not there any more", Err: err,
			Do: "Connect the disk that it lies on and start again, or name another with tallycloth --library FOLDER",
		}
	}
	return d.open(folder, false)
}

func (d *desktop) open(folder string, readOnly bool) (*db.Library, error) {
	return db.Open(d.ctx, folder, db.Options{ReadOnly: readOnly, Now: time.Now, NewID: newID})
}

// show opens the window on a library and closes the one there was before.
func (d *desktop) show(store *db.Library, before fyne.Window) {
	set, err := store.Settings(d.ctx)
	if err != nil {
		set = planner.DefaultSettings()
	}
	studio := planner.NewStudio(planner.Config{Store: store, Now: time.Now, NewID: newID, Workers: runtime.NumCPU()})
	deps := ui.Deps{Studio: studio, Tasks: task.New(fyne.Do), Folder: store.Folder()}
	var w fyne.Window
	title := "Tallycloth: demo studio"
	if demo := demoFolder(store.Folder()); demo != "" {
		title = "Tallycloth"
		deps.Demo = func() { d.showDemo(demo, w) }
	}
	deps.Memory = preferences{d.app.Preferences()}
	deps.Opened = d.leaving.opened
	deps.Library = &hands{desktop: d, folder: store.Folder(), window: func() fyne.Window { return w }}
	w, _ = ui.Open(d.app, title, deps, set)
	last := d.store
	d.store = store
	if before != nil {
		before.Close() // its tasks end before its library is closed
	}
	if last != nil {
		last.Close()
	}
}

// refuse says why a library cannot be opened. One that is in use, or that cannot be
// written, may still be looked at.
func (d *desktop) refuse(folder string, err error) {
	d.app.Settings().SetTheme(ui.ThemeOf(planner.DefaultSettings()))
	w := d.app.NewWindow("Tallycloth")
	d.leaving.opened(w, nil)
	words := widget.NewLabel(say.Error(err) + "\n\nThe library is in " + folder + ".")
	words.Wrapping = fyne.TextWrapWord
	quit := widgets.NewButton("Close", d.app.Quit)
	buttons := container.NewHBox(quit)
	if errors.Is(err, stash.ErrConflict) {
		look := widgets.NewButton("Look at it without changing it", func() {
			store, err := d.open(folder, true)
			if err != nil {
				words.SetText(say.Error(err))
				return
			}
			d.show(store, w)
		})
		look.Importance = widget.HighImportance
		buttons = container.NewHBox(look, quit)
		defer w.Canvas().Focus(look)
	}
	if b, ok := newestBackup(folder); ok && errors.Is(err, stash.ErrUnsupported) {
		buttons.Add(widgets.NewButton("Go back to the back-up from "+say.Moment(b.At), func() {
			(&hands{desktop: d, folder: folder, window: func() fyne.Window { return w }}).Return(b.Path)
		}))
	}
	w.SetContent(container.NewPadded(container.NewBorder(nil, buttons, nil, nil, words)))
	w.Resize(fyne.NewSize(560, 240))
	w.CenterOnScreen()
	w.Show()
}

// close lets go of the library after the last window.
func (d *desktop) close() error {
	if d.store == nil {
		return nil
	}
	return d.store.Close()
}

// preferences are the toolkit's store of small things, as a page.Memory.
type preferences struct{ fyne.Preferences }

// Get returns what was kept under a name, or "".
func (p preferences) Get(name string) string { return p.String(name) }

// Set keeps something.
func (p preferences) Set(name, value string) { p.SetString(name, value) }
