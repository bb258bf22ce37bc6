package ui

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/records"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// The words of the choices.
var (
	unitWords  = []string{"metric: m, cm, g/m²", "imperial: yd, in, oz/yd²"}
	lightWords = []string{"as the system", "light", "dark"}
	paperWords = []string{records.A4, records.Letter}
	textWords  = []string{"80 %", "90 %", "100 %", "110 %", "125 %", "140 %", "160 %"}
)

// choose opens the person's choices. They are kept in the library and can be undone.
func (s *Shell) choose() {
	set := s.set
	units := widgets.NewChoice("Units (both can always be typed)", unitWords, nil)
	units.SetSelectedIndex(int(set.Units))
	look := widgets.NewChoice("Light or dark", lightWords, nil)
	look.SetSelected(set.DarkTheme)
	if set.DarkTheme == "" {
		look.SetSelectedIndex(0)
	}
	text := widgets.NewChoice("Text size", textWords, nil)
	text.SetSelected(fmt.Sprintf("%d %%", set.TextPercent))
	classes := s.classesField(set)
	currency := widgets.NewField("Currency (three letters)", "EUR", func(t string) (string, error) {
		code, err := measure.ParseCurrency(t, set.Currency)
		if err != nil {
			return "", err
		}
		return "= " + code, nil
	})
	currency.Needed = "Say in which currency prices are."
	currency.Set(set.Currency)
	paper := widgets.NewChoice("Paper to print on", paperWords, nil)
	if set.Paper == records.Letter {
		paper.SetSelected(records.Letter)
	}
	for name, o := range map[string]fyne.CanvasObject{"settings.paper": paper, "settings.units": units, "settings.look": look, "settings.text": text, "settings.currency": currency.Entry} {
		s.host.Names.Set(name, o)
	}
	form := &widgets.Form{Title: "Settings", Send: "Keep", Say: say.Error, Width: 520, Fields: []*widgets.Field{currency},
		Rows: [][]fyne.CanvasObject{{units.Object(), currency.Object()}, {look.Object(), text.Object()}, {paper.Object()}}}
	form.Done = func() error {
		set.Units = measure.System(units.SelectedIndex())
		set.DarkTheme, set.Paper = "", ""
		if paper.Selected == records.Letter {
			set.Paper = records.Letter
		}
		if look.SelectedIndex() > 0 {
			set.DarkTheme = look.Selected
		}
		if n, err := strconv.Atoi(strings.Fields(text.Selected + " 100")[0]); err == nil {
			set.TextPercent = n
		}
		code, err := measure.ParseCurrency(currency.Text(), set.Currency)
		if err != nil {
			return err
		}
		set.Currency = code
		if set.Classes, err = stash.ParseStretchClasses(classes.Text()); err != nil {
			return err
		}
		s.keepSettings(set)
		return nil
	}
	form.Rows, form.Fields = append(form.Rows, []fyne.CanvasObject{classes.Object()}), append(form.Fields, classes)
	form.Show(s.window.Canvas())
	s.host.Names.Set("settings.send", form.SendButton())
}

// classesField reads the words for stretch.
func (s *Shell) classesField(set planner.Settings) *widgets.Field {
	f := widgets.NewField("Words for stretch, by their limits (published ones differ)", stash.UsualStretch, func(t string) (string, error) {
		c, err := stash.ParseStretchClasses(t)
		if err != nil {
			return "", errors.New(say.Error(err))
		}
		return "= " + c.String(), nil
	})
	f.Set(set.Classes.String())
	s.host.Names.Set("settings.classes", f.Entry)
	return f
}

func (s *Shell) keepSettings(set planner.Settings) {
	s.host.Act("settings", func(ctx context.Context) (string, error) {
		return "Kept the settings.", s.deps.Studio.SaveSettings(ctx, set)
	}, nil)
}
