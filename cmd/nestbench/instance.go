package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"tallycloth/planner/nest"
	"tallycloth/stash/shape"
)

// file is an instance as it is written.
type file struct {
	Name   string  `json:"name"`
	Height float64 `json:"strip_height"`
	Items  []struct {
		Demand int       `json:"demand"`
		Angles []float64 `json:"allowed_orientations"`
		Shape  struct {
			Type string       `json:"type"`
			Data [][2]float64 `json:"data"`
		} `json:"shape"`
	} `json:"items"`
}

// set is an instance made ready: scale is µm per unit of the file.
type set struct {
	name  string
	scale float64
	in    nest.Instance
	area  float64 // of all items, in the file's unit squared
	ids   []int   // of each item, its index in the file
}

// finest is the greatest strip height in µm a file's unit is scaled to: with it
// strips twenty times as long as high stay well within the engine's range.
const finest = 2e7

// read loads one instance. The unit is scaled by a power of ten, so that
// decimal coordinates stay exact.
func read(dir, name string) (set, error) {
	raw, err := os.ReadFile(filepath.Join(dir, name+".json"))
	if err != nil {
		return set{}, fmt.Errorf("reading the instance: %w", err)
	}
	var f file
	if err := json.Unmarshal(raw, &f); err != nil {
		return set{}, fmt.Errorf("reading the instance %s: %w", name, err)
	}
	if !(f.Height > 0) {
		return set{}, fmt.Errorf("the instance %s has no strip height", name)
	}
	s := set{name: name, scale: math.Pow(10, math.Floor(math.Log10(finest/f.Height)))}
	s.in = nest.Instance{Ask: nest.LeastLength, Fabrics: []nest.Fabric{{Width: int64(math.Floor(f.Height*s.scale + 1e-6))}}}
	for i, it := range f.Items {
		if it.Shape.Type != "simple_polygon" {
			return set{}, fmt.Errorf("item %d of %s is a %q, only simple polygons are read", i, name, it.Shape.Type)
		}
		if it.Demand == 0 {
			continue
		}
		var ring shape.Ring
		for _, p := range it.Shape.Data {
			ring = append(ring, shape.Point{X: s.whole(p[0]), Y: s.whole(p[1])})
		}
		if ring = ring.Clean(); ring.Area2() < 0 {
			ring = ring.Reverse()
		}
		item := nest.Item{Outline: ring, Count: it.Demand, Group: nest.NoGroup}
		for _, a := range it.Angles {
			item.Angles = append(item.Angles, shape.Angle(math.Round(a*1000)).Norm())
		}
		s.in.Items = append(s.in.Items, item)
		s.ids = append(s.ids, i)
		s.area += float64(it.Demand) * float64(ring.Area2()) / 2 / s.scale / s.scale
	}
	return s, nil
}

func (s set) whole(v float64) int64 { return int64(math.Round(v * s.scale)) }
