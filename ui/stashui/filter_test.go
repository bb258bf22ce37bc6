package stashui

import (
	"testing"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func TestFilterLine(t *testing.T) {
	c := stash.ClothState{
		Fabric: stash.Fabric{Name: "Moss rib", Construction: stash.Rib, Crosswise: stash.Grain{Stretch: stash.Measured(6000)}},
		Cloth:  stash.Cloth{Length: measure.Metre, Width: 140 * measure.Centimetre, Place: "hall cupboard", Washed: true},
	}
	for text, want := range map[string]bool{
		"":          true,
		"moss":      true,
		"moss hall": true,
		"knits, at least 1 m free, stretch over 30 %, in the hall cupboard": true,
		"at least 1.2 m":          false,
		"at least 1,5 m wide":     false,
		"at least 135 cm wide":    true,
		"stretch 70":              false,
		"wovens":                  false,
		"unwashed":                false,
		"washed rib":              true,
		"jersey":                  false,
		"at least 1 yd, cupboard": true,
	} {
		if got := indexOf([]stash.ClothState{c}, stash.StretchClasses{}).matches(0, readFilter(text, measure.Metre)); got != want {
			t.Errorf("%q: got %v, want %v", text, got, want)
		}
	}
}
