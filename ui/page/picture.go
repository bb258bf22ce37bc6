package page

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"tallycloth/stash"
)

// pictureEndings are the endings of files that may be photos.
var pictureEndings = []string{".jpg", ".jpeg", ".png", ".webp"}

// mostPicture is the largest picture that is read, in bytes.
const mostPicture = 64 << 20

// IsPicture says whether a file may be a photo, by its name.
func IsPicture(path string) bool {
	for _, e := range pictureEndings {
		if strings.EqualFold(filepath.Ext(path), e) {
			return true
		}
	}
	return false
}

// ReadPicture reads a file, no more of it than a photo has. The error says what to do.
func ReadPicture(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, CannotRead(path, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostPicture))
	if err != nil {
		return nil, CannotRead(path, err)
	}
	return data, nil
}

// CannotRead says why a file cannot be opened and what to do.
func CannotRead(path string, err error) error {
	what, do := "The file "+path+" cannot be opened", "Look whether you may read it"
	if errors.Is(err, fs.ErrNotExist) {
		what, do = "There is no file "+path, "Look at its name, or choose it with the button"
	}
	return &stash.Error{Kind: stash.NotFound, What: what, Do: do, Err: err}
}

// ChoosePicture opens the file dialog for a picture.
func (h *Host) ChoosePicture(chosen func(path string)) {
	h.ChooseFile(append(pictureEndings, ".JPG", ".JPEG", ".PNG", ".WEBP"), chosen)
}

// ChooseFile opens the file dialog for files with one of these endings, large enough to see something
// in it.
func (h *Host) ChooseFile(endings []string, chosen func(path string)) {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if err != nil || r == nil {
			h.Trouble(err)
			return
		}
		path := r.URI().Path()
		r.Close()
		chosen(path)
	}, h.Window())
	d.SetFilter(storage.NewExtensionFileFilter(endings))
	size := h.Canvas().Size()
	d.Resize(fyne.NewSize(size.Width*0.85, size.Height*0.85))
	d.Show()
}
