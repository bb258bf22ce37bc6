package batch_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"tallycloth/planner/batch"
	"tallycloth/planner/glpk"
)

// TestPlanIsOptimal compares 300 random cases, whose feasible loads are written down, with
// integer programmes solved by GLPK (the general reference; Debian package glpk-utils):
// criterion by criterion, what came before held. No bound may be below what GLPK makes.
func TestPlanIsOptimal(t *testing.T) { glpk.Compare(t, glpkCases, comparePlan) }

func comparePlan(t *testing.T, file string, seed uint64) {
	p, lay, loads := randomCase(rand.New(rand.NewPCG(seed, 1)))
	plan, err := batch.Solve(context.Background(), p, lay, batch.Options{Workers: 1, MostEffort: 1})
	if err != nil {
		t.Errorf("case %d: %v", seed, err)
		return
	}
	checkQuietly(t, p, lay, plan, seed)
	if !plan.Exact || !plan.Best || !plan.Decided || !plan.Complete {
		t.Errorf("case %d: not proved: %+v", seed, plan)
	}
	m := newModel(p, lay, loads)
	for _, c := range m.criteria(plan) {
		want, ok := glpk.Optimum(t, file, m.programme(c.expression))
		if !ok || int64(math.Round(want)) != c.got {
			t.Errorf("case %d, %s: got %d, the reference %v (%v)\n%+v\n%+v", seed, c.name, c.got, want, ok, p, plan.Score)
			return
		}
		m.hold(c.expression, c.got)
	}
	free := newModel(p, lay, loads)
	for k := range plan.Classes {
		if k == 0 && len(p.Pins) == 0 { // the same as above
			continue
		}
		want, ok := glpk.Optimum(t, file, free.programme(free.made(plan.Classes[:k+1])))
		if !ok || plan.AtMost[k] < int(math.Round(want)) {
			t.Errorf("case %d: at most %v, the reference makes %v (%v)", seed, plan.AtMost, want, ok)
		}
	}
}

// fatal makes a failed check end the case only: it runs outside the goroutine of the test.
type fatal struct{ t *testing.T }

func (f fatal) Fatalf(format string, a ...any) { panic(fmt.Sprintf(format, a...)) }

func checkQuietly(t *testing.T, p batch.Problem, lay batch.Layer, plan batch.Plan, seed uint64) {
	defer func() {
		if r := recover(); r != nil {
			t.Errorf("case %d: %v", seed, r)
		}
	}()
	check(fatal{t}, p, lay, plan)
}

// model is a case as an integer programme: m says whether a garment is made, x which cloth a role
// of it is cut from, y which load a cloth is cut into, k how much of a pin is kept.
type model struct {
	p       batch.Problem
	columns []column
	rows    bytes.Buffer
	held    int
	binary  []string
}

type column struct {
	cloth int
	load  batch.Load
	waste int64
}

type criterion struct {
	name, expression string
	got              int64
}

func newModel(p batch.Problem, lay given, loads []map[string]batch.Load) *model {
	m := &model{p: p}
	for c, all := range loads {
		for key, l := range all {
			m.columns = append(m.columns, column{c, l, lay.fits[c][key]})
		}
	}
	slices.SortFunc(m.columns, func(a, b column) int {
		if a.cloth != b.cloth {
			return a.cloth - b.cloth
		}
		return bytes.Compare([]byte(fmt.Sprint(a.load)), []byte(fmt.Sprint(b.load)))
	})
	m.cloths()
	for r, row := range p.Rows {
		for g := range row.Count {
			m.garment(r, g)
		}
	}
	m.pins()
	return m
}

// cloths: at most one load each, and it holds exactly what garments take.
func (m *model) cloths() {
	for c := range m.p.Cloths {
		fmt.Fprintf(&m.rows, " one%d: idle%d", c, c)
		m.binary = append(m.binary, fmt.Sprintf("idle%d", c))
		for i, col := range m.columns {
			if col.cloth == c {
				fmt.Fprintf(&m.rows, " + y%d\n", i)
				m.binary = append(m.binary, fmt.Sprintf("y%d", i))
			}
		}
		fmt.Fprint(&m.rows, " = 1\n")
		for r, row := range m.p.Rows {
			for j := range row.Roles {
				fmt.Fprintf(&m.rows, " take%d_%d_%d:", c, r, j)
				for g := range row.Count {
					fmt.Fprintf(&m.rows, " + x%d_%d_%d_%d\n", r, g, j, c)
				}
				for i, col := range m.columns {
					if n := col.load.Of(batch.Task{Row: r, Role: j}); col.cloth == c && n > 0 {
						fmt.Fprintf(&m.rows, " - %d y%d\n", n, i)
					}
				}
				fmt.Fprint(&m.rows, " = 0\n")
			}
		}
	}
}

