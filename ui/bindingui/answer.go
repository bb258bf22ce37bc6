package bindingui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
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
			if s := cutScene(voice, a, i); len(s.Items) > 0 {
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
		drawing(stripScene(v, s), 150),
	}
	for _, c := range s.Checks {
		out = append(out, checkLine(c))
	}
	if section {
		out = append(out, widgets.Caption("The finish cut through"), drawing(sectionScene(v, s), 150))
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

func stripScene(v say.Voice, s binding.Strip) scene.Scene {
	d := scene.StripDrawing{Length: int64(s.CutLength), Width: int64(s.CutWidth), Units: v.Units}
	r, _ := s.Job.Finish.Recipe()
	if r.Widths > 1 {
		d.Folds = []int64{int64(s.CutWidth) / 2}
	}
	for _, m := range s.Marks {
		if m.Name != "start" && m.Name != "end" {
			d.Marks = append(d.Marks, scene.StripMark{Name: m.Name, At: int64(m.FromEnd)})
		}
	}
	for _, p := range s.Parts {
		name := fmt.Sprintf("%s %s", p.Segment.Name, measure.FormatPercent((measure.PercentOf(p.Ratio)+5)/10*10))
		d.Parts = append(d.Parts, scene.StripSpan{Name: name, From: int64(p.From), To: int64(p.From + p.Length)})
	}
	if n := len(s.Parts); n > 0 && !s.Job.Closed {
		d.FreeStart, d.FreeEnd = s.Parts[0].Segment.Free, s.Parts[n-1].Segment.Free
	}
	return d.Scene()
}

func sectionScene(v say.Voice, s binding.Strip) scene.Scene {
	f := s.Job.Finish
	cut := f.Section()
	r, _ := f.Recipe()
	d := scene.SectionDrawing{Garment: cut.Garment, Strip: cut.Strip, Finished: int64(f.Width), Seam: int64(f.Seam),
		CutWidth: int64(s.CutWidth), Inwards: r.Lies == binding.TurnsIn, Units: v.Units}
	for _, x := range cut.Stitches {
		d.Stitches = append(d.Stitches, int64(x))
	}
	return d.Scene()
}

// cutScene draws the strips across one cloth; empty when none is cut from it.
func cutScene(v say.Voice, a planner.BindingAnswer, source int) scene.Scene {
	c := a.Cloths[source]
	d := scene.CutDrawing{Name: c.Fabric.Name + " " + c.Cloth.Code, Units: v.Units, Along: int64(c.Cloth.Length), Across: int64(c.Cloth.Width)}
	names := stripNames(a.Strips)
	parts := map[int]int{}
	for _, p := range a.Plan.Pieces {
		parts[p.StripNo] = max(parts[p.StripNo], p.Part)
	}
	for _, p := range a.Plan.Pieces {
		if p.Source != source {
			continue
		}
		d.Pieces = append(d.Pieces, scene.CutPiece{Name: names[p.StripNo], From: int64(p.From), To: int64(p.To), At: int64(p.At),
			Width: int64(p.Width), JoinFrom: p.Part > 0, JoinTo: p.Part < parts[p.StripNo], Tint: p.StripNo + 1})
	}
	if len(d.Pieces) == 0 {
		return scene.Scene{}
	}
	return d.Scene()
}

// stripNames names the strips by their numbers in a plan: "armhole 1", "armhole 2".
func stripNames(strips []binding.Strip) []string {
	var out []string
	for _, s := range strips {
		n := max(s.Job.Count, 1)
		for i := range n {
			if n == 1 {
				out = append(out, s.Job.Name)
			} else {
				out = append(out, fmt.Sprintf("%s %d", s.Job.Name, i+1))
			}
		}
	}
	return out
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
