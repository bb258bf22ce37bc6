package pdf

import (
	"fmt"
	"math"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// slack is by how much a clip is widened, in mm: files round.
const slack = 0.02

// build adds to the path (ISO 32000-1, 8.5.2).
func (p *painter) build(op string) error {
	n := map[string]int{"m": 2, "l": 2, "c": 6, "v": 4, "y": 4, "re": 4}[op]
	v, ok := p.numbers(n)
	if !ok || op != "m" && op != "re" && len(p.path) == 0 {
		return nil
	}
	if p.r.points--; p.r.points < 0 {
		return p.r.lim.TooManyPoints()
	}
	switch op {
	case "m":
		p.begin(v[0], v[1])
	case "l":
		p.line(v[0], v[1])
	case "c":
		return p.curve(v)
	case "v":
		return p.curve([6]float64{p.x, p.y, v[0], v[1], v[2], v[3]})
	case "y":
		return p.curve([6]float64{v[0], v[1], v[2], v[3], v[2], v[3]})
	case "re":
		p.begin(v[0], v[1])
		p.line(v[0]+v[2], v[1])
		p.line(v[0]+v[2], v[1]+v[3])
		p.line(v[0], v[1]+v[3])
		p.last().closed = true
		p.x, p.y = v[0], v[1]
		p.r.points -= 3
	case "h":
		p.last().closed = true
	}
	return nil
}

func (p *painter) last() *sub { return &p.path[len(p.path)-1] }

func (p *painter) begin(x, y float64) {
	p.path = append(p.path, sub{points: []drawn.Place{p.state.m.apply(x, y)}})
	p.x, p.y = x, y
}

// again begins anew where the last run was closed.
func (p *painter) again() {
	if s := p.last(); s.closed {
		p.path = append(p.path, sub{points: []drawn.Place{s.points[0]}})
	}
}

func (p *painter) line(x, y float64) {
	p.again()
	s := p.last()
	s.points = append(s.points, p.state.m.apply(x, y))
	p.x, p.y = x, y
}

func (p *painter) curve(v [6]float64) error {
	p.again()
	s := p.last()
	a, b, c, d := s.points[len(s.points)-1], p.state.m.apply(v[0], v[1]), p.state.m.apply(v[2], v[3]), p.state.m.apply(v[4], v[5])
	n := drawn.CubicSteps(a, b, c, d)
	if p.r.points -= n; p.r.points < 0 {
		return p.r.lim.TooManyPoints()
	}
	for i := 1; i < n; i++ {
		s.points = append(s.points, drawn.Cubic(a, b, c, d, float64(i)/float64(n)))
	}
	s.points = append(s.points, d)
	p.x, p.y = v[4], v[5]
	return nil
}

// paint ends the path: it is drawn, filled or clips (8.5.3 and 8.5.4).
func (p *painter) paint(op string) error {
	if op == "s" || strings.HasPrefix(op, "b") {
		if len(p.path) > 0 {
			p.last().closed = true
		}
	}
	switch op {
	case "n":
	case "f", "F", "f*":
		p.take(p.state.fill, "", true)
	default:
		p.take(p.state.stroke, p.dashed(), false)
	}
	if p.clips {
		p.clip()
	}
	p.path, p.clips = p.path[:0], false
	return nil
}

// dashed writes the dash in mm: "3-1.5", "" for a line drawn through.
func (p *painter) dashed() string {
	k := p.state.m.scale()
	var words []string
	sum := 0.0
	for _, v := range p.state.dash {
		sum += math.Abs(v) * k
		words = append(words, fmt.Sprintf("%.2g", v*k))
	}
	if sum < 1e-6 {
		return ""
	}
	return strings.Join(words, "-")
}

// take keeps what of the path is seen. White without an outline covers, it is no line.
func (p *painter) take(colour, dash string, filled bool) {
	if filled && colour == "#ffffff" {
		return
	}
	st := style{layer: p.layer(), line: drawn.Line{Colour: colour, Dash: dash, Filled: filled}}
	for _, s := range p.path {
		if len(s.points) < 2 {
			continue
		}
		parts, whole := p.state.clip.clip(s.points, s.closed || filled)
		for _, part := range parts {
			p.page.lines = append(p.page.lines, line{points: append([]drawn.Place(nil), part...), closed: whole && (s.closed || filled), style: st})
		}
	}
}

// clip narrows what is seen to the path: to the box around it, which for a rectangle is itself.
func (p *painter) clip() {
	b := nowhere()
	upright := len(p.path) == 1
	for _, s := range p.path {
		c := boxOf(s.points)
		b = b.with(drawn.Place{X: c.left, Y: c.top}).with(drawn.Place{X: c.right, Y: c.low})
		upright = upright && len(s.points) <= 5
		for _, q := range s.points {
			upright = upright && (near(q.X, c.left) || near(q.X, c.right)) && (near(q.Y, c.top) || near(q.Y, c.low))
		}
	}
	if !upright {
		p.r.file.Clipped = true
	}
	p.state.clip = p.state.clip.meet(b.wider(slack))
}

func near(a, b float64) bool { return math.Abs(a-b) < 0.1 }
