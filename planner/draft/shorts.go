package draft

import (
	"math"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// casing is the depth turned in at the waist of the shorts for a 30 mm elastic:
// elastic, a little play and the turn (common practice: 1/8 to 1/4 in of play).
const casing = 42.0

// leg is the stitching line of half of one side of pull-on shorts: the centre seam
// with its crotch curve, the inseam, the hem and the side, x down from the waist at
// the side, y from the centre outwards. The crotch reaches beyond the centre by about
// 1/24 of the hip in front and 1/12 behind, and the back centre leans and rises for
// the seat (common practice, within the range of textbook trouser blocks; from memory).
type leg struct {
	rise, inseam, atHip, extension float64
	lean, lift                     float64 // of the centre at the waist: inwards, upwards
	drop                           float64 // of the crotch point, so that both inseams are equal
	trim                           float64 // how much narrower the side is at the waist than at the hip
	inLean, outLean                float64 // how far the inseam and the side come in to the hem
}

// Inseam and hem of the shorts in millimetres (ours).
const (
	inseam   = 95.0
	sideTrim = 8.0
	inLean   = 10.0
	outLean  = 4.0
)

func legs(b Body) (front, back leg) {
	hip := b.Hip * 1.02
	rise := 0.25*b.Hip + 34
	front = leg{rise: rise, inseam: inseam, atHip: hip/4 - 6, extension: hip / 24, trim: sideTrim, inLean: inLean, outLean: outLean}
	back = leg{rise: rise, inseam: inseam, atHip: hip/4 + 6, extension: hip / 12, lean: seat, lift: seat, drop: 2, trim: sideTrim, inLean: inLean, outLean: outLean}
	return front, back
}

// hemIn is how far the hem lies outwards of the crotch point. It is found so that the
// inseam is as long as a straight one that leans by inLean over its height, front and
// back alike.
func (l leg) hemIn() float64 {
	down := l.inseam - l.drop
	return math.Sqrt(l.inseam*l.inseam + l.inLean*l.inLean - down*down)
}

// sides drafts the leg, counter-clockwise from the top of the centre. The crotch
// curve meets the inseam square, the waist the leaning centre likewise.
func (l leg) sides() []side {
	top := pt{-l.lift, l.lean}
	waistOut, hipOut := pt{0, l.atHip - l.trim}, pt{l.rise - 60, l.atHip}
	crotch := pt{l.rise + l.drop, -l.extension}
	hem := l.rise + l.inseam
	hemIn, hemOut := pt{hem, crotch.y + l.hemIn()}, pt{hem, l.atHip - l.outLean}
	return []side{
		{"centre", l.centre(top, crotch, crotch.toward(hemIn)), sideSeam},
		straight("inseam", sideSeam, crotch, hemIn),
		straight("hem", hemDepth, hemIn, hemOut),
		{"side", joined([]pt{hemOut, hipOut}, bezier(hipOut, hipOut.add(pt{-50, 0}), waistOut.add(pt{50, 1}), waistOut)), sideSeam},
		straight("waist", casing, waistOut, top),
	}
}

// centre is the centre seam from the waist to the crotch, whose curve meets the inseam,
// which leaves the crotch in a direction, square.
func (l leg) centre(top, crotch, in pt) []pt {
	straightTo := pt{l.rise * 0.55, 0}
	down := top.toward(straightTo)
	return joined([]pt{top, straightTo}, bezier(straightTo, straightTo.add(down.times(l.rise*0.42)),
		crotch.add(pt{-in.y, in.x}.times(l.extension*0.7)), crotch))
}

// waist is the girth of the casing before the elastic gathers it.
func waist(front, back leg) float64 {
	return 2 * (front.atHip + back.atHip - front.trim - back.trim - front.lean - back.lean)
}

// Shorts drafts pull-on knit shorts with an elastic casing.
func Shorts(chart []Body) pattern.Pattern {
	p := shortsFrame()
	p.Name, p.Maker = "Millpond shorts", studio
	for _, b := range chart {
		front, back := legs(b)
		for k, l := range []leg{front, back} {
			p.Pieces[k].Outlines[b.Size] = legOutline(l.sides(), k, l.atHip/2)
		}
		p.Notions[1].Quantity[b.Size] = elasticFor(b.Waist)
		hip := length(2 * (front.atHip + back.atHip))
		p.Sizes = append(p.Sizes, pattern.Size{Name: b.Size, Body: bodyOf(b),
			Finished: map[string]measure.Length{pattern.Waist: length(waist(front, back)), pattern.Hip: hip}})
	}
	p.Yards = yards(p, Shop{widths, eighth})
	return p
}

// legOutline is the front (0) or the back (1) of shorts with their notches.
func legOutline(s []side, k int, grain float64) pattern.Outline {
	return grainLine(outline(s, notchOn(s[3], 0.5, "single"), notchOn(s[0], 0.5, []string{"single", "double"}[k])), grain)
}

// elasticFor is how much elastic a waist takes, in metres: 0.9 of the girth and 3 cm to
// lap (common practice: 0.85 to 0.95 by elastic).
func elasticFor(waist float64) float64 { return float64(int(waist*0.9/10+0.5)+3) / 100 }

// shortsFrame is pull-on shorts without a size yet.
func shortsFrame() pattern.Pattern {
	return pattern.Pattern{
		Kind:          "shorts",
		Notes:         "Pull-on shorts with an elastic casing.",
		Levels:        []pattern.Level{{Name: pattern.Waist, Girth: true}, {Name: pattern.Hip, Girth: true}},
		SeamAllowance: length(sideSeam), HemAllowance: length(hemDepth),
		Roles: []pattern.Role{{Name: pattern.Main, StretchAround: 20 * measure.OnePercent, Recovery: 75 * measure.OnePercent,
			WeightMin: 160 * measure.GramPerSquareMetre, WeightMax: 320 * measure.GramPerSquareMetre, Knit: true}},
		Pieces: []pattern.Piece{
			{Code: "A", Name: "Front", Role: pattern.Main, Cut: 2, Pairs: true, Outlines: map[string]pattern.Outline{}},
			{Code: "B", Name: "Back", Role: pattern.Main, Cut: 2, Pairs: true, Outlines: map[string]pattern.Outline{}},
		},
		Notions: []pattern.NotionNeed{
			{Name: "polyester thread", Kind: "thread", Unit: "m", Quantity: map[string]float64{"": 70}},
			{Name: "waist elastic 30 mm", Kind: "elastic", Unit: "m", Quantity: map[string]float64{}},
		},
		Work: []pattern.Step{
			{Text: "Cut the pattern pieces in mirrored pairs."},
			{Text: "Sew the inseams, the centre seam and the side seams."},
			{Text: "Try on with the elastic pinned. Note take-in and the length of the elastic.", TryOn: true, Asks: "take-in"},
			{Text: "Close the elastic to a ring and sew the casing over it."},
			{Text: "Try on and mark the hem.", TryOn: true, Asks: "hem"},
			{Text: "Sew the hems."},
		},
	}
}
