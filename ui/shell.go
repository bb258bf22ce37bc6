package ui

import (
	"context"
	"errors"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/stash"
	"tallycloth/ui/batchui"
	"tallycloth/ui/bindingui"
	"tallycloth/ui/garmentui"
	"tallycloth/ui/helpui"
	"tallycloth/ui/historyui"
	"tallycloth/ui/looks"
	"tallycloth/ui/page"
	"tallycloth/ui/patternui"
	"tallycloth/ui/say"
	"tallycloth/ui/settingsui"
	"tallycloth/ui/stashui"
	"tallycloth/ui/task"
	"tallycloth/ui/widgets"
)

// Deps is what the window is given.
type Deps struct {
	Studio page.Studio
	Tasks  *task.Runner
	// Demo opens the demo studio; nil when this already is it.
	Demo func()
	// Folder is where the library lies, for the quiet line.
	Folder string
	// Effort bounds a search that goes on from a layout; zero is the usual.
	Effort planner.Effort
	// Planning bounds the planning of a batch; zero is the usual.
	Planning planner.BatchEffort
	// Quiet is how long nothing was changed before leftovers are looked at; zero is the usual.
	Quiet time.Duration
	// System opens and prints files; nil is the computer's own.
	System page.System
	// Library does what concerns the library as a whole; nil where it is in memory.
	Library page.Libraries
	// Memory brings place, filters and size back; nil forgets them when the program ends.
	Memory page.Memory
	// Opened sets what is done when the window closes, and is told of the window by that; nil sets it alone.
	Opened func(w fyne.Window, closed func())
}

// place is a place of the rail with its page.
type place struct {
	name string
	page page.Page
	tab  *railTab
}

// Shell is the window's content.
type Shell struct {
	window  fyne.Window
	deps    Deps
	host    *page.Host
	places  []place
	current int
	before  int // the place in sight before Help
	memory  page.Memory
	stage   *fyne.Container
	quiet   *widget.Label
	set     planner.Settings
	stop    func()
	anew    focusAnew
}

// New fills a window and shows the first place. Close ends it.
func New(w fyne.Window, d Deps) *Shell {
	s := &Shell{window: w, deps: d, stage: container.NewStack(), quiet: widget.NewLabel(""), current: -1, set: planner.DefaultSettings()}
	s.quiet.Truncation = fyne.TextTruncateEllipsis
	if set, err := d.Studio.Settings(context.Background()); err == nil {
		s.set = set
	}
	if s.memory = d.Memory; s.memory == nil {
		s.memory = &page.Forgetful{}
	}
	demo := d.Demo
	if demo == nil {
		demo = func() { s.tell("This is the demo studio.") }
	}
	s.host = &page.Host{Studio: d.Studio, Tasks: d.Tasks, Canvas: w.Canvas, Window: func() fyne.Window { return w }, Tell: s.tell, Go: s.Go,
		Settings: func() planner.Settings { return s.set }, Demo: demo, Names: page.NewNames(), Effort: d.Effort, Planning: d.Planning, System: d.System, Library: d.Library,
		Kept: func(name string) string { return s.memory.Get(s.kept(name)) }, Drafts: page.NewDrafts(s.memory, s.kept("drafts"))}
	s.host.Names.Anew = s.drawnAnew
	s.add(page.Stash, "stash", stashui.New(s.host))
	s.add(page.Patterns, "patterns", patternui.New(s.host))
	s.add(page.Garments, "garments", garmentui.New(s.host))
	s.add(page.Batch, "batch", batchui.New(s.host))
	s.add(page.Binding, "binding", bindingui.New(s.host))
	s.add(page.History, "history", historyui.New(s.host))
	s.add(page.Settings, "settings", settingsui.New(s.host))
	s.add(page.Help, "help", helpui.New(s.host, func() { s.open(s.before) }))
	s.host.Names.Set("quiet", s.quiet)
	w.SetContent(s.content())
	s.keys()
	s.stop = d.Studio.OnChange(func(stash.Act) { d.Tasks.Post(s.changed) })
	s.open(0)
	s.recall()
	s.lookAtLeftovers()
	if why := d.Studio.ReadOnly(); why != "" {
		s.tell(say.Sentence(why))
	} else if d.Folder != "" {
		s.tell("Everything is saved at once in " + d.Folder + ".")
	}
	return s
}

