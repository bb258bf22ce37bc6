package verb

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/ui/say"
)

// stripsFields is what strips come to, in JSON.
type stripsFields struct {
	Strips   []stripFields `json:"strips"`
	Cloth    []stripCloth  `json:"cloth"`
	Joins    []joinFields  `json:"joins"`
	Short    mm            `json:"short_mm"`
	Reserved int           `json:"reserved"`
}

type stripFields struct {
	Name      string        `json:"name"`
	Count     int           `json:"count"`
	Closed    bool          `json:"closed"`
	Finish    string        `json:"finish"`
	CutWidth  mm            `json:"cut_width_mm"`
	Length    mm            `json:"length_mm"`
	CutLength mm            `json:"cut_length_mm"`
	Parts     []partFields  `json:"parts"`
	Marks     []markFields  `json:"marks"`
	Checks    []checkFields `json:"checks"`
}

type partFields struct {
	Name   string  `json:"name"`
	Edge   mm      `json:"edge_mm"`
	Ratio  float64 `json:"ratio"`
	Length mm      `json:"length_mm"`
	From   mm      `json:"from_mm"`
}

type markFields struct {
	Name       string `json:"name"`
	FromEnd    mm     `json:"from_end_mm"`
	FromCentre mm     `json:"from_centre_mm"`
	OnEdge     mm     `json:"on_edge_mm"`
}

type checkFields struct {
	OK   bool   `json:"ok"`
	Text string `json:"text"`
	Do   string `json:"do"`
}

type stripCloth struct {
	Code   string `json:"code"`
	Across int    `json:"strips_across"`
	Taken  mm     `json:"taken_mm"`
}

// joinFields is one join: on which strip, counted from 0 over all strips and counts,
// and how far from its start.
type joinFields struct {
	Strip int `json:"strip"`
	At    mm  `json:"at_mm"`
}

func fieldsOfStrips(a planner.BindingAnswer) stripsFields {
	out := stripsFields{Strips: []stripFields{}, Cloth: []stripCloth{}, Joins: []joinFields{}, Short: mm(a.Short)}
	for _, s := range a.Strips {
		out.Strips = append(out.Strips, fieldsOfStrip(s))
	}
	for i, c := range a.Cloths {
		if i < len(a.Plan.Strips) && i < len(a.Plan.Taken) {
			out.Cloth = append(out.Cloth, stripCloth{Code: c.Cloth.Code, Across: a.Plan.Strips[i], Taken: mm(a.Plan.Taken[i])})
		}
	}
	for _, no := range slices.Sorted(maps.Keys(a.Plan.Joins)) {
		for _, at := range a.Plan.Joins[no] {
			out.Joins = append(out.Joins, joinFields{Strip: no, At: mm(at)})
		}
	}
	return out
}

func fieldsOfStrip(s binding.Strip) stripFields {
	f := stripFields{
		Name: s.Job.Name, Count: max(1, s.Job.Count), Closed: s.Job.Closed, Finish: string(s.Job.Finish.Technique),
		CutWidth: mm(s.CutWidth), Length: mm(s.Length), CutLength: mm(s.CutLength),
		Parts: []partFields{}, Marks: []markFields{}, Checks: []checkFields{},
	}
	for _, p := range s.Parts {
		f.Parts = append(f.Parts, partFields{Name: p.Segment.Name, Edge: mm(p.Segment.Whole()), Ratio: p.Ratio, Length: mm(p.Length), From: mm(p.From)})
	}
	for _, m := range s.Marks {
		f.Marks = append(f.Marks, markFields{Name: m.Name, FromEnd: mm(m.FromEnd), FromCentre: mm(m.FromCentre), OnEdge: mm(m.OnEdge)})
	}
	for _, c := range s.Checks {
		f.Checks = append(f.Checks, checkFields{c.OK, c.Text, c.Do})
	}
	return f
}

// tellStrips says in words what strips come to.
func (l *library) tellStrips(w io.Writer, a planner.BindingAnswer, f stripsFields) {
	size := l.voice.Fine
	for _, s := range a.Strips {
		fmt.Fprintf(w, "%s: cut %d, %s wide, %s long (%s)\n", s.Job.Name, max(1, s.Job.Count), size(s.CutWidth), size(s.CutLength), s.Job.Finish.Technique)
		for _, p := range s.Parts {
			fmt.Fprintf(w, "  %s of strip to %s of edge: %.0f %%\n", pad(p.Segment.Name+", "+size(p.Length), 24), size(p.Segment.Whole()), 100*p.Ratio)
		}
		for _, c := range s.Checks {
			if !c.OK {
				fmt.Fprintln(w, "  "+strings.TrimSpace(say.Sentence(c.Text)+" "+say.Sentence(c.Do)))
			}
		}
	}
	for i, c := range f.Cloth {
		if c.Across > 0 {
			fmt.Fprintf(w, "From %s: %d strips across, %s of its length\n", c.Code, c.Across, l.voice.Length(a.Plan.Taken[i]))
		}
	}
	if n := len(f.Joins); n > 0 {
		fmt.Fprintf(w, "Joins: %d\n", n)
	}
	if a.Short > 0 && len(a.Cloths) > 0 {
		fmt.Fprintf(w, "%s of strip found no cloth\n", size(a.Short))
	}
	if f.Reserved > 0 {
		fmt.Fprintf(w, "Reserved: %d\n", f.Reserved)
	}
	if len(a.Strips) > 0 {
		fmt.Fprintln(w, "Cut to width now, to length after the try-on.")
	}
}
