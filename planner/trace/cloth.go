package trace

import (
	"context"
	"math"

	"tallycloth/stash/shape"
)

// Sizes, in µm² and µm.
const (
	leastCloth = 2_000e6 // 20 cm²: less is no leftover
	leastHole  = 150e6   // 1.5 cm²: less is a print or a flaw of the picture
	band       = 12e3    // how far from the first rough boundary the fine one is looked for
)

// found is what find has to say.
type found struct {
	outline shape.Polygon
	doubts  []Doubt
}

// find tells cloth from background: roughly on a grid of 2 mm, by the colours along the
// border; then again by the colours of both, and last along the boundary in the pixels
// of the straightened picture.
func find(ctx context.Context, s Straight, r Rectangle) (found, error) {
	g := newGrid(s, r)
	bg := g.learn(r, lenient)
	if len(bg.shades) == 0 {
		return found{doubts: []Doubt{NoBackground}}, ctx.Err()
	}
	all := g.rough(bg)
	var shadowy bool
	if len(all) == 0 {
		shadowy = true
		bg = g.learn(r, strict)
		all = g.rough(bg)
	}
	if len(all) == 0 {
		return found{doubts: []Doubt{NothingFound}}, ctx.Err()
	}
	cloth := g.clothColours(all[0])
	all = g.again(bg, cloth)
	if len(all) == 0 {
		return found{doubts: []Doubt{NothingFound}}, ctx.Err()
	}
	if err := ctx.Err(); err != nil {
		return found{}, err
	}
	f := g.fine(bg, cloth, all[0])
	out := f.outline()
	return found{out, g.doubts(r, bg, all, out, shadowy)}, ctx.Err()
}

// rough returns the parts of the picture that are no background, after what is thinner
// than 8 mm is gone.
func (g *grid) rough(bg background) []part {
	mask := make([]bool, g.w*g.h)
	for i := range mask {
		mask[i] = g.open(i) && bg.distance(g.base[i]) > bg.most
	}
	n := max(1, int(4000/g.cell()+0.5))
	return g.large(grown(shrunk(mask, g.w, n), g.w, n))
}

// large returns the parts large enough for a leftover.
func (g *grid) large(mask []bool) []part {
	all := parts(mask, g.w)
	for i, p := range all {
		if float64(len(p.cells))*g.cell()*g.cell() < leastCloth {
			return all[:i]
		}
	}
	return all
}

// clothColours are the colours well inside a part.
func (g *grid) clothColours(p part) []lab {
	mask := make([]bool, g.w*g.h)
	for _, i := range p.cells {
		mask[i] = true
	}
	in := shrunk(mask, g.w, max(1, int(6000/g.cell())))
	var c []lab
	for pass := 0; pass < 2 && len(c) < 20; pass++ {
		c = c[:0]
		every := max(1, len(p.cells)/6000)
		for k := 0; k < len(p.cells); k += every {
			if i := p.cells[k]; in[i] || pass == 1 {
				c = append(c, g.base[i])
			}
		}
	}
	middles, _ := clusters(c, 5, sameColour)
	return middles
}

// again returns the parts that are nearer to the cloth's colours than to the
// background's; every cell is asked with its neighbours.
func (g *grid) again(bg background, cloth []lab) []part {
	side := make([]float32, g.w*g.h)
	bands(g.h, func(from, to int) {
		for i := from * g.w; i < to*g.w; i++ {
			side[i] = -1
			if g.open(i) {
				side[i] = sideOf(bg, cloth, g.base[i])
			}
		}
	})
	side = blurred(side, g.w, 1)
	mask := make([]bool, len(side))
	for i := range mask {
		mask[i] = g.open(i) && side[i] > 0
	}
	n := max(1, int(3000/g.cell()))
	return g.large(grown(shrunk(mask, g.w, n), g.w, n))
}

// sideOf is from −1, background, to 1, cloth; 0 half-way between.
func sideOf(bg background, cloth []lab, c lab) float32 {
	_, d2 := nearest(cloth, c)
	a, b := bg.distance(c), math.Sqrt(float64(d2))
	return float32((a - b) / (a + b + 1))
}

