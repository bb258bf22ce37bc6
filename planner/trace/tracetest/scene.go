package tracetest

import (
	"image"
	"math"
	"math/rand/v2"

	"tallycloth/planner/trace"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Point is a place in the plane, in mm, y up.
type Point struct{ X, Y float64 }

// Scene is what lies on the table, in the frame of the marked rectangle.
type Scene struct {
	Seed    uint64
	Kind    string // of outline
	Outer   []Point
	Holes   [][]Point
	Cloth   Cloth
	Mat     Mat
	Table   Mat // beyond the mat, where that ends within the picture
	MatBox  [4]float64
	Width   float64 // of the rectangle, mm, along x
	Height  float64
	Sheet   bool
	Camera  Camera
	Shadow  Shadow
	Noise   float64 // standard deviation, in steps of 255
	Quality int     // of JPEG
	Slip    float64 // how far the marks miss the corners at most, in pixels
	Second  float64 // size of another leftover beyond this one, as a share of it; 0 for none
}

// Photo is a picture with what is truly there.
type Photo struct {
	Scene   Scene
	Picture image.Image
	// Marked is the rectangle as a person marked it.
	Marked trace.Rectangle
	// Truth is the outline in the plane, in µm.
	Truth shape.Polygon
}

// Shadow is a soft shadow beside the cloth, as cloth that stands up a little throws it.
type Shadow struct {
	DX, DY float64 // mm
	Soft   float64 // mm, half width of its edge
	Depth  float64 // share of light taken
	// Hand is a broad shadow over a part of the picture, as of a person who leans over.
	Hand      float64 // share of light taken, 0 for none
	HandX     float64 // mm, where its edge begins
	HandTurn  float64
	HandWidth float64 // mm, of its soft edge
}

// NewScene returns the scene of a seed, a leftover of about 600 mm.
func NewScene(seed uint64) Scene {
	r := rand.New(rand.NewPCG(seed, 0x6c6566746f766572))
	s := Scene{Seed: seed, Sheet: seed%5 != 0}
	s.Kind, s.Outer, s.Holes = outline(r)
	s.Mat, s.Cloth, s.Table = materials(r)
	s.lay(r)
	s.Shadow = shadow(r)
	s.Noise, s.Quality = 1.5+4.5*r.Float64(), 70+r.IntN(26)
	s.Slip = 2
	s.Camera = look(r, s.corners(), 1280, 960)
	return s
}

// lay turns the leftover and puts the rectangle beside it, or round it for a mat.
func (s *Scene) lay(r *rand.Rand) {
	turn := (r.Float64() - 0.5) * math.Pi / 3
	all := append([][]Point{s.Outer}, s.Holes...)
	for _, ring := range all {
		for i, p := range ring {
			ring[i] = Point{p.X*math.Cos(turn) - p.Y*math.Sin(turn), p.X*math.Sin(turn) + p.Y*math.Cos(turn)}
		}
	}
	box := bounds(s.Outer)
	var to Point // of the box's lower left corner
	if s.Sheet {
		s.Width, s.Height = 210, 297
		if r.IntN(2) == 0 {
			s.Width, s.Height = 279.4, 215.9
		}
		gap := 25 + 40*r.Float64()
		switch r.IntN(4) {
		case 0:
			to = Point{s.Width + gap, (r.Float64() - 0.5) * 150}
		case 1:
			to = Point{-gap - (box[2] - box[0]), (r.Float64() - 0.5) * 150}
		case 2:
			to = Point{(r.Float64()-0.5)*150 - 100, s.Height + gap}
		default:
			to = Point{(r.Float64()-0.5)*150 - 100, -gap - (box[3] - box[1])}
		}
	} else {
		s.Width, s.Height = box[2]-box[0]+60+60*r.Float64(), box[3]-box[1]+60+60*r.Float64()
		s.Width, s.Height = math.Ceil(s.Width/50)*50, math.Ceil(s.Height/50)*50
		to = Point{(s.Width - box[2] + box[0]) / 2, (s.Height - box[3] + box[1]) / 2}
		s.Mat.Frame = true
	}
	for _, ring := range all {
		for i, p := range ring {
			ring[i] = Point{p.X - box[0] + to.X, p.Y - box[1] + to.Y}
		}
	}
	b := bounds(s.corners())
	more := 90 + 80*r.Float64()
	s.MatBox = [4]float64{b[0] - more, b[1] - more, b[2] + more, b[3] + more}
	if r.IntN(3) > 0 { // the mat fills the picture
		s.MatBox = [4]float64{-1e5, -1e5, 1e5, 1e5}
	}
}

// LayOver lays the sheet half on the cloth.
func (s *Scene) LayOver() {
	b := bounds(s.Outer)
	dx, dy := b[0]-s.Width/2, (b[1]+b[3]-s.Height)/2
	for _, ring := range append([][]Point{s.Outer}, s.Holes...) {
		for i := range ring {
			ring[i] = Point{ring[i].X - dx, ring[i].Y - dy}
		}
	}
	s.Camera.aimAt(s.corners())
}

// CutOff moves the view so that a tenth of the picture's width of the cloth is out of it
// and the sheet just within; false where the sheet would leave first.
func (s *Scene) CutOff() bool {
	sheet := []Point{{0, 0}, {s.Width, 0}, {s.Width, s.Height}, {0, s.Height}}
	step := 0.02 * float64(s.Camera.Width)
	for _, way := range []Point{{step, 0}, {-step, 0}, {0, step}, {0, -step}} {
		c, over := s.Camera, 0
		for c.within(sheet) && over < 5 {
			if c = c.moved(way.X, way.Y); !c.within(s.Outer) {
				over++
			}
		}
		if c.within(sheet) {
			s.Camera = c
			return true
		}
	}
	return false
}

// second is the outline of the other leftover, above the scene.
func (s *Scene) second() (out []Point) {
	all, b := bounds(s.corners()), bounds(s.Outer)
	for _, p := range s.Outer {
		out = append(out, Point{b[0] + (p.X-b[0])*s.Second, all[3] + 30 + (p.Y-b[1])*s.Second})
	}
	return out
}

// corners are places that the picture must show.
func (s *Scene) corners() []Point {
	return append([]Point{{0, 0}, {s.Width, 0}, {s.Width, s.Height}, {0, s.Height}}, s.Outer...)
}

func shadow(r *rand.Rand) Shadow {
	a := r.Float64() * 2 * math.Pi
	d := 4 + 14*r.Float64()
	s := Shadow{DX: d * math.Cos(a), DY: d * math.Sin(a), Soft: 3 + 8*r.Float64(), Depth: 0.15 + 0.35*r.Float64()}
	if r.IntN(3) == 0 {
		s.Hand, s.HandX, s.HandTurn, s.HandWidth = 0.15+0.25*r.Float64(), 300*r.Float64(), r.Float64()*2*math.Pi, 40+100*r.Float64()
	}
	return s
}

// Truth is the scene's outline in µm.
func (s *Scene) Truth() shape.Polygon {
	p := shape.Polygon{Outer: ring(s.Outer)}
	for _, h := range s.Holes {
		p.Holes = append(p.Holes, ring(h).Reverse())
	}
	return p
}

func ring(p []Point) (r shape.Ring) {
	for _, q := range p {
		r = append(r, shape.Point{X: int64(math.Round(q.X * 1000)), Y: int64(math.Round(q.Y * 1000))})
	}
	if r.Area2() < 0 {
		r = r.Reverse()
	}
	return r
}

// marked is the rectangle as a person marks it, a little off.
func (s *Scene) marked(r *rand.Rand) trace.Rectangle {
	out := trace.Rectangle{Sheet: s.Sheet, Along: measure.Length(math.Round(s.Width * 1000)), Across: measure.Length(math.Round(s.Height * 1000))}
	for i, p := range []Point{{0, s.Height}, {s.Width, s.Height}, {s.Width, 0}, {0, 0}} {
		x, y := s.Camera.project(p)
		out.Corners[i] = trace.Dot{X: x + s.Slip*(2*r.Float64()-1), Y: y + s.Slip*(2*r.Float64()-1)}
	}
	return out
}

func bounds(p []Point) [4]float64 {
	b := [4]float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, q := range p {
		b = [4]float64{min(b[0], q.X), min(b[1], q.Y), max(b[2], q.X), max(b[3], q.Y)}
	}
	return b
}
