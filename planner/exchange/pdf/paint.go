package pdf

import (
	"fmt"
	"math"
	"strings"

	"tallycloth/planner/exchange/drawn"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// state is what q saves and Q brings back.
type state struct {
	m            matrix // to mm on the page
	clip         box
	stroke, fill string // colours
	dash         []float64
	text         writing
}

func newState(m matrix, w, h float64) state {
	return state{m: m, clip: box{0, 0, w, h}, stroke: "#000000", fill: "#000000", text: writing{at: still, line: still}}
}

// run of a path being built.
type sub struct {
	points []drawn.Place
	closed bool
}

// painter carries the operators of one page out.
type painter struct {
	r        *reader
	page     *Page
	area     float64
	pictured float64 // mm² covered by pictures
	state    state
	saved    []state
	path     []sub
	x, y     float64  // where the path is, in the page's own units
	clips    bool     // the path clips once it is painted
	layers   []string // one for each marked stretch
	res      types.Dict
	args     []token
	forms    []types.IndirectRef // being drawn
}

// mostArgs may an operator have: a line of text may come letter by letter.
const mostArgs = 2000

// mostSaved states may lie on the stack.
const mostSaved = 1000

// run carries out a stream with its resources.
func (p *painter) run(content []byte, res types.Dict, depth int) error {
	l := lexer{data: content}
	outer := p.res
	p.res = res
	defer func() { p.res = outer }()
	p.args = p.args[:0]
	for {
		t := l.next()
		switch t.kind {
		case end:
			return nil
		case word:
			if err := p.count(); err != nil {
				return err
			}
			if t.text == "ID" {
				l.inline()
				p.picture()
			} else if err := p.do(t.text, depth); err != nil {
				return err
			}
			p.args = p.args[:0]
		default:
			if len(p.args) < mostArgs {
				p.args = append(p.args, t)
			}
		}
	}
}

func (p *painter) count() error {
	if p.r.ops--; p.r.ops < 0 {
		return p.r.lim.TooManyElements()
	}
	if p.r.ops%4096 == 0 && p.r.ctx.Err() != nil {
		return fmt.Errorf("reading the PDF: %w", p.r.ctx.Err())
	}
	return nil
}

// numbers are the last n arguments; ok is false where they are not all numbers.
func (p *painter) numbers(n int) (v [6]float64, ok bool) {
	if len(p.args) < n {
		return v, false
	}
	for i, t := range p.args[len(p.args)-n:] {
		if t.kind != number {
			return v, false
		}
		v[i] = t.value
	}
	return v, true
}

// lastName is the last argument that is a name.
func (p *painter) lastName() string {
	for i := len(p.args) - 1; i >= 0; i-- {
		if p.args[i].kind == name {
			return p.args[i].text
		}
	}
	return ""
}

// do carries one operator out. What is not known draws nothing here.
func (p *painter) do(op string, depth int) error {
	switch op {
	case "q":
		if len(p.saved) < mostSaved {
			p.saved = append(p.saved, p.state)
		}
	case "Q":
		if n := len(p.saved); n > 0 {
			p.state, p.saved = p.saved[n-1], p.saved[:n-1]
		}
	case "cm":
		if v, ok := p.numbers(6); ok {
			if m := p.state.m.after(matrix(v)); m.finite() {
				p.state.m = m
			}
		}
	case "d":
		p.dash()
	case "m", "l", "c", "v", "y", "re", "h":
		return p.build(op)
	case "S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n":
		return p.paint(op)
	case "W", "W*":
		p.clips = true
	case "Tj", "TJ", "'", "\"":
		p.show(op)
	case "BT", "Tf", "Tc", "Tw", "Tz", "TL", "Ts", "Tm", "Td", "TD", "T*":
		p.write(op)
	case "BDC", "BMC":
		p.mark(op)
	case "EMC":
		if n := len(p.layers); n > 0 {
			p.layers = p.layers[:n-1]
		}
	case "Do":
		return p.object(depth)
	case "gs":
		p.graphics()
	default:
		p.colour(op)
	}
	return nil
}

// graphics takes the dash of a graphics state dictionary (8.4.5).
func (p *painter) graphics() {
	d := p.r.dict(p.r.dict(p.res, "ExtGState"), p.lastName())
	a := p.r.array(d, "D")
	if len(a) == 0 {
		return
	}
	list, err := p.r.x.DereferenceArray(a[0])
	if err != nil {
		return
	}
	p.state.dash = nil
	for _, o := range list {
		if v, err := p.r.x.DereferenceNumber(o); err == nil && len(p.state.dash) < 8 {
			p.state.dash = append(p.state.dash, v)
		}
	}
}

// dash reads [ … ] phase d.
func (p *painter) dash() {
	p.state.dash = nil
	for _, t := range p.args {
		if t.kind == close1 {
			break
		}
		if t.kind == number && len(p.state.dash) < 8 {
			p.state.dash = append(p.state.dash, t.value)
		}
	}
}

// mark begins a marked stretch; one of optional content lies on its layer, any other on that
// around it.
func (p *painter) mark(op string) {
	layer := p.layer()
	if op == "BDC" && len(p.args) > 1 && p.args[0].kind == name && p.args[0].text == "OC" {
		if o, ok := p.r.dict(p.res, "Properties").Find(p.lastName()); ok {
			if l := p.r.layerOf(o); l != "" {
				layer = l
			}
		}
	}
	if len(p.layers) < mostSaved {
		p.layers = append(p.layers, layer)
	}
}

func (p *painter) layer() string {
	if n := len(p.layers); n > 0 {
		return p.layers[n-1]
	}
	return ""
}

// colour reads the operators of colour (8.6.8): by the count of their numbers grey, RGB or CMYK.
func (p *painter) colour(op string) {
	var n int
	switch strings.ToLower(op) {
	case "g":
		n = 1
	case "rg":
		n = 3
	case "k":
		n = 4
	case "sc", "scn":
		n = len(p.args)
		if n > 0 && p.args[n-1].kind == name {
			n = -1
		}
	case "cs":
		n = 0
	default:
		return
	}
	c := "#000000"
	if v, ok := p.numbers(max(n, 0)); ok && n <= 4 {
		c = named(n, v)
	}
	if op[0] >= 'A' && op[0] <= 'Z' {
		p.state.stroke = c
	} else {
		p.state.fill = c
	}
}

// named writes a colour by its numbers.
func named(n int, v [6]float64) string {
	var r, g, b float64
	switch n {
	case 1:
		r, g, b = v[0], v[0], v[0]
	case 3:
		r, g, b = v[0], v[1], v[2]
	case 4:
		r, g, b = (1-v[0])*(1-v[3]), (1-v[1])*(1-v[3]), (1-v[2])*(1-v[3])
	case -1:
		return "pattern"
	}
	part := func(x float64) int { return int(math.Round(255 * math.Max(0, math.Min(1, x)))) }
	return fmt.Sprintf("#%02x%02x%02x", part(r), part(g), part(b))
}

// picture counts the place of a picture: the unit square (8.9.5).
func (p *painter) picture() {
	b := nowhere()
	for _, c := range [4][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		b = b.with(p.state.m.apply(c[0], c[1]))
	}
	if b = b.meet(p.state.clip); !b.empty() {
		p.pictured += b.wide() * b.tall()
	}
}

// object draws a form, or counts a picture (8.8 and 8.10).
func (p *painter) object(depth int) error {
	o, found := p.r.dict(p.res, "XObject").Find(p.lastName())
	if !found {
		return nil
	}
	ref, _ := o.(types.IndirectRef)
	for _, f := range p.forms {
		if f == ref && ref != (types.IndirectRef{}) {
			return drawn.Unsupported("a form in the PDF contains itself", saveAgain)
		}
	}
	s, _, err := p.r.x.DereferenceStreamDict(o)
	if err != nil || s == nil {
		return nil
	}
	switch kind := s.Subtype(); {
	case kind == nil:
		return nil
	case *kind == "Image":
		p.picture()
		return nil
	case *kind != "Form":
		return nil
	}
	if depth >= p.r.lim.Depth {
		return p.r.lim.TooDeep()
	}
	if err := p.r.unpack(s); err != nil {
		return err
	}
	return p.form(s, ref, depth)
}

func (p *painter) form(s *types.StreamDict, ref types.IndirectRef, depth int) error {
	saved, stack, layers, path, args := p.state, p.saved, p.layers, p.path, p.args
	p.saved, p.path, p.args = nil, nil, nil
	p.forms = append(p.forms, ref)
	defer func() {
		p.state, p.saved, p.layers, p.path, p.args = saved, stack, layers, path, args
		p.forms = p.forms[:len(p.forms)-1]
	}()
	if v := p.r.numbers(s.Dict, "Matrix", 6); v != nil {
		if m := p.state.m.after(matrix(v)); m.finite() {
			p.state.m = m
		}
	}
	if v := p.r.numbers(s.Dict, "BBox", 4); v != nil {
		b := nowhere()
		for _, c := range [4][2]float64{{v[0], v[1]}, {v[2], v[1]}, {v[2], v[3]}, {v[0], v[3]}} {
			b = b.with(p.state.m.apply(c[0], c[1]))
		}
		p.state.clip = p.state.clip.meet(b.wider(slack))
	}
	if o, ok := s.Dict.Find("OC"); ok {
		if l := p.r.layerOf(o); l != "" {
			p.layers = append(p.layers[:len(p.layers):len(p.layers)], l)
		}
	}
	res := p.r.dict(s.Dict, "Resources")
	if res == nil {
		res = p.res
	}
	return p.run(s.Content, res, depth+1)
}
