package batchui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// nobody is chosen where the size is not anybody's.
const nobody = "nobody, I choose it"

// people are the words of the choice whose size it is.
func (f *rowForm) people() []string {
	words := []string{nobody}
	for _, who := range f.page.people {
		words = append(words, who.Name)
	}
	return words
}

// whose is the person that is chosen, or NoID.
func (f *rowForm) whose() stash.ID {
	if i := f.person.SelectedIndex() - 1; i >= 0 && i < len(f.page.people) {
		return f.page.people[i].ID
	}
	return stash.NoID
}

// named writes whom it is for, unless something else was written there.
func (f *rowForm) named() {
	known := f.who.Text() == ""
	for _, who := range f.page.people {
		known = known || who.Name == f.who.Text()
	}
	switch {
	case !known:
	case f.whose() == stash.NoID:
		f.who.Set("")
	default:
		f.who.Set(f.person.Selected)
	}
}

// propose says which size the measurements of the person ask for, and takes it.
func (f *rowForm) propose(take bool) {
	f.proposal.RemoveAll()
	h, row := f.page.host, planner.Wanted{PatternID: f.chosen().ID, PersonID: f.whose()}
	if rules, err := f.rules(); err == nil {
		row.Uses = rules
	}
	if row.PersonID == stash.NoID {
		f.form.Refit()
		return
	}
	var sizes []planner.RowSize
	h.Tasks.Start("batch.size", func(ctx context.Context, _ func(func())) (err error) {
		sizes, err = h.Studio.RowSizes(ctx, []planner.Wanted{row})
		return err
	}, func(err error) {
		switch {
		case !f.form.Open() || row.PersonID != f.whose() || row.PatternID != f.chosen().ID:
			return
		case err != nil:
			f.proposal.Add(widgets.Remark("! ", say.Error(err), widgets.Careful))
		case len(sizes) == 0:
			f.proposal.Add(widgets.Remark("! ", "Nothing that this pattern says a size by was measured. Choose the size yourself.", widgets.Careful))
		default:
			f.proposed(sizes[0], take)
		}
		f.form.Refit()
	})
}

// proposed shows a size that is proposed, and offers to blend where she lies between sizes.
func (f *rowForm) proposed(size planner.RowSize, take bool) {
	if take {
		f.size.SetSelected(size.Choice.Size)
	}
	why := strings.Join(f.page.voice().SizeWhy(size.Choice), " ")
	said := widgets.Remark("", "Size "+size.Choice.Size+" is proposed for "+size.Person.Name+". "+why, widgets.Quiet)
	f.page.host.Names.Set("form.proposed", said)
	if !size.Between() {
		f.proposal.Add(said)
		return
	}
	blend := widgets.NewButton("Blend these sizes", func() { f.blend(size) })
	f.page.host.Names.Set("form.blend", blend)
	f.proposal.Add(container.NewBorder(nil, nil, nil, container.NewVBox(blend), said))
}

// blend keeps a blend as a size of the pattern and takes it.
func (f *rowForm) blend(size planner.RowSize) {
	h, of := f.page.host, f.chosen().ID
	var patterns []pattern.Pattern
	h.Act("blend", func(ctx context.Context) (string, error) {
		b, err := h.Studio.KeepBlend(ctx, of, size.Choice)
		if err != nil {
			return "", err
		}
		told := say.Blended(b) + " Ctrl+Z takes it out again."
		patterns, err = h.Studio.Patterns(ctx)
		return told, err
	}, func(err error) {
		if err != nil {
			f.proposal.Add(widgets.Remark("! ", say.Error(err), widgets.Careful))
			f.form.Refit()
			return
		}
		f.page.patterns = patterns
		f.sizes()
		f.propose(true)
	})
}

// proposeSizes looks which sizes the measurements of the people ask for now, so that a row
// says so where it takes another.
func (p *Page) proposeSizes() {
	rows, edits := p.asked().Rows, p.edits
	var sizes []planner.RowSize
	p.host.Tasks.Start("batch.sizes", func(ctx context.Context, _ func(func())) (err error) {
		sizes, err = p.host.Studio.RowSizes(ctx, rows)
		return err
	}, func(err error) {
		if err != nil || edits != p.edits {
			return
		}
		p.sizes = map[int]planner.RowSize{}
		for _, z := range sizes {
			p.sizes[z.Row] = z
		}
		p.fillWanted()
	})
}
