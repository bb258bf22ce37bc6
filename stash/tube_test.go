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
