package bindingui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/ui/widgets"
)

// keptEdges are edges that were typed before the one in the fields: their strips share the cloth, in
// the order they are sewn.
type keptEdges struct {
	jobs []binding.Job
	list *fyne.Container
}

// KeepEdge keeps the edge in the fields and clears them for another.
func (p *Page) KeepEdge() {
	j, ok := p.job()
	if !ok {
		p.host.Tell("Type how long the edge is first.")
		return
	}
	p.kept.jobs = append(p.kept.jobs, j)
	p.quietly(func() {
		p.parts.set([]binding.Segment{{Name: "armhole"}})
		clear(p.how.caught)
		p.name.SetText(fmt.Sprintf("edge %d", len(p.kept.jobs)+1))
		p.closed.SetChecked(false)
		p.count.Set("1")
	})
	p.listKept()
	p.work()
	p.parts.focus()
}

// listKept lists the edges kept, each with a button that drops it.
func (p *Page) listKept() {
	p.kept.list.RemoveAll()
	v := p.host.Voice()
	for i, j := range p.kept.jobs {
		var whole measure.Length
		for _, s := range j.Segments {
			whole += s.Whole()
		}
		text := j.Name + ", " + v.Fine(whole)
		if j.Count > 1 {
			text += fmt.Sprintf(", %d of them", j.Count)
		}
		drop := widgets.NewButton("×", func() {
			p.kept.jobs = append(p.kept.jobs[:i:i], p.kept.jobs[i+1:]...)
			p.listKept()
			p.work()
		})
		p.host.Names.Set(fmt.Sprintf("binding.kept.%d", i+1), drop)
		p.kept.list.Add(container.NewBorder(nil, nil, nil, drop, widgets.Line(text, widgets.Plain)))
	}
	p.kept.list.Refresh()
}

// job is the edge in the fields; false while one of them cannot be read or is needed.
func (p *Page) job() (binding.Job, bool) {
	j := binding.Job{Name: strings.TrimSpace(p.name.Text), Drawn: binding.DrawnOut, EndExtra: binding.FreeEndExtra}
	if j.Name == "" {
		j.Name = "edge"
	}
	if of, ok := p.jobNow(); ok {
		j = of
	}
	j.Units = p.host.Settings().Units
	segments, ok := p.parts.read(j.Segments)
	finish, ok2 := p.finish.read(j.Finish)
	if !ok || !ok2 || !p.count.Valid() || len(segments) == 0 {
		return j, false
	}
	j.Segments, j.Finish, j.Closed = segments, finish, p.closed.Checked
	_, _ = fmt.Sscan(p.count.Text(), &j.Count)
	return j, p.how.read(&j)
}

// before are the edges finished before the one in the fields: of the pattern, or kept.
func (p *Page) before() []binding.Job {
	for i, j := range p.jobs {
		if j.Name == p.edge.Selected {
			return p.jobs[:i]
		}
	}
	return p.kept.jobs
}

// catchable offers what the parts in the fields may catch.
func (p *Page) catchable() {
	var edges []string
	for _, j := range p.before() {
		if !slices.Contains(edges, j.Name) {
			edges = append(edges, j.Name)
		}
	}
	p.how.catchable(p.parts.names(), edges)
}
