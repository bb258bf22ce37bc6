package ui

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"tallycloth/assets"
	"tallycloth/planner"
	"tallycloth/ui/budget"
	"tallycloth/ui/e2ehook"
	"tallycloth/ui/looks"
	"tallycloth/ui/say"
)

// HighContrast is the choice of strong colours, as the settings keep it.
const HighContrast = "high contrast"

// ThemeOf is the program's theme with the person's choices.
func ThemeOf(set planner.Settings) *looks.Theme {
	t := &looks.Theme{Percent: set.TextPercent,
		Regular: fyne.NewStaticResource("regular.ttf", assets.FontRegular),
		Bold:    fyne.NewStaticResource("bold.ttf", assets.FontBold)}
	switch set.DarkTheme {
	case "light":
		t.Fixed, t.Variant = true, theme.VariantLight
	case "dark":
		t.Fixed, t.Variant = true, theme.VariantDark
	case HighContrast:
		t.Fixed, t.Variant, t.Strong = true, theme.VariantLight, true
	}
	return t
}

// Open makes the window over a library and shows it; the caller runs the app.
func Open(app fyne.App, title string, d Deps, set planner.Settings) (fyne.Window, *Shell) {
	app.Settings().SetTheme(ThemeOf(set))
	w := app.NewWindow(title)
	s := New(w, d)
	w.Resize(s.lastSize())
	if d.Opened == nil {
		d.Opened = func(w fyne.Window, closed func()) { w.SetOnClosed(closed) }
	}
	d.Opened(w, s.Close)
	w.SetOnDropped(s.Drop)
	e2ehook.Start(w, s.host.Names)
	budget.Start(w, s.host.Names)
	w.Show()
	s.backUpToday(backupWait)
	return w, s
}

// backupWait is how long the window is left to the person before the back-up of the day.
const backupWait = 10 * time.Second

// backUpToday makes the back-up of the day, if one is due, away from the window's thread.
func (s *Shell) backUpToday(wait time.Duration) {
	var made planner.Backup
	s.deps.Tasks.Start("library.backup", func(ctx context.Context, _ func(func())) (err error) {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(wait):
		}
		made, err = s.deps.Studio.BackUpToday(ctx)
		return err
	}, func(err error) {
		switch {
		case err != nil:
			s.host.Trouble(err)
		case made.Path != "":
			s.tell("Made the back-up of the day, " + say.Bytes(made.Bytes) + ".")
		}
	})
}
