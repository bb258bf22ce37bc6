package outlines_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/drawn/drawntest"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/stash/shape"
)

// checked is what of SVG is understood, a drawing for each, on a page of 400 × 400 mm whose unit is
// 1 mm. Sections are those of SVG 1.1, second edition.
var checked = []struct{ name, body string }{
	{"8.3.2 M and m, pairs after them", `<path d="M20 20 120 20 120 90z m 0 120 100 0 0 60z"/>`},
	{"8.3.3 Z goes back to the start", `<path d="M20 20h80v60zl-10 90h70z"/>`},
	{"8.3.4 L l H h V v", `<path d="M20 20L120 30l20 40H60h-20V120v20z"/>`},
	{"8.3.6 C c", `<path d="M20 200C20 20 300 20 300 200c-20 90-150 90-280 0z"/>`},
	{"8.3.6 S s", `<path d="M20 200C20 100 100 100 100 200S180 300 180 200s80-100 80 0V350H20z"/>`},
	{"8.3.6 S after another command", `<path d="M20 200L60 200S180 300 180 100z"/>`},
	{"8.3.7 Q q", `<path d="M20 200Q100 20 200 200q60 90 120 0V300H20z"/>`},
	{"8.3.7 T t", `<path d="M20 200Q60 100 100 200T180 200t80 0V320H20z"/>`},
	{"8.3.8 A, all four arcs", `<path d="M50 100A60 40 0 0 0 150 100z"/><path d="M200 100A60 40 0 1 0 300 100z"/><path d="M50 250A60 40 0 0 1 150 250z"/><path d="M200 300A60 40 0 1 1 300 300z"/>`},
	{"8.3.8 a turned, too small, flags without space", `<path d="M100 100a60 20 30 11100 40z"/><path d="M200 250a10 5 0 00120 0z"/>`},
	{"8.3.9 numbers without separators", `<path d="M20.5.5e2l100-.5.5 60-100.5.5z"/>`},
	{"9.2 rect", `<rect x="20" y="30" width="100" height="60"/>`},
	{"9.2 rect, rounded, one radius", `<rect x="20" y="30" width="100" height="60" rx="12"/><rect x="200" y="30" width="100" height="60" rx="90" ry="10"/>`},
	{"9.3 circle", `<circle cx="100" cy="100" r="60"/>`},
	{"9.4 ellipse", `<ellipse cx="100" cy="100" rx="70" ry="30"/>`},
	{"9.6 polyline", `<polyline points="20,20 120,40 90,120 20,20"/>`},
	{"9.7 polygon", `<polygon points="20,20 120 40,30 90"/>`},
	{"7.6 translate, scale, rotate, skew, matrix", `<g transform="translate(100 40) scale(1.5,.8)"><g transform="rotate(20 30 30) skewX(10)"><rect width="60" height="80" transform="matrix(1 .1 -.2 1 10 5)"/></g></g>`},
	{"7.6 skewY, mirrored", `<rect x="-150" y="20" width="80" height="60" transform="skewY(15) scale(-1 1)"/>`},
	{"5.2 groups and links", `<g><a href="#x"><rect width="60" height="40"/></a></g>`},
	{"5.6 use, with its place", `<defs><rect id="r" width="60" height="40"/></defs><use href="#r" x="30" y="50"/><use xlink:href="#r" transform="translate(200 200) rotate(30)"/>`},
	{"5.6 use of a group, of a use", `<g id="g"><rect width="50" height="40"/></g><use id="u" href="#g" x="100"/><use href="#u" y="150"/>`},
	{"5.5 symbol with a view box", `<symbol id="s" viewBox="0 0 10 20"><rect width="10" height="20"/></symbol><use href="#s" x="20" y="30" width="60" height="100"/>`},
	{"7.9 svg in svg with a view box", `<svg x="40" y="50" width="200" height="100" viewBox="-5 -5 20 20"><rect x="1" y="1" width="8" height="8"/></svg>`},
	{"7.10 units", `<rect x="1cm" y="20mm" width="1in" height="72pt"/><rect x="150px" width="12pc" height="200px"/>`},
	{"7.10 percentages of the drawing around", `<rect x="5%" y="10%" width="25%" height="12.5%"/><circle cx="50%" cy="50%" r="10%"/><svg x="240" y="20" width="100" height="50%" viewBox="0 0 50 100"><rect x="10%" width="60%" height="80%"/></svg>`},
	{"7.9 a nested drawing that gives no size", `<svg viewBox="0 0 100 100"><rect x="10" y="20" width="50" height="40"/></svg>`},
	{"11.5 display, as attribute and style", `<rect width="60" height="40"/><rect x="100" width="60" height="40" display="none"/><g style="display:none"><circle cx="50" cy="200" r="40"/></g>`},
	{"11.5 visibility", `<g visibility="hidden"><rect width="60" height="40"/><rect x="100" width="60" height="40" visibility="visible"/></g><rect x="200" width="60" height="40" visibility="collapse"/>`},
	{"6.4 classes, identities and elements in style rules", `<style>.off, #gone{display:none} ellipse{visibility:hidden} #gone.off{fill:red}</style><rect width="60" height="40"/><rect class="a off" x="100" width="60" height="40"/><circle id="gone" cx="50" cy="200" r="40"/><ellipse cx="200" cy="200" rx="40" ry="30"/>`},
	{"6.4 the style attribute counts most", `<style>.off{display:none}</style><rect class="off" style="display:inline" width="60" height="40"/>`},
	{"5.8 switch", `<switch><rect width="60" height="40"/><circle cx="200" cy="200" r="50"/></switch>`},
	{"14.3 what is only for use", `<defs><circle cx="50" cy="50" r="40"/></defs><clipPath id="c"><rect width="90" height="90"/></clipPath><rect x="100" width="60" height="40"/>`},
}

