package answer

import (
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/widgets"
)

// SwatchOf draws a cloth, in its own outline, as long as it is beside the longest shown.
func SwatchOf(c stash.ClothState, longest measure.Length) widgets.Swatch {
	s := widgets.Swatch{Colour: c.Fabric.Colour, Woven: !c.Fabric.Construction.Knit(), Ribbed: c.Fabric.Construction == stash.Rib, Length: 1, Free: 1}
	if longest > 0 {
		s.Length = float32(c.Cloth.Length) / float32(longest)
	}
	if !c.Cloth.Plain() {
		s.Outline = &c.Cloth.Outline
	}
	if c.Area > 0 {
		s.Free = float32(c.FreeArea) / float32(c.Area)
	}
	return s
}
