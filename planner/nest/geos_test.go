package nest_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os/exec"
	"strings"
	"sync"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/stash/shape"
)

const (
	// geosArea is how much two outlines may share, or lie outside, in mm². They share
	// nothing exactly; this allows for GEOS's floating point.
	geosArea = 0.01
	// geosLack is how much may be missing to a distance, in mm: half a nanometre for the
	// same reason.
	geosLack = 5e-7
)

// geos is one Python process that measures layouts with GEOS, through Debian's
// python3-shapely. Layouts go in from several goroutines; the figures are read as
// they come.
type geos struct {
	cmd    *exec.Cmd
	stderr strings.Builder
	mu     sync.Mutex // over what is written
	in     io.WriteCloser
	enc    *json.Encoder
	done   chan struct{}
	unsent error
	found  map[int]measured // whole once done is closed
	unread error
}

// measured is what GEOS says of one layout.
type measured struct {
	overlap, outside float64 // mm²
	lack, missed     float64 // mm
}

func (m measured) right() bool {
	return m.overlap <= geosArea && m.outside <= geosArea && m.lack <= geosLack && m.missed <= geosLack
}

func startGEOS(t *testing.T) *geos {
	t.Helper()
	g := &geos{cmd: exec.CommandContext(t.Context(), "/usr/bin/python3", "../../testdata/geos/overlaps.py"),
		done: make(chan struct{}), found: map[int]measured{}}
	g.cmd.Stderr = &g.stderr
	in, err := g.cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := g.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := g.cmd.Start(); err != nil {
		t.Fatalf("GEOS is missing: install the Debian packages python3 and python3-shapely: %v", err)
	}
	g.in, g.enc = in, json.NewEncoder(in)
	go g.read(out)
	return g
}

func (g *geos) read(out io.Reader) {
	defer close(g.done)
	for lines := bufio.NewScanner(out); lines.Scan(); {
		var id int
		var m measured
		if _, err := fmt.Sscan(lines.Text(), &id, &m.overlap, &m.outside, &m.lack, &m.missed); err != nil {
			g.unread = fmt.Errorf("reading %q: %w", lines.Text(), err)
			return
		}
		g.found[id] = m
	}
}

// send hands in a layout; an error shows when the figures are asked for.
func (g *geos) send(id int, in nest.Instance, sol nest.Solution) {
	layout := asJSON(in, sol)
	layout.ID = id
	g.mu.Lock()
	defer g.mu.Unlock()
	if err := g.enc.Encode(layout); err != nil && g.unsent == nil {
		g.unsent = err
	}
}

// figures ends the process and returns what it measured. A missing reference fails
// the test: an unmeasured layout is not a right one.
func (g *geos) figures(t *testing.T) map[int]measured {
	t.Helper()
	g.in.Close()
	<-g.done
	if err := g.cmd.Wait(); err != nil || g.unsent != nil || g.unread != nil {
		t.Fatalf("measuring with GEOS (Debian packages python3 and python3-shapely): %v, %v, %v\n%s", err, g.unsent, g.unread, g.stderr.String())
	}
	return g.found
}

type pairs [][2]int64

type bandJSON struct {
	From   int64 `json:"from"`
	To     int64 `json:"to"`
	Layers int   `json:"layers"`
	Low    bool  `json:"low"`
	High   bool  `json:"high"`
}

type clothJSON struct {
	Outer     pairs      `json:"outer"`
	Holes     []pairs    `json:"holes"`
	Obstacles []pairs    `json:"obstacles"`
	Bands     []bandJSON `json:"bands"`
	Free      bool       `json:"free"`
	Start     int64      `json:"start"`
	Used      int64      `json:"used"`
}

type laidJSON struct {
	Cloth   int   `json:"cloth"`
	Outline pairs `json:"outline"`
	Angle   int   `json:"angle"`
	Mirror  bool  `json:"mirror"`
	X       int64 `json:"x"`
	Y       int64 `json:"y"`
	Layers  int   `json:"layers"`
	Fold    bool  `json:"fold"`
	Repeat  int64 `json:"repeat"`
	Phase   int64 `json:"phase"`
}

type layoutJSON struct {
	ID        int         `json:"id"`
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
		p, it := l.Place, in.Items[l.Item]
		out.Laid = append(out.Laid, laidJSON{l.Fabric, asPairs(it.Outline), int(p.Angle), p.Mirror, p.At.X, p.At.Y,
			it.Layers, it.OnFold, it.Repeat, it.Phase})
	}
	return out
}

// clothOf is the fabric as a polygon; a strip ends where the layout says it does.
func clothOf(f nest.Fabric, used int64) clothJSON {
	c := clothJSON{Holes: []pairs{}, Obstacles: []pairs{}, Bands: []bandJSON{}, Used: used}
	if c.Free = len(f.Outline.Outer) > 0; c.Free {
		c.Outer, c.Start = asPairs(f.Outline.Outer), f.Outline.Bounds().Min.X
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
	for _, b := range f.Bands {
		c.Bands = append(c.Bands, bandJSON{b.From, b.To, b.Layers, b.FoldLow, b.FoldHigh})
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
