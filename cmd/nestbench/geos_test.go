package main

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

const instances = "../../testdata/geos/instances"

// report is the file that -json writes.
type report struct {
	Runs []run `json:"runs"`
}

// measure has GEOS measure runs, and says whether all are right.
func measure(t *testing.T, runs string) (right bool, says string) {
	t.Helper()
	out, err := exec.CommandContext(t.Context(), "/usr/bin/python3", "../../testdata/geos/bench.py", instances, runs).CombinedOutput()
	if strings.Contains(string(out), "Traceback") || len(out) == 0 {
		t.Fatalf("measuring with GEOS (Debian packages python3 and python3-shapely): %v\n%s", err, out)
	}
	return err == nil, string(out)
}

// benched runs the program on the instance of our own, with two seeds.
func benched(t *testing.T) (path string, got report) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "runs.json")
	if err := bench(context.Background(), options{data: instances, seeds: "1,2", json: path, seconds: 0.3, workers: 2, processor: true}); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &got); err != nil {
		t.Fatal(err)
	}
	return path, got
}

// TestGEOSAgreesWithTheRuns: GEOS finds the layouts that the program writes right,
// their lengths and densities as well, and whatever is spoilt in them wrong.
func TestGEOSAgreesWithTheRuns(t *testing.T) {
	path, got := benched(t)
	if right, says := measure(t, path); !right || strings.Count(says, "right") != 2 || len(got.Runs) != 2 {
		t.Fatalf("%d runs: %s", len(got.Runs), says)
	}
	for _, c := range []struct {
		name, says string
		spoil      func(*run)
	}{
		{"one on another", "two items overlap", func(r *run) { r.Placements[0] = moved(r.Placements[1], 0, 0.001) }},
		{"below the strip", "lies outside", func(r *run) { r.Placements[0].Y -= 41 }},
		{"beyond the length", "the length is", func(r *run) { r.Length -= 0.001 }},
		{"one missing", "item 0 is not laid 3 times", func(r *run) { r.Placements = r.Placements[1:] }},
		{"one too many", "item 2 is not laid 0 times", func(r *run) { r.Placements = append(r.Placements, placement{Item: 2}) }},
		{"no such item", "there is no item 9", func(r *run) { r.Placements = append(r.Placements, placement{Item: 9}) }},
		{"turned", "item 0 is turned by 90 degrees", func(r *run) { r.Placements[0].Angle = 90 }},
		{"too dense", "the density is", func(r *run) { r.Density += 0.01 }},
	} {
		one := got.Runs[0]
		one.Placements = append([]placement(nil), one.Placements...)
		c.spoil(&one)
		raw, err := json.Marshal(report{[]run{one, got.Runs[1]}})
		if err != nil {
			t.Fatal(err)
		}
		spoilt := filepath.Join(t.TempDir(), "spoilt.json")
		if err := os.WriteFile(spoilt, raw, 0o600); err != nil {
			t.Fatal(err)
		}
		if right, says := measure(t, spoilt); right || !strings.Contains(says, c.says) {
			t.Errorf("%s: wanted %q, GEOS says\n%s", c.name, c.says, says)
		}
	}
}

func moved(p placement, x, y float64) placement {
	p.X, p.Y = p.X+x, p.Y+y
	return p
}
