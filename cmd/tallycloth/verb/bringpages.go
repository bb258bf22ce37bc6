package verb

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
)

// plan is how the pages were said to lie, nil to work it out.
func (w outlineWords) plan(l *library) (*drawn.Plan, error) {
	switch {
	case w.apart && w.pages != "":
		return nil, mistyped("--apart and --pages say two things", "Give one of them")
	case w.apart:
		return &drawn.Plan{}, nil
	case w.pages == "":
		if w.cutOff != "" || w.shared != "" {
			return nil, mistyped("--cut-off and --shared belong to --pages", `Say how the pages lie too, such as --pages "1 2 / 3 4"`)
		}
		return nil, nil
	}
	rows, err := drawn.ParseRows(w.pages)
	if err != nil {
		return nil, said("--pages", err)
	}
	p := &drawn.Plan{Rows: rows}
	edges, err := w.edges(l)
	if err != nil {
		return nil, err
	}
	p.Left, p.Right, p.Top, p.Low = edges[0], edges[1], edges[2], edges[3]
	if w.shared != "" && w.shared != "0" {
		s, err := measure.ParsePositiveLength(w.shared, l.fieldUnit())
		if err != nil {
			return nil, said("--shared", err)
		}
		p.Shared = s.Millimetres()
	}
	return p, nil
}

// edges are what is cut off left, right, above and below, in mm.
func (w outlineWords) edges(l *library) (out [4]float64, err error) {
	if w.cutOff == "" {
		return out, nil
	}
	words := strings.Split(w.cutOff, ", ")
	if len(words) == 1 {
		words = []string{words[0], words[0], words[0], words[0]}
	}
	if len(words) != 4 {
		return out, mistyped("--cut-off takes one length, or four", `Write for instance "12 mm", or "1 cm, 1 cm, 12 mm, 12 mm"`)
	}
	for i, word := range words {
		if strings.TrimSpace(word) == "0" {
			continue
		}
		v, err := measure.ParsePositiveLength(word, l.fieldUnit())
		if err != nil {
			return out, said("--cut-off", err)
		}
		out[i] = v.Millimetres()
	}
	return out, nil
}

// picked makes the sizes of the lines that were named.
func (w outlineWords) picked(ctx context.Context, d drawn.Drawing) (drawn.Drawing, error) {
	by := drawn.Trait(w.by)
	if !slices.Contains([]drawn.Trait{drawn.ByLayer, drawn.ByColour, drawn.ByDash}, by) {
		return d, mistyped(fmt.Sprintf("--by %q is not known", w.by), "Say layer, colour or dash")
	}
	values := d.Values(by)
	p := drawn.Pick{By: by, Sizes: map[string]string{}}
	for _, text := range w.lines {
		of, size, ok := strings.Cut(text, "=")
		of, size = strings.TrimSpace(of), strings.TrimSpace(size)
		if !ok || !slices.ContainsFunc(values, func(v drawn.Value) bool { return v.Of == of }) {
			return d, mistyped(fmt.Sprintf("--line %q names no %s of the file", text, w.by), "The file has "+listed(values))
		}
		if strings.EqualFold(size, "all") {
			size = drawn.EverySize
		}
		p.Sizes[of] = size
	}
	if len(w.lines) == 0 {
		return d, mistyped("No line is named that makes a size", "The file has "+listed(values)+`. Say for instance --line "`+values0(values)+`=M"`)
	}
	return d.Picked(ctx, p)
}

func listed(values []drawn.Value) string {
	words := make([]string, len(values))
	for i, v := range values {
		words[i] = fmt.Sprintf("%q (%s, %s)", v.Of, say.Count(v.Outlines, "outline", "outlines"), say.Count(v.Lines, "line", "lines"))
	}
	return strings.Join(words, ", ")
}

func values0(values []drawn.Value) string {
	if len(values) == 0 {
		return ""
	}
	return values[0].Of
}
