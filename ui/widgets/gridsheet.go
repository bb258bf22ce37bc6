package widgets

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/looks"
)

// GridWide and GridHigh are the pixels of a grid to draw on.
const GridWide, GridHigh = 1200, 900

// The choices for a grid: how far apart its points lie, and how long it is; the first are the usual ones.
var (
	GridSteps = map[measure.System][]measure.Length{
		measure.Metric:   {measure.Centimetre, 5 * measure.Millimetre, measure.Millimetre, 5 * measure.Centimetre},
		measure.Imperial: {measure.Inch / 2, measure.Inch / 4, measure.Inch / 8, 2 * measure.Inch},
	}
	GridRooms = map[measure.System][]measure.Length{
		measure.Metric:   {120 * measure.Centimetre, 60 * measure.Centimetre, 240 * measure.Centimetre, 360 * measure.Centimetre},
		measure.Imperial: {48 * measure.Inch, 24 * measure.Inch, 96 * measure.Inch, 144 * measure.Inch},
	}
)

// GridSheet is a grid that a PhotoBoard is put over, to draw to scale. It begins at the lower left.
type GridSheet struct {
	Room, Step measure.Length
	Inches     bool // strong lines every 6 in, else every 10 cm
}

// Pixel is how long a pixel of it is.
func (g GridSheet) Pixel() measure.Length { return max(g.Room/GridWide, 1) }

// Squares is how many pixels lie between points of the grid.
func (g GridSheet) Squares() float64 { return float64(g.Step) / float64(g.Pixel()) }

// At is the place of a spot, in µm.
func (g GridSheet) At(s Spot) shape.Point {
	k := float64(g.Pixel())
	return shape.Point{X: int64(math.Round(s.X * k)), Y: int64(math.Round((GridHigh - s.Y) * k))}
}

// Spot is where a place is on the sheet.
func (g GridSheet) Spot(p shape.Point) Spot {
	k := float64(g.Pixel())
	return Spot{X: float64(p.X) / k, Y: GridHigh - float64(p.Y)/k}
}

// Picture draws the squares: a thin line each step, where that can be seen, and stronger ones.
func (g GridSheet) Picture() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, GridWide, GridHigh))
	pal := looks.Now()
	draw.Draw(img, img.Rect, image.NewUniform(pal.Raised), image.Point{}, draw.Src)
	strong := 10 * measure.Centimetre
	if g.Inches {
		strong = 6 * measure.Inch
	}
	g.lines(img, g.Step, pal.Line)
	g.lines(img, strong, pal.Muted)
	return img
}

func (g GridSheet) lines(img *image.RGBA, every measure.Length, c color.NRGBA) {
	apart := float64(every) / float64(g.Pixel())
	if apart < 7 {
		return
	}
	for n := 0; ; n++ {
		at := int(math.Round(apart * float64(n)))
		if at > GridWide {
			return
		}
		for y := range GridHigh {
			img.Set(min(at, GridWide-1), y, c)
		}
		if y := GridHigh - 1 - at; y >= 0 {
			for x := range GridWide {
				img.Set(x, y, c)
			}
		}
	}
}

// Typed is the spot that two fields say, to the right and up, bare numbers in a unit. Where it is false, told says
// what speaks against it, or nothing where a field says so itself.
func (g GridSheet) Typed(x, y *Field, bare measure.Unit) (s Spot, told string, ok bool) {
	if !x.Valid() || !y.Valid() || x.Text() == "" || y.Text() == "" {
		return s, "", false
	}
	right, _ := measure.ParseLength(x.Text(), bare)
	up, _ := measure.ParseLength(y.Text(), bare)
	s = g.Spot(shape.Point{X: int64(right), Y: int64(up)})
	if s.X > GridWide || s.Y < 0 {
		return s, "That lies beyond the grid. Choose a longer grid first.", false
	}
	return s, "", true
}

// Lay puts the grid under a board in place of another; points stay where they are on the cloth.
func (g GridSheet) Lay(b *PhotoBoard, was GridSheet) {
	trails, img := b.Trails(), g.Picture()
	for _, tr := range trails {
		for i, s := range tr.Points {
			tr.Points[i] = g.Spot(was.At(s))
		}
	}
	trail, point := b.InHand()
	b.Grid = g.Squares()
	b.Put(img, img, trails)
	b.Take(trail, point, false)
}
