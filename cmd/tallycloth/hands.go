package main

import (
	"errors"
	"os"
	"path/filepath"
	"time"

	"tallycloth/cmd/tallycloth/verb"
	"tallycloth/db"
	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// hands do what concerns the library of a window as a whole. It is a page.Libraries.
type hands struct {
	*desktop
	folder string
	window func() fyne.Window
}

// Folder is where the library lies.
func (h *hands) Folder() string { return h.folder }

// Return puts a back-up in the library's place.
func (h *hands) Return(path string) {
	h.without("Going back to a back-up", "Looking the back-up through, and keeping what is there …", h.folder, func() (string, error) {
		_, err := db.Return(h.ctx, h.folder, path, time.Now())
		return h.folder, err
	})
}

// Move takes the library into another folder and remembers it.
func (h *hands) Move(folder string) error {
	if _, err := h.LooksNew(folder); err != nil {
		return err
	}
	h.without("Moving the library", "Copying the library, and looking the copy through …", h.folder, func() (string, error) {
		if err := db.Move(h.ctx, h.folder, folder); err != nil {
			return h.folder, err
		}
		return folder, verb.Remember(os.Getenv, folder)
	})
	return nil
}

// Open opens another library, now and when the program starts. One that cannot be read at all is refused at once.
func (h *hands) Open(folder string) error {
	if _, err := h.Looks(folder); err != nil {
		return err
	}
	h.showAway("Opening the library, and looking it through …", "The library cannot be opened", h.window(), func() (*db.Library, error) {
		store, err := h.open(folder, false)
		if err != nil {
			return nil, err
		}
		if err := verb.Remember(os.Getenv, store.Folder()); err != nil {
			return nil, errors.Join(err, store.Close())
		}
		return store, nil
	})
	return nil
}

// Looks says what Open would find.
func (h *hands) Looks(folder string) (string, error) {
	if filepath.Clean(folder) == h.folder {
		return "", &stash.Error{Kind: stash.Invalid, What: "This library is open already"}
	}
	found, err := db.Look(h.ctx, folder)
	switch {
	case err != nil:
		return "", err
	case found:
		return "= there is a library", nil
	}
	return "= a new library will be made there", nil
}

// LooksNew says whether Move may go there.
func (h *hands) LooksNew(folder string) (string, error) {
	if _, err := db.NewHome(h.folder, folder); err != nil {
		return "", err
	}
	return "= it can be moved there", nil
}

// without closes window and library, does something with its files away from the window's
// thread, and opens the library in the folder that it says. A small window stays meanwhile.
func (h *hands) without(title, words, folder string, do func() (folder string, err error)) {
	wait := h.app.NewWindow("Tallycloth: " + title)
	busy := widget.NewProgressBarInfinite()
	wait.SetContent(container.NewPadded(container.NewVBox(widget.NewLabel(words), busy)))
	wait.Resize(fyne.NewSize(520, 140))
	wait.SetCloseIntercept(func() {}) // it closes by itself, when it may
	wait.CenterOnScreen()
	wait.Show()
	h.window().Close()
	closing := h.close()
	h.store = nil
	go func() {
		err := closing
		if err == nil {
			folder, err = do()
		}
		fyne.Do(func() {
			busy.Stop()
			wait.SetCloseIntercept(nil)
			h.beginOver(folder, wait)
			if err != nil {
				h.tell(title, err)
			}
		})
	}()
}

// tell says over the newest window what went wrong.
func (d *desktop) tell(title string, err error) {
	all := d.app.Driver().AllWindows()
	if len(all) > 0 {
		dialog.ShowInformation(title, say.Error(err), all[len(all)-1])
	}
}

// newestBackup is the newest back-up of the library in a folder.
func newestBackup(folder string) (planner.Backup, bool) {
	all, err := db.BackupsIn(folder)
	if err != nil || len(all) == 0 {
		return planner.Backup{}, false
	}
	return all[0], true
}
