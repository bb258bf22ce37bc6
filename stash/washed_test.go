package stash

import (
	"testing"

	"tallycloth/stash/measure"
)

// TestTube: a tube stays one when washing changes its width; leftovers and narrower pieces are slit.
func TestTube(t *testing.T) {
	const cm = measure.Centimetre
	for name, c := range map[string]struct {
		cloth Cloth
		tube  bool
	}{
		"as bought":                  {Cloth{Width: 120 * cm}, true},
		"washed, 4 % narrower":       {Cloth{Width: 1152 * cm / 10, Washed: true}, true},
		"a rest of the whole width":  {Cloth{Width: 120 * cm, CutFrom: ID{1}}, true},
		"washed, and half as wide":   {Cloth{Width: 60 * cm, Washed: true}, false},
		"a leftover nearly as wide":  {Cloth{Width: 115 * cm, Washed: true, CutFrom: ID{1}}, false},
		"narrower and never washed":  {Cloth{Width: 115 * cm}, false},
		"washed, but of flat fabric": {Cloth{Width: 60 * cm, Washed: true}, false},
	} {
		c.cloth.Length = measure.Metre
		s := ClothState{Cloth: c.cloth, Fabric: Fabric{FullWidth: 60 * cm, Tubular: name != "washed, but of flat fabric"}}
		if got := s.Tube(); got != c.tube {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// TestOnceWashed: what is not measured is assumed by construction, jersey 6 % shorter and 4 % narrower;
// washed cloth stays, and growing is not counted on.
func TestOnceWashed(t *testing.T) {
	const cm = measure.Centimetre
	s := ClothState{Cloth: Cloth{Length: 200 * cm, Width: 150 * cm}, Fabric: Fabric{Construction: Jersey}}
	if l, w := s.OnceWashed(); l != 188*cm || w != 144*cm {
		t.Errorf("%d × %d", l, w)
	}
	s.Fabric.Lengthwise.Shrinkage, s.Fabric.Crosswise.Shrinkage = Measured(2*measure.OnePercent), Measured(-10*measure.OnePercent)
	if l, w := s.OnceWashed(); l != 200*cm || w != 135*cm {
		t.Errorf("%d × %d", l, w)
	}
	s.Cloth.Washed = true
	if l, w := s.OnceWashed(); l != 200*cm || w != 150*cm {
		t.Errorf("%d × %d", l, w)
	}
}
