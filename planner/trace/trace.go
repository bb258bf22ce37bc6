package trace

import (
	"context"
	"image"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Dot is a place in the picture, in pixels from its top left corner, y down.
type Dot struct{ X, Y float64 }

// Rectangle is what is known of the picture's scale.
type Rectangle struct {
	// Corners in the picture, going round. Clockwise from the top left is usual; another
	// way round is put right.
	Corners [4]Dot
	// Along is the true length of the side from the first corner to the second, Across of
	// the side from the second to the third.
	Along, Across measure.Length
	// Sheet says that a sheet lies there, on the background beside the cloth; else the
	// corners are marks on the background itself, such as the lines of a cutting mat.
	Sheet bool
}

// Answer is what was found.
type Answer struct {
	// Straight is the picture as seen from right above.
	Straight Straight
	// Outline is the cloth in the plane, with its holes; without points where none was found.
	Outline shape.Polygon
	// Corners are the marks as they were used: on the edges of the sheet, where those are plain.
	Corners [4]Dot
	// Doubts say why the outline may be wrong; empty when it is sure.
	Doubts []Doubt
}

// Sure says whether an outline was found without a doubt.
func (a Answer) Sure() bool { return len(a.Outline.Outer) > 0 && len(a.Doubts) == 0 }

// Trace finds the outline of the cloth in a picture. The errors are those of
// Rectangle.Validate, a picture too small to see anything in, and the context's.
func Trace(ctx context.Context, picture image.Image, r Rectangle) (Answer, error) {
	if err := r.Validate(picture.Bounds()); err != nil {
		return Answer{}, err
	}
	r = r.turned()
	src := flat(picture)
	r.Corners = refine(src, r)
	h, err := r.homography()
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Corners: r.Corners}
	if a.Straight, err = straighten(ctx, src, h, r); err != nil {
		return Answer{}, err
	}
	f, err := find(ctx, a.Straight, r)
	if err != nil {
		return Answer{}, err
	}
	a.Outline = f.outline
	a.Doubts = append(r.doubts(), f.doubts...)
	return a, nil
}
