package main

import (
	"context"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/planner/demo"
	"tallycloth/ui"
	"tallycloth/ui/sample"
	"tallycloth/ui/task"
)

// demoStudio is the demo studio in memory.
func demoStudio(ctx context.Context) (*planner.Studio, error) {
	s := sample.Empty()
	return s, demo.Fill(ctx, s)
}

// closedStudio is the demo studio, and what makes it one to look at only.
func closedStudio(ctx context.Context) (*planner.Studio, func(), error) {
	s, store := sample.Kept()
	return s, func() { store.Refuse = "another window has this library open" }, demo.Fill(ctx, s)
}

// shoot writes a picture of every screen in every look.
func shoot(ctx context.Context, folder, only string, looks []look) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("making the folder for pictures: %w", err)
	}
	return each(ctx, only, looks, func(sc screen, l look, w fyne.Window) error {
		return capture(w, filepath.Join(folder, sc.name+"-"+l.String()+".png"))
	})
}

// checked says of every screen in every look what a person could not read.
func checked(ctx context.Context, to io.Writer, only string, looks []look) error {
	return each(ctx, only, looks, func(sc screen, l look, w fyne.Window) error {
		for _, s := range faults(w.Canvas()) {
			fmt.Fprintf(to, "%s, %s: %s\n", sc.name, l, s)
		}
		return nil
	})
}

// each shows the screens whose names begin so, one after another, in every look.
func each(ctx context.Context, only string, looks []look, f func(screen, look, fyne.Window) error) error {
	full, err := demoStudio(ctx)
	if err != nil {
		return err
	}
	for _, l := range looks {
		for _, sc := range screens {
			if !sc.meant(only) {
				continue
			}
			studio, refuse := full, func() {} // looked at only, so that one serves for all
			switch {
			case sc.empty:
				studio = sample.Empty()
			case sc.writes():
				if studio, err = demoStudio(ctx); err != nil {
					return err
				}
			case sc.readOnly():
				if studio, refuse, err = closedStudio(ctx); err != nil {
					return err
				}
			}
			if err := show(ctx, studio, refuse, sc, l, func(s *stage) error { return f(sc, l, s.window) }); err != nil {
				return fmt.Errorf("%s: %w", sc.name, err)
			}
		}
	}
	return nil
}

// guidePictures are the pictures of the guide, by the screens that they show.
var guidePictures = map[string]string{"stash.png": "stash", "find.png": "patterns-find", "hand.png": "patterns-hand", "binding.png": "binding-edge", "settings.png": "settings"}

// guideSize is the smallest that every place has room in, so that the words can be read where the picture is
// shown beside text.
var guideSize = fyne.Size{Width: 1280, Height: 720}

// picture writes the pictures of the guide.
func picture(ctx context.Context, folder string) error {
	studio, err := demoStudio(ctx)
	if err != nil {
		return err
	}
	l := look{theme: "light", text: 100, size: guideSize, scale: 1}
	for file, name := range guidePictures {
		for _, sc := range screens {
			if sc.name != name {
				continue
			}
			if err := show(ctx, studio, func() {}, sc, l, func(s *stage) error { return capture(s.window, filepath.Join(folder, file)) }); err != nil {
				return fmt.Errorf("%s: %w", file, err)
			}
		}
	}
	return nil
}

// show brings one screen into sight without a display, and lets it be looked at. Refuse is called once the look is
// chosen, which is kept in the library.
func show(ctx context.Context, studio *planner.Studio, refuse func(), sc screen, l look, look func(*stage) error) error {
	set, err := l.choose(ctx, studio)
	if err != nil {
		return err
	}
	refuse()
	app := test.NewApp()
	defer app.Quit()
	app.Settings().SetTheme(ui.ThemeOf(set))
	w := app.NewWindow("Tallycloth")
	if c, ok := w.Canvas().(test.WindowlessCanvas); ok {
		c.SetScale(l.scale)
	}
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
	w.Resize(l.size)
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

// capture writes what a window shows as a picture.
func capture(w fyne.Window, path string) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	small := png.Encoder{CompressionLevel: png.BestCompression}
	if err := small.Encode(f, w.Canvas().Capture()); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
