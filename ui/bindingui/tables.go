package bindingui

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// marksTable lists a strip's marks as they are read off a ruler.
func marksTable(v say.Voice, s binding.Strip) fyne.CanvasObject {
	rows := [][]string{{"", "from end", "apart", "from centre", "on the edge"}}
	for _, r := range s.Table(s.Job.Units) {
		rows = append(rows, []string{r.Name, v.Mark(r.FromEnd), v.Mark(r.Step), v.Mark(max(r.FromCentre, -r.FromCentre)), v.Mark(r.OnEdge)})
	}
	return widgets.Figures(rows)
}

// offerObjects are the ways to hold a strip in, side by side, and what to mind of each.
// What the checks of the strip say already is not said again.
func offerObjects(v say.Voice, offers []binding.Offer, checks []binding.Check) []fyne.CanvasObject {
	if len(offers) == 0 {
		return nil
	}
	rows := [][]string{{"", "of the edge", "strip", "edge stretched", "fold stretched"}}
	out := []fyne.CanvasObject{widgets.Caption("Ways to hold it in"), nil}
	for _, o := range offers {
		rows = append(rows, []string{string(o.Basis), share(o.Ratio), v.Fine(o.Strip.Length), share(o.Sewn), share(o.Fold)})
		name := string(o.Basis)
		if o.Words != "" {
			name += " (" + o.Words + ")"
		}
		if o.Says.Unknown || slices.ContainsFunc(checks, func(c binding.Check) bool { return c.Text == o.Says.Text }) {
			continue
		}
		if o.Says.Text != "" {
			tone, mark := widgets.Bad, "× "
			if o.Says.OK {
				tone, mark = widgets.Careful, "! "
			}
			out = append(out, widgets.Remark(mark, say.Sentence(name+": "+o.Says.Text)+" "+o.Says.Do, tone))
		} else if o.Words != "" {
			out = append(out, widgets.Remark("✓ ", say.Sentence(name), widgets.Good))
		}
	}
	out[1] = widgets.Figures(rows)
	return out
}

// share writes a fraction in whole percents.
func share(f float64) string {
	return measure.FormatPercent(measure.PercentOf(math.Round(f*100) / 100))
}
