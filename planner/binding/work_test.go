package binding_test

import (
	"fmt"
	"math"
	"testing"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"

	"pgregory.net/rapid"
)

func randomJob(t *rapid.T, name string) binding.Job {
	j := binding.Job{Name: name, Closed: rapid.Bool().Draw(t, "closed"), Count: rapid.IntRange(0, 2).Draw(t, "count"),
		Drawn: rapid.Float64Range(0, 0.1).Draw(t, "drawn"), EndExtra: measure.Length(rapid.Int64Range(0, 80_000).Draw(t, "extra")),
		JoinAt45: rapid.Bool().Draw(t, "slant"),
		Finish: binding.Finish{Technique: rapid.SampledFrom(binding.Techniques()).Draw(t, "technique"),
			Width: measure.Length(rapid.Int64Range(3000, 30_000).Draw(t, "f")), Seam: measure.Length(rapid.Int64Range(3000, 15_000).Draw(t, "s"))}}
	for i := range rapid.IntRange(1, 4).Draw(t, "segments") {
		j.Segments = append(j.Segments, binding.Segment{Name: fmt.Sprint(i), Mark: fmt.Sprint("mark ", i),
			Length: measure.Length(rapid.Int64Range(150_000, 900_000).Draw(t, "length")), Turning: rapid.Float64Range(-2, 3.2).Draw(t, "turning"),
			Free: rapid.IntRange(0, 3).Draw(t, "free") == 0, NoJoin: rapid.IntRange(0, 3).Draw(t, "nojoin") == 0, JoinHere: rapid.IntRange(0, 3).Draw(t, "wish") == 0})
	}
	return j
}

// TestMarksSumExactly: parts fill the strip without gap, steps of the table sum to the strip,
// and no rounded mark is off by more than half a step of the ruler.
func TestMarksSumExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, err := binding.Work(randomJob(t, "any"), binding.FabricFacts{})
		if err != nil {
			t.Fatal(err)
		}
		at := s.Parts[0].From
		sum := measure.Length(0)
		for _, p := range s.Parts {
			if p.From != at || p.Length <= 0 {
				t.Fatalf("part %+v should begin at %d", p, at)
			}
			at += p.Length
			sum += p.Length
		}
		if sum != s.Length || at > s.CutLength {
			t.Fatalf("parts sum to %d of %d, cut %d", sum, s.Length, s.CutLength)
		}
		for _, units := range []measure.System{measure.Metric, measure.Imperial} {
			checkTable(t, s, units)
		}
	})
}

func checkTable(t *rapid.T, s binding.Strip, units measure.System) {
	half := measure.Millimetre / 2
	if units == measure.Imperial {
		half = measure.Inch/32 + 1
	}
	rows, sum := s.Table(units), measure.Length(0)
	for i, r := range rows {
		sum += r.Step
		m := s.Marks[i]
		if sum != r.FromEnd || r.Step < 0 {
			t.Fatalf("steps sum to %d at %+v", sum, r)
		}
		for _, off := range []measure.Length{r.FromEnd - m.FromEnd, r.FromCentre - m.FromCentre, r.OnEdge - m.OnEdge} {
			if off > half || off < -half {
				t.Fatalf("%+v is %d off", r, off)
			}
		}
	}
}

// TestStripScales: an edge and a finish n times as large take a strip n times as long and wide.
func TestStripScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := randomJob(t, "any")
		s, err := binding.Work(j, binding.FabricFacts{})
		if err != nil {
			t.Fatal(err)
		}
		n := measure.Length(rapid.IntRange(2, 5).Draw(t, "n"))
		big := j
		big.EndExtra, big.Finish.Width, big.Finish.Seam = n*j.EndExtra, n*j.Finish.Width, n*j.Finish.Seam
		big.Segments = nil
		for _, seg := range j.Segments {
			seg.Length *= n
			big.Segments = append(big.Segments, seg)
		}
		b, err := binding.Work(big, binding.FabricFacts{})
		if err != nil {
			t.Fatal(err)
		}
		if b.CutWidth != n*s.CutWidth || math.Abs(float64(b.Length-n*s.Length)) > float64(n) {
			t.Fatalf("%d times %d × %d is %d × %d", n, s.Length, s.CutWidth, b.Length, b.CutWidth)
		}
	})
}
