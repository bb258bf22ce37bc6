package trace

import (
	"fmt"
	"image"
	"math"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// The sizes of sheets, ISO 216 A4 and ANSI/ASME Y14.1 size A (US Letter), upright.
var (
	A4     = [2]measure.Length{210 * measure.Millimetre, 297 * measure.Millimetre}
	Letter = [2]measure.Length{215900 * measure.Micrometre, 279400 * measure.Micrometre}
)

// least is the shortest side of the rectangle in the picture, in pixels, at which its
// corners still say something: half a pixel then is 1 % of it.
const least = 50

// Validate says whether the marks can be the corners of a rectangle in a picture of
// these bounds, seen from the front: nil, or an error with what to do.
func (r Rectangle) Validate(b image.Rectangle) error {
	if b.Dx() < least || b.Dy() < least {
		return invalid("Take a larger picture", "The picture is only %d × %d pixels", b.Dx(), b.Dy())
	}
	if b.Dx() > math.MaxInt32/b.Dy()/4 {
		return invalid("Make it smaller first", "The picture has too many pixels")
	}
	if r.Along < measure.Centimetre || r.Across < measure.Centimetre || r.Along > 10*measure.Metre || r.Across > 10*measure.Metre {
		return invalid("Measure the rectangle again: each side is between 1 cm and 10 m", "The marked rectangle cannot be that large or small")
	}
	for i, c := range r.Corners {
		if !(c.X >= -1 && c.Y >= -1 && c.X <= float64(b.Dx())+1 && c.Y <= float64(b.Dy())+1) {
			return invalid("Move it onto its corner", "Mark %d lies outside the picture", i+1)
		}
	}
	return r.convex()
}

func (r Rectangle) convex() error {
	sign := 0.0
	for i := range 4 {
		a, b, c := r.Corners[i], r.Corners[(i+1)%4], r.Corners[(i+2)%4]
		side := math.Hypot(b.X-a.X, b.Y-a.Y)
		if side < least/2 {
			return invalid("Move each mark onto its own corner, or take the picture from nearer", "The marked corners lie too close together")
		}
		turn := ((b.X-a.X)*(c.Y-b.Y) - (b.Y-a.Y)*(c.X-b.X)) / side
		if math.Abs(turn) < 3 || turn*sign < 0 {
			return invalid("Go round the rectangle from corner to corner", "The four marks do not make a rectangle seen from one side")
		}
		sign = turn
	}
	return nil
}

func invalid(do, what string, args ...any) error {
	return &stash.Error{Kind: stash.Invalid, What: fmt.Sprintf(what, args...), Do: do}
}

// turned returns the rectangle with its corners clockwise in the picture, so that the
// straightened picture is never a mirror image.
func (r Rectangle) turned() Rectangle {
	sum := 0.0
	for i, a := range r.Corners {
		b := r.Corners[(i+1)%4]
		sum += a.X*b.Y - a.Y*b.X
	}
	if sum < 0 { // counter-clockwise as one sees it
		r.Corners[1], r.Corners[3] = r.Corners[3], r.Corners[1]
		r.Along, r.Across = r.Across, r.Along
	}
	return r
}

// Lying returns the size of a sheet the way round in which it lies: its longer side along
// the longer sides that the corners have in the picture. A view from far aside can mislead
// it; then the person turns it.
func Lying(corners [4]Dot, sheet [2]measure.Length) (along, across measure.Length) {
	length := func(i int) float64 {
		a, b := corners[i], corners[(i+1)%4]
		return math.Hypot(b.X-a.X, b.Y-a.Y)
	}
	short, long := min(sheet[0], sheet[1]), max(sheet[0], sheet[1])
	if length(0)+length(2) > length(1)+length(3) {
		return long, short
	}
	return short, long
}

// plane returns the corners in the plane.
func (r Rectangle) plane() [4]Dot {
	a, b := float64(r.Along), float64(r.Across)
	return [4]Dot{{0, b}, {a, b}, {a, 0}, {0, 0}}
}

// homography takes places in the picture to the plane.
func (r Rectangle) homography() (Homography, error) { return FromPoints(r.Corners, r.plane()) }
