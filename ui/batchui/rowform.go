package batchui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// rowForm asks for one row.
type rowForm struct {
	page             *Page
	pattern, size    *widgets.Choice
	person           *widgets.Choice
	count, priority  *widgets.Field
	who, by, colours *widgets.Field
	variant          *widgets.Field
	uses             []*useFields // by use of the pattern, main first
	proposal, box    *fyne.Container
	adjustBox        *fyne.Container
	offers           []offered // adjustments that may be taken over
	old              planner.Wanted
	form             *widgets.Form
}

// addRow asks for another row.
func (p *Page) addRow() {
	if len(p.patterns) == 0 {
		p.host.Tell("There is no pattern yet. Bring one in first, at the place Patterns.")
		return
	}
	w := planner.Wanted{PatternID: p.patterns[0].ID, Count: 1, Priority: 1}
	if n := len(p.draft.Rows); n > 0 {
		w.PatternID, w.Priority = p.draft.Rows[n-1].PatternID, p.draft.Rows[n-1].Priority
	}
	p.rowForm("Add garments", "Add", w, func(w planner.Wanted) {
		p.edit(func(b *planner.Batch) { b.Rows = append(slices.Clone(b.Rows), w) })
		p.rows.Choose(len(p.draft.Rows) - 1)
	})
}

// changeRow asks for the chosen row again.
func (p *Page) changeRow() {
	r, ok := p.rows.ChosenRow()
	if !ok {
		return
	}
	i := r.Key.(int)
	p.rowForm("Change what is wanted", "Change", p.draft.Rows[i], func(w planner.Wanted) {
		p.edit(func(b *planner.Batch) {
			other := b.Rows[i].PatternID != w.PatternID
			b.Rows = slices.Clone(b.Rows)
			b.Rows[i] = w
			if other {
				b.Pins = slices.DeleteFunc(slices.Clone(b.Pins), func(x planner.BatchPin) bool { return x.Row == i })
			}
		})
	})
}

// rowForm opens the form with a row in it.
func (p *Page) rowForm(title, send string, w planner.Wanted, done func(planner.Wanted)) {
	f := &rowForm{page: p, old: w, box: container.NewVBox(), proposal: container.NewVBox(), adjustBox: container.NewVBox()}
	var names []string
	at := 0
	for i, q := range p.patterns {
		names = append(names, q.Name)
		if q.ID == w.PatternID {
			at = i
		}
	}
	f.pattern = widgets.NewChoice("Pattern", names, nil)
	f.pattern.SetSelectedIndex(at)
	f.size = widgets.NewChoice("Size", nil, nil)
	f.person = widgets.NewChoice("Size by the measurements of", f.people(), nil)
	f.variant = widgets.NewField("Variant", "cropped, with a pocket", nil)
	f.count = widgets.NewField("How many", "1", f.reads(func(x *planner.WantedWords, text string) { x.Count = text }))
	f.priority = widgets.NewField("Priority, 1 comes first", "1", f.reads(func(x *planner.WantedWords, text string) { x.Priority = text }))
	f.who = widgets.NewField("For whom, or what", "the spring class", nil)
	f.by = p.host.DayField("By", w.Date)
	f.colours = widgets.NewField("Colours wished for, of the main fabric", "blue, or moss as a fabric of yours has it; empty for any", f.readColours)
	f.count.Set(fmt.Sprint(max(w.Count, 1)))
	f.priority.Set(fmt.Sprint(max(w.Priority, 1)))
	f.who.Set(w.For)
	f.variant.Set(w.Variant)
	f.colours.Set(strings.Join(p.colourWords(w.Colours), ", "))
	f.turn()
	if w.Size != "" {
		f.size.SetSelected(w.Size)
	}
	if i := slices.IndexFunc(p.people, func(who sizing.Person) bool { return who.ID == w.PersonID }); i >= 0 {
		f.person.SetSelectedIndex(i + 1)
	}
	f.pattern.OnChanged = func(string) { f.turn(); f.propose(true); f.offerAnew() }
	f.person.OnChanged = func(string) { f.named(); f.propose(true); f.offerAnew() }
	f.size.OnChanged = func(string) { f.offer() }
	for name, o := range map[string]fyne.CanvasObject{"form.pattern": f.pattern, "form.size": f.size, "form.count": f.count.Entry, "form.priority": f.priority.Entry,
		"form.who": f.who.Entry, "form.by": f.by.Entry, "form.colours": f.colours.Entry, "form.person": f.person, "form.variant": f.variant.Entry} {
		p.host.Names.Set(name, o)
	}
	f.form = &widgets.Form{Title: title, Send: send, Say: say.Error, Width: 700, Fields: []*widgets.Field{f.who, f.variant, f.count, f.priority, f.by, f.colours},
		Rows: [][]fyne.CanvasObject{{f.pattern.Object(), f.size.Object(), f.person.Object()}, {f.proposal}, {f.adjustBox}, {f.who.Object(), f.variant.Object()},
			{f.count.Object(), f.priority.Object(), f.by.Object()}, {f.colours.Object()}, {f.box}}}
	f.form.Done = func() error {
		w, err := f.wanted()
		if err == nil {
			done(w)
		}
		return err
	}
	p.host.ShowForm(f.form)
	f.propose(false)
	f.offer()
}

