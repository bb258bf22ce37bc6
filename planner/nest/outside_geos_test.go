package nest_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os/exec"
	"strings"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

const (
	// geosInstances is how many random layouts GEOS measures on each run: enough
	// that an error that hits one question in two thousand is all but certain to
	// show (1 − e^−5), and about a minute's work on two cores.
	geosInstances = 10_000
	// geosBatch is how many go to one Python process: starting one costs as much as
	// measuring some hundred layouts.
	geosBatch = 1250
	// geosArea is how much two outlines may share, in mm². They share nothing
	// exactly; this allows for GEOS's floating point.
	geosArea = 0.01
	// geosLack is how much may be missing to the clearance, in mm: half a nanometre
	// for the same reason.
	geosLack = 5e-7
	// geosSteps bounds each search: the layouts are to be right, not short.
	geosSteps = 6
)

// TestGEOSAgrees lays random questions and has GEOS, through Debian's
// python3-shapely, measure every answer.
func TestGEOSAgrees(t *testing.T) {
	for first := 0; first < geosInstances; first += geosBatch {
		t.Run(fmt.Sprint("from", first), func(t *testing.T) {
			t.Parallel()
			measureBatch(t, uint64(first))
		})
	}
}

func measureBatch(t *testing.T, first uint64) {
	var layouts bytes.Buffer
	enc := json.NewEncoder(&layouts)
	laid := 0
	for seed := first; seed < first+geosBatch; seed++ {
		in := nesttest.Random(seed)
		a, err := nest.Solve(context.Background(), in, nest.Options{Seed: seed, Steps: geosSteps, FirstOnly: true})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		laid += len(a.Solution.Laid)
		if err := enc.Encode(asJSON(in, a.Solution)); err != nil {
			t.Fatal(err)
		}
	}
	if laid < geosBatch {
		t.Errorf("only %d outlines laid in %d layouts: the questions are too hard to try anything", laid, geosBatch)
	}
	seed := first
	lines := bufio.NewScanner(bytes.NewReader(runGEOS(t, &layouts)))
	for ; lines.Scan(); seed++ {
		var overlap, outside, lack float64
		if _, err := fmt.Sscan(lines.Text(), &overlap, &outside, &lack); err != nil {
			t.Fatalf("reading %q: %v", lines.Text(), err)
		}
		if overlap > geosArea || outside > geosArea || lack > geosLack {
			t.Errorf("seed %d: overlap %g mm², outside %g mm², %g mm too near", seed, overlap, outside, lack)
		}
	}
	if seed != first+geosBatch {
		t.Errorf("GEOS measured %d of %d layouts", seed-first, geosBatch)
	}
}

// runGEOS feeds layouts to the measuring script. A missing reference fails the
// test: an unmeasured layout is not a right one.
func runGEOS(t *testing.T, layouts *bytes.Buffer) []byte {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), "/usr/bin/python3", "../../testdata/geos/overlaps.py")
	cmd.Stdin = layouts
	var stderr strings.Builder
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		if strings.Contains(stderr.String(), "No module named 'shapely'") || !strings.Contains(stderr.String(), "Traceback") {
			t.Fatalf("GEOS is missing: install the Debian packages python3 and python3-shapely (%v) %s", err, stderr.String())
		}
		t.Fatalf("measuring with GEOS: %v\n%s", err, stderr.String())
	}
	return out
}

type pairs [][2]int64

type clothJSON struct {
	Outer     pairs   `json:"outer"`
	Holes     []pairs `json:"holes"`
	Obstacles []pairs `json:"obstacles"`
	Free      bool    `json:"free"`
}

type laidJSON struct {
	Cloth   int   `json:"cloth"`
	Outline pairs `json:"outline"`
	Angle   int   `json:"angle"`
	Mirror  bool  `json:"mirror"`
	X       int64 `json:"x"`
	Y       int64 `json:"y"`
}

type layoutJSON struct {
	Clearance int64       `json:"clearance"`
	Cloths    []clothJSON `json:"cloths"`
	Laid      []laidJSON  `json:"laid"`
}

func asJSON(in nest.Instance, sol nest.Solution) layoutJSON {
	out := layoutJSON{Clearance: in.Clearance, Laid: []laidJSON{}}
	for i, f := range in.Fabrics {
		out.Cloths = append(out.Cloths, clothOf(f, sol.Used[i]))
	}
	for _, l := range sol.Laid {
		p := l.Place
		out.Laid = append(out.Laid, laidJSON{l.Fabric, asPairs(in.Items[l.Item].Outline), int(p.Angle), p.Mirror, p.At.X, p.At.Y})
	}
	return out
}

// clothOf is the fabric as a polygon; a strip ends where the layout says it does.
func clothOf(f nest.Fabric, used int64) clothJSON {
	c := clothJSON{Holes: []pairs{}, Obstacles: []pairs{}}
	if c.Free = len(f.Outline.Outer) > 0; c.Free {
		c.Outer = asPairs(f.Outline.Outer)
		for _, h := range f.Outline.Holes {
			c.Holes = append(c.Holes, asPairs(h))
		}
	} else {
		if f.Length > 0 {
			used = f.Length
		}
		c.Outer = asPairs(shape.Box{Max: shape.Point{X: max(used, 1), Y: f.Width}}.Ring())
	}
	for _, o := range f.Obstacles {
		c.Obstacles = append(c.Obstacles, asPairs(o.Outer))
	}
	return c
}

func asPairs(r shape.Ring) pairs {
	out := make(pairs, len(r))
	for i, p := range r {
		out[i] = [2]int64{p.X, p.Y}
	}
	return out
}
