package binding_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/planner/glpk"
	"tallycloth/stash/measure"
)

// laneCase draws strips 4 cm wide and two sheets whose lanes begin every 2 cm, so that
// neighbours overlap, with one or two stretches free in each.
func laneCase(r *rand.Rand) ([]binding.Strip, [][]binding.Lane) {
	var strips []binding.Strip
	for range 1 + r.IntN(3) {
		strips = append(strips, strip(measure.Length(10+r.IntN(40))*cm, 4*cm, cm, 1+r.IntN(2)))
	}
	sheets := make([][]binding.Lane, 2)
	for i := range sheets {
		for at := range 3 + r.IntN(6) {
			a, b := measure.Length(5+r.IntN(60))*cm, measure.Length(5+r.IntN(40))*cm
			l := binding.Lane{At: measure.Length(at) * 2 * cm, Free: []binding.Reach{{To: a}, {From: a + 3*cm, To: a + 3*cm + b}}}
			sheets[i] = append(sheets[i], l)
		}
	}
	return strips, sheets
}

func sheetsOf(lanes [][]binding.Lane) []binding.Sheet {
	var out []binding.Sheet
	for _, all := range lanes {
		out = append(out, binding.Sheet{Source: binding.Source{Across: 200 * cm, Along: 200 * cm},
			Lanes: func(measure.Length, []measure.Length, []measure.Length, []binding.Piece) []binding.Lane { return all }})
	}
	return out
}

// TestLanesAreBest compares 120 plans on sheets of overlapping lanes with an integer programme
// solved by GLPK (the general reference; Debian package glpk-utils): where strips find
// places in one length, no plan takes less fabric, or as much of it from an earlier sheet.
func TestLanesAreBest(t *testing.T) {
	dir := t.TempDir()
	whole := 0
	for seed := range uint64(120) {
		strips, lanes := laneCase(rand.New(rand.NewPCG(seed, 7)))
		plan, err := binding.PlanOn(context.Background(), strips, sheetsOf(lanes))
		checkOnLanes(t, plan, strips, lanes)
		want, feasible := glpk.Optimum(t, filepath.Join(dir, fmt.Sprint(seed)), laneProgramme(strips, lanes))
		switch {
		case !feasible && err == nil && len(plan.Joins) == 0:
			t.Errorf("case %d: laid in one, the reference finds no way", seed)
		case !feasible:
		case err != nil || len(plan.Joins) > 0:
			t.Errorf("case %d: joined or short, the reference lays all in one: %v", seed, err)
		default:
			whole++
			if got := laneCost(plan, lanes); got != int64(want+0.5) {
				t.Errorf("case %d: %d, the reference has %.0f", seed, got, want)
			}
		}
	}
	if whole < 40 {
		t.Errorf("only %d cases say something", whole)
	}
}

// reachOf finds the free stretch that a piece lies on.
func reachOf(p binding.Piece, lanes [][]binding.Lane) (binding.Reach, bool) {
	for _, l := range lanes[p.Source] {
		for _, r := range l.Free {
			if l.At == p.At && r.From <= p.From && p.To <= r.To {
				return r, true
			}
		}
	}
	return binding.Reach{}, false
}

// laneCost weighs a plan as laneProgramme does.
func laneCost(plan binding.CutPlan, lanes [][]binding.Lane) int64 {
	seen, cost := map[[3]measure.Length]bool{}, int64(0)
	for _, p := range plan.Pieces {
		r, _ := reachOf(p, lanes)
		key := [3]measure.Length{measure.Length(p.Source), p.At, r.From}
		if !seen[key] {
			seen[key] = true
			cost += int64(r.Long()/cm)*100 + int64(p.Source)
		}
	}
	return cost
}

