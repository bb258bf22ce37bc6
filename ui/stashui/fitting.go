package stashui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// GarmentFittings shows what was seen when a garment was tried on, with its photos, and notes more.
type GarmentFittings struct {
	Host    *page.Host
	Garment garment.Garment
	// Focus is where the focus goes after something was closed, Shown reads again what is in sight.
	Focus, Shown func()
}

// Object shows them, the photos as soon as they are read.
func (s GarmentFittings) Object() fyne.CanvasObject {
	return withPhotos(s.Host, "fitting.photos", s.Garment.ID, s.section)
}

func (s GarmentFittings) section(photos []seenPhoto) fyne.CanvasObject {
	body := container.NewVBox()
	shown := map[stash.ID]bool{}
	for i, f := range s.Garment.Record.Fittings {
		row := container.NewHBox()
		for _, ph := range photos {
			if slices.Contains(f.Photos, ph.ID) {
				shown[ph.ID] = true
				row.Add(s.thumb(ph))
			}
		}
		remove := widgets.NewButton("Remove", func() { s.drop(i + 1) })
		remove.Importance = widget.LowImportance
		s.Host.Names.Set(fmt.Sprintf("fitting.remove.%d", i+1), remove)
		row.Add(container.NewVBox(remove))
		body.Add(widgets.Remark("· ", strings.TrimSuffix(say.Day(f.On)+": "+f.Text, ": ")+".", widgets.Plain))
		body.Add(row)
	}
	rest := container.NewHBox()
	for _, ph := range photos {
		if ph.Kind == stash.Worn && !shown[ph.ID] {
			rest.Add(s.thumb(ph))
		}
	}
	if len(rest.Objects) > 0 {
		body.Add(container.NewHScroll(rest))
	}
	if len(body.Objects) == 0 {
		body.Add(widgets.Remark("", "Nothing was noted yet.", widgets.Quiet))
	}
	note := widgets.NewButton("Note the fitting", s.edit)
	s.Host.Names.Set("garment.fitting", note)
	body.Add(container.NewHBox(note))
	return body
}

func (s GarmentFittings) thumb(ph seenPhoto) *widgets.Thumb {
	t := widgets.NewThumb(ph.thumb, fyne.NewSize(96, 72), ph.caption(), func() { showPhoto(s.Host, ph, s.Focus, s.Shown) })
	s.Host.Names.Set("fitting.photo", t)
	return t
}

func (s GarmentFittings) drop(at int) {
	s.Host.Act("remove fitting", func(ctx context.Context) (string, error) {
		return "Removed the note; its photos stay. Ctrl+Z brings it back.", s.Host.Studio.DropFitting(ctx, s.Garment.ID, at)
	}, func(error) { s.Shown() })
}

// edit asks what was seen.
func (s GarmentFittings) edit() {
	text := widgets.NewField("What you saw", "gapes at the back neck", nil)
	day := s.Host.DayField("Day", s.Host.Studio.Today())
	file, fileRow := pictureField(s.Host, "Photo (if there is one)", "fitting.jpg")
	s.Host.Names.Set("form.text", text.Entry)
	s.Host.Names.Set("form.day", day.Entry)
	form := &widgets.Form{Title: "Fitting of " + s.Garment.Name, Send: "Note it", Say: say.Error, Width: 640,
		Rows: [][]fyne.CanvasObject{{text.Object()}, {day.Object()}, {fileRow}}, Fields: []*widgets.Field{text, day, file}}
	form.Done = func() error {
		in := planner.FittingForm{Text: text.Text()}
		in.On, _ = s.Host.DayIn(day)
		check := garment.Fitting{On: in.On, Text: in.Text}
		if path := strings.TrimSpace(file.Text()); path != "" {
			data, err := page.ReadPicture(path)
			if err != nil {
				return err
			}
			in.Photo, check.Photos = data, make([]stash.ID, 1)
		}
		if _, err := s.Garment.WithFitting(check); err != nil {
			return err
		}
		s.Host.Act("fitting", func(ctx context.Context) (string, error) {
			_, err := s.Host.Studio.NoteFitting(ctx, s.Garment.ID, in)
			return "Noted the fitting of " + s.Garment.Name + ".", err
		}, func(err error) {
			if err != nil { // what was typed is there again, to be corrected
				s.Host.ShowForm(form)
				return
			}
			s.Shown()
		})
		return nil
	}
	s.Host.ShowForm(form)
}
