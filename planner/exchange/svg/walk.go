package svg

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// walker goes through the tree as it is drawn and collects what it finds.
type walker struct {
	ctx     context.Context
	doc     document
	lim     drawn.Limits
	points  int // that may still come
	visited int
	using   map[*node]bool // elements being drawn through references
	unknown map[string]bool
	out     drawn.Collector
	object  int // so far
	// unpainted are boxes with neither a line nor an area.
	unpainted int
}

// state is what an element inherits.
type state struct {
	m      matrix // to mm
	groups []string
	named  string // the innermost group that a person named and that is no layer
	unseen bool   // visibility
	line   map[string]string
	depth  int
	view   [2]float64 // width and height of the drawing around, in its units; percentages are of them
}

// undrawn are elements that draw nothing by themselves.
var undrawn = map[string]bool{
	"defs": true, "symbol": true, "clipPath": true, "mask": true, "marker": true, "pattern": true, "linearGradient": true,
	"radialGradient": true, "meshgradient": true, "hatch": true, "filter": true, "style": true, "script": true, "title": true, "desc": true,
	"metadata": true, "view": true, "cursor": true, "font": true, "font-face": true, "color-profile": true, "solidcolor": true,
	"animate": true, "animateTransform": true, "animateMotion": true, "set": true,
}

// visit draws one element and all in it.
func (w *walker) visit(n *node, st state) error {
	if undrawn[n.name] {
		return nil
	}
	if w.visited++; w.visited > w.lim.Elements {
		return w.lim.TooManyElements()
	}
	if st.depth++; st.depth > w.lim.Depth {
		return w.lim.TooDeep()
	}
	if w.ctx.Err() != nil {
		return fmt.Errorf("reading the drawing: %w", w.ctx.Err())
	}
	if n != w.doc.root {
		n = n.resolved(st.view)
	}
	style := w.doc.sheet.styleOf(n)
	if style["display"] == "none" {
		if drawsSomething(n) {
			w.warn(drawn.Warning{Reason: drawn.Hidden, Name: n.display(), What: "it is hidden and was left out, with all in it", Do: "Show it in the editor and save again if it is wanted."})
		}
		return nil
	}
	st.line = lineOf(style, st.line)
	if v := style["visibility"]; v != "" && v != "inherit" {
		st.unseen = v != "visible"
	}
	if err := w.place(n, style, &st); err != nil {
		w.warn(drawn.Warning{Reason: drawn.NotRead, Name: n.display(), What: fmt.Sprintf("it was left out, with all in it: %v", err),
			Do: "Ungroup it or apply its transform in the editor and save again."})
		return nil
	}
	if (isSet(style["clip-path"]) || isSet(style["mask"])) && !n.wraps() {
		w.warn(drawn.Warning{Reason: drawn.Clipped, Name: n.display(), What: "it is clipped or masked; its outline was taken whole", Do: "Release the clip in the editor, or cut the shape there."})
	}
	return w.draw(n, style, st)
}

// place applies the element's own transform.
func (w *walker) place(n *node, style map[string]string, st *state) error {
	if isSet(style["transform"]) {
		return errors.New("its transform is written as a style rule, which is not understood")
	}
	m, err := transform(n.attr("transform"))
	if err == nil {
		st.m = st.m.then(m)
	}
	return err
}

func isSet(value string) bool { return value != "" && value != "none" }

func (w *walker) draw(n *node, style map[string]string, st state) error {
	switch n.name {
	case "path", "polygon", "polyline", "line", "rect", "circle", "ellipse":
		if isSet(style["d"]) {
			w.warn(drawn.Warning{Reason: drawn.NotRead, Name: n.display(), What: "it was left out: its data is written as a style rule", Do: "Save the drawing as plain SVG."})
			return nil
		}
		return w.shape(n, st)
	case "g", "a", "svg":
		return w.group(n, st)
	case "switch":
		for _, c := range n.children {
			if c.name != "foreignObject" && !undrawn[c.name] {
				return w.visit(c, st)
			}
		}
		return nil
	case "use":
		return w.use(n, st)
	case "text":
		w.words(n, style, st)
		return nil
	}
	w.leftOut(n)
	return nil
}

