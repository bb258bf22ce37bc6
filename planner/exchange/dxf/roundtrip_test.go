package dxf_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"reflect"
	"testing"

	"tallycloth/planner/draft"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/shape"

	"pgregory.net/rapid"
)

func demo() []pattern.Pattern {
	n := 0
	return draft.DemoPatterns(func() stash.ID { n++; return stash.ID{byte(n)} })
}

func read(t testing.TB, text []byte, o dxf.Options) drawn.Drawing {
	t.Helper()
	d, err := dxf.Read(context.Background(), bytes.NewReader(text), o)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

type fatal interface {
	Helper()
	Fatalf(string, ...any)
}

// again writes a pattern and reads it back.
func again(t fatal, p pattern.Pattern, part drawn.Part) (pattern.Pattern, []drawn.Warning) {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.WritePattern(&b, p, part); err != nil {
		t.Fatalf("%v", err)
	}
	for i, c := range b.Bytes() {
		if c > 126 || c < ' ' && c != '\n' {
			t.Fatalf("byte %d is %d: the standard has 7-bit letters only", i, c)
		}
	}
	d, err := dxf.Read(context.Background(), &b, dxf.Options{})
	if err != nil {
		t.Fatalf("%v", err)
	}
	if d.Stated == nil {
		t.Fatalf("no pattern was read: %+v", d.Warnings)
	}
	back, _ := d.Pattern(drawn.Choice{})
	return back, d.Warnings
}

// same holds pieces against each other. What the turning of an edge is worked out from
// is its points, so it may differ by rounding.
func same(t fatal, got, want pattern.Pattern) {
	t.Helper()
	if got.Name != want.Name || got.Maker != want.Maker || len(got.Pieces) != len(want.Pieces) || len(got.Sizes) != len(want.Sizes) {
		t.Fatalf("%q by %q, %d pieces in %d sizes; want %q by %q, %d in %d", got.Name, got.Maker, len(got.Pieces), len(got.Sizes), want.Name, want.Maker, len(want.Pieces), len(want.Sizes))
	}
	for i, z := range want.Sizes {
		if got.Sizes[i].Name != z.Name {
			t.Fatalf("size %q, want %q", got.Sizes[i].Name, z.Name)
		}
	}
	for i, w := range want.Pieces {
		g := got.Pieces[i]
		for z, o := range w.Outlines {
			b := g.Outlines[z]
			if len(b.Edges) != len(o.Edges) {
				t.Fatalf("%s %s: %d edges, want %d", w.Name, z, len(b.Edges), len(o.Edges))
			}
			for k, e := range o.Edges {
				if math.Abs(e.Turn-b.Edges[k].Turn) > 0.01 {
					t.Fatalf("%s %s: edge %s turns by %g, want %g", w.Name, z, e.Name, b.Edges[k].Turn, e.Turn)
				}
				b.Edges[k].Turn = e.Turn
			}
			if !reflect.DeepEqual(b, o) {
				t.Fatalf("%s, size %s:\n%+v\nwant\n%+v", w.Name, z, b, o)
			}
		}
		if !reflect.DeepEqual(g, w) {
			t.Fatalf("%+v\nwant\n%+v", g, w)
		}
	}
}

// TestDemoPatternsComeBack: whole patterns with folds, notches, edges in every size.
func TestDemoPatternsComeBack(t *testing.T) {
	for _, p := range demo() {
		t.Run(p.Name, func(t *testing.T) {
			got, warnings := again(t, p, drawn.Part{})
			same(t, got, p)
			for _, w := range warnings {
				if w.Reason != drawn.Grain {
					t.Errorf("%+v", w)
				}
			}
			if err := got.Validate(); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestPartOfAPattern(t *testing.T) {
	p := demo()[0]
	size, code := p.Sizes[1].Name, p.Pieces[1].Code
	got, _ := again(t, p, drawn.Part{Sizes: []string{size}, Pieces: []string{code}})
	if len(got.Pieces) != 1 || got.Pieces[0].Code != code || len(got.Sizes) != 1 || got.Sizes[0].Name != size {
		t.Errorf("%+v", got)
	}
	for _, part := range []drawn.Part{{Sizes: []string{"none"}}, {Pieces: []string{"ZZ"}}} {
		if err := dxf.WritePattern(&bytes.Buffer{}, p, part); err == nil {
			t.Errorf("%+v was written", part)
		}
	}
	if err := dxf.WritePattern(&bytes.Buffer{}, pattern.Pattern{Name: "Bare"}, drawn.Part{}); err == nil {
		t.Error("a pattern without outlines was written")
	}
}

// TestAnyPatternComesBack: whatever is drawn on a piece and said of it comes back.
func TestAnyPatternComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		if err := p.Validate(); err != nil {
			t.Fatalf("the generator is wrong: %v", err)
		}
		got, _ := again(t, p, drawn.Part{})
		same(t, got, p)
	})
}

func anyPattern(t *rapid.T) pattern.Pattern {
	word := rapid.StringMatching(`[A-Za-zäß€→😀][A-Za-z0-9 é"'%.\\{}-]{0,10}[a-zü]`)
	p := pattern.Pattern{Name: word.Draw(t, "name"), Maker: word.Draw(t, "maker")}
	for i := range rapid.IntRange(1, 3).Draw(t, "sizes") {
		p.Sizes = append(p.Sizes, pattern.Size{Name: fmt.Sprint(2 * (i + 1))})
	}
	roles := []string{pattern.Main, pattern.Lining, pattern.Binding, "ruffles"}
	for i := range rapid.IntRange(1, 4).Draw(t, "pieces") {
		q := pattern.Piece{Code: fmt.Sprint("Q", i), Name: fmt.Sprint(word.Draw(t, "piece"), i), Role: rapid.SampledFrom(roles).Draw(t, "role"),
			Cut: rapid.IntRange(1, 9).Draw(t, "cut"), OnFold: rapid.Bool().Draw(t, "fold"), Fixed: rapid.Bool().Draw(t, "fixed"),
			WithoutAllowance: rapid.Bool().Draw(t, "bare"), Grain: pattern.GrainRule(rapid.IntRange(0, 2).Draw(t, "grain")), Outlines: map[string]pattern.Outline{}}
		q.Pairs = !q.OnFold && q.Cut%2 == 0 && rapid.Bool().Draw(t, "pairs")
		for _, z := range p.Sizes {
			q.Outlines[z.Name] = anyOutline(t, q)
		}
		if _, ok := p.Role(q.Role); !ok {
			p.Roles = append(p.Roles, pattern.Role{Name: q.Role})
		}
		p.Pieces = append(p.Pieces, q)
	}
	return p
}

// anyOutline is a convex outline between two lines across the grain, with marks.
func anyOutline(t *rapid.T, q pattern.Piece) pattern.Outline {
	n := int64(rapid.IntRange(2, 12).Draw(t, "points"))
	long, wide := rapid.Int64Range(200_000, 900_000).Draw(t, "long"), rapid.Int64Range(100_001, 400_000).Draw(t, "wide")
	low := int64(0)
	if !q.OnFold {
		low = rapid.Int64Range(-50_000, 50_000).Draw(t, "low")
	}
	o := pattern.Outline{Cut: shape.Ring{{X: 0, Y: low}, {X: long, Y: low}}}
	for k := range n + 1 { // a parabola over the straight edge
		x := long - k*long/n
		o.Cut = append(o.Cut, shape.Point{X: x, Y: low + 1000 + wide*4*x/long*(long-x)/long})
	}
	at := rapid.Int64Range(20, 80).Draw(t, "at")
	o.Notches = []pattern.Notch{{At: shape.Point{X: long * at / 100, Y: low}, Kind: rapid.SampledFrom([]string{"single", "double"}).Draw(t, "kind")}, {At: shape.Point{X: long, Y: low}, Kind: "single"}}
	o.Dots = []shape.Point{{X: long / 2, Y: low + 777}}
	o.Inner = [][]shape.Point{{{X: long / 3, Y: low + 100}, {X: long / 2, Y: low + 900}}, {{X: 5, Y: low}, {X: 9, Y: low + 5}, {X: 11, Y: low + 3}, {X: 5, Y: low}}}
	y := low + rapid.Int64Range(0, 5000).Draw(t, "grain at")
	o.GrainTop, o.GrainFoot = shape.Point{X: long / 4, Y: y}, shape.Point{X: long - long/4 - 1, Y: y}
	o.MatchMarks = []pattern.MatchMark{{Name: "hem", X: long - 3}}
	o.Edges = []pattern.EdgePath{{Name: "neck", Points: []shape.Point{{X: 0, Y: low}, {X: 70_001, Y: low + 9}, {X: 90_000, Y: low + 30_000}}, Halved: q.OnFold}}
	o.Edges[0].Turn = pattern.Turning(o.Edges[0].Points)
	return o
}