// garment: made whole or not at all, lots going together; of a row the first are made first.
func (m *model) garment(r, g int) {
	m.binary = append(m.binary, fmt.Sprintf("m%d_%d", r, g))
	if g > 0 {
		fmt.Fprintf(&m.rows, " turn%d_%d: m%d_%d - m%d_%d >= 0\n", r, g, r, g-1, r, g)
	}
	for j, role := range m.p.Rows[r].Roles {
		fmt.Fprintf(&m.rows, " whole%d_%d_%d:", r, g, j)
		for c := range m.p.Cloths {
			fmt.Fprintf(&m.rows, " + x%d_%d_%d_%d", r, g, j, c)
			m.binary = append(m.binary, fmt.Sprintf("x%d_%d_%d_%d", r, g, j, c))
		}
		fmt.Fprintf(&m.rows, " - m%d_%d = 0\n", r, g)
		for c, cloth := range m.p.Cloths {
			for d, main := range m.p.Cloths {
				may := !role.Follows || m.p.Goes == nil && cloth.Lot == main.Lot || m.p.Goes != nil && m.p.Goes(r, j, cloth.Lot, main.Lot)
				if !may {
					fmt.Fprintf(&m.rows, " lot%d_%d_%d_%d_%d: x%d_%d_%d_%d + x%d_%d_0_%d <= 1\n", r, g, j, c, d, r, g, j, c, r, g, d)
				}
			}
		}
	}
}

func (m *model) pins() {
	for i, pin := range m.p.Pins {
		fmt.Fprintf(&m.rows, " pin%d:", i)
		for n := range pin.N { // k is kept copies, one by one
			fmt.Fprintf(&m.rows, " + k%d_%d", i, n)
			m.binary = append(m.binary, fmt.Sprintf("k%d_%d", i, n))
		}
		for g := range m.p.Rows[pin.Row].Count {
			fmt.Fprintf(&m.rows, " - x%d_%d_%d_%d", pin.Row, g, pin.Role, pin.Cloth)
		}
		fmt.Fprint(&m.rows, " <= 0\n")
	}
}

func (m *model) hold(expression string, value int64) {
	m.held++
	fmt.Fprintf(&m.rows, " held%d: %s = %d\n", m.held, expression, value)
}

func (m *model) programme(expression string) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "Maximize\n most: %s\nSubject To\n%s nothing: zero = 0\nBinary\n", expression, m.rows.Bytes())
	for _, name := range m.binary {
		fmt.Fprintf(&b, " %s\n", name)
	}
	fmt.Fprint(&b, "End\n")
	return b.Bytes()
}

// made is the number of garments of some priorities.
func (m *model) made(priorities []int) string {
	e := "0 zero"
	for r, row := range m.p.Rows {
		for g := range row.Count {
			if slices.Contains(priorities, row.Priority) {
				e += fmt.Sprintf(" + m%d_%d\n", r, g)
			}
		}
	}
	return e
}

// columnsBy sums the loads used, each with a weight.
func (m *model) columnsBy(weight func(column) int64) string {
	e := "0 zero"
	for i, col := range m.columns {
		if w := weight(col); w != 0 {
			e += fmt.Sprintf(" %+d y%d\n", w, i)
		}
	}
	return e
}

// criteria are what is compared, most important first, all to be as large as can be.
func (m *model) criteria(plan batch.Plan) []criterion {
	pins := "0 zero"
	for i, pin := range m.p.Pins {
		for n := range pin.N {
			pins += fmt.Sprintf(" + k%d_%d", i, n)
		}
	}
	s := plan.Score
	out := []criterion{{"pins", pins, int64(s.Pins)}}
	for k, n := range s.Made {
		out = append(out, criterion{fmt.Sprint("class ", k), m.made(plan.Classes[k : k+1]), int64(n)})
	}
	flag := func(b bool, n int64) int64 {
		if b {
			return n
		}
		return 0
	}
	for _, c := range m.p.Order {
		switch c {
		case batch.UseFirst:
			out = append(out, criterion{"first", m.columnsBy(func(c column) int64 { return flag(m.p.Cloths[c.cloth].First, 1) }), int64(s.First)})
		case batch.FewestWhole:
			out = append(out, criterion{"whole", m.columnsBy(func(c column) int64 { return flag(m.p.Cloths[c.cloth].Whole, -1) }), int64(-s.Whole)})
		case batch.LeastWaste:
			out = append(out, criterion{"waste", m.columnsBy(func(c column) int64 { return -c.waste }), -s.Waste})
		case batch.FewestCloths:
			out = append(out, criterion{"cloths", m.columnsBy(func(column) int64 { return -1 }), int64(-s.Cloths)})
		}
	}
	return out
}
