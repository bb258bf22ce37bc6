package say

import (
	"tallycloth/stash"
)

// Label is what a cloth's label says beside its code: fabric, size, fibres, stretch, and
// lot where there is one. The size is what is there, of an outline its bounds.
func (v Voice) Label(c stash.ClothState) []string {
	washed := "Washed"
	if !c.Cloth.Washed {
		washed = "Not washed yet"
	}
	if c.Cloth.Place != "" {
		washed += ", " + c.Cloth.Place
	}
	lines := []string{c.Fabric.Name, v.Size(c.Cloth), washed}
	if f := c.Fabric.Fibres.String(); f != "" {
		lines = append(lines, f)
	}
	a := stash.Assumed(c.Fabric)
	lines = append(lines, "Stretch across "+Reading(c.Fabric.Crosswise.Stretch, a.Crosswise.Stretch))
	if c.Cloth.Lot != "" {
		lines = append(lines, "Lot "+c.Cloth.Lot)
	}
	return lines
}
