package garmentui

import (
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/adjust"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// What can be adjusted, as the form calls it.
const (
	doTakeIn   = "Take in"
	doLetOut   = "Let out"
	doLonger   = "Make longer at a line"
	doShorter  = "Make shorter at a line"
	doHemLong  = "Let the hem down"
	doHemShort = "Take the hem up"
	doHemTo    = "Another hem: tunic or dress"
	doStrap    = "Move the strap point"
	doStrapTo  = "Set the strap length"
	doNeck     = "Change the neckline"
	doSplit    = "Part into panels"
	doMirror   = "Mirror a half"
	doOpen     = "Open out a pattern piece on the fold"
)

var doings = []string{doTakeIn, doLetOut, doLonger, doShorter, doHemLong, doHemShort, doHemTo, doStrap, doStrapTo, doNeck, doSplit, doMirror, doOpen}

// Words for what is not said.
const (
	allAlong  = "all along the seam"
	toTheEnd  = "not: as far as the seam goes"
	sideSeam  = "side seam"
	allPieces = "all that have it"
	exactly   = "exactly there"
	lineDrawn = "along a drawn line"
)

// adjustFields is the form of an adjustment, with a picture of what it makes of the outlines.
type adjustFields struct {
	page *Page
	a    planner.Adjusted
	at   int // of the one that is changed, from 1; 0 adds one

	kind, level, way, from, to, seam, on, half, outWay, downWay *widgets.Choice
	amount, by, length, round, out, down, strap, line           *widgets.Field

	rows, told *fyne.Container
	view       *outlineView
	form       *widgets.Form
	filling    bool
}

// adjustForm opens the form for a garment; at is the place of the adjustment that is changed, from 1.
func (p *Page) adjustForm(a planner.Adjusted, at int) {
	f := &adjustFields{page: p, a: a, at: at, rows: container.NewVBox(), told: container.NewVBox(), filling: true}
	f.build()
	title, send := "Adjust "+a.Garment.Name, "Adjust it"
	if at > 0 {
		title, send = "Change an adjustment of "+a.Garment.Name, "Keep the change"
		f.fill(a.Garment.Adjustments[at-1])
	}
	f.filling = false
	f.view = newOutlineView(f.drawn)
	f.form = &widgets.Form{Title: title, Send: send, Say: say.Error, Width: 880, Done: f.send,
		Fields: []*widgets.Field{f.amount, f.by, f.length, f.round, f.out, f.down, f.strap, f.line},
		Rows:   [][]fyne.CanvasObject{{f.kind.Object(), f.on.Object()}, {f.rows}, {f.told}, {f.view}}}
	p.host.Names.Set("form.picture", f.view)
	p.host.Names.Set("form.told", f.told)
	f.arrange()
	p.open(f.form)
	f.look()
}

func (f *adjustFields) build() {
	long := func(name, hint string) *widgets.Field {
		w := widgets.NewField(name, hint, func(text string) (string, error) {
			l, err := measure.ParsePositiveLength(text, f.page.unit())
			return "= " + f.page.host.Voice().Fine(l), err
		})
		w.Changed = f.look
		return w
	}
	pick := func(name string, words ...string) *widgets.Choice {
		return widgets.NewChoice(name, words, func(string) { f.look() })
	}
	f.kind = widgets.NewChoice("What", doings, func(string) { f.arrange(); f.look() })
	f.amount, f.by = long("By how much, at each seam", "1 or 1/2 in"), long("By how far", "5")
	f.length, f.round = long("Finished length, top to hem", "95"), long("Round the hem (empty: as the seams run)", "130")
	f.out, f.down = long("By how far, sideways", "1"), long("By how far, up or down", "2")
	f.strap = long("Length of the strap, as worn", "31")
	f.line = widgets.NewField("Line: down and out in percent, or click it on the outline", "0 40, 100 55", func(text string) (string, error) {
		_, err := adjust.ReadLine(text)
		return "", err
	})
	f.line.Changed = f.look
	levels := adjust.Levels()
	f.level = widgets.NewChoice("Where", append([]string{allAlong}, levels...), func(string) { f.taper(); f.look() })
	f.way = pick("Or below or above it", exactly, "below", "above")
	f.from = pick("Tapering to nothing above at", append([]string{toTheEnd}, levels...)...)
	f.to = pick("Tapering to nothing below at", append([]string{toTheEnd}, levels...)...)
	f.seam = pick("Which seam", append([]string{sideSeam}, f.seams()...)...)
	f.half = pick("Which half", adjust.LeftHalf, adjust.RightHalf)
	f.outWay, f.downWay = pick("Sideways", "out", "in"), pick("Up or down", "down", "up")
	words := []string{allPieces}
	for _, q := range f.a.Cut.Pieces {
		words = append(words, q.Code+" "+q.Name)
	}
	f.on = pick("On which pattern pieces", words...)
	f.level.SetSelected(adjust.Waist)
	f.from.SetSelected(adjust.Underarm)
	f.to.SetSelected(adjust.HipLevel)
	for name, o := range map[string]fyne.CanvasObject{"form.kind": f.kind, "form.on": f.on, "form.level": f.level, "form.way": f.way, "form.from": f.from, "form.to": f.to,
		"form.seam": f.seam, "form.half": f.half, "form.outway": f.outWay, "form.downway": f.downWay, "form.amount": f.amount.Entry, "form.by": f.by.Entry,
		"form.length": f.length.Entry, "form.round": f.round.Entry, "form.out": f.out.Entry, "form.down": f.down.Entry, "form.strap": f.strap.Entry, "form.line": f.line.Entry} {
		f.page.host.Names.Set(name, o)
	}
}

// taper chooses levels above and below the one that is taken in, where those that are chosen are not.
func (f *adjustFields) taper() {
	levels := adjust.Levels()
	at := slices.Index(levels, f.level.Selected)
	if f.filling || at < 0 {
		return
	}
	if slices.Index(levels, f.from.Selected) >= at {
		above := toTheEnd // nothing is above the underarm but the armhole
		if from := slices.Index(levels, adjust.Underarm); at > from {
			above = levels[at-1]
		}
		f.choose(f.from, above)
	}
	if to := slices.Index(levels, f.to.Selected); to >= 0 && to <= at {
		below := toTheEnd
		if at+1 < len(levels) {
			below = adjust.HemLevel
		}
		f.choose(f.to, below)
	}
}

// choose chooses a word without looking again.
func (f *adjustFields) choose(c *widgets.Choice, word string) {
	was := f.filling
	f.filling = true
	c.SetSelected(word)
	f.filling = was
}

// seams are the edges that can be taken in besides the side.
func (f *adjustFields) seams() []string {
	var out []string
	for _, q := range f.a.Cut.Pieces {
		for _, e := range q.Outlines[f.a.Garment.Size].Edges {
			if e.Name != "side" && e.Name != "hem" && !slices.Contains(out, e.Name) {
				out = append(out, e.Name)
			}
		}
	}
	return out
}

// arrange shows the fields that an adjustment asks for.
func (f *adjustFields) arrange() {
	row := func(o ...fyne.CanvasObject) fyne.CanvasObject { return container.NewGridWithColumns(len(o), o...) }
	place := []fyne.CanvasObject{f.level.Object(), f.way.Object(), f.by.Object()}
	var rows []fyne.CanvasObject
	switch f.kind.Selected {
	case doTakeIn, doLetOut:
		rows = []fyne.CanvasObject{row(append([]fyne.CanvasObject{f.amount.Object()}, place...)...), row(f.from.Object(), f.to.Object(), f.seam.Object())}
	case doLonger, doShorter:
		rows = []fyne.CanvasObject{row(append([]fyne.CanvasObject{f.amount.Object()}, place...)...)}
	case doHemLong, doHemShort:
		rows = []fyne.CanvasObject{row(f.amount.Object())}
	case doHemTo:
		rows = []fyne.CanvasObject{row(f.length.Object(), f.round.Object())}
	case doStrap, doNeck:
		rows = []fyne.CanvasObject{row(f.outWay.Object(), f.out.Object(), f.downWay.Object(), f.down.Object())}
	case doStrapTo:
		rows = []fyne.CanvasObject{row(f.strap.Object())}
	case doSplit:
		rows = []fyne.CanvasObject{row(place...), row(f.line.Object())}
	case doMirror:
		rows = []fyne.CanvasObject{row(f.half.Object())}
	}
	f.rows.Objects = rows
	f.rows.Refresh()
	if f.form != nil {
		f.form.Refit()
	}
}

// fill shows an adjustment that is there.
func (f *adjustFields) fill(s adjust.Step) {
	write := measure.Style{System: f.page.host.Voice().Units, Kind: measure.PieceLength}.Exact
	less := func(l measure.Length) measure.Length { return max(l, -l) }
	set := func(w *widgets.Field, l measure.Length) {
		if l != 0 {
			w.Set(write(less(l)))
		}
	}
	f.kind.SetSelected(doingOf(s))
	long := f.length
	if s.Kind == adjust.StrapLength {
		long = f.strap
	}
	for w, l := range map[*widgets.Field]measure.Length{f.amount: s.Amount, f.by: s.At.Below, long: s.Length, f.round: s.Round, f.out: s.Out, f.down: s.Down} {
		set(w, l)
	}
	choose := func(c *widgets.Choice, word, none string) {
		if word == "" {
			word = none
		}
		c.SetSelected(word)
	}
	choose(f.level, s.At.Level, allAlong)
	choose(f.from, s.From.Level, toTheEnd)
	choose(f.to, s.To.Level, toTheEnd)
	choose(f.seam, s.Seam, sideSeam)
	choose(f.half, s.Half, adjust.LeftHalf)
	ways := map[bool]string{false: "below", true: "above"}
	if s.At.Below != 0 {
		f.way.SetSelected(ways[s.At.Below < 0])
	}
	f.outWay.SetSelected(map[bool]string{false: "out", true: "in"}[s.Out < 0])
	f.downWay.SetSelected(map[bool]string{false: "down", true: "up"}[s.Down < 0])
	if len(s.Line) > 0 {
		f.line.Set(adjust.LineWords(s.Line))
	}
	for _, w := range f.on.Options {
		if len(s.Pieces) == 1 && strings.HasPrefix(w, s.Pieces[0]+" ") {
			f.on.SetSelected(w)
		}
	}
}

// doingOf is what an adjustment is called in the form.
func doingOf(s adjust.Step) string {
	less := s.Amount < 0
	switch s.Kind {
	case adjust.TakeIn:
		return map[bool]string{false: doTakeIn, true: doLetOut}[less]
	case adjust.Lengthen:
		return map[bool]string{false: doLonger, true: doShorter}[less]
	case adjust.Hem:
		if s.Length > 0 || s.Round > 0 {
			return doHemTo
		}
		return map[bool]string{false: doHemLong, true: doHemShort}[less]
	case adjust.Strap:
		return doStrap
	case adjust.StrapLength:
		return doStrapTo
	case adjust.Neckline:
		return doNeck
	case adjust.Panels:
		return doSplit
	}
	return map[bool]string{false: doMirror, true: doOpen}[s.Half == ""]
}

// step is what the fields say.
func (f *adjustFields) step() adjust.Step {
	long := func(w *widgets.Field) measure.Length {
		l, err := measure.ParsePositiveLength(w.Text(), f.page.unit())
		if err != nil {
			return 0
		}
		return l
	}
	signed := func(l measure.Length, way *widgets.Choice, less string) measure.Length {
		if way.Selected == less {
			return -l
		}
		return l
	}
	named := func(c *widgets.Choice, none string) string {
		if c.Selected == none {
			return ""
		}
		return c.Selected
	}
	var s adjust.Step
	if code, _, ok := strings.Cut(named(f.on, allPieces), " "); ok {
		s.Pieces = []string{code}
	}
	at := adjust.Place{Level: named(f.level, allAlong)}
	if at.Level != "" && f.way.Selected != exactly {
		at.Below = signed(long(f.by), f.way, "above")
	}
	switch f.kind.Selected {
	case doTakeIn, doLetOut:
		s.Kind, s.Amount, s.At, s.Seam = adjust.TakeIn, long(f.amount), at, named(f.seam, sideSeam)
		s.From, s.To = adjust.Place{Level: named(f.from, toTheEnd)}, adjust.Place{Level: named(f.to, toTheEnd)}
		if at.Level == "" {
			s.From, s.To = adjust.Place{}, adjust.Place{}
		}
	case doLonger, doShorter:
		s.Kind, s.Amount, s.At = adjust.Lengthen, long(f.amount), at
	case doHemLong, doHemShort:
		s.Kind, s.Amount = adjust.Hem, long(f.amount)
	case doHemTo:
		s.Kind, s.Length, s.Round = adjust.Hem, long(f.length), long(f.round)
	case doStrap, doNeck:
		s.Kind = adjust.Strap
		if f.kind.Selected == doNeck {
			s.Kind = adjust.Neckline
		}
		s.Out, s.Down = signed(long(f.out), f.outWay, "in"), signed(long(f.down), f.downWay, "up")
	case doStrapTo:
		s = adjust.Step{Kind: adjust.StrapLength, Length: long(f.strap)}
	case doSplit:
		s.Kind = adjust.Panels
		if s.Line, _ = adjust.ReadLine(f.line.Text()); len(s.Line) == 0 { // the field says what is wrong with it
			s.At = at
		}
	case doMirror:
		s.Kind, s.Half = adjust.Mirror, f.half.Selected
	case doOpen:
		s.Kind = adjust.Mirror
	}
	if k := f.kind.Selected; k == doLetOut || k == doShorter || k == doHemShort {
		s.Amount = -s.Amount
	}
	return s
}

// look tries what the fields say and shows what becomes of the outlines.
func (f *adjustFields) look() {
	if f.form == nil || f.filling {
		return
	}
	steps, err := f.steps()
	if err != nil {
		f.tell(f.a.Sewn, f.a.Sewn, err)
		return
	}
	h := f.page.host
	var now planner.Adjusted
	var before planner.Adjusted
	h.Tasks.Start("adjust.try", func(ctx context.Context, _ func(func())) (err error) {
		others := slices.Clone(f.a.Garment.Adjustments)
		if f.at > 0 {
			others = slices.Delete(others, f.at-1, f.at)
		}
		if before, err = h.Studio.TryAdjustments(ctx, f.a.Garment.ID, others); err != nil {
			return err
		}
		now, err = h.Studio.TryAdjustments(ctx, f.a.Garment.ID, steps)
		return err
	}, func(err error) {
		if err == nil {
			f.tell(before.Sewn, now.Sewn, nil)
			return
		}
		f.tell(f.a.Sewn, f.a.Sewn, err)
	})
}

func (f *adjustFields) steps() ([]adjust.Step, error) {
	return planner.WithStep(f.a.Garment, f.page.patterns[f.a.Garment.PatternID], f.at, f.step())
}
