package verb_test

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// worked is the part of an answer of strips that is looked at here.
type worked struct {
	Strips []struct {
		Name     string
		Count    int
		CutWidth float64 `json:"cut_width_mm"`
		Length   float64 `json:"length_mm"`
		Clear    float64 `json:"clear_elastic_mm"`
		Ratio    float64
		Folds    []float64 `json:"folds_mm"`
		Parts    []struct {
			Edge  float64 `json:"edge_mm"`
			Basis string
		}
		Marks []struct {
			FromEnd float64 `json:"from_end_mm"`
			Ruled   float64 `json:"ruled_mm"`
			Step    float64 `json:"step_mm"`
		}
		Checks []struct {
			Kind, Text, Do string
			OK, Mind       bool
		}
		Offers []struct {
			Basis, Words, Do string
			Ratio            float64
		}
	}
	Cloth []struct {
		Code     string
		Outlines [][][2]float64 `json:"outlines_mm"`
	}
	Joins []struct{ Strip int }
	Short float64 `json:"short_mm"`
}

var tankEdges = []string{
	"--edge", "neck: back 21 cm turns 74 mark left strap, front 34 cm turns 166 no join",
	"--edge", "armhole x2: back 20 cm turns 52 mark side seam join here, front 22 cm turns 92 catches neck, strap 16 cm free",
	"--edge", "tie x2: tie 30 cm free",
}

// Neck, both armholes running on into straps, and ties in one call: the neck's standing band
// makes the armhole that crosses it longer by its width; clear elastic is as long as the straps.
func TestSeveralEdgesAtOnce(t *testing.T) {
	d := newDesk(t).made()
	var s worked
	d.loose(&s, append([]string{"strips", "--finish", "folded band", "--width", "15 mm", "--seam", "1 cm", "--clear-elastic"}, tankEdges...)...)
	if len(s.Strips) != 3 || s.Strips[1].Count != 2 {
		t.Fatalf("%+v", s)
	}
	if got := s.Strips[1].Parts[1].Edge; got != 235 {
		t.Errorf("22 cm and 15 mm of band are %g mm", got)
	}
	if s.Strips[1].Clear != 160 || s.Strips[2].Clear != 300 || s.Strips[0].Clear != 0 {
		t.Errorf("clear elastic %g, %g, %g", s.Strips[0].Clear, s.Strips[1].Clear, s.Strips[2].Clear)
	}
	for _, strip := range s.Strips {
		at := 0.0
		for _, m := range strip.Marks {
			if at += m.Step; at != m.Ruled || math.Abs(m.Ruled-m.FromEnd) > 0.5 || m.Ruled != math.Round(m.Ruled) {
				t.Errorf("%s: %+v", strip.Name, m)
			}
		}
	}
	if out := d.done(append([]string{"strips"}, tankEdges...)...); !strings.Contains(out, "catches the end of neck") || !strings.Contains(out, "from the centre") {
		t.Error(out)
	}
}

// What worked is offered the next time beside the other ways, and can be taken up.
func TestWhatWorkedIsOffered(t *testing.T) {
	d := newDesk(t).made()
	d.log(jersey, "2 m", "--kind", "jersey", "--width", "150 cm", "--stretch-across", "60%")
	neck := []string{"strips", "--edge", "neck: 60 cm turns 360, ring", "--finish", "folded band", "--fabric", jersey}
	d.done(append(neck, "--ratio", "88 %", "--worked", "lies flat", "--drew-out", "4 %")...)
	var s worked
	d.loose(&s, append(neck, "--ratio", "worked last time")...)
	if math.Abs(s.Strips[0].Ratio-0.88) > 1e-6 || s.Strips[0].Parts[0].Basis != "worked last time" {
		t.Errorf("%+v", s.Strips[0])
	}
	var bases []string
	for _, o := range s.Strips[0].Offers {
		bases = append(bases, o.Basis)
		if o.Basis == "worked last time" && !strings.Contains(o.Words, "lies flat") {
			t.Errorf("%+v", o)
		}
	}
	if !slices.Equal(bases, []string{"by the curve", "fabric's limit", "rule of thumb", "worked last time"}) {
		t.Errorf("%v", bases)
	}
	d.done("undo")
	d.refused(2, []string{"worked last time"}, append(neck, "--ratio", "worked last time")...)
}

