package verb

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// edgeAllowances reads "3=2 cm", "1=none": an edge of an outline by its number, and the allowance along it.
func edgeAllowances(cut shape.Ring, texts []string, unit measure.Unit) (out []pattern.EdgeAllowance, err error) {
	edges := pattern.Stretches(cut)
	for _, text := range texts {
		number, wide, _ := strings.Cut(text, "=")
		n, err := strconv.Atoi(strings.TrimSpace(number))
		if err != nil || n < 1 || n > len(edges) {
			return nil, mistyped(fmt.Sprintf("--edge-allowance %q names no edge of it", text), fmt.Sprintf(`Write for instance "3=2 cm" or "1=none"; it has edges 1 to %d, clockwise from the top`, len(edges)))
		}
		l, err := measure.ParseLengthOrNone(wide, unit)
		if err != nil {
			return nil, said("--edge-allowance", err)
		}
		out = append(out, pattern.EdgeAllowance{At: edges[n-1].Middle(cut), Wide: l})
	}
	return out, nil
}

// alongEdges adds the allowances of the pieces of which an edge was said to have another one.
func (w outlineWords) alongEdges(l *library, p *pattern.Pattern) error {
	if len(w.byEdge) > 0 && !w.bare {
		return mistyped("--edge-allowance is for outlines that lack their seam allowance", "Say --without-allowance as well, or leave it out")
	}
	of := map[string][]string{}
	for _, text := range w.byEdge {
		name, edge, ok := strings.Cut(text, ":")
		if !ok {
			return mistyped(fmt.Sprintf("--edge-allowance %q names no pattern piece", text), `Write for instance "Front: 3=2 cm"`)
		}
		q, err := pickPiece(*p, name)
		if err != nil {
			return err
		}
		of[q.Code] = append(of[q.Code], edge)
	}
	for code, texts := range of {
		i := slices.IndexFunc(p.Pieces, func(q pattern.Piece) bool { return q.Code == code })
		on := p.Pieces[i].Outlines[lastSize(*p)].Cut
		others, err := edgeAllowances(on, texts, l.fieldUnit())
		if err != nil {
			return err
		}
		if p.Pieces[i], err = sizing.WithAllowance(p.Pieces[i], on, p.SeamAllowance, others); err != nil {
			return err
		}
	}
	return nil
}

// lastSize is the size that edges are counted in.
func lastSize(p pattern.Pattern) string { return p.Sizes[len(p.Sizes)-1].Name }

// tellEdges lists the edges of the pieces that lack their allowance, so that one can be named.
func (l *library) tellEdges(w io.Writer, p pattern.Pattern) {
	for _, q := range p.Pieces {
		cut := q.Outlines[lastSize(p)].Cut
		if !q.WithoutAllowance || len(cut) < 3 {
			continue
		}
		var words []string
		for k, s := range pattern.Stretches(cut) {
			text := fmt.Sprintf("%d %s", k+1, l.voice.Fine(s.Length(cut)))
			if q.OnFold && s.Middle(cut).Y == 0 {
				text += " (the fold)"
			}
			words = append(words, text)
		}
		fmt.Fprintf(w, "Edges of %s, clockwise from the top: %s.\n", q.Name, strings.Join(words, ", "))
	}
}
