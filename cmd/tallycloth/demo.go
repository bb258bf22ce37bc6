package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"tallycloth/db"
	"tallycloth/ui/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// demoFolder is where the demo studio lies that is opened from the library in a
// folder: beside it. It is "" for the demo studio itself.
func demoFolder(folder string) string {
	const name = "tallycloth-demo"
	if filepath.Base(folder) == name {
		return ""
	}
	return filepath.Join(filepath.Dir(folder), name)
}

// showDemo opens the demo studio in place of a window. On first use it is made, which
// takes a while.
func (d *desktop) showDemo(folder string, before fyne.Window) {
	d.showAway("Making the demo studio …", "The demo studio cannot be opened", before, func() (*db.Library, error) {
		if _, missing := os.Stat(filepath.Join(folder, "library.db")); errors.Is(missing, fs.ErrNotExist) {
			if err := program().MakeDemo(d.ctx, folder); err != nil {
				return nil, err
			}
		}
		return d.open(folder, false)
	})
}

// showAway shows a library in place of a window once it is open, which happens away from the window's
// thread: a newer version may have much to change in it. Where that fails the window stays.
func (d *desktop) showAway(words, failed string, before fyne.Window, open func() (*db.Library, error)) {
	busy := widget.NewProgressBarInfinite()
	wait := dialog.NewCustomWithoutButtons(words, busy, before)
	wait.Show()
	go func() {
		store, err := open()
		fyne.Do(func() {
			wait.Hide()
			busy.Stop()
			if err != nil {
				dialog.ShowInformation(failed, say.Error(err), before)
				return
			}
			d.show(store, before)
		})
	}()
}
