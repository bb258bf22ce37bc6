package planner

import (
	"cmp"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// togetherGap is how far apart along a cloth two outlines may lie so that nothing between them is
// of use (ours).
const togetherGap = 2 * measure.Centimetre

// lengthsTaken is the length of a plain cloth that is reserved for each garment: of each stretch on
// which outlines lie, over the whole width, as much as a garment has of their area. Layouts on cloth that
// is not washed yet are of what it will be: what is taken of it now is longer by what it will shrink.
func lengthsTaken(c stash.ClothState) map[stash.ID]measure.Length {
	out := map[stash.ID]measure.Length{}
	if !c.Cloth.Plain() {
		return out
	}
	shrinks := measure.Percent(0)
	if !c.Cloth.Washed {
		shrinks = min(stash.Assumed(c.Fabric).Lengthwise.Shrinkage.Value, 0)
	}
	type span struct {
		from, to int64
		area     measure.Area
		garment  stash.ID
	}
	var all []span
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			b := p.Outline.Bounds()
			all = append(all, span{b.Min.X, b.Max.X, measure.Area(p.Outline.Area()), r.GarmentID})
		}
	}
	slices.SortFunc(all, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	for i := 0; i < len(all); {
		end, k := all[i].to, i+1
		for k < len(all) && all[k].from <= end+int64(togetherGap) {
			end, k = max(end, all[k].to), k+1
		}
		var sum measure.Area
		of := map[stash.ID]measure.Area{}
		for _, s := range all[i:k] {
			sum += s.area
			of[s.garment] += s.area
		}
		for id, a := range of {
			out[id] += stash.BeforeWashing(measure.Length(float64(end-all[i].from)*float64(a)/float64(max(sum, 1))), shrinks)
		}
		i = k
	}
	return out
}

// plannedOn is the part that is planned on a cloth; nil where there is none.
func (g *GarmentCost) plannedOn(cloth stash.ID) *ClothPart {
	if g == nil {
		return nil
	}
	for i := range g.Cloth {
		if p := &g.Cloth[i]; p.Planned && p.ClothID == cloth {
			return p
		}
	}
	return nil
}
