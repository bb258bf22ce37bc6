package dxf

import (
	"context"
	"errors"
	"fmt"
	"math"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/stash"
)

// kind says what a mark is.
type kind byte

const (
	line kind = iota
	dot
	words
)

// mark is something drawn, in mm, y up.
type mark struct {
	kind   kind
	layer  string
	block  string // innermost block that it comes from
	points []Vec
	closed bool
	text   string
}

// walker draws entities, blocks placed inside them included.
type walker struct {
	ctx     context.Context
	file    *File
	lim     drawn.Limits
	points  int // that may still come
	visited int
	using   map[int]bool // blocks that are being drawn
	marks   []mark
	notes   *notes
	all     bool // hidden layers too
	looks   int  // edges that may still be looked at to find what lies on them
}

// state is what an entity inherits.
type state struct {
	m     affine
	layer string // of the block's place, for entities on layer 0
	block string
	depth int
}

// more takes points from what may still come.
func (w *walker) more(n float64) error {
	if !(n <= float64(w.points)) {
		return w.lim.TooManyPoints()
	}
	w.points -= int(n)
	return nil
}

// look takes n edges from what may still be looked at.
func (w *walker) look(n int) error {
	if w.looks -= n; w.looks < 0 {
		return drawn.Unsupported("there are too many marks and points on the pattern pieces", "Save the pattern pieces without what is drawn on them, or in several files.")
	}
	return nil
}

func (w *walker) visit(all []Entity, st state) error {
	if st.depth > w.lim.Depth {
		return w.lim.TooDeep()
	}
	for i := range all {
		if w.visited++; w.visited > w.lim.Elements {
			return w.lim.TooManyElements()
		}
		if w.visited&0xfff == 0 && w.ctx.Err() != nil {
			return fmt.Errorf("reading the drawing: %w", w.ctx.Err())
		}
		e := &all[i]
		inner := st
		if e.Layer != "0" && e.Layer != "" || st.layer == "" {
			inner.layer = e.Layer
		}
		if !w.seen(e, inner) {
			continue
		}
		if err := w.draw(e, inner); err != nil {
			return err
		}
	}
	return nil
}

// seen says whether an entity is drawn, and notes why not.
func (w *walker) seen(e *Entity, st state) bool {
	const show = "Show it in the program that drew it and save again if it is wanted."
	switch {
	case e.OnPaper:
		w.notes.add(drawn.Hidden, st.block, "what lies on a sheet for plotting was left out", "Nothing to do if it is a frame or a title.")
	case e.Unseen:
		w.notes.add(drawn.Hidden, st.block, "what is hidden was left out", show)
	case !w.all && w.file.Hidden[st.layer]:
		w.notes.add(drawn.Hidden, st.layer, "the layer is switched off, so what is on it was left out", show)
	default:
		return true
	}
	return false
}

// flip is the map of a plane seen from its other side to the drawing's; the x axis of
// that side runs to the left (arbitrary axis rule of DXF). ok is false for a tilted plane.
func flip(n *Normal) (affine, bool) {
	if n == nil || n.Z > 0 && math.Hypot(n.X, n.Y) <= 1e-6*n.Z {
		return scaled(1, 1), true
	}
	return scaled(-1, 1), n.Z < 0 && math.Hypot(n.X, n.Y) <= -1e-6*n.Z
}

// draw draws one entity.
func (w *walker) draw(e *Entity, st state) error {
	plane, ok := flip(e.Normal)
	if !ok {
		w.notes.add(drawn.NotRead, st.block, "what is tilted out of the plane was left out", "Lay it flat and save again.")
		return nil
	}
	switch e.Kind {
	case "LINE", "POINT", "ELLIPSE", "SPLINE": // their points are in the drawing's own plane
	default:
		st.m = st.m.then(plane)
	}
	if len(e.Vertices) == 0 && (e.Curve == nil || len(e.Curve.Through) == 0) {
		if e.Kind == "LWPOLYLINE" || e.Kind == "POLYLINE" {
			return nil
		}
		e.Vertices = []Vertex{{}}
	}
	switch e.Kind {
	case "INSERT":
		return w.insert(e, st)
	case "POINT":
		w.put(st, mark{kind: dot, points: []Vec{st.m.apply(e.Vertices[0].at())}})
		return w.more(1)
	case "TEXT", "MTEXT", "ATTRIB":
		w.put(st, mark{kind: words, points: []Vec{st.m.apply(e.Vertices[0].at())}, text: e.Text})
		return w.more(1)
	}
	points, closed, err := w.line(e, st.m)
	if errors.Is(err, errCurve) {
		w.notes.add(drawn.NotRead, st.block, "a curve was left out, as its numbers make none", saveAgain)
		return nil
	}
	if err == nil && len(points) > 1 {
		w.put(st, mark{points: points, closed: closed})
	}
	return err
}