// An L of a leftover takes strips along its arm and its foot, as no one rectangle in it does.
func TestStripsOnAnOddLeftoverByVerb(t *testing.T) {
	d := newDesk(t).made()
	d.log(jersey, "1 m", "--kind", "jersey", "--width", "150 cm")
	var odd cloth
	d.answer(&odd, "leftover", jersey, "--outline", "0,0 50,0 50,20 10,20 10,60 0,60", "--washed")
	var s worked
	d.loose(&s, "strips", "--edge", "armhole x2: 55 cm", "--finish", "folded band", "--width", "12 mm", "--seam", "8 mm", "--hold-in", "1",
		"--edge", "neck: 15 cm", "--from", odd.Code)
	if s.Short != 0 || len(s.Joins) != 0 || len(s.Cloth) != 1 || len(s.Cloth[0].Outlines) != 3 {
		t.Errorf("%+v", s)
	}
}

// A technique of one's own by its layers: three widths and one seam of 1 cm are 4 cm.
func TestOwnTechniqueByVerb(t *testing.T) {
	d := newDesk(t).made()
	d.done("technique", "Rolled rim", "three widths, one seam")
	var s worked
	d.loose(&s, "strips", "--edge", "62 cm", "--finish", "rolled", "--width", "1 cm", "--seam", "1 cm")
	if s.Strips[0].CutWidth != 40 || len(s.Strips[0].Folds) != 3 {
		t.Errorf("%+v", s.Strips[0])
	}
	d.loose(&s, "strips", "--edge", "62 cm", "--layers", "two widths, two seams, turned in", "--width", "2 cm", "--seam", "1 cm")
	if s.Strips[0].CutWidth != 60 {
		t.Errorf("%+v", s.Strips[0])
	}
	d.done("technique", "Rolled rim", "--remove")
	d.refused(2, []string{"rolled"}, "strips", "--edge", "62 cm", "--finish", "rolled")
}

// Elastic: 90 % of 74 cm and half an inch; a worked square of 250 in × 2 in is √500 = 22.36 in.
func TestElasticAndBiasByVerb(t *testing.T) {
	d := newDesk(t).made()
	var e struct {
		Cut    float64 `json:"cut_mm"`
		Checks []struct{ OK bool }
	}
	d.loose(&e, "elastic", "74 cm", "--hip", "102 cm", "--stretch", "90 %")
	if e.Cut != 678.7 || len(e.Checks) != 1 || !e.Checks[0].OK {
		t.Errorf("%+v", e)
	}
	var b struct {
		Width float64 `json:"width_mm"`
		Yield float64 `json:"bias_mm"`
		Most  float64 `json:"most_mm"`
	}
	d.loose(&b, "bias", "--wanted", "250 in", "--cut", "2 in", "--seam", "0")
	if math.Abs(b.Width/25.4-22.36) > 0.005 || b.Yield < 6350 || b.Yield > b.Most {
		t.Errorf("%+v", b)
	}
	d.loose(&b, "bias", "--width", "20 in", "--length", "20 in", "--cut", "2 in", "--seam", "0")
	if math.Abs(b.Yield-5080) > 0.01 { // printed: 200 in
		t.Errorf("%+v", b)
	}
	d.refused(2, []string{"--width"}, "bias", "--cut", "2 in")
}

// A V neck drawn by three points is two parts of its sides' lengths, √2 × 10 cm each.
func TestDrawnEdgeByVerb(t *testing.T) {
	d := newDesk(t).made()
	var s worked
	d.loose(&s, "strips", "--along", "0,0 10,-10 20,0")
	if len(s.Strips) != 1 || len(s.Strips[0].Parts) != 2 || math.Abs(s.Strips[0].Parts[0].Edge-141.421) > 0.001 {
		t.Errorf("%+v", s)
	}
	d.refused(2, []string{"--along"}, "strips", "--along", "here there")
}
