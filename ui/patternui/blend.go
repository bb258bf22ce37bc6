package patternui

import (
	"context"
	"maps"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// blendable says whether a pattern has sizes and levels to blend.
func blendable(q pattern.Pattern) bool {
	return len(q.Sizes) > 1 && hasOutlines(q) && len(sizing.LevelsToBlend(q)) > 1
}

// blending is the form that asks for a size at each level, with a picture of what they make.
type blending struct {
	page   *Page
	of     pattern.Pattern
	levels map[string]*widgets.Choice
	told   *fyne.Container
	view   *widgets.SceneView
	form   *widgets.Form
}

// blend asks which size a pattern is at each level.
func (p *Page) blend(q pattern.Pattern, size string) {
	b := &blending{page: p, of: q, levels: map[string]*widgets.Choice{}, told: container.NewVBox(), view: widgets.NewSceneView(560, 230)}
	var names []string
	for _, s := range q.Sizes {
		names = append(names, s.Name)
	}
	var row []fyne.CanvasObject
	for _, level := range sizing.LevelsToBlend(q) {
		c := widgets.NewChoice("Size at the "+level, names, nil)
		c.SetSelected(size)
		c.OnChanged = func(string) { b.look() }
		p.host.Names.Set("blend."+level, c)
		b.levels[level] = c
		row = append(row, c.Object())
	}
	p.host.Names.Set("blend.told", b.told)
	b.form = &widgets.Form{Title: "Blend sizes of " + q.Name, Send: "Keep this size", Say: say.Error, Width: 640, Done: b.send,
		Intro: "One size at each level; the outlines run over smoothly from one to the next.",
		Rows:  [][]fyne.CanvasObject{row, {b.told}, {b.view}}}
	p.host.ShowForm(b.form)
	p.host.Names.Set("blend.send", b.form.SendButton())
	b.look()
}

// said are the sizes that are chosen.
func (b *blending) said() map[string]string {
	out := map[string]string{}
	for level, c := range b.levels {
		out[level] = c.Selected
	}
	return out
}

// look tries the blend and shows it, or says why there is none.
func (b *blending) look() {
	at := b.said()
	var made sizing.Blended
	b.page.host.Tasks.Start("blend.try", func(context.Context, func(func())) (err error) {
		made, err = sizing.BlendLevels(b.of, at)
		return err
	}, func(err error) {
		if !maps.Equal(at, b.said()) {
			return
		}
		b.told.RemoveAll()
		v := b.page.host.Voice()
		shown, size := b.of, at[sizing.LevelsToBlend(b.of)[0]]
		switch {
		case err != nil && same(at):
			b.told.Add(widgets.Remark("", "Choose another size at one of the levels.", widgets.Quiet))
		case err != nil:
			b.told.Add(widgets.Remark("", say.Error(err), widgets.Careful))
		default:
			shown, size = made.Pattern, made.Size
			b.told.Add(widgets.Remark("", v.WouldBlend(made), widgets.Plain))
		}
		b.view.Draw(piecesScene(v, shown, size))
		b.form.Refit()
	})
}

// same says whether it is one size at every level.
func same(at map[string]string) bool {
	sizes := slices.Compact(slices.Sorted(maps.Values(at)))
	return len(sizes) == 1
}

// send keeps the blend as a size of the pattern.
func (b *blending) send() error {
	at, h := b.said(), b.page.host
	if _, err := sizing.BlendLevels(b.of, at); err != nil {
		return err
	}
	h.Act("blend", func(ctx context.Context) (string, error) {
		made, err := h.Studio.BlendSizes(ctx, b.of.ID, at)
		if err == nil {
			b.page.size[b.of.ID] = made.Size
		}
		return say.Blended(made) + " Ctrl+Z takes it out again.", err
	}, func(error) { b.page.Shown() })
	return nil
}
