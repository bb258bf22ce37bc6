package adjust

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Figures by which levels are told from an outline.
const (
	belowArm  = int64(2 * measure.Centimetre)  // what the allowance of an armhole takes, with room (ours)
	aboveFoot = int64(4 * measure.Centimetre)  // a waist lies at least so far above the hem (ours)
	hipBelow  = int64(18 * measure.Centimetre) // from waist to hip: 7 in, common practice for a misses' figure
	hipReach  = int64(30 * measure.Centimetre) // a hip lies at most so far below the waist (ours)
	seatAbove = int64(6 * measure.Centimetre)  // from the fullest hip down to the crotch (ours)
	step      = int64(5 * measure.Millimetre)
	wider     = int64(measure.Millimetre / 10)
)

// LevelsOf tells the depths of the levels of a pattern piece in a size from its edges and its
// outline: the underarm from the armhole (of a sleeve from its cap) or where the side seam
// begins; the waist from its edge, or where the side is narrowest below the underarm; the hip where it
// is widest below that, or 18 cm below where it only flares; the crotch from the inseam. A
// level that cannot be told is left out.
func LevelsOf(p pattern.Pattern, q pattern.Piece, size string) map[string]int64 {
	b := &body{Piece: q, o: q.Outlines[size]}
	if !q.WithoutAllowance {
		b.seam, b.hem = int64(p.SeamAllowance), int64(p.HemAllowance)
	}
	if len(b.o.Cut) < 3 {
		return nil
	}
	out := map[string]int64{Top: b.top(), HemLevel: b.foot()}
	if x, ok := deepest(b.o, "cap"); ok {
		out[Underarm] = x
		return out
	}
	if inseams := paths(b.o, "inseam"); len(inseams) > 0 {
		out[Crotch], _ = line(inseams[0].Points).depths()
	}
	b.shaped(out)
	return out
}

// top is where the uppermost stitching line begins, or else the cutting line.
func (b *body) top() int64 {
	x := b.o.Cut.Bounds().Min.X
	for i, e := range b.o.Edges {
		if len(e.Points) > 0 {
			if t, _ := line(e.Points).depths(); i == 0 || t < x {
				x = t
			}
		}
	}
	return x
}

// foot is the depth of the hem's fold.
func (b *body) foot() int64 {
	if x, ok := deepest(b.o, "hem"); ok {
		return x
	}
	return b.o.Cut.Bounds().Max.X - b.hem
}

// deepest is the greatest depth of an edge.
func deepest(o pattern.Outline, name string) (x int64, ok bool) {
	for _, e := range paths(o, name) {
		if _, foot := line(e.Points).depths(); !ok || foot > x {
			x, ok = foot, true
		}
	}
	return x, ok
}

// shaped tells underarm, waist and hip by the side seam.
func (b *body) shaped(out map[string]int64) {
	arm, hasArm := deepest(b.o, "armhole")
	waist, hasWaist := deepest(b.o, "waist")
	side, ok := b.side()
	switch {
	case hasArm:
		out[Underarm] = arm
	case hasWaist:
		out[Waist] = waist
	case ok:
		top, _ := side.depths()
		out[Underarm] = top + b.seam
	}
	if !ok {
		return
	}
	if !hasWaist {
		if waist, ok = narrowest(side, out[Underarm]+belowArm, out[HemLevel]-aboveFoot); !ok {
			return
		}
		out[Waist] = waist
	}
	if crotch, ok := out[Crotch]; ok {
		out[HipLevel] = crotch - seatAbove
	} else if hip, ok := widest(side, waist, out[HemLevel]); ok {
		out[HipLevel] = hip
	}
}

// side is the side seam, with y outwards.
func (b *body) side() (line, bool) {
	all := runs(b.o.Cut)
	at := b.sides(all, "")
	if len(at) == 0 {
		return nil, false
	}
	l := all[at[len(at)-1]]
	if inwards(l) > 0 {
		return l, true
	}
	out := make(line, len(l))
	for i, p := range l {
		out[i] = shape.Point{X: p.X, Y: -p.Y}
	}
	return out, true
}

// narrowest is where a side is farthest in, between two depths.
func narrowest(side line, from, to int64) (int64, bool) {
	best, at := int64(1)<<60, int64(0)
	for x := from; x < to; x += step {
		if y, ok := side.at(x); ok && y < best {
			best, at = y, x
		}
	}
	return at, at > from
}

// widest is where a side is farthest out below the waist; where it flares on it is hipBelow.
func widest(side line, waist, foot int64) (int64, bool) {
	best, at := int64(-1)<<60, int64(0)
	for x := waist; x < foot; x += step {
		if y, ok := side.at(x); ok && y > best+wider {
			best, at = y, x
		}
	}
	if at-waist > hipReach {
		at = waist + hipBelow
	}
	return at, at > waist
}

// inwards is +1 where the piece lies towards −y from a run of its cutting line, which is
// counter-clockwise, else −1.
func inwards(l line) int64 {
	if l[0].X > l[len(l)-1].X {
		return 1
	}
	return -1
}
