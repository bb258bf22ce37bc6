package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"runtime/pprof"
	"slices"
	"strconv"
	"strings"
	"time"

	"tallycloth/planner/nest"
)

type options struct {
	data, sets, seeds, json, profile string
	seconds                          float64
	workers                          int
	verbose, processor               bool
}

func main() {
	var o options
	flag.StringVar(&o.data, "data", ".", "folder of the instance files")
	flag.StringVar(&o.sets, "sets", "", "names of the instances, with commas; empty means all in the folder")
	flag.StringVar(&o.seeds, "seeds", "1", "seeds, with commas")
	flag.StringVar(&o.json, "json", "", "file to write the runs to")
	flag.StringVar(&o.profile, "profile", "", "file to write a processor profile to")
	flag.Float64Var(&o.seconds, "seconds", 10, "time of each run")
	flag.IntVar(&o.workers, "workers", 2, "workers of each run")
	flag.BoolVar(&o.verbose, "v", false, "print every improvement")
	flag.BoolVar(&o.processor, "processor", false, "count processor time instead of time on the wall, for a busy machine")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := bench(ctx, o); err != nil {
		fmt.Fprintln(os.Stderr, "nestbench:", err)
		os.Exit(1)
	}
}

func bench(ctx context.Context, o options) error {
	if o.profile != "" {
		f, err := os.Create(o.profile)
		if err != nil {
			return fmt.Errorf("writing the profile: %w", err)
		}
		defer f.Close()
		if err := pprof.StartCPUProfile(f); err != nil {
			return fmt.Errorf("starting the profile: %w", err)
		}
		defer pprof.StopCPUProfile()
	}
	names, err := setNames(o)
	if err != nil {
		return err
	}
	seeds, err := seedList(o.seeds)
	if err != nil {
		return err
	}
	fmt.Printf("%-14s %5s %8s %12s %9s %9s %8s %s\n", "set", "seed", "seconds", "length", "density", "first ms", "peak MB", "commit")
	report := struct {
		Runs []run `json:"runs"`
	}{Runs: []run{}}
	for _, name := range names {
		s, err := read(o.data, name)
		if err != nil {
			return err
		}
		var mine []float64
		for _, seed := range seeds {
			r, err := solve(ctx, s, seed, o)
			if err != nil {
				return fmt.Errorf("set %s, seed %d: %w", name, seed, err)
			}
			fmt.Printf("%-14s %5d %8.1f %12.4f %9.3f %9.1f %8.0f %s\n", name, seed, r.Seconds, r.Length, r.Density, r.FirstMS, peakMB(), commit())
			report.Runs = append(report.Runs, r)
			mine = append(mine, r.Density)
		}
		if len(mine) > 1 {
			slices.Sort(mine)
			fmt.Printf("%-14s median %37.3f\n", name, mine[len(mine)/2])
		}
	}
	if o.json == "" {
		return nil
	}
	out, err := json.Marshal(report)
	if err != nil {
		return fmt.Errorf("writing the runs: %w", err)
	}
	return os.WriteFile(o.json, append(out, '\n'), 0o644)
}

// setNames are the instances asked for, or all of the folder.
func setNames(o options) ([]string, error) {
	if o.sets != "" {
		return strings.Split(o.sets, ","), nil
	}
	files, err := filepath.Glob(filepath.Join(o.data, "*.json"))
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("no instance file in %s: name the folder with -data", o.data)
	}
	for i, f := range files {
		files[i] = strings.TrimSuffix(filepath.Base(f), ".json")
	}
	return files, nil
}

func seedList(text string) ([]uint64, error) {
	var out []uint64
	for _, w := range strings.Split(text, ",") {
		n, err := strconv.ParseUint(strings.TrimSpace(w), 10, 64)
		if err != nil {
			return nil, fmt.Errorf("seeds are whole numbers with commas between: %w", err)
		}
		out = append(out, n)
	}
	return out, nil
}

// run is one layout, in the file's own unit.
type run struct {
	Set        string      `json:"set"`
	Seed       uint64      `json:"seed"`
	Workers    int         `json:"workers"`
	Seconds    float64     `json:"seconds"`
	Length     float64     `json:"length"`
	Density    float64     `json:"density"`
	FirstMS    float64     `json:"first_ms"`
	Placements []placement `json:"placements"`
}

type placement struct {
	Item  int     `json:"item"`
	Angle float64 `json:"angle"`
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
}

func solve(ctx context.Context, s set, seed uint64, o options) (run, error) {
	clock := time.Now
	if o.processor {
		clock = processorClock(o.workers)
	}
	begun := clock()
	var first time.Duration
	a, err := nest.Solve(ctx, s.in, nest.Options{
		Seed: seed, Workers: o.workers, Clock: clock,
		Time: time.Duration(o.seconds * float64(time.Second)),
		Report: func(p nest.Progress) {
			if o.verbose {
				fmt.Printf("%9.2f s  %12.4f  %d moves\n", clock().Sub(begun).Seconds(), float64(p.Best.Used[0])/s.scale, p.Steps)
			}
			if first == 0 {
				first = clock().Sub(begun)
			}
		},
	})
	if err != nil {
		return run{}, err
	}
	r := run{Set: s.name, Seed: seed, Workers: o.workers, Seconds: clock().Sub(begun).Seconds(),
		Length: float64(a.Solution.Used[0]) / s.scale, FirstMS: float64(first.Microseconds()) / 1000}
	r.Density = 100 * s.area / (r.Length * float64(s.in.Fabrics[0].Width) / s.scale)
	for _, l := range a.Solution.Laid {
		r.Placements = append(r.Placements, placement{s.ids[l.Item], float64(l.Place.Angle) / 1000,
			float64(l.Place.At.X) / s.scale, float64(l.Place.At.Y) / s.scale})
	}
	return r, nil
}

// peakMB is the most memory the process has held, in MB, or 0 where the system doesn't say.
func peakMB() float64 {
	text, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	for _, line := range strings.Split(string(text), "\n") {
		var kb float64
		if n, _ := fmt.Sscanf(line, "VmHWM: %f kB", &kb); n == 1 {
			return kb / 1024
		}
	}
	return 0
}