// checkOnLanes verifies a plan the slow way: within lanes, apart, every strip whole.
func checkOnLanes(t *testing.T, plan binding.CutPlan, strips []binding.Strip, lanes [][]binding.Lane) {
	t.Helper()
	length := map[int]measure.Length{}
	for i, a := range plan.Pieces {
		if _, ok := reachOf(a, lanes); !ok {
			t.Fatalf("%+v lies on no lane", a)
		}
		for _, b := range plan.Pieces[:i] {
			if a.Source == b.Source && a.From < b.To && b.From < a.To && a.At < b.At+b.Width && b.At < a.At+a.Width {
				t.Fatalf("%+v and %+v overlap", a, b)
			}
		}
		length[a.StripNo] += a.To - a.From
	}
	no := 0
	missing := map[int]bool{}
	for _, m := range plan.Missing {
		missing[m] = true
	}
	for _, s := range strips {
		for range max(1, s.Job.Count) {
			want := s.CutLength + measure.Length(len(plan.Joins[no]))*s.Job.JoinTake(s.CutWidth)
			if missing[no] {
				want = 0
			}
			if length[no] != want {
				t.Fatalf("strip %d: %d is cut, want %d", no, length[no], want)
			}
			no++
		}
	}
}

// laneProgramme is the case as an integer programme: x is how many strips of kind k lie on stretch
// r of lane i, z whether that is cut, y whether the lane is.
func laneProgramme(strips []binding.Strip, lanes [][]binding.Lane) []byte {
	var cost, rows, ints, bins bytes.Buffer
	sums := make([]bytes.Buffer, len(strips))
	for s, all := range lanes {
		for i, l := range all {
			fmt.Fprintf(&bins, " y%d_%d\n", s, i)
			for j := i + 1; j < len(all) && all[j].At < l.At+4*cm; j++ {
				fmt.Fprintf(&rows, " o%d_%d_%d: y%d_%d + y%d_%d <= 1\n", s, i, j, s, i, s, j)
			}
			for r, free := range l.Free {
				id := fmt.Sprintf("%d_%d_%d", s, i, r)
				fmt.Fprintf(&cost, " + %d z%s\n", int64(free.Long()/cm)*100+int64(s), id)
				fmt.Fprintf(&bins, " z%s\n", id)
				fmt.Fprintf(&rows, " l%s: z%s - y%d_%d <= 0\n f%s: ", id, id, s, i, id)
				for k, st := range strips {
					fmt.Fprintf(&rows, "%d x%d_%s + ", st.CutLength/cm, k, id)
					fmt.Fprintf(&sums[k], " + x%d_%s", k, id)
					fmt.Fprintf(&ints, " x%d_%s\n", k, id)
				}
				fmt.Fprintf(&rows, "-%d z%s <= 0\n", free.Long()/cm, id)
			}
		}
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "Minimize\n cost:%s\nSubject To\n%s", cost.String(), bytes.ReplaceAll(rows.Bytes(), []byte("+ -"), []byte("- ")))
	for k, st := range strips {
		fmt.Fprintf(&out, " n%d:%s = %d\n", k, sums[k].String(), max(1, st.Job.Count))
	}
	fmt.Fprintf(&out, "General\n%sBinary\n%sEnd\n", ints.String(), bins.String())
	return out.Bytes()
}

// TestSheetsOfRectangles: rectangles are planned as Plan does, also beside a sheet with lanes, and
// strips of two widths do not lie over each other.
func TestSheetsOfRectangles(t *testing.T) {
	strips := []binding.Strip{strip(50*cm, 6*cm, cm, 2), strip(30*cm, 4*cm, cm, 2)}
	source := binding.Source{Across: 60 * cm, Along: 40 * cm}
	a, err := binding.Plan(context.Background(), strips, []binding.Source{source})
	b, err2 := binding.PlanOn(context.Background(), strips, []binding.Sheet{{Source: source}})
	if err != nil || err2 != nil || len(a.Pieces) != len(b.Pieces) || a.Taken[0] != b.Taken[0] || !b.Proved {
		t.Errorf("%+v, %v; %+v, %v", a, err, b, err2)
	}
	nothing := binding.Sheet{Source: source, Lanes: func(measure.Length, []measure.Length, []measure.Length, []binding.Piece) []binding.Lane { return nil }}
	c, err := binding.PlanOn(context.Background(), strips, []binding.Sheet{nothing, {Source: source}})
	if err != nil || len(c.Pieces) != 4 || c.Taken[1] != a.Taken[0] || c.Taken[0] != 0 {
		t.Errorf("%+v, %v", c, err)
	}
	checkPlan(t, c, strips, []binding.Source{source, source})
}
