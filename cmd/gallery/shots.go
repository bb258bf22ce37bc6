package main

import (
	"context"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/planner/demo"
	"tallycloth/stash/measure"
	"tallycloth/ui"
	"tallycloth/ui/page"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
)

// demoStudio is the demo studio in memory.
func demoStudio(ctx context.Context) (*planner.Studio, error) {
	s := sample.Empty()
	return s, demo.Fill(ctx, s)
}

// The sizes of pictures: a laptop's screen and a large one.
var sizes = []fyne.Size{{Width: 1366, Height: 768}, {Width: 1920, Height: 1080}}

// shoot writes a picture of every screen.
func shoot(ctx context.Context, folder, only string, l look) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("making the folder for pictures: %w", err)
	}
	full, err := demoStudio(ctx)
	if err != nil {
		return err
	}
	for _, dark := range []string{"light", "dark"} {
		for _, size := range sizes {
			for _, sc := range screens {
				if !strings.HasPrefix(sc.name, only) {
					continue
				}
				name := fmt.Sprintf("%s-%s-%.0f.png", sc.name, dark, size.Width)
				l.dark = dark
				studio := full // looked at only, so that one serves for all
				if sc.empty {
					studio = sample.Empty()
				} else if sc.writes() {
					if studio, err = demoStudio(ctx); err != nil {
						return err
					}
				}
				if err := shot(ctx, studio, sc, l, size, filepath.Join(folder, name)); err != nil {
					return fmt.Errorf("%s: %w", sc.name, err)
				}
			}
		}
	}
	return nil
}

// guidePictures are the pictures of the guide, by the screens that they show.
var guidePictures = map[string]string{"stash.png": "stash", "find.png": "patterns-find", "hand.png": "patterns-hand", "binding.png": "binding-guide", "settings.png": "settings"}

// guideSize is small enough for the words to be read where the picture is shown beside text.
var guideSize = fyne.Size{Width: 1100, Height: 660}

// picture writes the pictures of the guide.
func picture(ctx context.Context, folder string) error {
	studio, err := demoStudio(ctx)
	if err != nil {
		return err
	}
	for file, name := range guidePictures {
		for _, sc := range screens {
			if sc.name != name {
				continue
			}
			if err := shot(ctx, studio, sc, look{dark: "light", text: 100}, guideSize, filepath.Join(folder, file)); err != nil {
				return fmt.Errorf("%s: %w", file, err)
			}
		}
	}
	return nil
}

// look is the person's choices that change how screens look.
type look struct {
	dark     string
	text     int
	imperial bool
	brief    bool // layouts are searched for a few steps only
}

// choose keeps the choices in the library.
func (l look) choose(ctx context.Context, studio page.Studio) (planner.Settings, error) {
	set, err := studio.Settings(ctx)
	if err != nil {
		return set, err
	}
	set.DarkTheme, set.TextPercent = l.dark, l.text
	if l.imperial {
		set.Units = measure.Imperial
	}
	_, err = studio.Write(ctx, "Chose how it looks", func(tx planner.Tx) error { return tx.PutSettings(ctx, set) })
	return set, err
}

// shot draws one screen without a display.
func shot(ctx context.Context, studio *planner.Studio, sc screen, l look, size fyne.Size, path string) error {
	return show(ctx, studio, sc, l, size, func(s *stage) error {
		f, err := os.Create(path)
		if err != nil {
			return err
		}
		if err := png.Encode(f, s.window.Canvas().Capture()); err != nil {
			f.Close()
			return err
		}
		return f.Close()
	})
}

// show brings one screen into sight without a display, and lets it be looked at.
func show(ctx context.Context, studio *planner.Studio, sc screen, l look, size fyne.Size, look func(*stage) error) error {
	set, err := l.choose(ctx, studio)
	if err != nil {
		return err
	}
	app := test.NewApp()
	defer app.Quit()
	app.Settings().SetTheme(ui.ThemeOf(set))
	w := app.NewWindow("Tallycloth")
	folder, err := os.MkdirTemp("", "gallery")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	d := ui.Deps{Studio: studio, Tasks: task.Inline(), Demo: func() {}, Planning: planner.BatchEffort{Rounds: 1}}
	if l.brief {
		d.Effort = planner.Effort{Steps: 4}
	}
	shell := ui.New(w, d)
	defer shell.Close()
	w.Resize(size)
	s := &stage{window: w, shell: shell, folder: folder}
	sc.show(s)
	// Wrapped text knows its height once it knows its width: a second round settles it.
	for range 3 {
		w.Content().Refresh()
		for _, o := range w.Canvas().Overlays().List() {
			o.Refresh()
		}
	}
	return look(s)
}