// rsvg draws an SVG as PDF by librsvg (Debian package librsvg2-bin), independent of the reader.
func rsvg(t *testing.T, text string) []byte {
	t.Helper()
	cmd := exec.Command("rsvg-convert", "-f", "pdf", "-d", "96", "-p", "96")
	cmd.Stdin = strings.NewReader(text)
	var said bytes.Buffer
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("rsvg-convert, which this test needs (Debian package librsvg2-bin): %v\n%s", err, said.String())
	}
	return out
}

// TestCheckedList holds every entry against what librsvg draws: as many outlines, each within 0.3 mm
// in the same place.
func TestCheckedList(t *testing.T) {
	for _, c := range checked {
		t.Run(c.name, func(t *testing.T) {
			text := `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="400mm" height="400mm" viewBox="0 0 400 400">` + c.body + `</svg>`
			ours, err := outlines.Read(context.Background(), strings.NewReader(text), "ours.svg", outlines.Options{})
			if err != nil {
				t.Fatal(err)
			}
			theirs, err := outlines.Read(context.Background(), bytes.NewReader(rsvg(t, text)), "theirs.pdf", outlines.Options{Plan: &drawn.Plan{}})
			if err != nil {
				t.Fatal(err)
			}
			if len(ours.Shapes) != len(theirs.Shapes) || len(ours.Shapes) == 0 {
				t.Fatalf("%d outlines, librsvg draws %d", len(ours.Shapes), len(theirs.Shapes))
			}
			for i, f := range ours.Shapes {
				if err := same(f.Ring, theirs.Shapes); err != nil {
					t.Errorf("outline %d: %v", i+1, err)
				}
			}
		})
	}
}

// same says whether one of the shapes is the ring, in its place, within 0.3 mm.
func same(r shape.Ring, shapes []drawn.Found) error {
	err := errors.New("there is no other")
	for _, s := range shapes {
		far := 0.0
		for _, x := range [2][2]shape.Ring{{r, s.Ring}, {s.Ring, r}} {
			for _, p := range x[0] {
				far = math.Max(far, drawntest.Off(x[1], p))
			}
		}
		if far <= 300 {
			return nil
		}
		err = fmt.Errorf("the nearest outline lies %.1f mm off", far/1000)
	}
	return err
}
