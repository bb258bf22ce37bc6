package bindingui

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/ui/looks"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// TestWordsOnScreenKeepApart: beside a strip in a column of the window no two texts lie over each other, however
// long they are; 520 and 900 pixels are the column at 1366 and 1920.
func TestWordsOnScreenKeepApart(t *testing.T) {
	app := test.NewTempApp(t)
	app.Settings().SetTheme(&looks.Theme{Percent: 100})
	const cm = measure.Centimetre
	j := binding.Job{Name: "armhole", Finish: binding.Finish{Technique: binding.WrappedTurned, Width: cm, Seam: cm},
		Segments: []binding.Segment{
			{Name: "back", Length: 18 * cm, Turning: 0.9, Mark: "shoulder", Catches: "the neck in front"},
			{Name: "front", Length: 21 * cm, Turning: 1.1, Mark: "side seam"}, {Name: "under", Length: 4 * cm, Catches: "neck"}}}
	s, err := binding.Work(j, binding.FabricFacts{})
	if err != nil {
		t.Fatal(err)
	}
	for _, wide := range []int{520, 900} {
		sc := paper.StripOnScreen(say.Voice{}, s)
		high := min(stripHigh, int(float64(wide)*sc.Bounds.Height()/sc.Bounds.Width()))
		boxes := widgets.TextBoxes(sc, wide, high)
		for i, a := range boxes {
			for k, b := range boxes[i+1:] {
				if a.Overlaps(b) {
					t.Errorf("%d wide: texts %d at %v and %d at %v overlap", wide, i, a, i+1+k, b)
				}
			}
		}
		if len(boxes) < len(s.Marks) {
			t.Errorf("%d texts for %d marks", len(boxes), len(s.Marks))
		}
	}
}
