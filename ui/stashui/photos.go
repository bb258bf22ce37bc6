package stashui

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// seenPhoto is a photo with its thumbnail, unpacked away from the window's thread.
type seenPhoto struct {
	stash.Photo
	thumb image.Image
}

// photosOf reads the photos of a cloth, of its fabric and of its purchase.
func (p *Page) photosOf(ctx context.Context, c stash.ClothState) (out []seenPhoto, err error) {
	for _, of := range []stash.ID{c.Fabric.ID, c.Cloth.ID, c.Cloth.PurchaseID} {
		if of == stash.NoID {
			continue
		}
		seen, err := seePhotos(ctx, p.host, of)
		if err != nil {
			return nil, err
		}
		out = append(out, seen...)
	}
	return out, nil
}

// seePhotos reads the photos of one record.
func seePhotos(ctx context.Context, h *page.Host, of stash.ID) (out []seenPhoto, err error) {
	all, err := h.Studio.Photos(ctx, of)
	if err != nil {
		return nil, err
	}
	for _, ph := range all {
		img, err := unpack(ctx, h, ph, false)
		if err != nil {
			return nil, err
		}
		out = append(out, seenPhoto{ph, img})
	}
	return out, nil
}

func unpack(ctx context.Context, h *page.Host, ph stash.Photo, full bool) (image.Image, error) {
	data, err := h.Studio.Picture(ctx, ph.Digest, full)
	if err != nil {
		return nil, err
	}
	img, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("showing a photo: %w", err)
	}
	return img, nil
}

// photoRow shows the photos, the newest swatch larger and first, and offers to add one.
func (p *Page) photoRow(c stash.ClothState, photos []seenPhoto) fyne.CanvasObject {
	row := container.NewHBox()
	order := photos
	for i := len(photos) - 1; i >= 0; i-- {
		if photos[i].Kind == stash.Swatch && photos[i].Of == stash.OfFabric {
			order = append([]seenPhoto{photos[i]}, append(append([]seenPhoto{}, photos[:i]...), photos[i+1:]...)...)
			break
		}
	}
	for i, ph := range order {
		size := fyne.NewSize(96, 72)
		if i == 0 && ph.Kind == stash.Swatch {
			size = fyne.NewSize(144, 108)
		}
		t := widgets.NewThumb(ph.thumb, size, ph.caption(), func() { showPhoto(p.host, ph, p.Focus, p.Shown) })
		p.host.Names.Set(fmt.Sprintf("photo.%d", i+1), t)
		row.Add(container.NewVBox(t, widgets.Line(ph.caption(), widgets.Quiet)))
	}
	add := widgets.NewButton("Add photo", func() { p.addPhoto(c, "") })
	p.host.Names.Set("stash.photo", add)
	if len(photos) == 0 {
		return container.NewHBox(add, widgets.Line("or drop one on the window", widgets.Quiet))
	}
	return container.NewVBox(container.NewHScroll(row), container.NewHBox(add))
}

func (ph seenPhoto) caption() string {
	switch ph.Kind {
	case stash.ClothSeen:
		return "this cloth"
	case stash.Scrap:
		return "test scrap"
	}
	return string(ph.Kind)
}

// pictureField is a field for a picture's file with a button to choose one beside it, and
// the row they make.
func pictureField(h *page.Host, name, hint string) (*widgets.Field, fyne.CanvasObject) {
	file := widgets.NewField(name, hint, nil)
	choose := widgets.NewButton("Choose a file", func() { h.ChoosePicture(func(path string) { file.Entry.SetText(path) }) })
	h.Names.Set("form.file", file.Entry)
	return file, container.NewBorder(nil, nil, nil, container.NewVBox(widgets.Caption(" "), choose), file.Object())
}

// photoSubjects are what a photo of a cloth can be of, in words.
var photoSubjects = []struct {
	words string
	of    stash.PhotoOf
	kind  stash.PhotoKind
}{
	{"swatch of the fabric", stash.OfFabric, stash.Swatch},
	{"this cloth as it lies", stash.OfCloth, stash.ClothSeen},
	{"test scrap of the fabric", stash.OfFabric, stash.Scrap},
	{"receipt of its purchase", stash.OfPurchase, stash.Receipt},
}

