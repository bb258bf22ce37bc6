package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner"
	"tallycloth/planner/plannertest"
	"tallycloth/stash/stashtest"
	"tallycloth/ui/task"
)

// bench is a window over a library in memory, everything done at once.
type bench struct {
	t      *testing.T
	shell  *Shell
	store  *plannertest.Store
	studio *planner.Studio
	window fyne.Window
}

func newBench(t *testing.T) *bench {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(ThemeOf(planner.DefaultSettings()))
	now, ids := stashtest.Clock(), stashtest.IDs()
	store := plannertest.New(now, ids)
	studio := planner.NewStudio(planner.Config{Store: store, Now: now, NewID: ids})
	w := test.NewTempWindow(t, nil)
	w.Resize(fyne.NewSize(1366, 768))
	s := New(w, Deps{Studio: studio, Tasks: task.Inline()})
	t.Cleanup(s.Close)
	return &bench{t, s, store, studio, w}
}
