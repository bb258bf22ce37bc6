package draft

import (
	"math"

	"tallycloth/planner/binding"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Rules for what a top does not say, in millimetres, from its finished girths. Direct
// drafting takes the depth of the armhole, the widths of neck and shoulders as a share of
// the bust with a constant (usual in textbooks of flat pattern cutting; the shares here are
// from memory and rounded, for the line from the neck at the shoulder).
func tankHole(bust float64) float64   { return bust/8 + 95 }
func teeHole(bust float64) float64    { return bust/8 + 115 }
func shoulders(bust float64) float64  { return bust/6 + 240 }
func neckWidth(bust float64) float64  { return bust/12 + 85 }
func neckDepth(bust float64) float64  { return bust/20 + 50 }
func strapApart(bust float64) float64 { return bust / 5 } // from strap to strap

// waistDepth follows from the bust: in the table that Chart is of, the back waist grows by
// 1 3/4 in over 12 1/2 in of bust, 15 3/4 in at 31 1/2 in.
func waistDepth(bust float64) float64 { return 0.14*bust + 11.34*inch }

const (
	backNeck      = 28.0 // depth of the back neck (common practice: 2 to 3 cm)
	shoulderSlope = 38.0 // by how much the shoulder falls to its end (common practice: about 4 cm)
	strapOver     = 12.0 // by how much a strap is longer than its two ends are deep, for the slope
	leastSide     = 60.0 // of a side seam
)

// levelsOf puts waist, hip and hem of a top at their depths. A top that ends above the hip
// has its hip at the hem; above the waist, the waist half way up the side.
func (m measured) levelsOf(t *torso) error {
	t.hem = m[pattern.BodyLen]
	if t.hem-t.armhole < leastSide {
		return invalid("Measure the length from the neck at the shoulder to the hem, the armhole straight down to the underarm.",
			"A length of %s ends at the underarm, which lies %s down", cmText(t.hem), cmText(t.armhole))
	}
	t.waist = math.Min(waistDepth(m[pattern.Bust]), between(t.armhole, t.hem, 0.6))
	t.hip = math.Min(t.waist+hipDepth, t.hem)
	t.atUnder, t.atHip, t.atWaist = m[pattern.Bust]/4, m[pattern.Hip]/4, m[pattern.Waist]/4
	t.atHem = t.atHip
	if t.hem > t.hip {
		t.atHem = m.rule(HemGirth, hemRule(m, t)) / 4
	} else {
		m[HemGirth] = m[pattern.Hip]
	}
	return nil
}

// hemRule is the hem of what says none: as the hip, and of a dress wider by a fifth of
// what it is longer, up to a fifth (ours, so that one can walk).
func hemRule(m measured, t *torso) float64 {
	below := math.Max(t.hem-t.hip-100, 0)
	return m[pattern.Hip] * (1 + math.Min(below/2500, 0.2))
}

func draftTank(q *quick, size string, m measured) error {
	bust := m[pattern.Bust]
	m.rule(pattern.Waist, 0.94*(bust+m[pattern.Hip])/2)
	t := torso{armhole: m.rule(Armhole, tankHole(bust))}
	top := (m.rule(Strap, 2*(t.armhole/2)+strapOver) - strapOver) / 2
	if t.armhole-top < 50 {
		return invalid("The underarm lies at least 5 cm below the ends of the strap.", "A strap of %s ends %s down, and the underarm lies at %s", cmText(m[Strap]), cmText(top), cmText(t.armhole))
	}
	apart := strapApart(bust) / 2
	t.front = strapTop(top, apart, top+bust/12, 0.38)
	t.back = strapTop(top, apart, top+bust/18, 0.85)
	if err := m.levelsOf(&t); err != nil {
		return err
	}
	if err := q.putTorso(t, size); err != nil {
		return err
	}
	if len(q.p.Edges) == 0 {
		q.p.Edges = tankEdges(map[string]measure.Length{})
	}
	q.p.Edges[2].Segments[2].Free[size] = length(m[Strap])
	return nil
}

// putTorso adds front and back, pieces 0 and 1.
func (q *quick) putTorso(t torso, size string) error {
	for k, u := range []upper{t.front, t.back} {
		s := t.sides(u)
		if err := q.put(k, size, t.atWaist/2, s, mark{2, 0.5, "single"}, mark{3, 0.5, []string{"single", "double"}[k]}); err != nil {
			return err
		}
	}
	return nil
}

func draftTee(q *quick, size string, m measured) error {
	bust := m[pattern.Bust]
	m.rule(pattern.Waist, 0.97*math.Min(bust, m[pattern.Hip]))
	m.rule(Shoulders, math.Min(shoulders(bust), bust/2))
	tip := pt{shoulderSlope, m[Shoulders] / 2}
	neck := pt{0, m.rule(NeckWidth, math.Min(neckWidth(bust), 0.5*m[Shoulders])) / 2}
	t := torso{armhole: m.rule(Armhole, teeHole(bust))}
	front := m.rule(NeckDepth, math.Min(neckDepth(bust), 0.6*t.armhole))
	if err := teeFits(m, t, tip, neck, front); err != nil {
		return err
	}
	t.front, t.back = shoulderTop(neck, tip, front, -0.4), shoulderTop(neck, tip, math.Min(backNeck, front), 0.4)
	hollow := math.Min(1, (t.armhole-tip.x)/190) // the handles of a small armhole are shorter
	for _, u := range []*upper{&t.front, &t.back} {
		u.tipHold, u.scoop = u.tipHold*hollow, u.scoop*hollow
	}
	if err := m.levelsOf(&t); err != nil {
		return err
	}
	if err := q.putTorso(t, size); err != nil {
		return err
	}
	return q.sleeves(t, size, m)
}

// teeFits refuses necks and armholes that have no room.
func teeFits(m measured, t torso, tip, neck pt, front float64) error {
	switch under := m[pattern.Bust] / 4; {
	case tip.y > under+40:
		return invalid("Measure the shoulders straight across, from armhole to armhole.", "A %s of %s is wider than the garment at the underarms, %s across", Shoulders, cmText(m[Shoulders]), cmText(2*under))
	case neck.y > tip.y-20:
		return invalid("Measure both straight across.", "A %s of %s leaves no shoulder of %s", NeckWidth, cmText(m[NeckWidth]), cmText(m[Shoulders]))
	case t.armhole < tip.x+60:
		return invalid("Measure straight down from the neck at the shoulder to the level of the underarm.", "An %s of %s is too shallow for an arm", Armhole, cmText(t.armhole))
	case front > m[pattern.BodyLen]-100:
		return invalid("Measure from the neck at the shoulder down to the neck seam.", "A %s of %s reaches to the hem", NeckDepth, cmText(front))
	}
	return nil
}

// sleeves adds the sleeve, piece 2, or takes it away from a dress without.
func (q *quick) sleeves(t torso, size string, m measured) error {
	if m[SleeveLen] == 0 {
		if len(q.p.Sizes) > 0 && len(q.p.Pieces) == 3 {
			return invalid("Type it in every size, or in none.", "The sleeve length is missing")
		}
		q.p.Pieces = q.p.Pieces[:2]
		if len(q.p.Edges) == 1 {
			q.p.Edges = append(q.p.Edges, bandedArmholes())
		}
		return nil
	}
	if len(q.p.Pieces) == 2 {
		return invalid("Type it in every size, or in none.", "Only some sizes have a sleeve length")
	}
	hole := t.holeLength()
	// Cap height of a knit top: a quarter of the armhole (textbooks give a quarter to a
	// third, lower for knits; from memory). Where the upper arm is said, it follows from that.
	height := hole / 4
	if m[UpperArm] > 0 {
		var ok bool
		if height, ok = capHeight(hole, m[UpperArm]/2); !ok {
			return invalid("Measure round the sleeve just below the underarm, and the armhole again.", "A sleeve of %s round does not go into an armhole of %s", cmText(m[UpperArm]), cmText(hole))
		}
	}
	if m[SleeveLen] < height+20 {
		return invalid("Measure from the shoulder seam down to the hem.", "A %s of %s ends above the underarm of the sleeve, %s down", SleeveLen, cmText(m[SleeveLen]), cmText(height))
	}
	s := sleeve(hole, height, m[SleeveLen]-height)
	arm := m.rule(UpperArm, 2*s[1].pts[1].y)
	taper := 0.9
	if q.Kind == LongSleeve {
		taper = 0.6
	}
	out := m.rule(Wrist, taper*arm) / 2
	for i, at := range []struct{ side, point int }{{0, 0}, {0, 1}, {1, 0}, {3, 1}} {
		s[at.side].pts[at.point].y = []float64{-out, out, out, -out}[i]
	}
	return q.put(2, size, 0, s, mark{2, 0.25, "double"}, mark{2, 0.75, "single"}, mark{2, 0.5, "single"})
}

// capHeight is the height at which the cap of a sleeve so wide on either side of its middle
// goes into an armhole: the higher, the longer. It is false where none does.
func capHeight(hole, half float64) (float64, bool) {
	lo, hi := 10.0, hole/2
	longer := func(h float64) bool { return 2*lengthOf(capHalf(half, h)) > hole+capEase }
	if longer(lo) || !longer(hi) {
		return 0, false
	}
	for range 50 {
		if mid := (lo + hi) / 2; longer(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo, true
}

// bandedArmholes are the armholes of a garment without sleeves.
func bandedArmholes() pattern.Edge {
	return pattern.Edge{Name: "armhole", Count: 2, Closed: true, Finish: string(binding.FoldedBand), Width: length(12),
		Segments: []pattern.EdgeSegment{
			{Name: "back armhole", Piece: "B", Path: "armhole", Times: 1, MarkEnd: "side seam", JoinHere: true},
			{Name: "front armhole", Piece: "A", Path: "armhole", Times: 1, MarkEnd: "shoulder", NoJoin: true}}}
}