// addPhoto opens the form for a photo; path is a file that was dropped, or "".
func (p *Page) addPhoto(c stash.ClothState, path string) {
	var words []string
	for _, s := range photoSubjects {
		if s.of != stash.OfPurchase || c.Cloth.PurchaseID != stash.NoID {
			words = append(words, s.words)
		}
	}
	file, fileRow := pictureField(p.host, "Picture (JPEG, PNG or WebP)", "swatch.jpg")
	file.Needed = "Choose a picture, or write where it is."
	what := widgets.NewChoice("It shows", words, nil)
	note := widgets.NewField("Note", "", nil)
	p.host.Names.Set("form.shows", what)
	p.host.Names.Set("form.note", note.Entry)
	form := &widgets.Form{Title: "Add photo of " + c.Fabric.Name, Send: "Add photo", Say: say.Error, Width: 640,
		Intro: "It is turned upright and kept without place, time or camera.",
		Rows: [][]fyne.CanvasObject{{fileRow},
			{what.Object(), note.Object()}},
		Fields: []*widgets.Field{file, note}}
	form.Done = func() error {
		data, err := page.ReadPicture(strings.TrimSpace(file.Text()))
		if err != nil {
			return err
		}
		s := photoSubjects[what.SelectedIndex()]
		in := planner.PhotoForm{Of: s.of, Kind: s.kind, Note: note.Text(), File: data, OfID: c.Fabric.ID}
		switch s.of {
		case stash.OfCloth:
			in.OfID = c.Cloth.ID
		case stash.OfPurchase:
			in.OfID = c.Cloth.PurchaseID
		}
		p.host.Tell("Adding the photo …")
		p.host.Act("add photo", func(ctx context.Context) (string, error) {
			_, err := p.host.Studio.AddPhoto(ctx, in)
			return "Added a photo of " + c.Fabric.Name + ".", err
		}, func(err error) {
			if err != nil { // what was chosen is there again, to be corrected
				p.addPhoto(c, file.Text())
				return
			}
			p.Shown()
		})
		return nil
	}
	p.open(form)
	if path != "" {
		file.Entry.SetText(path)
	}
}

// showPhoto shows a photo large, with a way to remove it; focus is where the focus goes
// back to, shown reads again what is in sight.
func showPhoto(h *page.Host, ph seenPhoto, focus, shown func()) {
	var img image.Image
	h.Tasks.Start("stash.photo", func(ctx context.Context, _ func(func())) (err error) {
		img, err = unpack(ctx, h, ph.Photo, true)
		return err
	}, func(err error) {
		if err != nil {
			h.Trouble(err)
			return
		}
		popUp(h, ph, img, focus, shown)
	})
}

func popUp(h *page.Host, ph seenPhoto, img image.Image, focus, shown func()) {
	c := h.Canvas()
	large := canvas.NewImageFromImage(img)
	large.FillMode = canvas.ImageFillContain
	large.SetMinSize(fyne.NewSize(c.Size().Width*0.7, c.Size().Height*0.7))
	var pop *widget.PopUp
	keys := c.OnTypedKey()
	away := func() { pop.Hide(); c.SetOnTypedKey(keys); focus() }
	end := widgets.NewButton("Close", func() { away() })
	remove := widgets.NewButton("Remove", func() {
		away()
		h.Act("remove photo", func(ctx context.Context) (string, error) {
			return "Removed the photo. Ctrl+Z brings it back.", h.Studio.RemovePhoto(ctx, ph.ID)
		}, func(error) { shown() })
	})
	h.Names.Set("photo.close", end)
	h.Names.Set("photo.remove", remove)
	words := strings.TrimSuffix(ph.caption()+", added "+say.Day(ph.At)+". "+ph.Note, " ")
	pop = widget.NewModalPopUp(widgets.Inset(container.NewBorder(nil, container.NewBorder(nil, nil, widgets.Line(words, widgets.Quiet), container.NewHBox(remove, end)), nil, nil, large)), c)
	c.SetOnTypedKey(func(k *fyne.KeyEvent) {
		if k.Name == fyne.KeyEscape || k.Name == fyne.KeyReturn {
			away()
		}
	})
	pop.Show()
	c.Focus(end)
}

// withPhotos shows a section at once, and again with the photos of its owner as soon as they are read.
func withPhotos(h *page.Host, task string, owner stash.ID, section func([]seenPhoto) fyne.CanvasObject) fyne.CanvasObject {
	box := container.NewStack(section(nil))
	var photos []seenPhoto
	h.Tasks.Start(task, func(ctx context.Context, _ func(func())) (err error) {
		photos, err = seePhotos(ctx, h, owner)
		return err
	}, func(err error) {
		if err != nil {
			h.Trouble(err)
			return
		}
		if len(photos) > 0 {
			box.Objects = []fyne.CanvasObject{section(photos)}
			box.Refresh()
		}
	})
	return box
}
