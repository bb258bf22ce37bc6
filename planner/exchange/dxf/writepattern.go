package dxf

import (
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

// WritePattern writes the outlines of a pattern, or part of them, at full size: a block for each
// piece and size, placed beside each other, pieces below each other. Read brings back name,
// maker, sizes, and everything of the pieces but points of a grain that does not exist.
// Errors: of Part.Of, or the writer's.
func WritePattern(w io.Writer, p pattern.Pattern, part drawn.Part) error {
	p, err := part.Of(p)
	if err != nil {
		return err
	}
	places, box := arrange(p)
	out := newWriter(w)
	out.head(box, layersOf())
	out.text(0, "SECTION")
	out.text(2, "BLOCKS")
	for i, q := range p.Pieces {
		for _, z := range p.Sizes {
			if o, ok := q.Outlines[z.Name]; ok {
				out.block(places[i][z.Name].block, q, z.Name, o)
			}
		}
	}
	out.text(0, "ENDSEC")
	out.text(0, "SECTION")
	out.text(2, "ENTITIES")
	out.about(p, box)
	for i := range p.Pieces {
		for _, z := range p.Sizes {
			if at, ok := places[i][z.Name]; ok {
				out.entity("INSERT", layer(boundaryLayer))
				out.text(2, at.block)
				out.place(at.at)
			}
		}
	}
	out.text(0, "ENDSEC")
	return out.close()
}

func layer(n int) string { return strconv.Itoa(n) }

// layersOf are the layers that patterns are written on.
func layersOf() (out []string) {
	for _, n := range []int{0, boundaryLayer, turnLayer, curveLayer, notchLayer, mirrorLayer, grainLayer, internalLayer, stripeLayer, drillLayer, sewLayer, wordsLayer} {
		out = append(out, layer(n))
	}
	return out
}

// placing is the name of a block and where it is placed.
type placing struct {
	block string
	at    shape.Point
}

// gap is how far pieces are placed apart, in µm.
const gap = 50_000

// arrange places the sizes of a piece beside each other and the pieces below each other.
func arrange(p pattern.Pattern) (places []map[string]placing, all shape.Box) {
	used := map[string]bool{}
	y := int64(0)
	for _, q := range p.Pieces {
		row := map[string]placing{}
		x, low := int64(0), y
		for _, z := range p.Sizes {
			o, ok := q.Outlines[z.Name]
			if !ok {
				continue
			}
			b := o.Cut.Bounds()
			row[z.Name] = placing{blockName(q.Code, z.Name, used), shape.Point{X: x - b.Min.X, Y: y - b.Max.Y}}
			x += b.Length() + gap
			low = min(low, y-b.Width())
			all.Max.X = max(all.Max.X, x-gap)
		}
		all.Min.Y = low
		y = low - gap
		places = append(places, row)
	}
	return places, all
}

// blockName is a name of letters, digits and underlines that no other block has, not
// longer than R12 allows.
func blockName(code, size string, used map[string]bool) string {
	clean := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' {
			return r - 'a' + 'A'
		}
		if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '_'
	}, code+"_"+size)
	clean = clean[:min(len(clean), 24)]
	name := clean
	for n := 2; used[name]; n++ {
		name = fmt.Sprintf("%s_%d", clean, n)
	}
	used[name] = true
	return name
}

// lineHeight is that of the words written on a piece, in µm.
const lineHeight = 5000

// lines writes words below each other from a place on.
func (w *writer) lines(at shape.Point, all []string) {
	for i, s := range all {
		w.words(layer(boundaryLayer), shape.Point{X: at.X, Y: at.Y - int64(i)*lineHeight*3/2}, lineHeight, s)
	}
}

// about writes what concerns the pattern as a whole, above the pieces.
func (w *writer) about(p pattern.Pattern, box shape.Box) {
	all := []string{styleKey + ": " + escaped(p.Name)}
	if p.Maker != "" {
		all = append(all, authorKey+": "+escaped(p.Maker))
	}
	all = append(all, unitsKey+": METRIC")
	w.lines(shape.Point{Y: box.Max.Y + int64(len(all)+1)*lineHeight*3/2}, all)
}

// block writes a piece in one size.
func (w *writer) block(name string, q pattern.Piece, size string, o pattern.Outline) {
	w.entity("BLOCK", "0")
	w.inside = w.last()
	w.text(2, name)
	w.integer(70, 0)
	w.place(shape.Point{})
	w.text(3, name)
	b := o.Cut.Bounds()
	w.lines(shape.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}, saidOf(q, size))
	w.polyline(layer(boundaryLayer), o.Cut, true)
	w.corners(o.Cut)
	w.grain(q, o)
	if q.OnFold {
		w.polyline(layer(mirrorLayer), foldOf(o.Cut), false)
	}
	w.marks(o)
	w.inside = ""
	w.entity("ENDBLK", "0")
}

