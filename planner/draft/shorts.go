package draft

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// casing is the depth turned in at the waist of the shorts for a 30 mm elastic:
// elastic, a little play and the turn (common practice: 1/8 to 1/4 in of play).
const casing = 42.0

// leg is the stitching line of half of one side of pull-on shorts: the centre
// seam with its crotch curve, the inseam, the hem and the side, x down from the
// waist, y from the centre outwards. The extension of the crotch beyond the centre
// is a share of the hip: about 1/24 in front and 1/12 behind (common practice,
// within the range of textbook trouser blocks; from memory).
type leg struct {
	rise, inseam, atHip, extension, lift float64
}

func legs(b Body) (front, back leg) {
	hip := b.Hip * 1.02
	rise := 0.25*b.Hip + 34
	front = leg{rise, 95, hip/4 - 6, hip / 24, 0}
	back = leg{rise, 95, hip/4 + 6, hip / 12, 24}
	return front, back
}

// sides drafts the leg. The back waist is lifted at the centre.
func (l leg) sides() []side {
	top := pt{-l.lift, 0}
	waistOut := pt{0, l.atHip - 8}
	hipOut := pt{l.rise - 60, l.atHip}
	crotch := pt{l.rise, -l.extension}
	hemIn, hemOut := pt{l.rise + l.inseam, -l.extension + 10}, pt{l.rise + l.inseam, l.atHip - 4}
	hold := l.rise * 0.55
	return []side{
		{"centre", joined([]pt{top, {hold, 0}},
			bezier(pt{hold, 0}, pt{l.rise - 14, 0}, pt{l.rise - 2, -l.extension * 0.35}, crotch)), sideSeam},
		straight("inseam", sideSeam, crotch, hemIn),
		straight("hem", hemDepth, hemIn, hemOut),
		{"side", joined([]pt{hemOut, hipOut}, bezier(hipOut, hipOut.add(pt{-50, 0}), waistOut.add(pt{50, 1}), waistOut)), sideSeam},
		straight("waist", casing, waistOut, top),
	}
}

// Shorts drafts pull-on knit shorts with an elastic casing.
func Shorts(chart []Body) pattern.Pattern {
	p := pattern.Pattern{
		Name: "Millpond shorts", Maker: studio, Kind: "shorts",
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
	for _, b := range chart {
		front, back := legs(b)
		for k, l := range []leg{front, back} {
			s := l.sides()
			p.Pieces[k].Outlines[b.Size] = grainLine(outline(s, notchOn(s[3], 0.5, "single"), notchOn(s[0], 0.5, []string{"single", "double"}[k])), l.atHip/2)
		}
		p.Notions[1].Quantity[b.Size] = float64(int(b.Waist*0.9/10+0.5)+3) / 100
		hip := length(2 * (front.atHip + back.atHip))
		p.Sizes = append(p.Sizes, pattern.Size{Name: b.Size, Body: bodyOf(b),
			Finished: map[string]measure.Length{pattern.Waist: hip - length(32), pattern.Hip: hip}})
	}
	return p
}
