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

// Reserved parts are not free: 1.3 m of which 0.75 m over the full width are kept have no free metre.
func TestFilterCountsWhatIsFree(t *testing.T) {
	const cm = measure.Centimetre
	c := stash.ClothState{Cloth: stash.Cloth{Length: 130 * cm, Width: 140 * cm}}
	c.Area = c.Cloth.Area()
	for kept, want := range map[measure.Length]bool{0: true, 25 * cm: true, 75 * cm: false} {
		c.FreeArea = c.Area - measure.Area(kept*140*cm)
		if got := indexOf([]stash.ClothState{c}, stash.StretchClasses{}).matches(0, readFilter("at least 1 m free", measure.Metre)); got != want {
			t.Errorf("with %v reserved: %v", kept, got)
		}
	}
}
