package stashui

import (
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// shelfIndex is the cloth that was read, with what the filter looks at worked out once, so
// that a shelf of tens of thousands answers while one types.
type shelfIndex struct {
	cloths  []stash.ClothState
	words   []string          // by cloth: all that a word may be found in, in small letters
	stretch []measure.Percent // by cloth: crosswise, assumed where it was not measured
	knit    []bool            // by cloth
	at      map[stash.ID]int
	longest measure.Length
}

// indexOf works on a worker. Words for stretch are by the classes given.
func indexOf(cloths []stash.ClothState, classes stash.StretchClasses) *shelfIndex {
	x := &shelfIndex{cloths: cloths, words: make([]string, len(cloths)), stretch: make([]measure.Percent, len(cloths)), knit: make([]bool, len(cloths)), at: make(map[stash.ID]int, len(cloths))}
	var of stash.ID // cloth of one fabric stands together
	var fabric string
	var stretch measure.Percent
	var knit bool
	for i := range cloths {
		c := &cloths[i]
		if i == 0 || c.Fabric.ID != of {
			full := stash.Assumed(c.Fabric)
			of, stretch, knit = c.Fabric.ID, full.Crosswise.Stretch.Value, c.Fabric.Construction.Knit()
			fabric = wordsOf(&c.Fabric, classes.Of(stretch), classes.Of(full.Lengthwise.Stretch.Value))
		}
		x.words[i] = fabric + strings.ToLower(c.Cloth.Code+" "+c.Cloth.Lot+" "+c.Cloth.Place+" "+c.Cloth.Notes)
		x.stretch[i], x.knit[i] = stretch, knit
		x.at[c.Cloth.ID] = i
		x.longest = max(x.longest, c.Cloth.Length)
	}
	return x
}

// wordsOf is what a word may be found in of a fabric that stretches so across and along.
func wordsOf(f *stash.Fabric, across, along string) string {
	return strings.ToLower(strings.Join([]string{f.Name, across, along, string(f.Construction), f.Fibres.String(), f.ColourName, f.Supplier, strings.Join(f.Tags, " "), ""}, " "))
}

// answer returns which cloths answer a filter, in their order.
func (x *shelfIndex) answer(f filter) []int {
	out := make([]int, 0, len(x.cloths))
	for i := range x.cloths {
		if x.matches(i, f) {
			out = append(out, i)
		}
	}
	return out
}

func (x *shelfIndex) matches(i int, f filter) bool {
	c := &x.cloths[i]
	switch {
	case f.knit != nil && *f.knit != x.knit[i]:
		return false
	case f.washed != nil && *f.washed != c.Cloth.Washed:
		return false
	case f.length > 0 && freeLength(c) < f.length:
		return false
	case f.width > 0 && c.Cloth.Width < f.width:
		return false
	case f.free && !c.FreeRoom(f.length, f.width):
		return false
	case f.stretch > 0 && x.stretch[i] < f.stretch:
		return false
	}
	for _, w := range f.words {
		if !strings.Contains(x.words[i], w) {
			return false
		}
	}
	return true
}

// freeLength is what may be free of a cloth's length at most: what is reserved takes its area away.
func freeLength(c *stash.ClothState) measure.Length {
	if c.FreeArea >= c.Area || c.Cloth.Width <= 0 {
		return c.Cloth.Length
	}
	return min(c.Cloth.Length, measure.Length(int64(c.FreeArea)/int64(c.Cloth.Width)))
}

// find returns the cloth of an ID.
func (x *shelfIndex) find(id stash.ID) (stash.ClothState, bool) {
	i, ok := x.at[id]
	if !ok {
		return stash.ClothState{}, false
	}
	return x.cloths[i], true
}
