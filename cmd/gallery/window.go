//go:build cgo

package main

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"tallycloth/ui"
	"tallycloth/ui/task"
)

// open shows the window itself over the demo studio.
func open(ctx context.Context, l look) error {
	studio, err := demoStudio(ctx)
	if err != nil {
		return err
	}
	set, err := l.choose(ctx, studio)
	if err != nil {
		return err
	}
	a := app.NewWithID("tallycloth.gallery")
	ui.Open(a, "Tallycloth, gallery", ui.Deps{Studio: studio, Tasks: task.New(fyne.Do)}, set)
	a.Run()
	return nil
}