// reads reads one field of a row alone.
func (f *rowForm) reads(put func(*planner.WantedWords, string)) func(string) (string, error) {
	return func(text string) (string, error) {
		q := f.chosen()
		if len(q.Sizes) == 0 {
			return "", nil
		}
		words := planner.WantedWords{Pattern: q.Name, Size: q.Sizes[0].Name}
		put(&words, text)
		_, err := words.Read(planner.Known{Patterns: []pattern.Pattern{q}, Fabrics: f.page.fabrics})
		return "", doOf(err)
	}
}

// doOf is what is to be done about an error, for the line beneath a field.
func doOf(err error) error {
	var known *stash.Error
	if errors.As(err, &known) {
		return errors.New(say.Sentence(known.Do))
	}
	return err
}

func (f *rowForm) readColours(text string) (string, error) {
	colours, err := planner.ReadColours(f.page.plainColours(text), f.page.fabrics)
	if err != nil {
		return "", &stash.Error{Kind: stash.Invalid, What: "No fabric of yours has this colour", Do: "Write a plain one such as blue or pink, or as a fabric has it"}
	}
	return "= " + strings.Join(f.page.colourWords(colours), ", "), nil
}

// plainColours puts colours in the place of plain words that no fabric has for its own.
func (p *Page) plainColours(text string) string {
	words := strings.Split(text, ",")
	for i, w := range words {
		own := slices.ContainsFunc(p.fabrics, func(f stash.Fabric) bool {
			return strings.EqualFold(f.ColourName, strings.TrimSpace(w)) && f.Colour != ""
		})
		if hex, ok := say.ColourOf(w); ok && !own {
			words[i] = " " + hex
		}
	}
	return strings.TrimSpace(strings.Join(words, ","))
}

func (f *rowForm) chosen() pattern.Pattern { return f.page.patterns[max(f.pattern.SelectedIndex(), 0)] }

// turn shows sizes and uses of the pattern that is chosen.
func (f *rowForm) turn() {
	f.sizes()
	q := f.chosen()
	if q.ID == f.old.PatternID && f.old.Size != "" {
		f.size.SetSelected(f.old.Size)
	} else if n := len(q.Sizes); n > 0 {
		f.size.SetSelectedIndex(n / 2)
	}
	f.fillUses(q)
}

// sizes lists the sizes of the pattern that is chosen.
func (f *rowForm) sizes() {
	var sizes []string
	for _, z := range f.chosen().Sizes {
		sizes = append(sizes, z.Name)
	}
	f.size.Words(sizes)
}

// rolesOf are the uses of fabric of a pattern, main first.
func rolesOf(q pattern.Pattern) []pattern.Role {
	main, ok := q.Role(pattern.Main)
	if !ok {
		main = pattern.Role{Name: pattern.Main}
	}
	out := []pattern.Role{main}
	for _, r := range q.Roles {
		if r.Name != pattern.Main {
			out = append(out, r)
		}
	}
	return out
}

// wanted is the row as the form has it.
func (f *rowForm) wanted() (planner.Wanted, error) {
	q := f.chosen()
	by, _ := f.page.host.DayIn(f.by)
	words := planner.WantedWords{Pattern: q.Name, Size: f.size.Selected, Variant: f.variant.Text(), Count: f.count.Text(), Priority: f.priority.Text(),
		For: strings.TrimSpace(f.who.Text()), Date: string(by), Colours: f.page.plainColours(f.colours.Text())}
	w, err := words.Read(planner.Known{Patterns: []pattern.Pattern{q}, Fabrics: f.page.fabrics})
	if err != nil {
		return w, err
	}
	w.Near, w.PersonID, w.Adjustments = f.old.Near, f.whose(), f.steps()
	w.Uses, err = f.rules()
	return w, err
}
