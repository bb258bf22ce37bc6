package bindingui

import (
	"context"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/garment"
	"tallycloth/planner/scene"
	"tallycloth/stash"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// work works the strips out anew from what stands in the fields. Fields that cannot be
// read say so themselves; the drawings stay as they were.
func (p *Page) work() {
	if p.filling {
		return
	}
	p.host.Tasks.Stop("binding.work")
	p.how.draws(planner.DrawnLast(p.from.now(), binding.Technique(p.finish.technique.Selected)))
	p.catchable()
	jobs, ok := p.wanted()
	if !ok {
		p.answer = nil
		p.ready()
		return
	}
	v, f := p.host.Voice(), p.from.now()
	set := p.host.Settings()
	strips, err := planner.WorkStrips(jobs, f, set.UsableStretch)
	if err != nil {
		p.answer = nil
		p.shown.trouble(err)
		p.ready()
		return
	}
	offers := make([][]binding.Offer, len(jobs))
	if p.edge.Selected != allEdges {
		offers[len(jobs)-1] = planner.RatioOffers(jobs[len(jobs)-1], f, set)
		p.how.offer(offers[len(jobs)-1])
	} else {
		for i, j := range jobs {
			offers[i] = planner.RatioOffers(j, f, set)
		}
	}
	a := planner.BindingAnswer{Strips: strips}
	p.answer = &a
	p.parts.ratios(strips[len(strips)-1])
	p.shown.show(v, a, offers)
	p.cut(strips, set)
	p.ready()
}

// soon is how long a plan may take until it is said that it is being looked for.
const soon = 300 * time.Millisecond

// cut plans how the strips are cut from cloth, which may take a moment: the numbers are
// there before, and the drawing of the last plan stays until then.
func (p *Page) cut(strips []binding.Strip, set planner.Settings) {
	cloths := p.from.chosen()
	if len(cloths) == 0 {
		p.shown.uncut()
		return
	}
	var a planner.BindingAnswer
	var scenes []scene.Scene
	v := p.host.Voice()
	p.host.Tasks.Start("binding.work", func(ctx context.Context, _ func(func())) (err error) {
		a, err = planner.LayStrips(ctx, strips, cloths, set)
		for i := range a.Cloths {
			scenes = append(scenes, paper.CutScene(v, a, i))
		}
		return err
	}, func(err error) {
		if err != nil {
			p.answer = nil
			p.shown.trouble(err)
		} else {
			p.answer = &a
			p.shown.cut(v, a, scenes)
		}
		p.ready()
	})
	p.host.Tasks.Late("binding.work", soon, p.shown.cutting)
}

// ready says whether the strips can be printed, and reserved, as they are.
func (p *Page) ready() {
	for _, b := range p.papers {
		if p.answer != nil && len(p.answer.Strips) > 0 {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	if p.answer != nil && len(p.answer.Plan.Pieces) > 0 && p.answer.Short == 0 {
		p.reserve.Enable()
		return
	}
	p.reserve.Disable()
}

// wanted is what the fields say; false while one of them cannot be read or is needed.
func (p *Page) wanted() ([]binding.Job, bool) {
	if p.edge.Selected == allEdges && len(p.jobs) > 0 {
		return p.everyJob(), true
	}
	j, ok := p.job()
	if !ok {
		return nil, false
	}
	before := p.before()
	all := binding.Cross(append(slices.Clone(before), j))
	if _, ofPattern := p.jobNow(); ofPattern {
		return all[len(before):], true // those before it lengthen it, and are not cut with it
	}
	return all, true
}

// readCount reads how many strips are cut alike.
func readCount(text string) (string, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 || n > 1000 {
		return "", errors.New("type a whole number from 1 to 1000")
	}
	return say.Count(n, "strip", "strips alike"), nil
}

func countText(n int) string { return strconv.Itoa(max(n, 1)) }

// Reserve asks for which garment, and keeps the strips' cloth for it.
func (p *Page) Reserve() {
	if p.answer == nil {
		return
	}
	open, words := p.openGarments()
	if len(words) == 0 {
		p.host.Tell("Strips are reserved for a garment: add one under Garments, or reserve its main fabric first.")
		return
	}
	choice := widgets.NewChoice("Garment", words, nil)
	for i, g := range open {
		if g.ID == p.garment {
			choice.SetSelectedIndex(i)
		}
	}
	p.host.Names.Set("binding.garment", choice)
	a := *p.answer
	form := &widgets.Form{Title: "Reserve strips", Send: "Reserve", Say: say.Error, Width: 420,
		Intro: p.shown.words(p.host.Voice(), a),
		Rows:  [][]fyne.CanvasObject{{choice.Object()}},
	}
	form.Done = func() error {
		g := open[choice.SelectedIndex()]
		p.host.Act("reserve strips", func(ctx context.Context) (string, error) {
			_, err := p.host.Studio.ReserveStrips(ctx, g.ID, a)
			return "Reserved the strips for " + g.Name + ".", err
		}, func(error) { p.Shown() })
		return nil
	}
	p.host.ShowForm(form)
	p.host.Names.Set("binding.garment.send", form.SendButton())
	p.host.Focus(choice)
}

// openGarments are the garments that cloth can still be reserved for, the pattern's
// own first.
func (p *Page) openGarments() (open []garment.Garment, words []string) {
	q, _ := p.patternNow()
	var others []garment.Garment
	for _, g := range p.garments {
		switch {
		case g.State == garment.Finished || g.State == garment.GivenUp:
		case g.PatternID == q.ID && q.ID != stash.NoID:
			open = append(open, g)
		default:
			others = append(others, g)
		}
	}
	open = append(open, others...)
	for _, g := range open {
		words = append(words, strings.TrimSpace(g.Sized()))
	}
	return open, words
}
