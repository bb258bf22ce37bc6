package dxf

import "bytes"

// known are the kinds of entities that are read; the others are counted.
var known = map[string]bool{
	"LINE": true, "POINT": true, "LWPOLYLINE": true, "POLYLINE": true, "ARC": true, "CIRCLE": true, "ELLIPSE": true,
	"SPLINE": true, "TEXT": true, "MTEXT": true, "ATTRIB": true, "INSERT": true,
}

// silent are kinds that draw nothing of their own.
var silent = map[string]bool{"ATTDEF": true, "SEQEND": true, "VIEWPORT": true, "ENDBLK": true, "VERTEX": true}

// entities reads up to an end mark, a new section or the end of the file.
func (p *parser) entities(end string) ([]Entity, error) {
	var out []Entity
	line := -1 // a polyline whose vertices are coming
	for {
		if err := p.next(); err != nil {
			return nil, err
		}
		if p.code != 0 {
			continue
		}
		kind := p.name()
		if kind == end {
			return out, nil
		}
		if kind == "EOF" || kind == "ENDSEC" || kind == "SECTION" {
			p.back()
			return out, nil
		}
		if kind == "VERTEX" {
			if err := p.vertex(out, line); err != nil {
				return nil, err
			}
			continue
		}
		line = -1
		if p.elements++; p.elements > p.lim.Elements {
			return nil, p.lim.TooManyElements()
		}
		if !known[kind] {
			if !silent[kind] {
				p.count(kind)
			}
			continue
		}
		e, ok, err := p.entity(kind)
		if err != nil {
			return nil, err
		}
		if !ok {
			p.count("MESH")
			continue
		}
		if out = append(out, e); kind == "POLYLINE" {
			line = len(out) - 1
		}
	}
}

func (p *parser) count(kind string) {
	if _, ok := p.file.Unread[kind]; ok || len(p.file.Unread) < 100 {
		p.file.Unread[kind]++
	}
}

// more takes a point from what may still come.
func (p *parser) more() error {
	if p.points--; p.points < 0 {
		return p.lim.TooManyPoints()
	}
	return nil
}

// vertex reads one point of a polyline; those that only steer a curve are no points of it.
func (p *parser) vertex(out []Entity, line int) error {
	var v Vertex
	flags := 0
	for {
		if err := p.next(); err != nil {
			return err
		}
		var err error
		switch p.code {
		case 0:
			p.back()
			if line < 0 || flags&16 != 0 {
				return nil
			}
			out[line].Vertices = append(out[line].Vertices, v)
			return p.more()
		case 10:
			v.X, err = p.number()
		case 20:
			v.Y, err = p.number()
		case 42:
			v.Bulge, err = p.number()
		case 70:
			flags, err = p.integer()
		}
		if err != nil {
			return err
		}
	}
}

// entity reads the pairs of one entity; ok is false for a mesh, which is no line.
func (p *parser) entity(kind string) (e Entity, ok bool, err error) {
	e = Entity{Kind: kind}
	switch kind {
	case "ARC", "CIRCLE", "ELLIPSE", "SPLINE":
		e.Curve = &Curve{}
	case "INSERT":
		e.Placed = &Placed{Scale: Vec{1, 1}, Cols: 1, Rows: 1}
	}
	mesh := false
	for {
		if err := p.next(); err != nil {
			return e, false, err
		}
		if p.code == 0 {
			p.back()
			return e, !mesh, nil
		}
		if p.code == 70 && kind == "POLYLINE" {
			n, err := p.integer()
			if err != nil {
				return e, false, err
			}
			e.Closed, mesh = n&1 != 0, n&(16|64) != 0
			continue
		}
		if err := p.put(&e); err != nil {
			return e, false, err
		}
	}
}