// field is a function on the pixels of the straightened picture that is positive on
// the cloth.
type field struct {
	v    []float32
	w, h int
	x, y int // of its first pixel in the picture
	s    Straight
}

// fine decides pixel by pixel in a band along the boundary of a part.
func (g *grid) fine(bg background, cloth []lab, p part) field {
	mask := make([]bool, g.w*g.h)
	for _, i := range p.cells {
		mask[i] = true
	}
	reach := float32(band / g.cell())
	out, in := away(mask, g.w, g.h), away(inverted(mask), g.w, g.h)
	f := g.round(p, int(reach)+2)
	img := g.s.Image
	bands(f.h, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range f.w {
				i := (y+f.y)/g.k*g.w + (x+f.x)/g.k
				v := &f.v[y*f.w+x]
				switch {
				case in[i] > reach:
					*v = 1
				case out[i] > reach || !g.open(i):
					*v = -1
				default:
					*v = sideOf(bg, cloth, labOfPixel(img.Pix[(y+f.y)*img.Stride+4*(x+f.x):]))
				}
			}
		}
	})
	f.clean()
	return f
}

// round is an empty field round a part, with a margin in cells.
func (g *grid) round(p part, margin int) field {
	x0, y0, x1, y1 := g.w, g.h, 0, 0
	for _, i := range p.cells {
		x0, y0, x1, y1 = min(x0, i%g.w), min(y0, i/g.w), max(x1, i%g.w+1), max(y1, i/g.w+1)
	}
	x0, y0, x1, y1 = max(x0-margin, 0), max(y0-margin, 0), min(x1+margin, g.w), min(y1+margin, g.h)
	f := field{w: (x1 - x0) * g.k, h: (y1 - y0) * g.k, x: x0 * g.k, y: y0 * g.k, s: g.s}
	f.v = make([]float32, f.w*f.h)
	return f
}

// clean takes noise and thin lines out of a field, and all but the largest part.
func (f *field) clean() {
	px := float64(f.s.Pixel)
	f.v = blurred(f.v, f.w, max(1, int(1500/px)))
	mask := make([]bool, len(f.v))
	for i, v := range f.v {
		mask[i] = v > 0
	}
	n := max(1, int(2000/px))
	kept := parts(grown(shrunk(mask, f.w, n), f.w, n), f.w)
	var own []bool
	if len(kept) > 0 {
		own = make([]bool, len(mask))
		for _, i := range kept[0].cells {
			own[i] = true
		}
	}
	f.only(own, leastHole/px/px)
}

// only makes all but a part negative, and small holes in it positive.
func (f *field) only(own []bool, least float64) {
	if own == nil {
		own = make([]bool, len(f.v))
	}
	for _, p := range parts(inverted(own), f.w) {
		if float64(len(p.cells)) < least {
			for _, i := range p.cells {
				own[i] = true
			}
		}
	}
	for i, v := range f.v {
		if own[i] != (v > 0) {
			f.v[i] = -v
		}
	}
}

// blurred returns three box filters of 2n+1 each way one after another.
func blurred(v []float32, w, n int) []float32 {
	for range 2 {
		v = boxed(boxed(v, w, n, true), w, n, false)
	}
	return v
}

func boxed(v []float32, w, n int, row bool) []float32 {
	h := len(v) / w
	out := make([]float32, len(v))
	lines, length, step, next := h, w, 1, w
	if !row {
		lines, length, step, next = w, h, w, 1
	}
	bands(lines, func(from, to int) {
		for l := from; l < to; l++ {
			at := l * next
			value := func(k int) float32 { return v[at+min(max(k, 0), length-1)*step] }
			var sum float32
			for k := -n; k <= n; k++ {
				sum += value(k)
			}
			for k := range length {
				out[at+k*step] = sum / float32(2*n+1)
				sum += value(k+n+1) - value(k-n)
			}
		}
	})
	return out
}