// leftOut warns of an element that has no outline here.
func (w *walker) leftOut(n *node) {
	switch n.name {
	case "image":
		w.warn(drawn.Warning{Reason: drawn.Picture, Name: n.display(), What: "it is a picture and was left out", Do: "Trace its outline in the editor."})
	default:
		if !w.unknown[n.name] {
			w.unknown[n.name] = true
			w.warn(drawn.Warning{Reason: drawn.NotRead, Name: n.display(), What: fmt.Sprintf("objects of the kind %q are not understood and were left out", shorten(n.name)), Do: "Turn them into paths in the editor and save again."})
		}
	}
}

func (w *walker) group(n *node, st state) error {
	if n.name == "svg" && n != w.doc.root {
		m, err := within(n, orWhole(n.attr("width"), st.view[0]), orWhole(n.attr("height"), st.view[1]))
		if err != nil {
			w.warn(drawn.Warning{Reason: drawn.NotRead, Name: n.display(), What: fmt.Sprintf("a drawing inside the drawing was left out: %v", err), Do: "Ungroup it in the editor and save again."})
			return nil
		}
		st.m = st.m.then(m)
		st.view = viewOf(n, st.view)
	}
	if name := n.display(); name != "" && n != w.doc.root && !n.wraps() {
		st.groups = append(st.groups[:len(st.groups):len(st.groups)], name)
	}
	if name := n.given(); name != "" && !n.isLayer() && n != w.doc.root {
		st.named = name
	}
	for _, c := range n.children {
		if err := w.visit(c, st); err != nil {
			return err
		}
	}
	return nil
}

// use draws another element of the file again in this place.
func (w *walker) use(n *node, st state) error {
	target := w.doc.byID[strings.TrimPrefix(n.href(), "#")]
	if !strings.HasPrefix(n.href(), "#") || target == nil {
		w.warn(drawn.Warning{Reason: drawn.Reference, Name: n.display(), What: fmt.Sprintf("it shows %q, which is not in the file", shorten(n.href())), Do: "Unlink the clone in the editor and save again."})
		return nil
	}
	if w.using[target] {
		return invalid(fmt.Sprintf("the object %q of the drawing contains itself", shorten(target.display())), "Unlink the clones in the editor and save again.")
	}
	w.using[target] = true
	defer delete(w.using, target)
	v, err := n.coordinates("x", "y")
	if err != nil {
		w.warn(drawn.Warning{Reason: drawn.NotRead, Name: n.display(), What: fmt.Sprintf("it was left out: %v", err), Do: "Unlink the clone in the editor and save again."})
		return nil
	}
	st.m = st.m.then(shift(v[0], v[1]))
	if name := n.given(); name != "" {
		st.groups, st.named = append(st.groups[:len(st.groups):len(st.groups)], name), name
	}
	if target.name != "symbol" {
		return w.visit(target, st)
	}
	return w.symbol(n, target, st)
}

// symbol draws the content of a symbol, whose width and height the use may give.
func (w *walker) symbol(use, target *node, st state) error {
	pick := func(name string) string {
		if v := use.attr(name); v != "" {
			return v
		}
		return target.attr(name)
	}
	target = target.resolved(st.view)
	m, err := within(target, orWhole(pick("width"), st.view[0]), orWhole(pick("height"), st.view[1]))
	if err != nil {
		w.warn(drawn.Warning{Reason: drawn.NotRead, Name: use.display(), What: fmt.Sprintf("a symbol was left out: %v", err), Do: "Unlink the clone in the editor and save again."})
		return nil
	}
	st.m, st.view = st.m.then(m), viewOf(target, st.view)
	for _, c := range target.children {
		if err := w.visit(c, st); err != nil {
			return err
		}
	}
	return nil
}

// drawsSomething says whether there is anything in an element that could be drawn,
// so that hidden empty groups are not worth a word.
func drawsSomething(n *node) bool {
	if undrawn[n.name] {
		return false
	}
	if n.name != "g" && n.name != "a" && n.name != "svg" && n.name != "switch" {
		return true
	}
	for _, c := range n.children {
		if drawsSomething(c) {
			return true
		}
	}
	return false
}

func (w *walker) warn(x drawn.Warning) { w.out.Warn(x) }