func (s *Shell) add(name, icon string, p page.Page) {
	i := len(s.places)
	tab := newRailTab(name, icon, func() { s.open(i) })
	s.host.Names.Set("rail."+icon, tab)
	s.places = append(s.places, place{name, p, tab})
}

func (s *Shell) content() fyne.CanvasObject {
	rail := container.NewVBox(widgets.Styled(" ", "text", widgets.Plain, false))
	last := len(s.places) - 2 // the settings and the help stand apart
	for _, p := range s.places[:last] {
		rail.Add(p.tab)
	}
	ground := canvas.NewRectangle(looks.Now().Surface)
	line := widget.NewSeparator()
	side := container.NewStack(ground, container.NewBorder(nil, nil, nil, line, container.NewPadded(container.NewBorder(nil, container.NewVBox(s.places[last].tab, s.places[last+1].tab), nil, nil, container.NewVScroll(rail)))))
	undo, redo := widgets.NewButton("Undo", s.Undo), widgets.NewButton("Redo", s.Redo)
	undo.Importance, redo.Importance = widget.LowImportance, widget.LowImportance
	s.host.Names.Set("undo", undo)
	s.host.Names.Set("redo", redo)
	foot := container.NewBorder(widget.NewSeparator(), nil, nil, container.NewHBox(undo, redo), s.quiet)
	// Where large text needs more room than the window has a place is scrolled: a window does not grow by itself.
	return container.NewBorder(s.band(), foot, side, nil, container.NewScroll(s.stage))
}

// band says over every place that nothing can be changed, where that is so, before a form is filled in for
// nothing; nil where it is not.
func (s *Shell) band() fyne.CanvasObject {
	why := s.deps.Studio.ReadOnly()
	if why == "" {
		return nil
	}
	words := widgets.Remark("! ", "Only to look at: nothing can be changed. "+say.Sentence(why), widgets.Careful)
	s.host.Names.Set("readonly", words)
	return container.NewVBox(container.NewPadded(words), widget.NewSeparator())
}

// Names is the register of widgets, for tests.
func (s *Shell) Names() *page.Names { return s.host.Names }

// Place is the name of the place in sight.
func (s *Shell) Place() string { return s.places[s.current].name }

// Quiet is what the quiet line says.
func (s *Shell) Quiet() string { return s.quiet.Text }

// leastRoom is what the quiet line has at least in a window that has its size. Before that it is so narrow
// that wrapped words would make the window grow.
const leastRoom = 320

// tell writes the quiet line; what is longer than it wraps, so that all of it can be read.
func (s *Shell) tell(text string) {
	s.quiet.Wrapping, s.quiet.Truncation = fyne.TextWrapOff, fyne.TextTruncateEllipsis
	room := s.quiet.Size().Width - 2*theme.InnerPadding()
	if room > leastRoom && fyne.MeasureText(text, theme.TextSize(), fyne.TextStyle{}).Width > room {
		s.quiet.Wrapping, s.quiet.Truncation = fyne.TextWrapWord, fyne.TextTruncateOff
	}
	s.quiet.SetText(text)
}

// open brings a place into sight.
func (s *Shell) open(i int) {
	if i < 0 || i >= len(s.places) {
		return
	}
	if i != s.current {
		if s.places[i].name == page.Help {
			s.before = max(s.current, 0)
		}
		s.current = i
		for k, p := range s.places {
			p.tab.set(k == i)
		}
		s.stage.Objects = []fyne.CanvasObject{s.places[i].page.Object()}
		s.stage.Refresh()
	}
	s.places[i].page.Shown()
	s.places[i].page.Focus()
}

// Go follows a route.
func (s *Shell) Go(r page.Route) {
	for i, p := range s.places {
		if p.name == r.Place {
			s.open(i)
			if r.ID != stash.NoID || r.Do != "" {
				p.page.Open(r)
			}
		}
	}
}

// changed reads again what is in sight, after an act.
func (s *Shell) changed() {
	if set, err := s.deps.Studio.Settings(context.Background()); err == nil && set != s.set {
		s.wear(set)
	}
	s.places[s.current].page.Shown()
	s.lookAtLeftovers()
}

