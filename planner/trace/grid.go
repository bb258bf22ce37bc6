package trace

import (
	"math"
	"slices"
)

// grid is the straightened picture at about 2 mm, on which cloth is told from background.
type grid struct {
	w, h  int
	k     int // pixels of the straightened picture along a side of a cell
	s     Straight
	base  []lab // thin lines taken out
	valid []bool
	sheet []bool // under the sheet, its edge and the shadow beside it
}

// cell is the side of a cell in µm.
func (g *grid) cell() float64 { return float64(g.k) * float64(g.s.Pixel) }

// open says whether a place shows cloth or background.
func (g *grid) open(i int) bool { return g.valid[i] && !g.sheet[i] }

// plane is where the middle of a cell lies.
func (g *grid) plane(x, y int) Dot {
	return g.s.Plane(Dot{(float64(x) + 0.5) * float64(g.k), (float64(y) + 0.5) * float64(g.k)})
}

func newGrid(s Straight, r Rectangle) *grid {
	g := &grid{s: s, k: max(1, int(math.Ceil(2000/float64(s.Pixel)-0.01)))}
	b := s.Image.Bounds()
	g.w, g.h = b.Dx()/g.k, b.Dy()/g.k
	g.base, g.valid, g.sheet = make([]lab, g.w*g.h), make([]bool, g.w*g.h), make([]bool, g.w*g.h)
	bands(g.h, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range g.w {
				g.average(x, y, r)
			}
		}
	})
	reach := max(1, int(4000/g.cell()+0.5)) // lines up to 4 mm wide go
	g.base = g.medians(g.medians(g.base, 1, reach), g.w, reach)
	return g
}

// average fills one cell.
func (g *grid) average(x, y int, r Rectangle) {
	var sum [3]float64
	img := g.s.Image
	for j := range g.k {
		for i := range g.k {
			p := img.Pix[(y*g.k+j)*img.Stride+4*(x*g.k+i):]
			if p[3] == 0 {
				return
			}
			for c := range 3 {
				sum[c] += linear[p[c]]
			}
		}
	}
	n := float64(g.k * g.k)
	i := y*g.w + x
	g.base[i], g.valid[i] = labOf(sum[0]/n, sum[1]/n, sum[2]/n), true
	if r.Sheet {
		p := g.plane(x, y)
		const margin = 3e3
		g.sheet[i] = p.X > -margin && p.Y > -margin && p.X < float64(r.Along)+margin && p.Y < float64(r.Across)+margin
	}
}

// medians takes the median of each part of the colour over 2·reach+1 cells along a step.
func (g *grid) medians(in []lab, step, reach int) []lab {
	out := make([]lab, len(in))
	bands(g.h, func(from, to int) {
		window := make([]float32, 0, 2*reach+1)
		for i := from * g.w; i < to*g.w; i++ {
			if !g.valid[i] {
				continue
			}
			for c := range 3 {
				window = window[:0]
				for k := -reach; k <= reach; k++ {
					if j := i + k*step; j >= 0 && j < len(in) && g.valid[j] {
						window = insert(window, in[j][c])
					}
				}
				out[i][c] = window[len(window)/2]
			}
		}
	})
	return out
}

// insert puts a value into a sorted window.
func insert(window []float32, v float32) []float32 {
	window = append(window, v)
	i := len(window) - 1
	for ; i > 0 && window[i-1] > v; i-- {
		window[i] = window[i-1]
	}
	window[i] = v
	return window
}

// part is a set of cells that hang together.
type part struct{ cells []int }

// parts returns the parts of a mask that hang together by sides, the largest first.
func parts(mask []bool, w int) []part {
	seen := make([]bool, len(mask))
	var out []part
	for start := range mask {
		if !mask[start] || seen[start] {
			continue
		}
		p := part{cells: []int{start}}
		seen[start] = true
		for n := 0; n < len(p.cells); n++ {
			i := p.cells[n]
			for _, j := range [4]int{i - 1, i + 1, i - w, i + w} {
				if j < 0 || j >= len(mask) || !mask[j] || seen[j] || j == i-1 && i%w == 0 || j == i+1 && j%w == 0 {
					continue
				}
				seen[j] = true
				p.cells = append(p.cells, j)
			}
		}
		out = append(out, p)
	}
	slices.SortStableFunc(out, func(a, b part) int { return len(b.cells) - len(a.cells) })
	return out
}

// grown returns the cells within r of a mask, in a disc.
func grown(mask []bool, w, r int) []bool {
	h := len(mask) / w
	d := away(mask, w, h)
	out := make([]bool, len(mask))
	for i := range out {
		out[i] = d[i] <= float32(r)
	}
	return out
}

// shrunk returns the cells of a mask farther than r from what is not in it.
func shrunk(mask []bool, w, r int) []bool { return inverted(grown(inverted(mask), w, r)) }

func inverted(mask []bool) []bool {
	out := make([]bool, len(mask))
	for i, m := range mask {
		out[i] = !m
	}
	return out
}

// away is the distance of each cell to the nearest in the mask, in cells: the chamfer
// distance with steps 5 and 7 for fifths of a cell (G. Borgefors, 1986), within 4 % or so;
// at most farAway.
func away(mask []bool, w, h int) []float32 {
	const side, slant = 5, 7
	stride := w + 2 // a rim of far cells spares the loops their ends
	d := make([]int16, stride*(h+2))
	for i := range d {
		d[i] = farAway * side
	}
	for y := range h {
		row, in := d[(y+1)*stride+1:][:w], mask[y*w:][:w]
		for x, m := range in {
			if m {
				row[x] = 0
			}
		}
	}
	for y := 1; y <= h; y++ {
		row, before := d[y*stride:][:stride], d[(y-1)*stride:][:stride]
		for x := 1; x <= w; x++ {
			row[x] = min(row[x], row[x-1]+side, before[x]+side, before[x-1]+slant, before[x+1]+slant)
		}
	}
	out := make([]float32, len(mask))
	for y := h; y >= 1; y-- {
		row, after := d[y*stride:][:stride], d[(y+1)*stride:][:stride]
		for x := w; x >= 1; x-- {
			row[x] = min(row[x], row[x+1]+side, after[x]+side, after[x+1]+slant, after[x-1]+slant)
			out[(y-1)*w+x-1] = float32(row[x]) / side
		}
	}
	return out
}

// farAway is beyond every distance that is asked about.
const farAway = 1000
