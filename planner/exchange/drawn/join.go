package drawn

import "math"

// Near is how far apart ends may lie that are drawn as meeting, in mm: programs round.
const Near = 0.05

// Run is a line as a reader finds it, in mm on the page.
type Run struct {
	Points []Place
	Closed bool
	Key    string // runs of one key may be joined with each other
	Tag    int    // of the reader's own; a joined run has that of its first part
}

// joiner joins open runs whose ends meet.
type joiner struct {
	near  float64
	cells map[[2]int64][]int // nodes by place
	nodes []Place
	ends  [][]int // runs that end at each node, a run that ends there twice comes twice
	runs  []Run
	at    [][2]int // nodes at the two ends of each run
	used  []bool
	forks int // places where more than two ends meet
}

// Join joins open runs of one key whose ends lie within near, in mm, of each other, where no
// third one does. Of runs drawn twice one is kept. It returns outlines, what stays open, and
// how many places were left because more than two ends meet there.
func Join(runs []Run, near float64) (out []Run, forks int) {
	keys, order := map[string][]Run{}, []string{}
	for _, r := range runs {
		if r.Closed || len(r.Points) == 0 {
			out = append(out, r)
			continue
		}
		if _, ok := keys[r.Key]; !ok {
			order = append(order, r.Key)
		}
		keys[r.Key] = append(keys[r.Key], r)
	}
	for _, k := range order {
		j := joiner{near: near, cells: map[[2]int64][]int{}}
		j.take(keys[k])
		out = append(out, j.chains()...)
		forks += j.forks
	}
	return out, forks
}

func (j *joiner) take(runs []Run) {
	seen := map[[4]int64]bool{}
	for _, r := range runs {
		a, b := r.Points[0], r.Points[len(r.Points)-1]
		if len(r.Points) == 2 {
			k := [4]int64{Micro(a.X), Micro(a.Y), Micro(b.X), Micro(b.Y)}
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

// Micro rounds mm to µm.
func Micro(v float64) int64 { return int64(math.Round(v * 1000)) }

// end is the node at a place, new if none is near.
func (j *joiner) end(p Place, run int) int {
	x, y := int64(math.Floor(p.X/j.near)), int64(math.Floor(p.Y/j.near))
	for dx := x - 1; dx <= x+1; dx++ {
		for dy := y - 1; dy <= y+1; dy++ {
			for _, n := range j.cells[[2]int64{dx, dy}] {
				if math.Hypot(j.nodes[n].X-p.X, j.nodes[n].Y-p.Y) <= j.near {
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
func (j *joiner) chains() []Run {
	var out []Run
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
func (j *joiner) chain(i, side int) Run {
	out := j.runs[i]
	out.Points = nil
	start := j.at[i][side]
	for {
		j.used[i] = true
		out.Points = extend(out.Points, j.runs[i].Points, side == 1)
		n := j.at[i][1-side]
		if n == start {
			if len(out.Points) > 2 {
				out.Closed = true
				out.Points = out.Points[:len(out.Points)-1]
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
func extend(out, run []Place, round bool) []Place {
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