// wear takes the person's choices on. What draws itself follows a new theme; words and grounds
// that stand alone are given its colours and sizes here.
func (s *Shell) wear(set planner.Settings) {
	was, now := ThemeOf(s.set), ThemeOf(set)
	before, percent := looks.Now(), s.set.TextPercent
	s.set = set
	if was.Same(now) {
		return
	}
	fyne.CurrentApp().Settings().SetTheme(now)
	for _, p := range s.places {
		all := []fyne.CanvasObject{p.page.Object()}
		if more, ok := p.page.(interface{ OutOfSight() []fyne.CanvasObject }); ok {
			all = append(all, more.OutOfSight()...)
		}
		for _, o := range all {
			looks.Repaint(o, before, looks.Now(), float32(set.TextPercent)/float32(max(percent, 1)))
		}
	}
	looks.Repaint(s.window.Content(), before, looks.Now(), 1)
	s.window.Content().Refresh()
}

// placeKeys are the keys that with Ctrl open the places.
var placeKeys = map[string]fyne.KeyName{
	page.Stash: fyne.Key1, page.Patterns: fyne.Key2, page.Garments: fyne.Key3, page.Batch: fyne.Key4, page.Binding: fyne.Key5, page.History: fyne.Key6, page.Settings: fyne.Key7,
}

// keys sets the keys that work everywhere.
func (s *Shell) keys() {
	c := s.window.Canvas()
	on := func(k fyne.KeyName, mod fyne.KeyModifier, f func()) {
		c.AddShortcut(&desktop.CustomShortcut{KeyName: k, Modifier: mod}, func(fyne.Shortcut) {
			if c.Overlays().Top() == nil {
				f()
			}
		})
	}
	for i, p := range s.places[:len(s.places)-1] { // F1 opens the help
		on(placeKeys[p.name], fyne.KeyModifierControl, func() { s.open(i) })
	}
	on(fyne.KeyF, fyne.KeyModifierControl, func() { s.places[s.current].page.Find() })
	on(fyne.KeyN, fyne.KeyModifierControl, func() { s.places[s.current].page.New() })
	// Undo and redo are the library's wherever the focus is, but for text being typed,
	// where the focused line takes the key first.
	c.AddShortcut(&fyne.ShortcutUndo{}, func(fyne.Shortcut) { s.Undo() })
	c.AddShortcut(&fyne.ShortcutRedo{}, func(fyne.Shortcut) { s.Redo() })
	on(fyne.KeyZ, fyne.KeyModifierControl|fyne.KeyModifierShift, s.Redo)
	c.SetOnTypedKey(func(e *fyne.KeyEvent) {
		if e.Name == fyne.KeyF1 && c.Overlays().Top() == nil {
			s.Go(page.Route{Place: page.Help, Do: s.Place()})
			return
		}
		if e.Name == fyne.KeyEscape && c.Overlays().Top() == nil {
			if p, ok := s.places[s.current].page.(page.Escaper); !ok || !p.EscapeHere() {
				s.places[s.current].page.Focus()
			}
		}
	})
}

// Undo takes the last act back and says which; first the steps of a layout in hand.
func (s *Shell) Undo() {
	if u, ok := s.places[s.current].page.(page.Undoer); ok && u.UndoHere() {
		return
	}
	s.reverse("undo", s.deps.Studio.Undo, "There is nothing to undo.")
}

// Redo does again what was undone last.
func (s *Shell) Redo() {
	if u, ok := s.places[s.current].page.(page.Undoer); ok && u.RedoHere() {
		return
	}
	s.reverse("redo", s.deps.Studio.Redo, "There is nothing to do again.")
}

func (s *Shell) reverse(name string, do func(context.Context) (stash.Act, error), nothing string) {
	s.host.Act(name, func(ctx context.Context) (string, error) {
		act, err := do(ctx)
		if errors.Is(err, stash.ErrNothing) {
			return nothing, nil
		}
		return say.Sentence(act.Sentence), err
	}, nil)
}

// Close ends all work before the window goes.
func (s *Shell) Close() {
	s.remember()
	if s.stop != nil {
		s.stop()
	}
	for _, p := range s.places {
		if l, ok := p.page.(page.Leaver); ok {
			l.Leaving(context.Background())
		}
	}
	s.deps.Tasks.Close()
}
