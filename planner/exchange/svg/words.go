package svg

import (
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// letters is the share of its height that a letter is wide, about: words are placed by it alone.
const letters = 0.5

// writing collects the lines of a text element.
type writing struct {
	w    *walker
	st   state
	x, y float64
	text strings.Builder
	// of the line being written
	from   vec
	height float64
	anchor string
}

// words takes what a text element writes, line by line.
func (w *walker) words(n *node, style map[string]string, st state) {
	if st.unseen {
		return
	}
	t := &writing{w: w, st: st, height: fontSize(style, st), anchor: style["text-anchor"]}
	t.visit(n, t.height, t.anchor)
	t.end()
}

// visit goes through an element in the order written. One that says where it stands begins another line.
func (t *writing) visit(n *node, height float64, anchor string) {
	if n.name == "#text" {
		if strings.TrimSpace(n.text) != "" && strings.TrimSpace(t.text.String()) == "" {
			t.from, t.height, t.anchor = vec{t.x, t.y}, height, anchor
		}
		t.text.WriteString(n.text)
		return
	}
	if undrawn[n.name] {
		return
	}
	x, okX := first(n.attr("x"))
	y, okY := first(n.attr("y"))
	_, moved := first(n.attr("dy"))
	if okX && okY || okY && y != t.y || moved {
		t.end()
	}
	if okX {
		t.x = x
	}
	if okY {
		t.y = y
	}
	style := t.w.doc.sheet.styleOf(n)
	if v, ok := first(style["font-size"]); ok {
		height = v
	}
	if v := style["text-anchor"]; v != "" {
		anchor = v
	}
	for _, c := range n.children {
		t.visit(c, height, anchor)
	}
}

// end hands a line over.
func (t *writing) end() {
	text := strings.Join(strings.Fields(t.text.String()), " ")
	t.text.Reset()
	if text == "" {
		return
	}
	half := t.height * letters * float64(len([]rune(text))) / 2
	mid := vec{t.from.x + half, t.from.y - t.height/3}
	switch t.anchor {
	case "middle":
		mid.x = t.from.x
	case "end":
		mid.x = t.from.x - half
	}
	a, b := t.st.m.apply(t.from), t.st.m.apply(mid)
	t.w.out.Write(text, drawn.Place{X: a.x, Y: a.y}, drawn.Place{X: b.x, Y: b.y}, t.height*t.st.m.stretch(), t.st.groups)
}

// first is the first number of an attribute, in units of the drawing.
func first(text string) (float64, bool) {
	word := text
	if i := strings.IndexAny(text, " ,"); i >= 0 {
		word = text[:i]
	}
	if word == "" {
		return 0, false
	}
	v, err := userUnits(word)
	return v, err == nil
}

// fontSize is the size of letters in units of the drawing, that of CSS (medium is 16 px) where none is said.
func fontSize(style map[string]string, st state) float64 {
	for _, v := range []string{style["font-size"], st.line["font-size"]} {
		if size, ok := first(v); ok && size > 0 {
			return size
		}
	}
	return 16
}
