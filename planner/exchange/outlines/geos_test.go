package outlines_test

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// geos is what GEOS measures of outlines and stretches of edges, one after the other.
type geos struct {
	Area, Length float64
	Bounds       [4]float64
}

type geosItem struct {
	Ring [][2]int64 `json:"ring,omitempty"`
	Line [][2]int64 `json:"line,omitempty"`
}

func pairs(pts []shape.Point) (out [][2]int64) {
	for _, p := range pts {
		out = append(out, [2]int64{p.X, p.Y})
	}
	return out
}

func measured(t *testing.T, items []geosItem) []geos {
	t.Helper()
	var in, said bytes.Buffer
	for _, it := range items {
		if err := json.NewEncoder(&in).Encode(it); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("/usr/bin/python3", filepath.Join("..", "..", "..", "testdata", "geos", "outlines.py"))
	cmd.Stdin, cmd.Stderr = &in, &said
	all, err := cmd.Output()
	if err != nil {
		t.Fatalf("measuring with GEOS (Debian package python3-shapely): %v\n%s", err, said.String())
	}
	var out []geos
	for d := json.NewDecoder(bytes.NewReader(all)); len(out) < len(items); {
		var g geos
		if err := d.Decode(&g); err != nil {
			t.Fatal(err)
		}
		out = append(out, g)
	}
	return out
}

// TestMeasuresByGEOS: outlines that were saved and brought in again as SVG and as DXF measure what GEOS makes of
// the outlines before: perimeter, box and lengths of openings within 0.1 mm, area within 0.1 mm along the edge.
func TestMeasuresByGEOS(t *testing.T) {
	for _, p := range draft.DemoPatterns(func() stash.ID { return stash.NoID }) {
		var items []geosItem
		for _, q := range p.Pieces {
			for _, z := range p.Sizes {
				o := q.Outlines[z.Name]
				items = append(items, geosItem{Ring: pairs(o.Cut)})
				for _, e := range o.Edges {
					items = append(items, geosItem{Line: pairs(e.Points)})
				}
			}
		}
		want := measured(t, items)
		for _, ending := range []string{".svg", ".dxf"} {
			back := again(t, p, ending)
			next, openings := 0, 0
			for i, q := range p.Pieces {
				for _, z := range p.Sizes {
					o, g := q.Outlines[z.Name], back.Pieces[i].Outlines[z.Name]
					name := p.Name + ending + ": " + q.Name + " in " + z.Name
					sameMeasures(t, name, g.Cut, want[next])
					next++
					for k, e := range o.Edges {
						if ending == ".dxf" { // SVG keeps no names of openings
							openings++
							if l := float64(g.Edges[k].Length()); g.Edges[k].Name != e.Name || math.Abs(l-want[next].Length) > 100 {
								t.Errorf("%s: %s is %.3f mm, GEOS measures %.3f", name, g.Edges[k].Name, l/1000, want[next].Length/1000)
							}
						}
						next++
					}
				}
			}
			if ending == ".dxf" && openings == 0 {
				t.Errorf("%s has no openings", p.Name)
			}
		}
	}
}

func again(t *testing.T, p pattern.Pattern, ending string) pattern.Pattern {
	t.Helper()
	path := filepath.Join(t.TempDir(), "again"+ending)
	if err := outlines.Save(path, p, drawn.Part{}); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := outlines.Read(context.Background(), f, path, outlines.Options{})
	if err != nil {
		t.Fatal(err)
	}
	back, _ := d.Pattern(drawn.Choice{Layers: true})
	return back
}

func sameMeasures(t *testing.T, name string, r shape.Ring, w geos) {
	t.Helper()
	b := r.Bounds()
	if math.Abs(r.Perimeter()-w.Length) > 100 || math.Abs(float64(r.Area())-w.Area) > 100*w.Length ||
		math.Abs(float64(b.Length())-(w.Bounds[2]-w.Bounds[0])) > 100 || math.Abs(float64(b.Width())-(w.Bounds[3]-w.Bounds[1])) > 100 {
		t.Errorf("%s: %.3f mm round, %d µm², %v; GEOS measures %+v", name, r.Perimeter()/1000, r.Area(), b, w)
	}
}