func (w *walker) put(st state, x mark) {
	x.layer, x.block = st.layer, st.block
	w.marks = append(w.marks, x)
}

// line is an entity as a run of points.
func (w *walker) line(e *Entity, m affine) (points []Vec, closed bool, err error) {
	switch e.Kind {
	case "LINE", "LWPOLYLINE", "POLYLINE":
		return w.polyline(e, m)
	case "SPLINE":
		if len(e.Vertices) < 2 && len(e.Curve.Through) > 1 {
			w.notes.add(drawn.NotRead, "", "a curve that is given by the points it goes through was drawn straight from point to point", "Compare it with the pattern.")
			for _, v := range e.Curve.Through {
				points = append(points, m.apply(v))
			}
			return points, e.Closed, w.more(float64(len(points)))
		}
		points, err = w.spline(m, *e)
		return points, e.Closed, err
	}
	from, turn, shape := roundOf(e)
	points, err = w.ellipse(m.then(shape), from, turn)
	return points, math.Abs(turn) >= 2*math.Pi-1e-9, err
}

// roundOf is an arc, circle or ellipse as part of the map of the unit circle.
func roundOf(e *Entity) (from, turn float64, shape affine) {
	c, at := e.Curve, e.Vertices[0].at()
	if e.Kind == "ELLIPSE" {
		minor := Vec{-c.Major.Y, c.Major.X}.times(c.Radius)
		if e.Normal != nil && e.Normal.Z < 0 {
			minor = minor.times(-1)
		}
		shape = affine{c.Major.X, c.Major.Y, minor.X, minor.Y, at.X, at.Y}
		if c.haveAngles < 2 {
			return 0, 2 * math.Pi, shape
		}
		return c.From, positive(c.To - c.From), shape
	}
	shape = moved(at).then(scaled(c.Radius, c.Radius))
	if e.Kind == "CIRCLE" {
		return 0, 2 * math.Pi, shape
	}
	return c.From * math.Pi / 180, positive((c.To - c.From) * math.Pi / 180), shape
}

// positive is an angle as a turn of more than none and at most once round.
func positive(turn float64) float64 {
	if turn = math.Mod(turn, 2*math.Pi); turn <= 1e-9 {
		turn += 2 * math.Pi
	}
	return turn
}

func (w *walker) polyline(e *Entity, m affine) ([]Vec, bool, error) {
	n := len(e.Vertices)
	out := make([]Vec, 0, n)
	out = append(out, m.apply(e.Vertices[0].at()))
	last := n - 1
	if e.Closed {
		last = n
	}
	for i := range last {
		p, q := e.Vertices[i], e.Vertices[(i+1)%n]
		run, err := w.bend(m, p.at(), q.at(), p.Bulge)
		if err != nil {
			return nil, false, err
		}
		out = append(out, run...)
	}
	if e.Closed && len(out) > 1 {
		out = out[:len(out)-1] // its first point again
	}
	return out, e.Closed, nil
}

// insert draws a block in its place, or in each of its places.
func (w *walker) insert(e *Entity, st state) error {
	i, ok := w.file.byName[key(e.Block)]
	if !ok {
		w.notes.add(drawn.Reference, shorten(e.Block), "a block that is not in the file is placed and was left out", "Save the file with all its blocks.")
		return nil
	}
	b := &w.file.Blocks[i]
	if w.using[i] {
		return &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf("the block %q of the drawing contains itself", shorten(b.Name)), Do: saveAgain}
	}
	w.using[i] = true
	defer delete(w.using, i)
	st.depth++
	if b.Name != "" && b.Name[0] != '*' {
		st.block = b.Name
	}
	place := st.m.then(moved(e.Vertices[0].at())).then(rotated(e.Placed.Turn * math.Pi / 180))
	for row := range max(1, e.Placed.Rows) {
		for col := range max(1, e.Placed.Cols) {
			if w.visited++; w.visited > w.lim.Elements {
				return w.lim.TooManyElements()
			}
			step := Vec{float64(col) * e.Placed.Step.X, float64(row) * e.Placed.Step.Y}
			st.m = place.then(moved(step)).then(scaled(e.Placed.Scale.X, e.Placed.Scale.Y)).then(moved(b.Base.times(-1)))
			if err := w.visit(b.Entities, st); err != nil {
				return err
			}
		}
	}
	return nil
}

// shorten keeps a name of the file within a line.
func shorten(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return s
}
