package geometry_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"tallycloth/planner/geometry"
	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

func rect(x0, y0, x1, y1 int64) shape.Ring {
	return shape.Box{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}}.Ring()
}

func TestOpening(t *testing.T) {
	t.Parallel()
	const cm = 10_000
	cloth := shape.Polygon{Outer: rect(0, 0, 100*cm, 150*cm)}
	square := []geometry.Probe{{Length: 10 * cm, Width: 10 * cm}}
	tests := []struct {
		name   string
		cloth  shape.Polygon
		cut    []shape.Ring
		probes []geometry.Probe
		want   []int64 // areas in cm²
	}{
		{"nothing cut", cloth, nil, square, []int64{15000}},
		{"all cut", cloth, []shape.Ring{cloth.Outer}, square, nil},
		{"one end", cloth, []shape.Ring{rect(0, 0, 60*cm, 150*cm)}, square, []int64{40 * 150}},
		{"pieces that touch leave two ends", cloth, []shape.Ring{rect(30*cm, 0, 60*cm, 75*cm), rect(30*cm, 75*cm, 60*cm, 150*cm)}, square, []int64{40 * 150, 30 * 150}},
		{"a neck of 8 cm comes apart", cloth, []shape.Ring{rect(40*cm, 0, 60*cm, 142*cm)}, square, []int64{40 * 150, 40 * 150}},
		{"a neck of 12 cm holds", cloth, []shape.Ring{rect(40*cm, 0, 60*cm, 138*cm)}, square, []int64{80*150 + 20*12}},
		{"a hole stays a hole", cloth, []shape.Ring{rect(40*cm, 60*cm, 60*cm, 80*cm)}, square, []int64{15000 - 400}},
		{"an end of 4 cm falls away", cloth, []shape.Ring{rect(0, 0, 96*cm, 150*cm)}, square, nil},
		{"but is a strip across", cloth, []shape.Ring{rect(0, 0, 96*cm, 150*cm)}, append([]geometry.Probe{{Length: 3 * cm, Width: 40 * cm}}, square...), []int64{4 * 150}},
		{"an edge of 4 cm along falls away", cloth, []shape.Ring{rect(0, 0, 100*cm, 146*cm)}, append([]geometry.Probe{{Length: 3 * cm, Width: 40 * cm}}, square...), nil},
		{"a flaw counts as cut", shape.Polygon{Outer: cloth.Outer, Holes: []shape.Ring{rect(40*cm, 60*cm, 60*cm, 80*cm).Reverse()}}, nil, square, []int64{15000 - 400}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			var got []int64
			for _, p := range geometry.Opening(tt.cloth, tt.cut, tt.probes) {
				got = append(got, p.Area()/cm/cm)
			}
			if fmt.Sprint(got) != fmt.Sprint(tt.want) {
				t.Errorf("parts of %v cm², not %v", got, tt.want)
			}
		})
	}
}

// opened is a cloth with what was cut from it, and its opening.
type opened struct {
	cloth  shape.Polygon
	cut    []shape.Ring
	probes []geometry.Probe
	parts  []shape.Polygon
}

// randomOpening lays random pieces on one random fabric and opens what is left.
func randomOpening(t *testing.T, seed uint64) opened {
	t.Helper()
	in := nesttest.Random(seed)
	a, err := nest.Solve(context.Background(), in, nest.Options{Seed: seed, FirstOnly: true})
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	f := in.Fabrics[0]
	o := opened{cloth: f.Outline}
	if len(o.cloth.Outer) == 0 {
		o.cloth.Outer = rect(0, 0, max(f.Length, 1000), f.Width)
		if f.Length == 0 {
			o.cloth.Outer = rect(0, 0, 3_000_000, f.Width)
		}
	}
	for _, l := range a.Solution.Laid {
		r := l.Place.Apply(in.Items[l.Item].Outline)
		if l.Fabric == 0 && shape.Inside(r, o.cloth) {
			o.cut = append(o.cut, r)
		}
	}
	rng := rand.New(rand.NewPCG(seed, 7))
	b := o.cloth.Bounds()
	small := min(b.Length(), b.Width())
	for range 1 + rng.IntN(2) {
		o.probes = append(o.probes, geometry.Probe{Length: small/50 + rng.Int64N(small/8), Width: small/50 + rng.Int64N(small/8)})
	}
	o.parts = geometry.Opening(o.cloth, o.cut, o.probes)
	return o
}

