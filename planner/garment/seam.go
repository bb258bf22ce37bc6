package garment

import (
	"slices"
	"strconv"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Seam is a seam, hem or edge of a garment, for its thread.
type Seam struct {
	Name string
	// Class is its stitch class of ISO 4915, such as 301; 0: the usual one.
	Class int `json:",omitzero"`
	// Length is that of one row of stitching as it was typed; 0: what the pattern shows.
	Length measure.Length `json:",omitzero"`
	Rows   int            `json:",omitzero"` // of stitching; 0 is one
	// Ratio is thread per length of seam, in hundredths, as it was typed; 0: that of the class.
	Ratio int  `json:",omitzero"`
	Still bool `json:",omitzero"` // the seam need not stretch
	Out   bool `json:",omitzero"` // it is not sewn: left out
}

// MadeSeam is a seam of a garment as it is sewn.
type MadeSeam struct {
	Seam
	Drawn bool // its length is from the outlines
}

// What seams are by default: overedge in a knit, lockstitch in a woven, hems and edges of a
// knit zigzag (ours).
const (
	seamOfKnit  = 504
	edgeOfKnit  = 304
	seamOfWoven = 301
)

// Seams returns the seams of a garment: those that the outlines of its size show by the names
// of their edges, changed by what was noted, and those that were noted besides. knit says
// whether its main fabric is a knit.
//
// Two edges of the same name make one seam; a cap is sewn to the armholes; hems, casings and
// edges to finish are single.
func (g Garment) Seams(p pattern.Pattern, knit bool) []MadeSeam {
	out := drawn(p, g.Size, knit)
	for _, s := range g.Record.Seams {
		at := slices.IndexFunc(out, func(o MadeSeam) bool { return o.Name == s.Name })
		if at < 0 {
			out = append(out, MadeSeam{Seam: Seam{Name: s.Name, Class: usualClass(knit, false)}})
			at = len(out) - 1
		}
		o := &out[at]
		if s.Length > 0 {
			o.Length, o.Drawn = s.Length, false
		}
		if s.Class > 0 {
			o.Class = s.Class
		}
		if s.Rows > 0 {
			o.Rows = s.Rows
		}
		o.Ratio, o.Still, o.Out = s.Ratio, s.Still, s.Out
	}
	for i := range out {
		out[i].Rows = max(out[i].Rows, 1)
	}
	return out
}

func usualClass(knit, edge bool) int {
	switch {
	case !knit:
		return seamOfWoven
	case edge:
		return edgeOfKnit
	}
	return seamOfKnit
}

// drawn are the seams that outlines show.
func drawn(p pattern.Pattern, size string, knit bool) []MadeSeam {
	sum := edgeSums(p, size)
	var out []MadeSeam
	add := func(name string, l measure.Length, edge bool, rows int) {
		if l > 0 {
			out = append(out, MadeSeam{Seam: Seam{Name: name, Length: l, Class: usualClass(knit, edge), Rows: rows}, Drawn: true})
		}
	}
	for _, j := range joins {
		add(j.seam, sum[j.edge]/2, false, 1)
	}
	if sum["cap"] > 0 {
		add("armholes", sum["armhole"], false, 1)
	}
	for _, e := range p.Edges {
		if sum["cap"] > 0 && e.Name == "armhole" {
			continue
		}
		segments, missing := p.Measure(e, size)
		var l measure.Length
		for _, s := range segments {
			l += s.Length
		}
		if len(missing) == 0 {
			add("edge: "+e.Name, l*measure.Length(max(e.Count, 1)), true, 2) // sewn on, and caught
		}
	}
	add("waist casing", sum["waist"], true, 1)
	add("hems", sum["hem"], true, 1)
	return out
}

// joins are edges that are sewn to one of the same name, with the seam they make.
var joins = []struct{ edge, seam string }{
	{"shoulder", "shoulders"}, {"side", "side seams"}, {"underarm", "sleeve seams"},
	{"inseam", "inseams"}, {"centre", "centre seams"},
}

// edgeSums adds up the edges of all pattern pieces by name, each as often as it comes: with
// every piece that is cut, and twice where it is on the fold.
func edgeSums(p pattern.Pattern, size string) map[string]measure.Length {
	out := map[string]measure.Length{}
	for _, q := range p.Pieces {
		times := measure.Length(max(q.Cut, 1))
		if q.OnFold {
			times *= 2
		}
		for _, e := range q.Outlines[size].Edges {
			name := e.Name
			for _, j := range joins { // "centre front", "underarm back"
				if strings.HasPrefix(name, j.edge+" ") {
					name = j.edge
				}
			}
			out[name] += e.Length() * times
		}
	}
	return out
}

// WithSeam returns the garment with what was noted of a seam, by its name.
func (g Garment) WithSeam(s Seam) (Garment, error) {
	s.Name = strings.TrimSpace(s.Name)
	_, known := StitchOf(s.Class)
	switch {
	case s.Name == "" || tooLong(s.Name):
		return g, invalid("The seam has no name", "Call it by its place, such as side seams.")
	case s.Class != 0 && !known:
		return g, invalid("There is no ratio for stitch "+strconv.Itoa(s.Class), "Take one of the classes in the list.")
	case s.Length < 0 || s.Length > 100*measure.Metre:
		return g, invalid("A seam cannot be as long as that", "Type the length of one row of stitching.")
	case s.Rows < 0 || s.Rows > 20:
		return g, invalid("There cannot be so many rows", "Type how many rows of stitching there are, up to 20.")
	case s.Ratio < 0 || s.Ratio > 10000:
		return g, invalid("No stitch takes so much thread", "Type how many times as long as the seam its thread is, such as 5.5.")
	case len(g.Record.Seams) >= mostSeams:
		return g, invalid("There are very many seams already", "Take some away first.")
	}
	all := slices.DeleteFunc(slices.Clone(g.Record.Seams), func(o Seam) bool { return o.Name == s.Name })
	g.Record.Seams = append(all, s)
	return g, nil
}

// WithoutSeam returns the garment without what was noted of a seam: one that the outlines
// show is as they show it again.
func (g Garment) WithoutSeam(name string) (Garment, error) {
	at := slices.IndexFunc(g.Record.Seams, func(s Seam) bool { return s.Name == name })
	if at < 0 {
		return g, invalid("Nothing is noted of “"+name+"”", "Choose a seam that was changed or added.")
	}
	g.Record.Seams = slices.Delete(slices.Clone(g.Record.Seams), at, at+1)
	return g, nil
}

// Breaks says whether a seam is a plain lockstitch in a fabric that stretches and has to
// stretch with it: a knit, or a fabric that is known to stretch by 10 % or more (ours).
func (s MadeSeam) Breaks(f stash.Fabric) bool {
	stretches := f.Construction.Knit() || f.Crosswise.Stretch.Known && f.Crosswise.Stretch.Value >= 10*measure.OnePercent
	return !s.Out && !s.Still && stretches && stash.PlainLockstitch(strconv.Itoa(s.Class))
}
