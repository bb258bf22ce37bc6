package svg

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// WritePattern writes the outlines of a pattern, or part of them, at full size as a vector
// editor can change them: a group for each size, named by it, the sizes of a piece lying in
// each other, grain up the page, with a square of 10 cm to check the size by. Notches and
// grain are lines. Errors: of Part.Of, or the writer's.
func WritePattern(w io.Writer, p pattern.Pattern, part drawn.Part) error {
	p, err := part.Of(p)
	if err != nil {
		return err
	}
	places, page := arrange(p)
	out := writer{bufio.NewWriter(w)}
	out.printf("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %[1]s %[2]s" fill="none" stroke="#000" stroke-width="0.4" font-family="sans-serif" font-size="8">`+"\n", mm(page.Y), mm(page.X))
	out.printf("<title>%s</title>\n", escaped(p.Name))
	out.printf(`<rect x="%s" y="%[1]s" width="100" height="100"><title>Test square, 10 cm</title></rect>`+"\n", mm(int64(margin)))
	for i, z := range p.Sizes {
		out.printf(`<g id="size%d"><title>%s</title>`+"\n", i+1, escaped(z.Name))
		for k, q := range p.Pieces {
			if o, ok := q.Outlines[z.Name]; ok {
				out.piece(q, o, places[k])
			}
		}
		out.printf("</g>\n")
	}
	out.printf("</svg>\n")
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the drawing: %w", err)
	}
	return nil
}

const (
	margin = 10 * measure.Millimetre
	square = 10 * measure.Centimetre
	nick   = 6 * measure.Millimetre // how long a notch is drawn (common practice)
	head   = 8 * measure.Millimetre // of the arrow of a grain line
	half   = 3_000.0                // how far both strokes of a double notch lie from its middle, in µm
)

// arrange places the pieces beside each other below the test square: by how much each is
// moved, and the size of the page.
func arrange(p pattern.Pattern) (places []shape.Point, page shape.Point) {
	x, y := int64(2*margin+square), int64(margin)
	page.Y = y + int64(square+margin)
	for _, q := range p.Pieces {
		var all shape.Ring
		for _, o := range q.Outlines {
			all = append(all, o.Cut...)
		}
		b := all.Bounds()
		places = append(places, shape.Point{X: x - b.Min.X, Y: y - b.Min.Y})
		y += b.Width() + int64(margin)
		page = shape.Point{X: max(page.X, x+b.Length()+int64(margin)), Y: max(page.Y, y)}
	}
	return places, page
}

// mm writes µm as millimetres, exactly.
func mm(um int64) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(float64(um)/1000, 'f', 3, 64), "0"), ".")
}

func escaped(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder never fails
	return b.String()
}

// writer keeps its first error for Flush.
type writer struct{ *bufio.Writer }

func (w writer) printf(format string, v ...any) { _, _ = fmt.Fprintf(w, format, v...) }

// piece writes a piece in one size, moved to its place: x of the piece runs down the page.
func (w writer) piece(q pattern.Piece, o pattern.Outline, by shape.Point) {
	w.path(o.Cut, by, true, "", q.Code+" "+q.Name)
	for _, l := range o.Inner {
		w.path(l, by, false, "", "")
	}
	if o.GrainTop != o.GrainFoot {
		w.path(arrow(o.GrainFoot, o.GrainTop), by, false, "", "")
	}
	b := o.Cut.Bounds()
	if q.OnFold {
		w.path(fold(o.Cut), by, false, ` stroke-dasharray="6 3"`, "")
	}
	mid := shape.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}
	for _, n := range o.Notches {
		for _, l := range nicks(o.Cut, n) {
			w.path(l, by, false, "", "")
		}
	}
	for _, d := range o.Dots {
		at := d.Add(by)
		w.printf(`<circle cx="%s" cy="%s" r="1.5"/>`+"\n", mm(at.Y), mm(at.X))
	}
	at := mid.Add(by)
	w.printf(`<text x="%s" y="%s" fill="#000" stroke="none" text-anchor="middle">%s</text>`+"\n", mm(at.Y), mm(at.X), escaped(q.Code+" "+q.Name))
}

// fold is the edge of a half on the fold, which lies on y = 0.
func fold(cut shape.Ring) []shape.Point {
	from, to := int64(math.MaxInt64), int64(math.MinInt64)
	for _, p := range cut {
		if p.Y == 0 {
			from, to = min(from, p.X), max(to, p.X)
		}
	}
	return []shape.Point{{X: from}, {X: to}}
}

// arrow is a grain line from its foot to its top, with a head there.
func arrow(foot, top shape.Point) []shape.Point {
	d := top.Sub(foot)
	k := float64(head) / math.Hypot(float64(d.X), float64(d.Y))
	x, y := float64(d.X)*k, float64(d.Y)*k
	arm := func(side float64) shape.Point {
		return shape.Point{X: top.X - int64(math.Round(x-side*y/2)), Y: top.Y - int64(math.Round(y+side*x/2))}
	}
	return []shape.Point{foot, top, arm(1), top, arm(-1)}
}

// nicks are the strokes of a notch, square to the cutting line: two for a double one.
func nicks(cut shape.Ring, n pattern.Notch) [][]shape.Point {
	best, along := math.Inf(1), shape.Point{X: 1}
	for i, a := range cut {
		b := cut[(i+1)%len(cut)]
		q := pattern.Onto(shape.Ring{a, b}, n.At).Sub(n.At)
		if d := math.Hypot(float64(q.X), float64(q.Y)); d < best && a != b {
			best, along = d, b.Sub(a)
		}
	}
	l := math.Hypot(float64(along.X), float64(along.Y))
	x, y := float64(along.X)/l, float64(along.Y)/l // the piece lies on the left
	stroke := func(off float64) []shape.Point {
		foot := pattern.Onto(cut, shape.Point{X: n.At.X + int64(math.Round(off*x)), Y: n.At.Y + int64(math.Round(off*y))})
		return []shape.Point{foot, {X: foot.X - int64(math.Round(y*float64(nick))), Y: foot.Y + int64(math.Round(x*float64(nick)))}}
	}
	if n.Kind == "double" {
		return [][]shape.Point{stroke(-half), stroke(half)}
	}
	return [][]shape.Point{stroke(0)}
}

// path writes a run of points with its title, if it has one.
func (w writer) path(pts []shape.Point, by shape.Point, closed bool, more, title string) {
	w.printf(`<path d="`)
	for i, p := range pts {
		p = p.Add(by)
		w.printf("%s%s %s", map[bool]string{true: "M", false: "L"}[i == 0], mm(p.Y), mm(p.X))
	}
	end := "/>"
	if title != "" {
		end = "><title>" + escaped(title) + "</title></path>"
	}
	w.printf("%s\"%s%s\n", map[bool]string{true: "Z"}[closed], more, end)
}
