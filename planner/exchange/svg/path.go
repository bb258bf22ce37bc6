package svg

import (
	"errors"
	"fmt"
	"math"
)

// errTooManyPoints is turned into the sentence of the limit where the limit is known.
var errTooManyPoints = errors.New("too many points")

// segment is a straight line, a cubic curve or an arc from where the last one ended.
type segment struct {
	kind byte // 'L', 'C', 'A'
	b, c vec  // handles of a curve
	arc  *arc
	to   vec
}

// subpath is one run of a path.
type subpath struct {
	from     vec
	segments []segment
	closed   bool // by its closing command
}

// pathReader reads path data, SVG 1.1 section 8.3.
type pathReader struct {
	scanner
	subs        []subpath
	here, start vec
	last        byte // command before this one, in upper case
	handle      vec  // its last handle, for S and T
	left        int  // segments that may still come
}

// parsePath reads the data of a path with at most most segments. An error says at
// which sign the data stops being understood; nothing is returned then, because half an
// outline is worse than none.
func parsePath(data string, most int) ([]subpath, error) {
	r := pathReader{scanner: scanner{text: data}, left: most}
	for r.space(); !r.done(); r.comma() {
		if err := r.command(); err != nil {
			return nil, err
		}
	}
	return r.subs, nil
}

// arguments is how many numbers one round of each command takes.
var arguments = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'S': 4, 'Q': 4, 'T': 2, 'A': 7, 'Z': 0}

// command reads one letter and all rounds of numbers after it.
func (r *pathReader) command() error {
	letter := r.peek()
	upper := letter &^ 0x20
	n, known := arguments[upper]
	if !known || upper != 'M' && len(r.subs) == 0 {
		return r.lost()
	}
	r.at++
	if upper == 'Z' {
		r.close()
		return nil
	}
	relative := letter != upper
	for round := 0; ; round++ {
		v, ok := r.numbers(n, upper == 'A')
		if !ok {
			return r.lost()
		}
		if r.left--; r.left < 0 {
			return errTooManyPoints
		}
		if upper == 'M' && round > 0 {
			upper = 'L' // further pairs after M are lines
		}
		r.do(upper, v, relative)
		mark := r.at
		r.comma()
		if c := r.peek(); !(c >= '0' && c <= '9' || c == '-' || c == '+' || c == '.') {
			r.at = mark
			return nil
		}
	}
}

func (r *pathReader) lost() error {
	return fmt.Errorf("its data is not understood from sign %d on: %q", r.at+1, shorten(r.text[min(r.at, len(r.text)):]))
}

// numbers reads n numbers; the fourth and fifth of an arc are flags.
func (r *pathReader) numbers(n int, arc bool) (v [7]float64, ok bool) {
	r.space()
	for i := range n {
		if i > 0 {
			r.comma()
		}
		if arc && (i == 3 || i == 4) {
			set, ok := r.flag()
			if !ok {
				return v, false
			}
			if set {
				v[i] = 1
			}
			continue
		}
		if v[i], ok = r.number(); !ok {
			return v, false
		}
	}
	return v, true
}

// do carries one command out.
func (r *pathReader) do(upper byte, v [7]float64, relative bool) {
	base := vec{}
	if relative {
		base = r.here
	}
	at := func(i int) vec { return base.add(vec{v[i], v[i+1]}) }
	switch upper {
	case 'M':
		r.here = at(0)
		r.start = r.here
		r.subs = append(r.subs, subpath{from: r.here})
	case 'L':
		r.put(segment{kind: 'L', to: at(0)})
	case 'H':
		r.put(segment{kind: 'L', to: vec{base.x + v[0], r.here.y}})
	case 'V':
		r.put(segment{kind: 'L', to: vec{r.here.x, base.y + v[0]}})
	case 'C':
		r.cubic(at(0), at(2), at(4))
	case 'S':
		r.cubic(r.mirrored('C', 'S'), at(0), at(2))
	case 'Q':
		r.quadratic(at(0), at(2))
	case 'T':
		r.quadratic(r.mirrored('Q', 'T'), at(0))
	case 'A':
		r.arcTo(v, at(5))
	}
	r.last = upper
}

// mirrored is the handle of the curve before, mirrored at this point, when that was
// one of two commands; this point itself when not.
func (r *pathReader) mirrored(a, b byte) vec {
	if r.last != a && r.last != b {
		return r.here
	}
	return r.here.times(2).sub(r.handle)
}

func (r *pathReader) cubic(b, c, to vec) {
	r.put(segment{kind: 'C', b: b, c: c, to: to})
	r.handle = c
}

// quadratic raises the degree, which is exact: handles two thirds of the way to h.
func (r *pathReader) quadratic(h, to vec) {
	r.put(segment{kind: 'C', b: r.here.between(h, 2.0/3), c: to.between(h, 2.0/3), to: to})
	r.handle = h
}

func (r *pathReader) arcTo(v [7]float64, to vec) {
	rx, ry := math.Abs(v[0]), math.Abs(v[1])
	if to == r.here {
		return
	}
	if rx == 0 || ry == 0 {
		r.put(segment{kind: 'L', to: to})
		return
	}
	r.put(segment{kind: 'A', arc: arcThrough(r.here, to, rx, ry, v[2], v[3] != 0, v[4] != 0), to: to})
}

// put adds a segment, opening a new run where the last one was closed.
func (r *pathReader) put(s segment) {
	if last := &r.subs[len(r.subs)-1]; last.closed {
		r.subs = append(r.subs, subpath{from: r.here})
	}
	last := &r.subs[len(r.subs)-1]
	last.segments = append(last.segments, s)
	r.here = s.to
}

func (r *pathReader) close() {
	r.subs[len(r.subs)-1].closed = true
	r.here, r.last = r.start, 'Z'
}
