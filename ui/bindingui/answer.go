package bindingui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/scene"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// answerView shows strips as they were worked out: in section, with marks, across the
// cloth, and their checks in words.
type answerView struct {
	box    *fyne.Container
	object fyne.CanvasObject
}

func newAnswerView() *answerView {
	v := &answerView{box: container.NewVBox(widgets.Remark("", "Choose an edge of a pattern, or type the length of one: the strip is drawn here while you type.", widgets.Quiet))}
	v.object = v.box
	return v
}

// trouble shows what stands in the way.
func (v *answerView) trouble(err error) {
	v.box.Objects = []fyne.CanvasObject{widgets.SubHeading("No strip yet"), widgets.Remark("× ", say.Error(err), widgets.Bad)}
	v.box.Refresh()
}

// show draws the answer.
func (v *answerView) show(voice say.Voice, a planner.BindingAnswer) {
	var out []fyne.CanvasObject
	for i, s := range a.Strips {
		out = append(out, stripObjects(voice, s, i == 0)...)
	}
	if len(a.Cloths) > 0 {
		out = append(out, widgets.SubHeading("Across the cloth"), widgets.Remark("", v.words(voice, a), widgets.Plain))
		for i := range a.Cloths {
			if s := paper.CutScene(voice, a, i); len(s.Items) > 0 {
				out = append(out, drawing(s, 360))
			}
		}
	}
	v.box.Objects = out
	v.box.Refresh()
}

func drawing(s scene.Scene, height float32) fyne.CanvasObject {
	v := widgets.NewSceneView(320, height)
	v.Draw(s)
	return v
}

// stripObjects are the words and drawings of one strip; the section is drawn for the
// first only unless the finishes differ.
func stripObjects(v say.Voice, s binding.Strip, section bool) []fyne.CanvasObject {
	n := max(s.Job.Count, 1)
	head := say.Sentence(s.Job.Name)
	head = head[:len(head)-1]
	if n > 1 {
		head += fmt.Sprintf(", %d alike", n)
	}
	out := []fyne.CanvasObject{
		widgets.SubHeading(head),
		widgets.Line("Cut "+v.Fine(s.CutLength)+" × "+v.Fine(s.CutWidth)+endWords(v, s), widgets.Plain),
		drawing(paper.StripScene(v, s, nil), 150),
	}
	for _, c := range s.Checks {
		out = append(out, checkLine(c))
	}
	if section {
		out = append(out, widgets.Caption("The finish cut through"), drawing(paper.SectionScene(v, s), 150))
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
	case c.OK:
		tone, mark = widgets.Good, "✓ "
	case c.Unknown:
		tone, mark = widgets.Careful, "… "
	}
	words := say.Sentence(text)
	if !c.OK && c.Do != "" {
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
				say.Count(a.Plan.Strips[i], "strip", "strips"), voice.Length(taken))
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
