package dxf

import "math"

// near is how far apart ends may lie that are drawn as meeting, in mm: programs round.
const near = 0.05

// joiner joins open runs whose ends meet.
type joiner struct {
	cells map[[2]int64][]int // nodes by place
	nodes []Vec
	ends  [][]int // runs that end at each node, a run that ends there twice comes twice
	runs  []mark
	at    [][2]int // nodes at the two ends of each run
	used  []bool
	forks int // places where more than two ends meet
}

// join joins open runs of one layer whose ends meet, where no third one does. Of runs
// drawn twice one is kept. It returns outlines, what stays open, and how many places
// were left because more than two ends meet there.
func join(runs []mark) (out []mark, forks int) {
	layers, order := map[string][]mark{}, []string{}
	for _, r := range runs {
		if r.closed {
			out = append(out, r)
			continue
		}
		if _, ok := layers[r.layer]; !ok {
			order = append(order, r.layer)
		}
		layers[r.layer] = append(layers[r.layer], r)
	}
	for _, l := range order {
		j := joiner{cells: map[[2]int64][]int{}}
		j.take(layers[l])
		out = append(out, j.chains()...)
		forks += j.forks
	}
	return out, forks
}

func (j *joiner) take(runs []mark) {
	seen := map[[4]int64]bool{}
	for _, r := range runs {
		a, b := r.points[0], r.points[len(r.points)-1]
		if len(r.points) == 2 {
			k := [4]int64{micro(a.X), micro(a.Y), micro(b.X), micro(b.Y)}
			if seen[k] || seen[[4]int64{k[2], k[3], k[0], k[1]}] {
				continue
			}
			seen[k] = true
		}
		i := len(j.runs)
		j.runs = append(j.runs, r)
		j.at = append(j.at, [2]int{j.end(a, i), j.end(b, i)})
	}
	j.used = make([]bool, len(j.runs))
	for _, e := range j.ends {
		if len(e) > 2 {
			j.forks++
		}
	}
}

func micro(v float64) int64 { return int64(math.Round(v * 1000)) }

// end is the node at a place, new if none is near.
func (j *joiner) end(p Vec, run int) int {
	x, y := int64(math.Floor(p.X/near)), int64(math.Floor(p.Y/near))
	for dx := x - 1; dx <= x+1; dx++ {
		for dy := y - 1; dy <= y+1; dy++ {
			for _, n := range j.cells[[2]int64{dx, dy}] {
				if j.nodes[n].sub(p).len() <= near {
					j.ends[n] = append(j.ends[n], run)
					return n
				}
			}
		}
	}
	n := len(j.nodes)
	j.nodes, j.ends = append(j.nodes, p), append(j.ends, []int{run})
	j.cells[[2]int64{x, y}] = append(j.cells[[2]int64{x, y}], n)
	return n
}

// chains follows runs from end to end: first those that begin at an open end or a fork,
// then rings.
func (j *joiner) chains() []mark {
	var out []mark
	for i := range j.runs {
		for side := range 2 {
			if !j.used[i] && len(j.ends[j.at[i][side]]) != 2 {
				out = append(out, j.chain(i, side))
			}
		}
	}
	for i := range j.runs {
		if !j.used[i] {
			out = append(out, j.chain(i, 0))
		}
	}
	return out
}

// chain starts with a run at one of its ends and goes on as far as it can.
func (j *joiner) chain(i, side int) mark {
	out := j.runs[i]
	out.points = nil
	start := j.at[i][side]
	for {
		j.used[i] = true
		out.points = extend(out.points, j.runs[i].points, side == 1)
		n := j.at[i][1-side]
		if n == start {
			if len(out.points) > 2 {
				out.closed = true
				out.points = out.points[:len(out.points)-1]
			}
			return out
		}
		next := -1
		if len(j.ends[n]) == 2 {
			for _, r := range j.ends[n] {
				if !j.used[r] {
					next = r
				}
			}
		}
		if next < 0 {
			return out
		}
		i, side = next, 0
		if j.at[i][1] == n && j.at[i][0] != n {
			side = 1
		}
	}
}

// extend adds the points of a run, turned round if need be; the one they share comes once.
func extend(out, run []Vec, round bool) []Vec {
	for k := range run {
		p := run[k]
		if round {
			p = run[len(run)-1-k]
		}
		if k > 0 || len(out) == 0 {
			out = append(out, p)
		}
	}
	return out
}
