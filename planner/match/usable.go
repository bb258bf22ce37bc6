package match

import (
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// usable is the part of a cloth that counts: without raw ends and selvedges, and
// for unwashed cloth as long and wide as it will be after washing. The layout
// starts at the low corner of what is there now, so what is laid on the smaller
// size also lies within the cloth as it is.
type usable struct {
	box             shape.Box // now, in the cloth's frame
	length, width   int64     // after washing
	dcLength, dcWid measure.Percent
	assumed         bool  // the change is assumed
	long, wide      int64 // as it lies, raw ends and selvedges in it
	tube            bool  // nobody slit it
}

// stretchOf is a range of x over the whole width that nothing is reserved in.
type stretchOf struct{ from, to int64 }

func usableOf(c stash.ClothState, endLoss measure.Length) usable {
	u := usable{box: c.Cloth.Usable(c.Fabric, endLoss), long: int64(c.Cloth.Length), wide: int64(c.Cloth.Width), tube: c.Tube()}
	u.length, u.width = u.box.Length(), u.box.Width()
	if c.Cloth.Washed {
		return u
	}
	along, across := factsOf(c.Fabric)
	u.dcLength, u.dcWid = shrinks(along.shrinkage), shrinks(across.shrinkage)
	u.assumed = along.shrinkage.assumed || across.shrinkage.assumed
	u.length = int64(stash.AfterWashing(measure.Length(u.length), u.dcLength))
	u.width = int64(stash.AfterWashing(measure.Length(u.width), u.dcWid))
	return u
}

// Counts is what counts of a cloth in its frame: without raw ends and selvedges, of unwashed cloth as
// long and wide as it will be. Layouts lie in it, and its folds.
func Counts(c stash.ClothState, endLoss measure.Length) shape.Box {
	u := usableOf(c, endLoss)
	return shape.Box{Min: u.box.Min, Max: u.box.Min.Add(shape.Point{X: u.length, Y: u.width})}
}

// shrinks returns a change in washing that takes cloth away; what grows is not counted on.
func shrinks(f fact) measure.Percent {
	if !f.known {
		return 0
	}
	return min(f.value, 0)
}

// along is the ground by length: what is asked and what there is, where that is all of it with how
// it comes about.
func (u usable) along(asked, has int64) Reason {
	r := Reason{What: Length, Grain: lengthwise, Asked: asked, Has: has}
	if has == u.length {
		r.Of = Counted{measure.Length(u.long), measure.Length(u.long - u.box.Length()), u.dcLength}
	}
	return r
}

// across is the ground by width.
func (u usable) across(asked int64) Reason {
	return Reason{What: Width, Grain: crosswise, Asked: asked, Has: u.width,
		Of: Counted{measure.Length(u.wide), measure.Length(u.wide - u.box.Width()), u.dcWid}}
}

// against is a ground that speaks against the cloth.
func against(r Reason) Reason {
	r.Bad = true
	return r
}

// washing says whether the cloth will be another size once it is washed.
func (u usable) washing() bool { return u.dcLength < 0 || u.dcWid < 0 }

// freeStretches lists the ranges of usable length, in the laid frame and longest
// first, in which nothing is reserved, clearance kept.
func (u usable) freeStretches(live []stash.Reservation, clearance int64) []stretchOf {
	var taken []stretchOf
	for _, r := range live {
		for _, p := range r.Pieces {
			b := p.Outline.Bounds()
			taken = append(taken, stretchOf{b.Min.X - u.box.Min.X - clearance, b.Max.X - u.box.Min.X + clearance})
		}
	}
	slices.SortFunc(taken, func(a, b stretchOf) int { return int(a.from - b.from) })
	var out []stretchOf
	at := int64(0)
	for _, t := range append(taken, stretchOf{u.length, u.length}) {
		if t.from > at {
			out = append(out, stretchOf{at, min(t.from, u.length)})
		}
		at = max(at, t.to)
	}
	slices.SortStableFunc(out, func(a, b stretchOf) int { return int((b.to - b.from) - (a.to - a.from)) })
	return out
}
