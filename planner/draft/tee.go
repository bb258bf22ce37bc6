package draft

import (
	"math"

	"tallycloth/planner/binding"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Ease of the sleep shirt over the body girth, in millimetres (common practice: a
// skimming knit top leaves a little).
const (
	teeBust = 60.0
	teeHip  = 40.0
	capEase = 6.0 // the sleeve cap is this much longer than the armhole
)

func teeTorso(b Body) torso {
	grow := b.Bust - 800
	neck, tip := pt{0, 80 + 0.03*grow}, pt{38, 192 + 0.08*grow}
	t := torso{
		front:   shoulderTop(neck, tip, 98+0.02*grow, -0.4),
		back:    shoulderTop(neck, tip, 28, 0.4),
		armhole: 222 + 0.11*grow,
		atUnder: (b.Bust + teeBust) / 4,
		atHip:   math.Max((b.Hip+teeHip)/4, (b.Bust+teeBust)/4),
	}
	t.waist = b.BackWaist + 8
	t.hip = t.waist + hipDepth
	t.hem, t.atHem = t.hip+50, t.atHip
	t.atWaist = min(t.atUnder, t.atHip) - 6
	return t
}

// shoulderTop is a top edge that is a shoulder seam. The armhole reaches it
// square. The neck leaves it lean radians inwards of square; with the same lean
// outwards in front the two angles make a half turn, so that the edge runs on over
// the seam without a corner and turns most in front.
func shoulderTop(neck, tip pt, neckDepth, lean float64) upper {
	down := neck.toward(tip)
	u := upper{topName: "shoulder", allowance: sideSeam, edge: sideSeam, neck: neck, tip: tip, neckDepth: neckDepth}
	square := pt{down.y, -down.x}
	u.neckWay, u.tipWay = square.turned(-lean), square.times(-1)
	u.neckHold, u.tipHold, u.scoop = 0.55*neckDepth, 96, 30
	return u
}

// sleeve drafts the stitching line of a short sleeve, x down the arm from the top
// of the cap. Its breadth is found so that the cap is capEase longer than the
// armhole it is set into: the longer the breadth, the longer the cap.
func sleeve(armhole, capHeight, length float64) []side {
	lo, hi := 60.0, armhole
	for range 60 {
		mid := (lo + hi) / 2
		if 2*lengthOf(capHalf(mid, capHeight)) < armhole+capEase {
			lo = mid
		} else {
			hi = mid
		}
	}
	y := (lo + hi) / 2
	right := capHalf(y, capHeight) // underarm to top
	left := make([]pt, len(right))
	for i, p := range right {
		left[len(right)-1-i] = pt{p.x, -p.y}
	}
	wrist := y * 0.9
	end := capHeight + length
	return []side{
		straight("hem", hemDepth, pt{end, -wrist}, pt{end, wrist}),
		straight("underarm back", sideSeam, pt{end, wrist}, pt{capHeight, y}),
		{"cap", joined(right, left), sideSeam},
		straight("underarm front", sideSeam, pt{capHeight, -y}, pt{end, -wrist}),
	}
}

// capHalf is half a sleeve cap from the underarm to the top: it leaves the
// underarm level and comes to the top square to the grain.
func capHalf(y, height float64) []pt {
	return bezier(pt{height, y}, pt{height - 4, y * 0.58}, pt{2, y * 0.50}, pt{0, 0})
}

// Tee drafts a skimming sleep shirt with short sleeves and a folded neckband.
func Tee(chart []Body) pattern.Pattern {
	p := teeFrame()
	p.Name, p.Maker, p.Kind = "Harbour sleep shirt", studio, "sleep shirt"
	p.Notes = "Skimming sleep shirt with short sleeves and a folded neckband. For children's sleepwear the flammability rules of the country come first."
	for _, b := range chart {
		t := teeTorso(b)
		t.addTo(&p, b)
		p.Pieces[2].Outlines[b.Size] = sleeveOutline(sleeve(t.holeLength(), 118+0.02*(b.Bust-800), 110))
	}
	p.Yards = yards(p, Shop{widths, eighth})
	return p
}

// holeLength is the length of an armhole's stitching line, front and back.
func (t torso) holeLength() float64 {
	return lengthOf(t.sides(t.front)[3].pts) + lengthOf(t.sides(t.back)[3].pts)
}

// sleeveOutline is a sleeve with its notches: one in front, two behind, one at the top.
func sleeveOutline(s []side) pattern.Outline {
	return grainLine(outline(s, notchOn(s[2], 0.25, "double"), notchOn(s[2], 0.75, "single"), notchOn(s[2], 0.5, "single")), 0)
}

// teeFrame is a top with sleeves and a neckband, without a size yet.
func teeFrame() pattern.Pattern {
	return pattern.Pattern{
		Levels:        torsoLevels(),
		SeamAllowance: length(sideSeam), HemAllowance: length(hemDepth),
		Roles: []pattern.Role{
			{Name: pattern.Main, StretchAround: 15 * measure.OnePercent, Recovery: 70 * measure.OnePercent,
				WeightMin: 120 * measure.GramPerSquareMetre, WeightMax: 240 * measure.GramPerSquareMetre, Knit: true},
			{Name: pattern.Binding, StretchAround: 35 * measure.OnePercent, Recovery: 85 * measure.OnePercent, Knit: true, Optional: true},
		},
		Pieces: []pattern.Piece{
			{Code: "A", Name: "Front", Role: pattern.Main, Cut: 1, OnFold: true, Outlines: map[string]pattern.Outline{}},
			{Code: "B", Name: "Back", Role: pattern.Main, Cut: 1, OnFold: true, Outlines: map[string]pattern.Outline{}},
			{Code: "C", Name: "Sleeve", Role: pattern.Main, Cut: 2, Pairs: true, Outlines: map[string]pattern.Outline{}},
		},
		Edges: []pattern.Edge{{Name: "neck", Count: 1, Closed: true, Passes: "head", Finish: string(binding.FoldedBand), Width: length(18),
			Segments: []pattern.EdgeSegment{
				{Name: "front neck", Piece: "A", Path: "neck", Times: 2, MarkEnd: "shoulder", NoJoin: true},
				{Name: "back neck", Piece: "B", Path: "neck", Times: 2, MarkEnd: "shoulder"}}}},
		Notions: []pattern.NotionNeed{{Name: "polyester thread", Kind: "thread", Unit: "m", Quantity: map[string]float64{"": 85}}},
		Work: []pattern.Step{
			{Text: "Cut the pattern pieces and the neckband strip to width."},
			{Text: "Sew the shoulders, set the sleeves in flat, sew side seams and sleeves in one."},
			{Text: "Try on. Note how much to take in at the sides.", TryOn: true, Asks: "take-in"},
			{Text: "Cut the neckband to length, close it to a ring and sew it on."},
			{Text: "Try on again and mark both hems.", TryOn: true, Asks: "hem"},
			{Text: "Sew the hems of body and sleeves."},
		},
	}
}
