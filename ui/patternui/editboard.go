package patternui

import (
	"image"
	"image/color"
	"math"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
	"tallycloth/ui/tracing"
	"tallycloth/ui/widgets"
)

// Size of the board's picture in its own pixels, and the share of it that the piece takes.
const (
	boardSide  = 1000
	boardShare = 0.86
)

// The trails of the board.
const (
	cornerTrail = iota
	grainTrail
	crossTrail
)

// boardView is a piece on the board: down the board is down the piece, its face is seen.
type boardView struct {
	corners []int
	start   []widgets.Spot // where the corners were
	pixel   float64        // µm
	origin  shape.Point    // of the piece, at the top left of the board
	outline pattern.Outline
}

func viewOf(o pattern.Outline) boardView {
	v := boardView{outline: o, pixel: 1000}
	if len(o.Cut) == 0 {
		return v
	}
	b := o.Cut.Bounds()
	v.pixel = max(1, float64(max(b.Length(), b.Width()))/(boardSide*boardShare))
	room := func(l int64) int64 { return int64((boardSide*v.pixel - float64(l)) / 2) }
	v.origin = shape.Point{X: b.Min.X - room(b.Length()), Y: b.Min.Y - room(b.Width())}
	v.corners = pattern.Corners(o.Cut, mostHandles)
	return v
}

func (v boardView) spot(p shape.Point) widgets.Spot {
	return widgets.Spot{X: float64(p.Y-v.origin.Y) / v.pixel, Y: float64(p.X-v.origin.X) / v.pixel}
}

func (v boardView) point(s widgets.Spot) shape.Point {
	return shape.Point{X: v.origin.X + int64(math.Round(s.Y*v.pixel)), Y: v.origin.Y + int64(math.Round(s.X*v.pixel))}
}

// put shows the piece with its corners, the arrow of its grain and the cross.
func (v *boardView) put(b *widgets.PhotoBoard) {
	img := image.NewRGBA(image.Rect(0, 0, boardSide, boardSide))
	for i := range img.Pix {
		img.Pix[i] = 0xf6
	}
	ink := color.RGBA{0x30, 0x30, 0x38, 0xff}
	for i, p := range v.outline.Cut {
		v.line(img, p, v.outline.Cut[(i+1)%len(v.outline.Cut)], ink)
	}
	for _, l := range v.outline.Inner {
		for i := 1; i < len(l); i++ {
			v.line(img, l[i-1], l[i], color.RGBA{0x90, 0x90, 0x98, 0xff})
		}
	}
	for _, n := range v.outline.Notches {
		v.notch(img, n, ink)
	}
	v.start = nil
	for _, i := range v.corners {
		v.start = append(v.start, v.spot(v.outline.Cut[i]))
	}
	middle := widgets.Spot{X: boardSide / 2, Y: boardSide / 2}
	foot, top := v.spot(v.outline.GrainFoot), v.spot(v.outline.GrainTop)
	if v.outline.GrainFoot == v.outline.GrainTop {
		foot, top = widgets.Spot{X: middle.X, Y: middle.Y + 150}, widgets.Spot{X: middle.X, Y: middle.Y - 150}
	}
	b.Put(img, img, []widgets.Trail{
		{Points: slices.Clone(v.start), Fixed: true, Curve: v.curve(v.outline.Cut)},
		{Points: []widgets.Spot{foot, top}, Fixed: true, Arrow: true, Words: "grain"},
		{Points: []widgets.Spot{middle}, Fixed: true, Words: "cross"},
	})
}

// curve is a cutting line on the board.
func (v boardView) curve(r shape.Ring) []widgets.Spot {
	var out []widgets.Spot
	for _, p := range append(slices.Clone(r), r[:min(len(r), 1)]...) {
		out = append(out, v.spot(p))
	}
	return out
}

// follow draws the cutting line as it will be once what was dragged is taken over.
func (v boardView) follow(b *widgets.PhotoBoard) {
	corners, by := v.dragged(b)
	o, err := pattern.MoveCorners(len(v.outline.Cut), corners, by)(pattern.Outline{Cut: slices.Clone(v.outline.Cut)})
	if err == nil {
		b.Trails()[cornerTrail].Curve = v.curve(o.Cut)
		b.Refresh()
	}
}

// setCross puts the cross somewhere and takes it in hand.
func (v boardView) setCross(b *widgets.PhotoBoard, at widgets.Spot) {
	b.Trails()[crossTrail].Points[0] = at
	b.Take(crossTrail, 0, false)
}

// notch draws a notch square to the cutting line, a double one as two lines.
func (v boardView) notch(img *image.RGBA, n pattern.Notch, ink color.RGBA) {
	side, _, _ := pattern.NearestSide(v.outline.Cut, n.At)
	way := v.outline.Cut[(side+1)%len(v.outline.Cut)].Sub(v.outline.Cut[side])
	long := math.Hypot(float64(way.X), float64(way.Y)) / v.pixel
	step := func(along, out float64) shape.Point {
		return n.At.Add(shape.Point{X: int64((along*float64(way.X) + out*float64(way.Y)) / long), Y: int64((along*float64(way.Y) - out*float64(way.X)) / long)})
	}
	at := []float64{0}
	if n.Kind == "double" {
		at = []float64{-6, 6}
	}
	for _, a := range at {
		for _, thick := range []float64{-1, 0, 1} {
			v.line(img, step(a+thick, -14), step(a+thick, 8), ink)
		}
	}
}

// line draws a line into the picture, a pixel wide.
func (v boardView) line(img *image.RGBA, a, b shape.Point, c color.RGBA) {
	p, q := v.spot(a), v.spot(b)
	n := int(math.Max(math.Abs(q.X-p.X), math.Abs(q.Y-p.Y))) + 1
	for i := range n + 1 {
		t := float64(i) / float64(n)
		img.SetRGBA(int(p.X+(q.X-p.X)*t), int(p.Y+(q.Y-p.Y)*t), c)
	}
}

// dragged are the corners with how far each was dragged.
func (v boardView) dragged(b *widgets.PhotoBoard) (corners []int, by []shape.Point) {
	for i, s := range b.Trails()[cornerTrail].Points {
		d := shape.Point{}
		if s != v.start[i] {
			d = v.point(s).Sub(v.outline.Cut[v.corners[i]])
		}
		by = append(by, d)
	}
	return v.corners, by
}

func (v boardView) arrow(b *widgets.PhotoBoard) (foot, top shape.Point) {
	r := tracing.Rings(b.Trails()[grainTrail:grainTrail+1], v.point)[0]
	return r[0], r[1]
}

func (v boardView) cross(b *widgets.PhotoBoard) shape.Point {
	return v.point(b.Trails()[crossTrail].Points[0])
}