// TestOpeningIsExact tries what Opening promises with the exact predicates, and that
// places of the probes that are free lie in a part.
func TestOpeningIsExact(t *testing.T) {
	t.Parallel()
	tried := 0
	for seed := range uint64(400) {
		o := randomOpening(t, seed)
		for i, p := range o.parts {
			if err := p.Validate(); err != nil {
				t.Errorf("seed %d: %v", seed, err)
			}
			if !shape.Inside(p.Outer, shape.Polygon{Outer: o.cloth.Outer}) {
				t.Errorf("seed %d: a part reaches out of the cloth", seed)
			}
			for _, c := range o.cut {
				if shape.OverlapsPolygon(c, p) {
					t.Errorf("seed %d: a part overlaps what is cut", seed)
				}
			}
			for _, q := range o.parts[:i] {
				if shape.OverlapsPolygon(p.Outer, q) {
					t.Errorf("seed %d: two parts overlap", seed)
				}
			}
		}
		tried += o.tryProbes(t, seed)
	}
	if tried < 2000 {
		t.Errorf("only %d free places were tried", tried)
	}
}

// tryProbes looks whether the middles of free places lie in a part.
func (o opened) tryProbes(t *testing.T, seed uint64) (tried int) {
	t.Helper()
	rng := rand.New(rand.NewPCG(seed, 9))
	b := o.cloth.Bounds()
	for range 300 {
		p := o.probes[rng.IntN(len(o.probes))]
		at := shape.Point{X: b.Min.X + rng.Int64N(b.Length()), Y: b.Min.Y + rng.Int64N(b.Width())}
		r := shape.Box{Min: at, Max: at.Add(shape.Point{X: p.Length, Y: p.Width})}.Ring()
		if !o.free(r) {
			continue
		}
		tried++
		middle := at.Add(shape.Point{X: p.Length / 2, Y: p.Width / 2})
		found := false
		for _, q := range o.parts {
			found = found || q.Contains(middle)
		}
		if !found {
			t.Errorf("seed %d: %v is free and in no part", seed, r)
		}
	}
	return tried
}

func (o opened) free(r shape.Ring) bool {
	if !shape.Inside(r, o.cloth) {
		return false
	}
	for _, c := range o.cut {
		if shape.Overlaps(r, c) {
			return false
		}
	}
	return true
}

// TestOpeningAgreesWithGEOS has GEOS (python3-shapely) open the same cloths, by its own
// unions and differences, and compares areas and what lies in one result only.
func TestOpeningAgreesWithGEOS(t *testing.T) {
	t.Parallel()
	var asked strings.Builder
	const n = 150
	for seed := range uint64(n) {
		o := randomOpening(t, seed)
		line, err := json.Marshal(map[string]any{"outer": o.cloth.Outer, "holes": o.cloth.Holes, "cut": o.cut, "probes": o.probes, "parts": o.parts})
		if err != nil {
			t.Fatal(err)
		}
		asked.Write(append(line, '\n'))
	}
	cmd := exec.Command("/usr/bin/python3", "../../testdata/geos/opening.py")
	cmd.Stdin = strings.NewReader(asked.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("GEOS: %v", err)
	}
	s := bufio.NewScanner(strings.NewReader(string(out)))
	lines, parts := 0, 0.0
	for ; s.Scan(); lines++ {
		var area, only, missing, around float64
		if _, err := fmt.Sscan(s.Text(), &area, &only, &missing, &around); err != nil {
			t.Fatalf("%q: %v", s.Text(), err)
		}
		parts += area
		// Corners may be moved by up to 5 µm: that much along all edges, in mm².
		if limit := 0.005*around + 0.01; only > limit || missing > limit {
			t.Errorf("seed %d: of %.0f mm², %.3f mm² is none of GEOS's and %.3f mm² of GEOS's is missing, over %.3f", lines, area, only, missing, limit)
		}
	}
	if lines != n || parts == 0 {
		t.Errorf("GEOS answered %d of %d, with %.0f mm² in all", lines, n, parts)
	}
}

func TestLargestBox(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name string
		p    shape.Polygon
		want int64 // least area
		most int64
	}{
		{"a rectangle is its own", shape.Polygon{Outer: rect(0, 0, 700, 900)}, 700 * 900, 700 * 900},
		{"an L", shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 300}, {X: 400, Y: 300}, {X: 400, Y: 800}, {X: 0, Y: 800}}}, 400 * 800, 400 * 800},
		{"a hole", shape.Polygon{Outer: rect(0, 0, 1000, 1000), Holes: []shape.Ring{rect(200, 300, 500, 600).Reverse()}}, 500 * 1000, 500 * 1000},
		// The largest in a right triangle is half of it.
		{"a right triangle", shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: 100_000, Y: 0}, {X: 0, Y: 100_000}}}, 2_400_000_000, 2_500_000_000},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			b, ok := geometry.LargestBox(tt.p)
			if area := b.Length() * b.Width(); !ok || area < tt.want || area > tt.most {
				t.Errorf("%v of %d, not from %d to %d", b, area, tt.want, tt.most)
			}
			if !shape.Inside(b.Ring(), tt.p) {
				t.Errorf("%v is not inside", b)
			}
		})
	}
}

func BenchmarkOpening(b *testing.B) {
	t := &testing.T{}
	o := randomOpening(t, 3)
	for b.Loop() {
		geometry.Opening(o.cloth, o.cut, o.probes)
	}
}