// put takes one pair into an entity: what all have first.
func (p *parser) put(e *Entity) (err error) {
	switch p.code {
	case 8:
		e.Layer = p.name()
		return nil
	case 60, 67:
		n, err := p.integer()
		e.Unseen, e.OnPaper = e.Unseen || p.code == 60 && n != 0, e.OnPaper || p.code == 67 && n != 0
		return err
	case 210, 220, 230:
		return p.normal(e)
	}
	switch e.Kind {
	case "LINE", "POINT", "LWPOLYLINE", "POLYLINE":
		return p.putLine(e)
	case "TEXT", "MTEXT", "ATTRIB":
		return p.putText(e)
	case "INSERT":
		return p.putInsert(e)
	}
	return p.putCurve(e)
}

func (p *parser) normal(e *Entity) error {
	v, err := p.number()
	if e.Normal == nil {
		e.Normal = &Normal{0, 0, 1}
	}
	switch p.code {
	case 210:
		e.Normal.X = v
	case 220:
		e.Normal.Y = v
	default:
		e.Normal.Z = v
	}
	return err
}

// place starts a new point with its x, or completes the last one.
func (p *parser) place(e *Entity, x bool) error {
	v, err := p.number()
	if err != nil {
		return err
	}
	if x {
		e.Vertices = append(e.Vertices, Vertex{X: v})
		return p.more()
	}
	if n := len(e.Vertices); n > 0 {
		e.Vertices[n-1].Y = v
	}
	return nil
}

func (p *parser) putLine(e *Entity) error {
	switch p.code {
	case 10, 20, 11, 21:
		if e.Kind == "POLYLINE" || p.code > 20 && e.Kind != "LINE" || p.code == 11 && e.Kind != "LINE" {
			return nil // a polyline's own place means nothing
		}
		return p.place(e, p.code < 20)
	case 42:
		v, err := p.number()
		if n := len(e.Vertices); n > 0 {
			e.Vertices[n-1].Bulge = v
		}
		return err
	case 70:
		n, err := p.integer()
		e.Closed = n&1 != 0
		return err
	}
	return nil
}

func (p *parser) putText(e *Entity) error {
	switch p.code {
	case 10, 20:
		return p.place(e, p.code == 10)
	case 1, 3:
		if len(e.Text)+len(p.value) < 4096 {
			e.Text += string(bytes.TrimSpace(p.value))
		}
	}
	return nil
}

func (p *parser) putInsert(e *Entity) (err error) {
	at := e.Placed
	switch p.code {
	case 2:
		e.Block = p.name()
	case 10, 20:
		return p.place(e, p.code == 10)
	case 41:
		at.Scale.X, err = p.number()
	case 42:
		at.Scale.Y, err = p.number()
	case 44:
		at.Step.X, err = p.number()
	case 45:
		at.Step.Y, err = p.number()
	case 50:
		at.Turn, err = p.number()
	case 70:
		at.Cols, err = p.integer()
	case 71:
		at.Rows, err = p.integer()
	}
	return err
}

func (p *parser) putCurve(e *Entity) (err error) {
	c, spline := e.Curve, e.Kind == "SPLINE"
	switch p.code {
	case 10, 20:
		return p.place(e, p.code == 10)
	case 11, 21:
		return p.putSecond(c, spline)
	case 40:
		v, err := p.number()
		if spline {
			c.Knots = append(c.Knots, v)
		}
		c.Radius = v
		return err
	case 41:
		v, err := p.number()
		if spline {
			c.Weights = append(c.Weights, v)
		}
		c.From = v
		c.haveAngles++
		return err
	case 42:
		if !spline {
			c.To, err = p.number()
			c.haveAngles++
		}
	case 50:
		c.From, err = p.number()
	case 51:
		c.To, err = p.number()
	case 70:
		n, err := p.integer()
		e.Closed = n&1 != 0
		return err
	case 71:
		c.Degree, err = p.integer()
	}
	return err
}

// putSecond reads the longer axis of an ellipse, or a point that a spline goes through.
func (p *parser) putSecond(c *Curve, spline bool) error {
	v, err := p.number()
	switch n := len(c.Through); {
	case err != nil:
		return err
	case !spline && p.code == 11:
		c.Major.X = v
	case !spline:
		c.Major.Y = v
	case p.code == 11:
		c.Through = append(c.Through, Vec{X: v})
		return p.more()
	case n > 0:
		c.Through[n-1].Y = v
	}
	return nil
}
