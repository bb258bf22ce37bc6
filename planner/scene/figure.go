package scene

import (
	"math"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
)

// The figure is our own drawing, 1700 mm high, seen from the front; half of it, from the
// neck down to the crotch, and an arm. It is no body in particular.
var (
	figureSide = []Point{{48, 1490}, {62, 1455}, {192, 1425}, {165, 1300}, {166, 1250}, {142, 1170}, {122, 1060}, {150, 950}, {174, 850},
		{168, 760}, {140, 620}, {98, 460}, {92, 330}, {56, 70}, {84, 8}, {30, 0}, {24, 70}, {30, 330}, {28, 460}, {16, 640}, {0, 780}}
	figureArm = []Point{{192, 1425}, {228, 1380}, {240, 1250}, {262, 1080}, {268, 860}, {250, 780}, {232, 860}, {226, 1080}, {200, 1250}, {172, 1318}}
)

// figureLevel is where a girth lies: its height, and where the tape ends on either side.
var figureLevels = map[string]struct{ y, from, to float64 }{
	pattern.HighBust: {1318, -167, 167},
	pattern.Bust:     {1250, -166, 166},
	sizing.Underbust: {1170, -142, 142},
	pattern.Waist:    {1060, -122, 122},
	pattern.Hip:      {850, -174, 174},
	pattern.Thigh:    {740, 6, 166},
	sizing.UpperArm:  {1270, 196, 238},
}

// Lines that tell the front of the figure from its back, right halves: the bust and the navel; the
// shoulder blades, the seat and the spine.
var (
	figureFront = []Line{arc(Point{82, 1262}, 52, 42), stroke(Point{0, 1010}, Point{0, 1024})}
	figureBack  = []Line{arc(Point{84, 1330}, 46, 58), arc(Point{82, 862}, 74, 66), stroke(Point{0, 1440}, Point{0, 900})}
)

// arc is the lower half of an oval, from left to right.
func arc(at Point, w, h float64) Line {
	var l Line
	for i := range 13 {
		sin, cos := math.Sincos(math.Pi * float64(i) / 12)
		l.Points = append(l.Points, Point{at.X - w*cos, at.Y - h*sin})
	}
	return l
}

// Figure draws where the tape goes for a body measurement of that name: round the body, or
// along it between two marks; what lies on the back on a figure seen from behind. The figure alone
// where there is none.
func Figure(place string) Scene {
	var s Scene
	s.add(Piece, "", Line{Points: append(mirrored(figureSide), backwards(figureSide)...), Closed: true})
	for _, side := range []float64{1, -1} {
		s.add(Piece, "", Line{Points: sided(side, figureArm), Closed: true})
	}
	s.add(Piece, "", oval(Point{0, 1590}, 78, 110))
	lines, from := figureFront, "from the front"
	if place == sizing.BackWaist {
		lines, from = figureBack, "from behind"
	}
	for _, side := range []float64{1, -1} {
		for _, l := range lines {
			s.add(Grain, "", Line{Points: sided(side, l.Points)})
		}
	}
	if l, ok := figureLevels[place]; ok {
		s.add(Fold, place, tape(l.y, l.from, l.to))
		s.add(Came, place, band(l.y, l.from, l.to))
	}
	switch place {
	case sizing.Height:
		s.add(Came, place, upright(-330, 0, 1700)...)
	case sizing.BackWaist:
		s.add(Came, place, upright(0, figureLevels[pattern.Waist].y, 1462)...)
	case sizing.InsideLeg:
		s.add(Came, place, upright(0, 0, 780)...)
	}
	s.write(Label, from, Point{0, -90}, 52, Middle)
	s.Bounds = Box{Point{-380, -120}, Point{380, 1740}}
	s.Hair = 3
	return s
}

// FigureNear is the part of Figure round where the tape goes, for a small picture beside a field.
func FigureNear(place string) Scene {
	s := Figure(place)
	s.Items = slices.DeleteFunc(s.Items, func(it Item) bool { return it.Text != "" && it.Style == Label })
	const half = 230 // of the part, in mm of the figure
	x, y, far := 0.0, 850.0, 0.0
	switch l, girth := figureLevels[place]; {
	case girth:
		x, y, far = (l.from+l.to)/2, l.y, half
	case place == sizing.BackWaist:
		y, far = (figureLevels[pattern.Waist].y+1462)/2, 280
	case place == sizing.InsideLeg:
		y, far = 400, 460
	default:
		far = 900
	}
	s.Bounds = Box{Point{x - far, y - far}, Point{x + far, y + far}}
	return s
}