// saidOf are the words about a piece.
func saidOf(q pattern.Piece, size string) []string {
	all := []string{pieceKey + ": " + escaped(q.Name), sizeKey + ": " + escaped(size), fmt.Sprintf("%s: %d", quantityKey, max(q.Cut, 1)),
		materialKey + ": " + escaped(q.Role), noteKey + ": " + letterNote + escaped(q.Code)}
	for _, n := range []struct {
		is   bool
		text string
	}{{q.Pairs, pairsNote}, {q.Grain == pattern.Crosswise, crosswiseNote}, {q.Grain == pattern.Bias, biasNote}, {q.Fixed, fixedNote}, {q.WithoutAllowance, bareNote}} {
		if n.is {
			all = append(all, noteKey+": "+n.text)
		}
	}
	return all
}

// cornerTurn is how much an outline turns at a corner at least; less is a point of a curve.
const cornerTurn = math.Pi / 9

// corners writes the points of an outline as turn points and curve points.
func (w *writer) corners(r shape.Ring) {
	for i, p := range r {
		a, b := vecOf(p.Sub(r[(i+len(r)-1)%len(r)])), vecOf(r[(i+1)%len(r)].Sub(p))
		n := curveLayer
		if math.Abs(math.Atan2(a.cross(b), a.dot(b))) >= cornerTurn {
			n = turnLayer
		}
		w.point(layer(n), p)
	}
}

func vecOf(p shape.Point) Vec { return Vec{float64(p.X), float64(p.Y)} }

// grain writes the line that lies along the grain of the cloth: the piece's own, turned
// where the piece lies across the grain or on the bias.
func (w *writer) grain(q pattern.Piece, o pattern.Outline) {
	top, foot := vecOf(o.GrainTop), vecOf(o.GrainFoot)
	if top == foot {
		if q.Grain == pattern.Lengthwise {
			return
		}
		b := o.Cut.Bounds()
		mid, x := float64(b.Min.Y+b.Max.Y)/2, float64(b.Length())/4
		top, foot = Vec{float64(b.Min.X) + x, mid}, Vec{float64(b.Max.X) - x, mid}
	}
	mid := top.add(foot).times(0.5)
	s, c := math.Sincos(-lean(q.Grain))
	w.entity("LINE", layer(grainLayer))
	for i, v := range []Vec{foot, top} {
		v = mid.add(v.sub(mid).turned(s, c))
		w.number(10+i, v.X/1000)
		w.number(20+i, v.Y/1000)
	}
}

// foldOf is the stretch of an outline on y = 0.
func foldOf(r shape.Ring) []shape.Point {
	low, high := int64(math.MaxInt64), int64(math.MinInt64)
	for _, p := range r {
		if p.Y == 0 {
			low, high = min(low, p.X), max(high, p.X)
		}
	}
	return []shape.Point{{X: low}, {X: high}}
}

// marks writes what is drawn on a piece.
func (w *writer) marks(o pattern.Outline) {
	for _, n := range o.Notches {
		if n.Kind != "double" {
			w.point(layer(notchLayer), n.At)
			continue
		}
		d := beside(o.Cut, n.At)
		w.point(layer(notchLayer), n.At.Sub(d))
		w.point(layer(notchLayer), n.At.Add(d))
	}
	for _, p := range o.Dots {
		w.point(layer(drillLayer), p)
	}
	for _, l := range o.Inner {
		w.polyline(layer(internalLayer), l, false)
	}
	for _, e := range o.Edges {
		name := e.Name
		if e.Halved {
			name += halfNote
		}
		w.polyline(layer(sewLayer), e.Points, false)
		w.words(layer(sewLayer), e.Points[0], lineHeight, edgeKey+": "+escaped(name))
	}
	b := o.Cut.Bounds()
	for _, m := range o.MatchMarks {
		at := shape.Point{X: m.X, Y: b.Min.Y}
		w.polyline(layer(stripeLayer), []shape.Point{at, {X: m.X, Y: b.Max.Y}}, false)
		w.words(layer(stripeLayer), at, lineHeight, stripeKey+": "+escaped(m.Name))
	}
}

// beside is half the way between the two points of a double notch, along the outline.
func beside(r shape.Ring, at shape.Point) shape.Point {
	best, d := math.Inf(1), shape.Point{X: 1}
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if _, far := nearest(vecOf(at), []Vec{vecOf(p), vecOf(q)}); far < best {
			best, d = far, q.Sub(p)
		}
	}
	v := vecOf(d)
	v = v.times(pairHalf * float64(measure.Millimetre) / v.len())
	return shape.Point{X: int64(math.Round(v.X)), Y: int64(math.Round(v.Y))}
}
