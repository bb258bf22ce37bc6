package verb_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/cmd/tallycloth/verb"
)

// TestOutlinesGoOutAndComeIn: a pattern written as DXF is the same pattern when it is brought
// in again, in all sizes or one; as SVG its layers are the sizes.
func TestOutlinesGoOutAndComeIn(t *testing.T) {
	d := newDesk(t)
	d.done("demo")
	var all []patternLine
	d.answer(&all, "list", "patterns")
	var was patternLine
	for _, p := range all {
		if len(p.Pieces) > 1 && len(p.Sizes) > 2 {
			was = p
			break
		}
	}
	dir := t.TempDir()
	dxf, svg, one := filepath.Join(dir, "all.dxf"), filepath.Join(dir, "all.svg"), filepath.Join(dir, "one.dxf")
	var out struct{ Files []string }
	if d.answer(&out, "outlines", was.Name, dxf); len(out.Files) != 1 || out.Files[0] != dxf {
		t.Errorf("%+v", out)
	}
	d.done("outlines", was.Name, svg)
	d.done("outlines", was.Name, one, "--size", was.Sizes[1], "--piece", was.Pieces[1].Name)
	d.refused(verb.Mistyped, []string{"there already"}, "outlines", was.Name, dxf)
	d.refused(verb.Mistyped, []string{"ending", ".dxf or .svg"}, "outlines", was.Name, filepath.Join(dir, "all.png"))
	d.refused(verb.Failed, []string{"no size"}, "outlines", was.Name, filepath.Join(dir, "x.dxf"), "--size", "nobody's")
	d.refused(verb.Mistyped, []string{"name of a file"}, "outlines", was.Name)
	var b brought
	d.answer(&b, "bring-in", dxf, "--name", "Again")
	if got := b.Pattern; got.Name != "Again" || strings.Join(got.Sizes, " ") != strings.Join(was.Sizes, " ") || len(got.Pieces) != len(was.Pieces) {
		t.Fatalf("%+v, was %+v", got, was)
	}
	for i, p := range b.Pattern.Pieces {
		if p != was.Pieces[i] {
			t.Errorf("%+v, was %+v", p, was.Pieces[i])
		}
	}
	if d.answer(&b, "bring-in", svg, "--name", "From SVG", "--layers", "--as-drawn"); len(b.Pattern.Sizes) != len(was.Sizes) || len(b.Pattern.Pieces) != len(was.Pieces) {
		t.Errorf("%+v", b.Pattern)
	}
	if d.answer(&b, "bring-in", one); len(b.Pattern.Sizes) != 1 || len(b.Pattern.Pieces) != 1 || b.Pattern.Name != was.Name || b.Pattern.Pieces[0].Name != was.Pieces[1].Name {
		t.Errorf("%+v", b.Pattern)
	}
}

// TestUnitOfDXFIsAsked: a file of bare numbers is asked about.
func TestUnitOfDXFIsAsked(t *testing.T) {
	d := newDesk(t)
	name := filepath.Join(t.TempDir(), "bare.dxf")
	text := "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n8\n20\n0\n10\n8\n20\n12\n0\nENDSEC\n0\nEOF\n"
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	d.refused(verb.Mistyped, []string{"names no unit", "--unit"}, "bring-in", name)
	var b brought
	if d.answer(&b, "bring-in", name, "--unit", "1 in"); b.Unit != 25.4 || len(b.Pattern.Pieces) != 1 {
		t.Errorf("%+v", b)
	}
}
