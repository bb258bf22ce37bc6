package match

import (
	"tallycloth/planner/nest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// bed is how cloth lies to be cut, as far as a layout depends on it; two cloths
// with one bed can share a layout. Widths are usable ones, in µm.
type bed struct {
	width     int64 // of the open cloth
	fold      int64 // depth of the fold from the low edge, 0 for one layer
	second    int64 // depth of a second fold from the high edge, 0 for none
	slack     int64 // width lost because a knit is folded along a wale
	margin    int64 // width kept free to tell "enough" from "tight"
	tube      bool  // of a tube, its width both layers: it has two folds as it lies
	turned    bool  // cut crosswise
	direction stash.Direction
	anyFace   bool  // the fabric has no distinct face
	repeat    int64 // print repeat that match marks must meet, or 0
	strips    int   // into how many parts strips laid among the pattern pieces are cut, 0: not among them
}

// foldSlack is what a fold along a wale of a knit may be off (common practice).
const foldSlack = 10_000

func bedOf(u usable, f stash.Fabric) bed {
	b := bed{width: u.width, direction: f.Direction, anyFace: f.SameBothFace, repeat: int64(f.RepeatAlong)}
	b.tube = u.tube
	if f.Construction.Knit() {
		b.slack = foldSlack
	}
	return b
}

// laidWidth is the width of the cloth as it lies.
func (b bed) laidWidth() int64 {
	if b.second > 0 {
		return b.width / 2
	}
	return b.width - b.fold
}

// bands are the layers of the cloth as it lies, from the first fold on. The slack
// is lost where the upper layer ends, the margin as well.
func (b bed) bands() []nest.Band {
	loss := b.slack + b.margin/2
	if b.asTube() { // no edge ends in the middle, whose wale could be off
		loss = b.margin / 2
	}
	switch {
	case b.fold == 0:
		return []nest.Band{{From: 0, To: b.width - b.margin, Layers: 1}}
	case b.second > 0:
		return keepBands(
			nest.Band{From: 0, To: b.fold - loss/2, Layers: 2, FoldLow: true},
			nest.Band{From: b.fold + loss/2, To: b.laidWidth(), Layers: 2, FoldHigh: true})
	}
	return keepBands(
		nest.Band{From: 0, To: b.fold - loss, Layers: 2, FoldLow: true},
		nest.Band{From: b.fold, To: b.laidWidth() - b.margin, Layers: 1})
}

func keepBands(bands ...nest.Band) []nest.Band {
	var out []nest.Band
	for _, b := range bands {
		if b.To > b.From {
			out = append(out, b)
		}
	}
	return out
}

// fabric is the bed as the layout engine sees it; length 0 is an open strip.
func (b bed) fabric(length int64) nest.Fabric {
	return nest.Fabric{Width: b.laidWidth(), Length: length, Bands: b.bands()}
}

// asTube says whether the cloth lies on the two folds of a tube, which is not slit yet: it
// may be turned round so that any wale is at the folds.
func (b bed) asTube() bool { return b.tube && b.second > 0 }

// folds are the depths as a Frame says them.
func (b bed) folds() []measure.Length {
	switch {
	case b.fold == 0:
		return nil
	case b.second == 0:
		return []measure.Length{measure.Length(b.fold)}
	}
	return []measure.Length{measure.Length(b.fold), measure.Length(b.second)}
}

// folded lists the ways worth folding for the pattern pieces: selvedges together
// as at home, at the depth the doubled pieces need where others are cut once, and
// selvedges to the middle where several pieces lie on a fold. A tube lies on its two
// folds, or is slit and folded in any of these ways.
func (q *Question) folded(b bed) []bed {
	b.fold = b.width / 2
	out := []bed{b}
	fold, pair, single := q.depths(b)
	margin := int64(q.ask.Tight.Width) / 2 // so that there is room for it
	loss := b.slack + margin
	if d := max(fold, pair) + loss; single && d > loss && d < b.width/2 {
		p := b
		p.fold = d
		out = append(out, p)
	}
	between := loss
	if b.tube {
		between = margin
	}
	if d := fold + between/2 + 1; (fold > 0 || b.tube) && d < b.width/2 {
		d = max(d, b.width/4)
		g := b
		g.fold, g.second = d, b.width/2-d
		out = append(out, g)
	}
	return out
}

// depths are the greatest widths of pattern pieces on the fold and of mirrored
// pairs as laid, and whether some piece is cut from a single layer.
func (q *Question) depths(b bed) (fold, pair int64, single bool) {
	for _, it := range q.items(b, scale{}) {
		box := it.item.Outline.Bounds()
		switch {
		case it.item.OnFold:
			fold = max(fold, box.Max.Y)
		case it.item.Layers == 2:
			pair = max(pair, box.Width())
		default:
			single = true
		}
	}
	return fold, pair, single
}
