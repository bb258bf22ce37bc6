package binding

import (
	"fmt"
	"slices"

	"tallycloth/stash/measure"
)

// Cross returns the jobs, in the order they are sewn, with what earlier finishes add to the
// parts that catch their ends: Finish.Lengthens of the earlier at the end of the part. What an edge catches that is
// not finished earlier stays as it is. The jobs given are not changed.
func Cross(jobs []Job) []Job {
	out := slices.Clone(jobs)
	for i := range out {
		out[i].Segments = slices.Clone(out[i].Segments)
		for k := range out[i].Segments {
			s := &out[i].Segments[k]
			for _, earlier := range jobs[:i] {
				if s.Catches == earlier.Name && s.Catches != "" && !s.Free {
					s.CrossEnd = earlier.Finish.Lengthens()
				}
			}
		}
	}
	return out
}

// crosses tells what each edge does to the next: which earlier finish makes a part
// longer or shorter, and whose end it catches.
func (s Strip) crosses() []Check {
	var out []Check
	for _, p := range s.Parts {
		seg := p.Segment
		by := seg.CrossStart + seg.CrossEnd
		if by == 0 && seg.Catches == "" {
			continue
		}
		c := Check{Kind: CheckCrosses, Part: seg.Name, OK: true, Value: float64(by)}
		switch {
		case seg.Catches == "":
			c.Text = fmt.Sprintf("%s: the finishes it crosses make it %s", named(seg.Name), s.longer(by))
		case by == 0:
			c.Text = fmt.Sprintf("%s catches the end of %s, which does not make it longer", named(seg.Name), seg.Catches)
		default:
			c.Text = fmt.Sprintf("%s catches the end of %s, which makes it %s", named(seg.Name), seg.Catches, s.longer(by))
		}
		if seg.Catches != "" {
			c.Text += "; the matching mark lies where it crosses"
		}
		out = append(out, c)
	}
	return out
}

func (s Strip) longer(by measure.Length) string {
	if by < 0 {
		return s.say(-by) + " shorter"
	}
	return s.say(by) + " longer"
}
