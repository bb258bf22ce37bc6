package scene

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
)

// TestEveryPlaceHasItsTape: the tape of each measurement goes where its definition says: a girth level
// round the body, from one side of the figure's outline to the other at that height, in the order of the
// levels of a body; a length from end to end. Definitions after ISO 8559-1 and EN 13402-1, those of
// waist, hip and limbs from memory.
func TestEveryPlaceHasItsTape(t *testing.T) {
	const crown, crotch, floor, neck = 1700, 780, 0, 1462
	ends := map[string][2]float64{sizing.Height: {floor, crown}, sizing.InsideLeg: {floor, crotch}, sizing.BackWaist: {figureLevels[pattern.Waist].y, neck}}
	heights := map[string]float64{}
	for _, at := range sizing.Places() {
		s := Figure(at.Name)
		tapes := Box{Min: Point{1e9, 1e9}, Max: Point{-1e9, -1e9}}
		words := ""
		for _, it := range s.Items {
			words += it.Text
			for _, p := range it.corners() {
				if p.X < s.Bounds.Min.X || p.X > s.Bounds.Max.X || p.Y < s.Bounds.Min.Y || p.Y > s.Bounds.Max.Y {
					t.Errorf("%s: %v lies outside", at.Name, p)
				}
				if it.Style == Came {
					tapes.Min = Point{math.Min(tapes.Min.X, p.X), math.Min(tapes.Min.Y, p.Y)}
					tapes.Max = Point{math.Max(tapes.Max.X, p.X), math.Max(tapes.Max.Y, p.Y)}
				}
			}
		}
		if near := FigureNear(at.Name).Bounds; tapes.Min.X < near.Min.X || tapes.Min.Y < near.Min.Y || tapes.Max.X > near.Max.X || tapes.Max.Y > near.Max.Y {
			t.Errorf("%s: the small picture shows %v of the tape in %v", at.Name, near, tapes)
		}
		if behind := strings.Contains(words, "from behind"); behind != strings.Contains(at.Where, "the back, from") {
			t.Errorf("%s is seen %s", at.Name, words)
		}
		if end, ok := ends[at.Name]; ok {
			if at.Girth || tapes.Min.Y != end[0] || tapes.Max.Y != end[1] {
				t.Errorf("%s runs from %.0f to %.0f", at.Name, tapes.Min.Y, tapes.Max.Y)
			}
			continue
		}
		l := figureLevels[at.Name]
		heights[at.Name] = l.y
		outline, inner := figureSide, 0.0
		if at.Name == sizing.UpperArm {
			outline = figureArm
		}
		sides := crossings(outline, l.y)
		outer := slices.Max(sides)
		if at.Name == sizing.UpperArm || at.Name == pattern.Thigh {
			inner = slices.Min(sides)
		} else {
			inner = -outer
		}
		if !at.Girth || math.Abs(tapes.Max.X-outer) > 5 || math.Abs(tapes.Min.X-inner) > 5 || tapes.Max.Y-tapes.Min.Y > 60 {
			t.Errorf("%s: from %.0f to %.0f, the body there is from %.0f to %.0f", at.Name, tapes.Min.X, tapes.Max.X, inner, outer)
		}
	}
	for _, pair := range [][2]string{{pattern.HighBust, pattern.Bust}, {pattern.Bust, sizing.Underbust}, {sizing.Underbust, pattern.Waist}, {pattern.Waist, pattern.Hip}, {pattern.Hip, pattern.Thigh}} {
		if heights[pair[0]] <= heights[pair[1]] {
			t.Errorf("%s does not lie above the %s", pair[0], pair[1])
		}
	}
	if heights[pattern.Thigh] >= crotch || heights[pattern.HighBust] > 1318 { // the pit of the arm
		t.Errorf("thigh at %.0f, high bust at %.0f", heights[pattern.Thigh], heights[pattern.HighBust])
	}
}

// crossings are where the outline of a half lies at a height.
func crossings(half []Point, y float64) []float64 {
	var out []float64
	for i, p := range half {
		q := half[(i+1)%len(half)]
		if (p.Y < y) != (q.Y < y) {
			out = append(out, p.X+(q.X-p.X)*(y-p.Y)/(q.Y-p.Y))
		}
	}
	return out
}

// TestEasesAreToScale: bars are as long as their eases, on their own side of the line.
func TestEasesAreToScale(t *testing.T) {
	o := func(size string, mm ...measure.Length) sizing.Option {
		out := sizing.Option{Size: size}
		for i, l := range mm {
			w := sizing.Loose
			if l < 0 {
				w = sizing.TooFar
			}
			out.Eases = append(out.Eases, sizing.Ease{Level: []string{"bust", "hip"}[i], Ease: l * measure.Millimetre, Wear: w})
		}
		return out
	}
	s := Eases([]sizing.Option{o("1", -40, 20), o("2", 10, 80)}, "2")
	var widths []float64
	for _, it := range s.Items {
		if it.ID == "" {
			continue
		}
		w := it.Lines[0].Points[1].X - it.Lines[0].Points[0].X
		if it.Style == Overlap {
			w = -w
		}
		widths = append(widths, w)
	}
	if len(widths) != 4 || widths[0] != -2*widths[1] || widths[3] != 8*widths[2] || widths[3] != -2*widths[0] {
		t.Errorf("bars %v", widths)
	}
	if len(Eases(nil, "").Items) != 0 {
		t.Error("nothing was drawn of nothing")
	}
}
