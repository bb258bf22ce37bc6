package verb

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
)

// corrected adds what was typed of marks to a choice.
func (w outlineWords) corrected(d drawn.Drawing, c drawn.Choice) (drawn.Choice, error) {
	if len(w.grain)+len(w.plain) == 0 {
		return c, nil
	}
	if d.Stated != nil {
		return c, mistyped("--grain and --line-only are for drawings, and this file describes its pattern itself", "Change the outlines after bringing them in")
	}
	p, marks, _ := d.MarkedPattern(c)
	c.Grain, c.Plain = map[string]drawn.GrainWish{}, map[drawn.MarkName]bool{}
	for _, text := range w.grain {
		name, how, _ := strings.Cut(text, "=")
		piece, err := pick("pattern piece", strings.TrimSpace(name), p.Pieces, func(q pattern.Piece) string { return q.Name })
		if err != nil {
			return c, err
		}
		wish, ok := grainWish(how)
		if known := marked(marks, drawn.MarkName{Piece: piece.Code, Kind: drawn.GrainMark, Number: wish.Line}); !ok || wish.Line > 0 && !known {
			return c, mistyped(fmt.Sprintf("--grain %q is not understood", text), `Write for instance "Front=2" for the second straight line on it, "Front=up" or "Front=across turned"`)
		}
		c.Grain[piece.Code] = wish
	}
	for _, text := range w.plain {
		name, mark, _ := strings.Cut(text, ":")
		piece, err := pick("pattern piece", strings.TrimSpace(name), p.Pieces, func(q pattern.Piece) string { return q.Name })
		if err != nil {
			return c, err
		}
		kind, number, _ := strings.Cut(strings.TrimSpace(mark), " ")
		n, err := strconv.Atoi(strings.TrimSpace(number))
		m := drawn.MarkName{Piece: piece.Code, Kind: drawn.MarkKind(kind), Number: n}
		if err != nil || !marked(marks, m) {
			return c, mistyped(fmt.Sprintf("--line-only %q names no mark", text), `Write for instance "Front: notch 3" or "Front: dot 1"; --json lists the marks`)
		}
		c.Plain[m] = true
	}
	return c, nil
}

func marked(marks []drawn.Mark, name drawn.MarkName) bool {
	return slices.ContainsFunc(marks, func(m drawn.Mark) bool { return m.MarkName == name })
}

// grainWish reads "2", "up", "across", with or without "turned".
func grainWish(text string) (w drawn.GrainWish, ok bool) {
	words := strings.Fields(text)
	if n := len(words); n == 2 && words[1] == "turned" {
		w.Turn, words = true, words[:1]
	}
	if len(words) != 1 {
		return w, false
	}
	switch words[0] {
	case string(drawn.UpPage), string(drawn.AcrossP):
		w.Way = drawn.Way(words[0])
		return w, true
	}
	n, err := strconv.Atoi(words[0])
	w.Line = n
	return w, err == nil && n > 0
}

// tellMarks says what was recognised on each piece, in its last size.
func tellMarks(w io.Writer, p pattern.Pattern, marks []drawn.Mark) {
	if len(p.Sizes) == 0 {
		return
	}
	size := p.Sizes[len(p.Sizes)-1].Name
	for _, q := range p.Pieces {
		if words := drawn.Recognised(marks, q.Code, size); words != "" {
			fmt.Fprintf(w, "On %s was recognised: %s.\n", q.Name, words)
		}
	}
}

// recognisedFolds puts pieces on the fold that are drawn so, but for those that --cut says otherwise of.
func (w outlineWords) recognisedFolds(p *pattern.Pattern, marks []drawn.Mark) error {
	said := map[string]bool{}
	for _, text := range w.cut {
		name, _, _ := strings.Cut(text, "=")
		if q, err := pickPiece(*p, name); err == nil {
			said[q.Code] = true
		}
	}
	for i, q := range p.Pieces {
		if m, ok := drawn.FoldOf(marks, q.Code); ok && !said[q.Code] {
			if err := p.Pieces[i].PutOnFold(m.Side); err != nil {
				return err
			}
		}
	}
	return nil
}
