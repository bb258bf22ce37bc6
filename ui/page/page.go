package page

import (
	"context"
	"sync"
	"time"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// The places, as the rail and Routes call them.
const (
	Stash    = "Stash"
	Patterns = "Patterns"
	Garments = "Garments"
	Batch    = "Batch"
	Binding  = "Binding"
	History  = "History"
	Settings = "Settings"
	Help     = "Help"
)

// Route leads to a place, to a record there, and to what is to be done with it. Routes
// compare with ==.
type Route struct {
	Place string
	ID    stash.ID
	Size  string
	Do    string
	For   stash.ID // the garment it is for, or NoID
}

// What a Route may ask to be done.
const (
	FindFabric = "find fabric" // Patterns: for the pattern ID in Size
	WorkStrips = "work strips" // Binding: for the garment ID
	Shopping   = "shopping"    // Stash: the notions with the shopping list
)

// Page is a place of the window.
type Page interface {
	// Object is the place's whole content, made once.
	Object() fyne.CanvasObject
	// Shown is called when the place comes into sight or the library changed: it
	// reads again what it shows, keeping what is chosen.
	Shown()
	// Open follows a route into the place.
	Open(Route)
	// Focus puts the focus where work begins: on the list.
	Focus()
	// Find puts the focus into the filter line.
	Find()
	// New begins the place's first action (Ctrl+N).
	New()
}

// Undoer is a Page with steps of its own to take back before those of the library: of
// a layout in hand. Both say whether there was one.
type Undoer interface {
	UndoHere() bool
	RedoHere() bool
}

// Escaper is a Page that may have something to stop when Escape is pressed; it says whether.
type Escaper interface{ EscapeHere() bool }

// Leaver is a Page with something to keep when the window closes.
type Leaver interface{ Leaving(context.Context) }

// Host is what a place is given.
type Host struct {
	Studio   Studio
	Tasks    *task.Runner
	Canvas   func() fyne.Canvas
	Window   func() fyne.Window
	Tell     func(string) // the quiet line
	Go       func(Route)
	Settings func() planner.Settings
	Demo     func() // opens the demo studio
	Names    *Names
	Effort   planner.Effort      // of a search that goes on from a layout; zero is the usual
	Planning planner.BatchEffort // of planning a batch; zero is the usual
	Library  Libraries           // the library as a whole; nil where it is in memory
	Kept     func(string) string // what was remembered under a name, or ""; nil remembers nothing
	System   System              // what opens and prints files; nil is the computer's own
	Drafts   widgets.Drafts      // what was typed in forms and not sent; nil forgets it
	forms    []*widgets.Form     // that are open
	kept     []*Kept             // other rows that are typed into
}

// Computer is what opens and prints files.
func (h *Host) Computer() System {
	if h.System == nil {
		return Computer{}
	}
	return h.System
}

// Voice writes quantities as the person has chosen.
func (h *Host) Voice() say.Voice {
	return say.Voice{Units: h.Settings().Units, Classes: h.Settings().Classes}
}

// Trouble shows an error in the quiet line.
func (h *Host) Trouble(err error) {
	if err != nil {
		h.Tell(say.Error(err))
	}
}

// Focus moves the focus.
func (h *Host) Focus(o fyne.Focusable) {
	if c := h.Canvas(); c != nil {
		c.Focus(o)
	}
}

// Away has a drawing made off the window's thread, for a LayoutView: of several asked
// for while one is being made only the newest is.
func (h *Host) Away(name string) func(work, done func()) {
	var one sync.Mutex
	return func(work, done func()) {
		h.Tasks.Start("draw "+name, func(ctx context.Context, _ func(func())) error {
			one.Lock()
			defer one.Unlock()
			if ctx.Err() == nil {
				work()
			}
			return ctx.Err()
		}, func(err error) {
			if err == nil {
				done()
			}
		})
	}
}

// settled is how long rows are chosen slowly enough for each to be shown beside its list. Keys that
// are held down come faster, every 30 to 50 ms.
const settled = 120 * time.Millisecond

// Settle has f done at once, or when no other row of that list is chosen any more.
func (h *Host) Settle(list string, f func()) { h.Tasks.Settle(list, settled, f) }

// Act does one act in the library, away from the window's thread, and tells what
// was saved. Done is called afterwards, also when it failed.
func (h *Host) Act(name string, act func(ctx context.Context) (told string, err error), done func(error)) {
	var told string
	h.Tasks.Start("act "+name, func(ctx context.Context, _ func(func())) (err error) {
		told, err = act(ctx)
		return err
	}, func(err error) {
		if err != nil {
			h.Trouble(err)
		} else if told != "" {
			h.Tell(told)
		}
		if done != nil {
			done(err)
		}
	})
}

// Names keeps widgets under lasting names, so that tests find them on screen, and the focus one that is drawn anew.
type Names struct {
	by map[string]fyne.CanvasObject
	// Anew is told that a widget is followed by another of its name, which may not be drawn yet.
	Anew func(name string, before fyne.CanvasObject)
}

// Holder is a widget that knows whether it has the focus.
type Holder interface{ HasFocus() bool }

// NewNames returns an empty register.
func NewNames() *Names { return &Names{by: map[string]fyne.CanvasObject{}} }

// Set gives a widget a name and returns it.
func (n *Names) Set(name string, o fyne.CanvasObject) fyne.CanvasObject {
	before := n.by[name]
	n.by[name] = o
	if before != nil && before != o && n.Anew != nil {
		n.Anew(name, before)
	}
	return o
}

// Get returns the widget of that name, or nil.
func (n *Names) Get(name string) fyne.CanvasObject { return n.by[name] }

// All lists the names.
func (n *Names) All() []string {
	var out []string
	for k := range n.by {
		out = append(out, k)
	}
	return out
}
