package bindingui

import (
	"fmt"
	"reflect"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
	"tallycloth/ui/looks"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// answerView shows strips as they were worked out: in section, with marks, across the
// cloth, and their checks in words.
type answerView struct {
	box, cloth *fyne.Container // strips; how they are cut
	object     fyne.CanvasObject
	views      map[string]*widgets.SceneView // drawings by what they show, used again
	strips     []*stripView
	scroll     *sightScroll
}

// stripView is what is shown of one strip, and what it was made of: one that did not change is not
// made again while a person types.
type stripView struct {
	strip   binding.Strip
	offers  []binding.Offer
	section bool
	units   measure.System
	look    looks.Palette
	size    float32
	object  fyne.CanvasObject
}

func newAnswerView() *answerView {
	v := &answerView{views: map[string]*widgets.SceneView{}, box: container.NewVBox(widgets.Remark("", "Choose an edge of a pattern, or type the length of one: the strip is drawn here while you type.", widgets.Quiet))}
	v.cloth = container.NewVBox()
	v.object = container.New(sightLayout{v}, v.box, v.cloth)
	v.scroll = newSightScroll(widgets.Inset(v.object), v.paint)
	return v
}

// trouble shows what stands in the way.
func (v *answerView) trouble(err error) {
	v.strips = nil
	v.box.Objects = []fyne.CanvasObject{widgets.SubHeading("No strip yet"), widgets.Remark("× ", say.Error(err), widgets.Bad)}
	v.cloth.Objects = nil
	v.object.Refresh()
}

// show draws the answer; offers are the ways to hold each strip in, where there is a choice.
func (v *answerView) show(voice say.Voice, a planner.BindingAnswer, offers [][]binding.Offer) {
	was := v.strips
	v.strips, v.box.Objects = nil, nil
	for i, s := range a.Strips {
		now := &stripView{strip: s, units: voice.Units, look: looks.Now(), size: theme.TextSize()}
		now.offers = offers[i]
		now.section = i == 0 || s.Job.Finish != a.Strips[i-1].Job.Finish
		if i < len(was) {
			now.object = was[i].object
			if !reflect.DeepEqual(now, was[i]) {
				now.object = nil
			}
		}
		if now.object == nil {
			now.object = container.NewVBox(v.stripObjects(voice, i, s, now.offers, now.section)...)
		}
		v.strips, v.box.Objects = append(v.strips, now), append(v.box.Objects, now.object)
	}
	if !slices.EqualFunc(was, v.strips, func(a, b *stripView) bool { return a.strip.Job.Name == b.strip.Job.Name }) {
		v.scroll.ScrollToTop() // another edge
	}
	v.box.Refresh()
	v.paint()
}

// uncut shows that no cloth is chosen to cut from.
func (v *answerView) uncut() {
	if len(v.cloth.Objects) > 0 {
		v.cloth.Objects = nil
		v.cloth.Refresh()
	}
}

// cutting says that the plan over the cloth is being looked for.
func (v *answerView) cutting() {
	v.cloth.Objects = []fyne.CanvasObject{widgets.SubHeading("Across the cloth"), widgets.Line("Laying them out …", widgets.Quiet)}
	v.cloth.Refresh()
}

// cut shows how the strips are cut, each cloth with its drawing.
func (v *answerView) cut(voice say.Voice, a planner.BindingAnswer, scenes []scene.Scene) {
	out := []fyne.CanvasObject{widgets.SubHeading("Across the cloth"), widgets.Remark("", v.words(voice, a), widgets.Plain)}
	for _, c := range a.Plan.Checks(a.Strips) {
		if c.OK {
			out = append(out, checkLine(c))
		}
	}
	if c, unlike := a.Unlike(); unlike {
		out = append(out, checkLine(c))
	}
	for i, s := range scenes {
		if len(s.Items) > 0 {
			out = append(out, v.drawing(fmt.Sprint("cloth ", i), s, 360))
		}
	}
	v.cloth.Objects = out
	v.cloth.Refresh()
	v.paint()
}

// paint paints what came into sight.
func (v *answerView) paint() {
	for _, view := range v.views {
		view.Paint()
	}
}

// drawing shows a scene where the last one of its name was.
func (v *answerView) drawing(name string, s scene.Scene, height float32) fyne.CanvasObject {
	view, ok := v.views[name]
	if !ok {
		view = widgets.NewSceneView(320, height)
		view.Seen = func() bool { return v.scroll.sees(view) }
		v.views[name] = view
	}
	view.Draw(s)
	return view
}

// stripHigh is how high the drawing of a strip is at most: room for the words of its marks.
const stripHigh = 340

// stripObjects are the words and drawings of one strip; the section is drawn for the
// first only unless the finishes differ.
func (view *answerView) stripObjects(v say.Voice, at int, s binding.Strip, offers []binding.Offer, section bool) []fyne.CanvasObject {
	n := max(s.Job.Count, 1)
	head := say.Sentence(s.Job.Name)
	head = head[:len(head)-1]
	if n > 1 {
		head += fmt.Sprintf(", %d alike", n)
	}
	out := []fyne.CanvasObject{
		widgets.SubHeading(head),
		widgets.Line("Cut "+v.Fine(s.CutLength)+" × "+v.Fine(s.CutWidth)+endWords(v, s), widgets.Plain),
		view.drawing(fmt.Sprint("strip ", at), paper.StripOnScreen(v, s), stripHigh),
	}
	for _, c := range s.Checks {
		out = append(out, checkLine(c))
	}
	if s.ClearElastic > 0 {
		out = append(out, widgets.Line("Clear elastic in the straps: "+v.Fine(s.ClearElastic), widgets.Plain))
	}
	out = append(out, offerObjects(v, offers, s.Checks)...)
	out = append(out, widgets.Caption("Marks, to a ruler's lines; each is measured from the end, so that rounding does not add up"), marksTable(v, s))
	if section {
		out = append(out, widgets.Caption("The finish cut through"), view.drawing(fmt.Sprint("section ", at), paper.SectionScene(v, s), 150))
	}
	return out
}

// endWords say what of the cut length is not on the edge.
func endWords(v say.Voice, s binding.Strip) string {
	if extra := s.CutLength - s.Length; extra > 0 {
		return ", of that " + v.Fine(extra) + " for seams and ends"
	}
	return ""
}

// checkLine is one check in words with its mark.
func checkLine(c binding.Check) fyne.CanvasObject {
	text := c.Text
	tone, mark := widgets.Bad, "× "
	switch {
	case c.OK && c.Mind:
		tone, mark = widgets.Careful, "! "
	case c.OK:
		tone, mark = widgets.Good, "✓ "
	case c.Unknown:
		tone, mark = widgets.Careful, "… "
	}
	words := say.Sentence(text)
	if (!c.OK || c.Mind) && c.Do != "" {
		words += " " + c.Do
	}
	return widgets.Remark(mark, words, tone)
}

// words say what the strips take of which cloth, and how many joins there are.
func (v *answerView) words(voice say.Voice, a planner.BindingAnswer) string {
	out := ""
	for i, taken := range a.Plan.Taken {
		if taken > 0 {
			out += fmt.Sprintf("%s %s: %s across, %s of its length. ", a.Cloths[i].Fabric.Name, a.Cloths[i].Cloth.Code,
				say.Count(a.Plan.Strips[i], "strip", "strips"), voice.Needed(taken))
		}
	}
	joins := 0
	for _, j := range a.Plan.Joins {
		joins += len(j)
	}
	if joins > 0 {
		out += say.Count(joins, "join", "joins") + ". "
	}
	if a.Short > 0 {
		out += "There is no cloth for " + voice.Length(a.Short) + " of strip: add another length or leftover. "
	}
	if out == "" {
		return "Nothing is cut from this cloth."
	}
	return out
}