// sided are points on one side of the figure, 1 as they are, −1 on the other.
func sided(side float64, pts []Point) []Point {
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[i] = Point{side * p.X, p.Y}
	}
	return out
}

// mirrored is the other half, from the crotch up to the neck.
func mirrored(half []Point) []Point {
	return sided(-1, half)
}

func backwards(pts []Point) []Point {
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[len(pts)-1-i] = p
	}
	return out
}

func oval(at Point, w, h float64) Line {
	l := Line{Closed: true}
	for i := range 40 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 40)
		l.Points = append(l.Points, Point{at.X + w*cos, at.Y + h*sin})
	}
	return l
}

// tapeWide is how wide a tape is drawn, in mm of the figure.
const tapeWide = 22

// sag is by how much the front of a tape hangs below its level, and its back stands above it.
func sag(from, to float64) float64 { return math.Min(14, (to-from)/6) }

// tape goes round: its front hangs a little, its back is seen through the body.
func tape(y, from, to float64) Line {
	return oval(Point{(from + to) / 2, y}, (to-from)/2, sag(from, to))
}

// band is the front of a tape in its width.
func band(y, from, to float64) Line {
	low := arc(Point{(from + to) / 2, y - tapeWide/2}, (to-from)/2, sag(from, to)).Points
	high := arc(Point{(from + to) / 2, y + tapeWide/2}, (to-from)/2, sag(from, to)).Points
	return Line{Points: append(low, backwards(high)...), Closed: true}
}

// upright is a tape from one height to another with a mark at its two ends.
func upright(x, from, to float64) []Line {
	box := func(left, low, right, high float64) Line {
		return Line{Closed: true, Points: []Point{{left, low}, {right, low}, {right, high}, {left, high}}}
	}
	return []Line{box(x-tapeWide/2, from, x+tapeWide/2, to), box(x-40, from, x+40, from+8), box(x-40, to-8, x+40, to)}
}

// Eases draws what the sizes that could be chosen do at each level: a bar to the right where
// the garment is larger than the body, to the left where it is smaller, all to one scale.
func Eases(options []sizing.Option, chosen string) Scene {
	var s Scene
	most := 1.0
	var levels []string
	for _, o := range options {
		for _, e := range o.Eases {
			most = math.Max(most, math.Abs(e.Ease.Millimetres()))
			if len(levels) < len(o.Eases) {
				levels = append(levels, e.Level)
			}
		}
	}
	if len(levels) == 0 {
		return s
	}
	const half, column, row, high = 95.0, 250.0, 34.0, 18.0
	for k, o := range options {
		x := float64(k) * column
		name := "size " + o.Size
		if o.Size == chosen {
			name += ", proposed"
		}
		s.write(Label, name, Point{x, row}, 17, Middle)
		foot := -row * (float64(len(levels)) - 0.5)
		s.add(Axis, "", stroke(Point{x, row / 2}, Point{x, foot}))
		for i, e := range o.Eases {
			y, w := -row*float64(i), half*e.Ease.Millimetres()/most
			if math.Abs(w) < 1 {
				continue
			}
			s.add(easeStyle(e.Wear), o.Size, Line{Closed: true, Points: []Point{{math.Min(x, x+w), y - high/2}, {math.Max(x, x+w), y - high/2}, {math.Max(x, x+w), y + high/2}, {math.Min(x, x+w), y + high/2}}})
		}
	}
	for i, l := range levels {
		s.write(Label, l, Point{-half - 20, -row * float64(i)}, 17, End)
	}
	s.frame()
	return s
}

func easeStyle(w sizing.Wear) Style {
	switch w {
	case sizing.TooFar:
		return Overlap
	case sizing.Firm, sizing.Comfortable, sizing.Unknown:
		return Went
	}
	return Came
}
