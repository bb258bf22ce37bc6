package verb

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/stash"
	"tallycloth/stash/measure"
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
	Clear     mm            `json:"clear_elastic_mm"`
	Ratio     float64       `json:"ratio"`
	Folds     []mm          `json:"folds_mm"`
	Offers    []offerFields `json:"offers"`
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
	Basis  string  `json:"basis"`
	Sewn   float64 `json:"sewn_stretch"`
	Fold   float64 `json:"fold_stretch"`
}

// offerFields is one way to hold a strip in, beside the others.
type offerFields struct {
	Basis  string  `json:"basis"`
	Words  string  `json:"words"`
	Ratio  float64 `json:"ratio"`
	Length mm      `json:"length_mm"`
	Sewn   float64 `json:"sewn_stretch"`
	Fold   float64 `json:"fold_stretch"`
	Text   string  `json:"text"`
	Do     string  `json:"do"`
}

type markFields struct {
	Name       string `json:"name"`
	FromEnd    mm     `json:"from_end_mm"`
	FromCentre mm     `json:"from_centre_mm"`
	OnEdge     mm     `json:"on_edge_mm"`
	Ruled      mm     `json:"ruled_mm"`
	Step       mm     `json:"step_mm"`
}

type checkFields struct {
	Kind string `json:"kind"`
	OK   bool   `json:"ok"`
	Mind bool   `json:"mind"`
	Text string `json:"text"`
	Do   string `json:"do"`
}

type stripCloth struct {
	Code   string `json:"code"`
	Across int    `json:"strips_across"`
	Taken  mm     `json:"taken_mm"`
	// Outlines of the strips in the cloth's frame.
	Outlines [][][2]mm `json:"outlines_mm"`
}

// joinFields is one join: on which strip, counted from 0 over all strips and counts,
// and how far from its start.
type joinFields struct {
	Strip int `json:"strip"`
	At    mm  `json:"at_mm"`
}

func (l *library) fieldsOfStrips(a planner.BindingAnswer, fabric stash.Fabric) stripsFields {
	out := stripsFields{Strips: []stripFields{}, Cloth: []stripCloth{}, Joins: []joinFields{}, Short: mm(a.Short)}
	for _, s := range a.Strips {
		f := fieldsOfStrip(s)
		f.Offers = l.offers(s.Job, fabric)
		out.Strips = append(out.Strips, f)
	}
	for i, c := range a.Cloths {
		if i < len(a.Plan.Strips) && i < len(a.Plan.Taken) {
			f := stripCloth{Code: c.Cloth.Code, Across: a.Plan.Strips[i], Taken: mm(a.Plan.Taken[i]), Outlines: [][][2]mm{}}
			for _, r := range a.Where[i] {
				var outline [][2]mm
				for _, p := range r {
					outline = append(outline, [2]mm{mm(p.X), mm(p.Y)})
				}
				f.Outlines = append(f.Outlines, outline)
			}
			out.Cloth = append(out.Cloth, f)
		}
	}
	for _, no := range slices.Sorted(maps.Keys(a.Plan.Joins)) {
		for _, at := range a.Plan.Joins[no] {
			out.Joins = append(out.Joins, joinFields{Strip: no, At: mm(at)})
		}
	}
	return out
}

func fieldsOfCheck(c binding.Check) checkFields {
	return checkFields{string(c.Kind), c.OK, c.Mind, c.Text, c.Do}
}

// offers lists the ways to hold a strip in.
func (l *library) offers(j binding.Job, fabric stash.Fabric) []offerFields {
	out := []offerFields{}
	for _, o := range planner.RatioOffers(j, fabric, l.settings) {
		out = append(out, offerFields{Basis: string(o.Basis), Words: o.Words, Ratio: o.Ratio, Length: mm(o.Strip.Length), Sewn: o.Sewn, Fold: o.Fold, Text: o.Says.Text, Do: o.Says.Do})
	}
	return out
}

func fieldsOfStrip(s binding.Strip) stripFields {
	f := stripFields{
		Name: s.Job.Name, Count: max(1, s.Job.Count), Closed: s.Job.Closed, Finish: string(s.Job.Finish.Technique),
		CutWidth: mm(s.CutWidth), Length: mm(s.Length), CutLength: mm(s.CutLength), Clear: mm(s.ClearElastic), Ratio: s.SewnRatio(), Folds: []mm{},
		Parts: []partFields{}, Marks: []markFields{}, Checks: []checkFields{},
	}
	for _, p := range s.Parts {
		f.Parts = append(f.Parts, partFields{Name: p.Segment.Name, Edge: mm(p.Segment.Whole()), Ratio: p.Ratio, Length: mm(p.Length), From: mm(p.From),
			Basis: string(p.Basis), Sewn: p.Sewn, Fold: p.Fold})
	}
	table := s.Table(s.Job.Units)
	for i, m := range s.Marks {
		f.Marks = append(f.Marks, markFields{Name: m.Name, FromEnd: mm(m.FromEnd), FromCentre: mm(m.FromCentre), OnEdge: mm(m.OnEdge),
			Ruled: mm(table[i].FromEnd), Step: mm(table[i].Step)})
	}
	for _, l := range s.FoldLines() {
		f.Folds = append(f.Folds, mm(l))
	}
	for _, c := range s.Checks {
		f.Checks = append(f.Checks, fieldsOfCheck(c))
	}
	return f
}

// tellStrips says in words what strips come to.
func (l *library) tellStrips(w io.Writer, a planner.BindingAnswer, f stripsFields) {
	size, mark := l.voice.Fine, l.voice.Mark
	for i, s := range a.Strips {
		fmt.Fprintf(w, "%s: cut %d, %s wide, %s long (%s)\n", s.Job.Name, max(1, s.Job.Count), size(s.CutWidth), size(s.CutLength), s.Job.Finish.Technique)
		for _, p := range s.Parts {
			fmt.Fprintf(w, "  %s of strip to %s of edge: %.0f %%, %s\n", pad(p.Segment.Name+", "+size(p.Length), 24), size(p.Segment.Whole()), 100*p.Ratio, p.Basis)
		}
		for _, r := range s.Table(s.Job.Units) {
			fmt.Fprintf(w, "  mark %s %s from the end, %s from the centre, %s on the edge\n", pad(r.Name, 28), mark(r.FromEnd), mark(max(r.FromCentre, -r.FromCentre)), mark(r.OnEdge))
		}
		if s.ClearElastic > 0 {
			fmt.Fprintf(w, "  clear elastic in the straps: %s\n", size(s.ClearElastic))
		}
		for _, o := range f.Strips[i].Offers {
			fmt.Fprintf(w, "  %s %.0f %% of the edge, %s long, sewn edge stretched %.0f %%, fold %.0f %%\n", pad(strings.TrimSpace(o.Basis+" "+o.Words)+":", 24), 100*o.Ratio, size(measure.Length(o.Length)), 100*o.Sewn, 100*o.Fold)
		}
		for _, c := range s.Checks {
			if !c.OK || c.Mind {
				fmt.Fprintln(w, "  "+strings.TrimSpace(say.Sentence(c.Text)+" "+c.Do))
			} else if c.Kind == binding.CheckCrosses {
				fmt.Fprintln(w, "  "+say.Sentence(c.Text))
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
	mind := a.Plan.Checks(a.Strips)
	if c, unlike := a.Unlike(); unlike {
		mind = append(mind, c)
	}
	for _, c := range mind {
		if c.Kind == binding.CheckFewer || c.Kind == planner.CheckUnlike {
			fmt.Fprintln(w, say.Sentence(c.Text)+" "+c.Do)
		}
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
