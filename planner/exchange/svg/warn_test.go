package svg_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/stash/shape"
)

// TestLeftOut: what has no outline is listed with its name and a reason.
func TestLeftOut(t *testing.T) {
	for _, tt := range []struct {
		body   string
		reason drawn.Reason
		name   string
		shapes int
	}{
		{`<path id="p" d="M0 0H10z"/>`, drawn.NoOutline, "p", 0},
		{`<path id="p" d="M0 0h10v10h-10z M 1 2 3"/>`, drawn.NotRead, "p", 0},
		{`<path id="p" d="M0 0h10v1Oz"/>`, drawn.NotRead, "p", 0},
		{`<path id="p" d="L0 0h10v10z"/>`, drawn.NotRead, "p", 0},
		{`<path id="p" d="M0 0a5 5 0 2 0 10 0z"/>`, drawn.NotRead, "p", 0},
		{`<polygon id="p" points="0 0 10 0 10"/>`, drawn.NotRead, "p", 0},
		{`<rect id="p" width="5em" height="10"/>`, drawn.NotRead, "p", 0},
		{`<rect id="p" width="50" height="10" fill="none"/>`, drawn.Hidden, "", 0},
		{`<rect id="p" width="10" height="10" transform="wobble(3)"/>`, drawn.NotRead, "p", 0},
		{`<rect id="p" width="10" height="10" transform="scale(1e300) scale(1e300)"/>`, drawn.NotRead, "p", 0},
		{`<g id="p" style="transform: rotate(3deg)"><rect width="10" height="10"/></g>`, drawn.NotRead, "p", 0},
		{`<rect id="p" x="1e7" width="10" height="10"/>`, drawn.NoOutline, "p", 0},
		{`<polygon id="p" points="0,0 10,10 10,0 0,10"/>`, drawn.Crossing, "p", 1},
		{`<rect id="p" width="10" height="10" display="none"/>`, drawn.Hidden, "p", 0},
		{`<g id="p" style="fill:red;display : none !important"><rect width="10" height="10"/></g>`, drawn.Hidden, "p", 0},
		{`<g visibility="hidden"><rect id="p" width="10" height="10"/></g>`, drawn.Hidden, "p", 0},
		{`<style>.x, #q{display:none} rect{fill:red}</style><rect class="y x" id="p" width="10" height="10"/>`, drawn.Hidden, "p", 0},
		{`<style>g > rect{display:none}</style><rect id="p" width="10" height="10"/>`, drawn.NotRead, "", 1},
		{`<g id="p" clip-path="url(#c)"><rect width="10" height="10"/></g>`, drawn.Clipped, "p", 1},
		{`<text>Front <tspan>cut 1</tspan></text>`, drawn.Text, "Front cut 1", 0},
		{`<image id="p" href="x.png"/>`, drawn.Picture, "p", 0},
		{`<use id="p" href="#gone"/>`, drawn.Reference, "p", 0},
		{`<use id="p" href="other.svg#a"/>`, drawn.Reference, "p", 0},
		{`<flowRoot id="p"/>`, drawn.NotRead, "p", 0},
		{`<svg id="p" width="5em" height="50%" viewBox="0 0 1 1"><rect width="1" height="1"/></svg>`, drawn.NotRead, "p", 0},
	} {
		d := must(t, tt.body)
		if len(d.Warnings) != 1 || len(d.Shapes) != tt.shapes {
			t.Errorf("%s: %d shapes, %+v", tt.body, len(d.Shapes), d.Warnings)
			continue
		}
		if w := d.Warnings[0]; w.Reason != tt.reason || w.Name != tt.name || w.What == "" || w.Do == "" {
			t.Errorf("%s: %+v", tt.body, w)
		}
	}
	for body, want := range map[string]string{`<path id="p" d="M0 0h10v10"/>`: "14.1 mm apart", `<line id="p" x2="10"/>`: "single line"} {
		if _, said := must(t, body).ToPieces(drawn.Choice{}); len(said) != 1 || said[0].Reason != drawn.OpenPath || said[0].Name != "p" || !said[0].Placed || !strings.Contains(said[0].What, want) {
			t.Errorf("%s: %+v", body, said)
		}
	}
	for _, silent := range []string{`<g display="none"/>`, `<defs><text>a</text></defs>`, `<rect width="0" height="5"/>`, `<circle r="0"/>`, `<path d=""/>`, `<path d="M3 3"/>`, `<g visibility="hidden"><rect width="9" height="9" visibility="visible"/></g>`} {
		if d := must(t, silent); len(d.Warnings) != 0 {
			t.Errorf("%s: %+v", silent, d.Warnings)
		}
	}
}

// TestSaysWhereItCrosses: the place is told on the page, X to the right, Y down.
func TestSaysWhereItCrosses(t *testing.T) {
	d := must(t, `<polygon points="100,200 160,240 160,200 100,240"/>`)
	w := d.Warnings[0]
	if !w.Placed || w.At != (shape.Point{X: 130_000, Y: 220_000}) || !strings.Contains(w.What, "130.0 mm from the left and 220.0 mm from the top") {
		t.Errorf("%+v", w)
	}
	if d.Shapes[0].Usable() || !errors.Is(d.Shapes[0].Fault, shape.ErrCrossing) {
		t.Errorf("%+v", d.Shapes[0])
	}
}

// TestLargeOutline: one outline with very many points is left out and named.
func TestLargeOutline(t *testing.T) {
	zigzag := "M0 0" + strings.Repeat("l.01 1 .01-1", 20_000) + "V500H0z"
	d := must(t, `<path id="p" d="`+zigzag+`"/><rect width="10" height="10"/>`)
	if len(d.Shapes) != 1 || len(d.Warnings) != 1 || d.Warnings[0].Name != "p" || !strings.Contains(d.Warnings[0].What, "more than 30000 points") {
		t.Errorf("%d shapes, %+v", len(d.Shapes), d.Warnings)
	}
}

// TestWarningsEnd: a drawing of ten thousand pictures, texts or lines does not flood the person.
func TestWarningsEnd(t *testing.T) {
	words, lines := strings.Builder{}, strings.Builder{}
	for i := range 10_000 {
		fmt.Fprintf(&words, "<text y='%d'>a%d</text>", i, i)
		fmt.Fprintf(&lines, "<line y1='%d' x2='9'/>", i)
	}
	if d := must(t, words.String()); len(d.Warnings) != 1 || !strings.Contains(d.Warnings[0].What, "more") {
		t.Errorf("%d warnings", len(d.Warnings))
	}
	if _, said := must(t, lines.String()).ToPieces(drawn.Choice{}); len(said) != 6 || !strings.Contains(said[5].What, "9995 more") {
		t.Errorf("%d warnings, %+v", len(said), said[len(said)-1])
	}
	d := must(t, strings.Repeat(`<image href="a.png"/>`, 10_000))
	if n := len(d.Warnings); n != 301 || !strings.Contains(d.Warnings[n-1].What, "9700 more") {
		t.Errorf("%d warnings", n)
	}
}
