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
// takes a while, away from the window's thread.
func (d *desktop) showDemo(folder string, before fyne.Window) {
	busy := widget.NewProgressBarInfinite()
	wait := dialog.NewCustomWithoutButtons("Making the demo studio …", busy, before)
	wait.Show()
	go func() {
		var err error
		if _, missing := os.Stat(filepath.Join(folder, "library.db")); errors.Is(missing, fs.ErrNotExist) {
			err = program().MakeDemo(d.ctx, folder)
		}
		fyne.Do(func() {
			wait.Hide()
			busy.Stop()
			var store *db.Library
			if err == nil {
				store, err = d.open(folder, false)
			}
			if err != nil {
				dialog.ShowInformation("The demo studio cannot be opened", say.Error(err), before)
				return
			}
			d.show(store, before)
		})
	}()
}
