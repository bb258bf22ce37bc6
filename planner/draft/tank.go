package draft

import (
	"tallycloth/planner/binding"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Allowances of the demo patterns in millimetres (ours).
const (
	sideSeam    = 7.0
	bindingSeam = 8.0
	hemDepth    = 22.0
)

// torso is the stitching line of half a knit top in one size, in millimetres.
// All proportions are derived here from bust and back waist unless marked: they
// keep the usual shape of a close knit top (common practice), not any one block.
type torso struct {
	neckWidth, shoulderDrop, shoulder float64
	frontNeck, backNeck               float64 // depth at the centre
	// lean is how far, in radians, the front neck leaves the shoulder outwards of
	// square and the back neck inwards, so that the edge runs on over the shoulder
	// seam and turns most in front.
	lean                    float64
	armhole                 float64 // depth of the underarm
	waist, hip, hem         float64 // depths
	atUnder, atWaist, atHip float64 // half-breadths of half the body
}

// Ease of the tank as a share of the body girth: a close knit top is drafted a
// little smaller than the body (negative ease, common practice).
const (
	tankBust = 0.95
	tankHip  = 0.97
)

func tankTorso(b Body) torso {
	t := torso{
		neckWidth:    88 + 0.04*(b.Bust-800),
		shoulderDrop: 14,
		shoulder:     42,
		frontNeck:    168 + 0.05*(b.Bust-800),
		backNeck:     66,
		lean:         0.5,
		armhole:      192 + 0.11*(b.Bust-800),
	}
	t.waist = b.BackWaist + 5
	t.hip = t.waist + 178
	t.hem = t.hip + 22
	t.atUnder = b.Bust * tankBust / 4
	t.atHip = b.Hip * tankHip / 4
	t.atWaist = min(between(t.atUnder, t.atHip, 0.5)-14, b.Waist*1.02/4+12)
	return t
}

func (t torso) front() []side { return t.sides(t.frontNeck, t.lean) }
func (t torso) back() []side  { return t.sides(t.backNeck, -t.lean) }

// sides drafts the half: neck from the shoulder to the centre front or back, then
// down the fold, hem, side seam, armhole and shoulder.
func (t torso) sides(neckDepth, lean float64) []side {
	neck := pt{0, t.neckWidth}
	tip := pt{t.shoulderDrop, t.neckWidth + t.shoulder}
	under := pt{t.armhole, t.atUnder}
	centre := pt{neckDepth, 0}
	waist, hip := pt{t.waist, t.atWaist}, pt{t.hip, t.atHip}
	hem, hemFold := pt{t.hem, t.atHip}, pt{t.hem, 0}
	down := tip.sub(neck) // the shoulder; necks and armholes leave it square
	square := pt{down.y, -down.x}.times(1 / down.len())
	return []side{
		straight("", 0, centre, hemFold),
		straight("hem", hemDepth, hemFold, hem),
		{"", joined(
			[]pt{hem, hip},
			bezier(hip, hip.add(pt{-70, 0}), waist.add(pt{62, 0}), waist),
			bezier(waist, waist.add(pt{-70, 0}), under.add(pt{60, -1}), under)), sideSeam},
		curve("armhole", bindingSeam, under, under.add(pt{-8, -0.62 * (under.y - tip.y + 30)}),
			tip.add(square.times(0.55*(under.x-tip.x))), tip),
		straight("shoulder", sideSeam, tip, neck),
		curve("neck", bindingSeam, neck, neck.add(square.turned(lean).times(0.45*neckDepth)), centre.add(pt{0, 0.66 * t.neckWidth}), centre),
	}
}

// joined runs polylines on from one to the next.
func joined(lines ...[]pt) []pt {
	out := lines[0]
	for _, l := range lines[1:] {
		out = append(out, l[1:]...)
	}
	return out
}

// grainLine adds the grain line of a piece along the middle of its length.
func grainLine(o pattern.Outline, y float64) pattern.Outline {
	b := o.Cut.Bounds()
	l := b.Length()
	o.GrainTop.X, o.GrainFoot.X = b.Min.X+l/4, b.Min.X+3*l/4
	o.GrainTop.Y, o.GrainFoot.Y = micro(y), micro(y)
	return o
}

// Tank drafts a close knit tank with bound neck and armholes for a body chart of
// at least one size.
func Tank(chart []Body) pattern.Pattern {
	p := pattern.Pattern{
		Name: "Fennel tank", Maker: "Loomhill Studio", Kind: "tank",
		Notes:         "Close knit tank, bound at the neck and armholes.",
		Levels:        []pattern.Level{{Name: pattern.Bust, Girth: true}, {Name: pattern.Waist, Girth: true}, {Name: pattern.Hip, Girth: true}, {Name: pattern.BodyLen}},
		SeamAllowance: length(sideSeam), HemAllowance: length(hemDepth),
		Roles: []pattern.Role{
			{Name: pattern.Main, StretchAround: 30 * measure.OnePercent, Recovery: 80 * measure.OnePercent,
				WeightMin: 130 * measure.GramPerSquareMetre, WeightMax: 260 * measure.GramPerSquareMetre, Knit: true},
			{Name: pattern.Binding, StretchAround: 30 * measure.OnePercent, Recovery: 85 * measure.OnePercent, Knit: true, Optional: true},
		},
		Pieces: []pattern.Piece{
			{Code: "A", Name: "Front", Role: pattern.Main, Cut: 1, OnFold: true, Outlines: map[string]pattern.Outline{}},
			{Code: "B", Name: "Back", Role: pattern.Main, Cut: 1, OnFold: true, Outlines: map[string]pattern.Outline{}},
		},
		Edges: []pattern.Edge{
			{Name: "neck", Count: 1, Closed: true, Passes: "head", Finish: string(binding.WrappedTurned), Width: length(bindingSeam),
				Segments: []pattern.EdgeSegment{
					{Name: "front neck", Piece: "A", Path: "neck", Times: 2, MarkEnd: "shoulder", NoJoin: true},
					{Name: "back neck", Piece: "B", Path: "neck", Times: 2, MarkEnd: "shoulder"}}},
			{Name: "armhole", Count: 2, Closed: true, Finish: string(binding.WrappedTurned), Width: length(bindingSeam),
				Segments: []pattern.EdgeSegment{
					{Name: "front armhole", Piece: "A", Path: "armhole", Times: 1, MarkEnd: "shoulder", NoJoin: true},
					{Name: "back armhole", Piece: "B", Path: "armhole", Times: 1, MarkEnd: "side seam"}}},
		},
		Notions: []pattern.NotionNeed{{Name: "polyester thread", Kind: "thread", Unit: "m", Quantity: map[string]float64{"": 60}}},
		Work: []pattern.Step{
			{Text: "Cut the pattern pieces. Cut the strips to width, longer than needed."},
			{Text: "Sew the shoulders and the side seams."},
			{Text: "Try on. Note how much to take in at the sides.", TryOn: true, Asks: "take-in"},
			{Text: "Cut the strips to length and bind the neck and the armholes."},
			{Text: "Try on again and mark the hem.", TryOn: true, Asks: "hem"},
			{Text: "Sew the hem."},
		},
	}
	for _, b := range chart {
		t := tankTorso(b)
		for k, s := range [][]side{t.front(), t.back()} {
			o := outline(s, notchOn(s[2], 0.5, "single"), notchOn(s[3], 0.45, []string{"single", "double"}[k]))
			p.Pieces[k].Outlines[b.Size] = grainLine(o, t.atWaist/2)
		}
		p.Sizes = append(p.Sizes, pattern.Size{Name: b.Size, Body: bodyOf(b), Finished: t.finished()})
	}
	return p
}

func bodyOf(b Body) map[string]measure.Length {
	return map[string]measure.Length{pattern.Bust: length(b.Bust), pattern.Waist: length(b.Waist),
		pattern.Hip: length(b.Hip), pattern.HighBust: length(b.Bust - 2*inch)}
}

// finished is the chart of the sewn garment: girths at the levels and the length
// from the neck at the shoulder to the hem.
func (t torso) finished() map[string]measure.Length {
	return map[string]measure.Length{pattern.Bust: length(4 * t.atUnder), pattern.Waist: length(4 * t.atWaist),
		pattern.Hip: length(4 * t.atHip), pattern.BodyLen: length(t.hem)}
}

// DemoPatterns are the studio's own patterns, graded over Chart, with IDs from newID.
func DemoPatterns(newID func() stash.ID) []pattern.Pattern {
	chart := Chart()
	out := []pattern.Pattern{Tank(chart), Tee(chart), Shorts(chart)}
	for i := range out {
		out[i].ID = newID()
	}
	return out
}
