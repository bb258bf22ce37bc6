package draft

import (
	"math"

	"tallycloth/planner/binding"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Allowances of the demo patterns in millimetres (ours).
const (
	sideSeam    = 7.0
	bindingSeam = 8.0
	hemDepth    = 22.0
)

// torso is the stitching line of half a knit top in one size, in millimetres, x = 0
// at the neck end of the shoulder. Proportions are derived here from bust and back
// waist unless marked: they keep the usual shape of a close knit top (common
// practice), not any one block.
type torso struct {
	front, back             upper
	armhole                 float64 // depth of the underarm
	waist, hip, hem         float64 // depths
	atUnder, atWaist, atHip float64 // half-breadths of half the body
	atHem                   float64
}

// upper is what differs between front and back: the top edge (a shoulder, or the
// narrow top that a strap grows from), the neck and the armhole.
type upper struct {
	topName           string  // "shoulder", or "" where nothing is sewn to it
	allowance         float64 // of the top edge
	edge              float64 // allowance of neck and armhole
	neck, tip         pt      // ends of the top edge
	neckDepth         float64 // depth at the centre, from x = 0
	neckWay, tipWay   pt      // directions in which the neck leaves the top and the armhole reaches it
	neckHold, tipHold float64 // lengths of their handles
	scoop             float64 // how far the armhole is hollowed inside the tip
}

// underHold is the length of the armhole's handle at the underarm.
func (u upper) underHold(under pt) float64 { return 0.6 * (under.y - u.tip.y + u.scoop) }

// sides drafts the half: neck from the top to the centre front or back, then down
// the fold, hem, side seam, armhole and top edge, counter-clockwise from the fold.
// The neck meets the fold square and the armhole leaves the side seam square, so
// that both run on smoothly.
func (t torso) sides(u upper) []side {
	under, centre := pt{t.armhole, t.atUnder}, pt{u.neckDepth, 0}
	waist, hip := pt{t.waist, t.atWaist}, pt{t.hip, t.atHip}
	hem := hemOf(t.hem, hip, t.atHem)
	return []side{
		straight("", 0, centre, hem[0]),
		{"hem", hem, hemDepth},
		{"side", sideOf(hem[len(hem)-1], hip, waist, under), sideSeam},
		curve("armhole", u.edge, under, under.add(pt{-1, -u.underHold(under)}),
			u.tip.sub(u.tipWay.times(u.tipHold)), u.tip),
		straight(u.topName, u.allowance, u.tip, u.neck),
		curve("neck", u.edge, u.neck, u.neck.add(u.neckWay.times(u.neckHold)), centre.add(pt{0, 0.62 * u.neck.y}), centre),
	}
}

// sideOf is a side seam from the hem up to the underarm. In a short top, whose hip is its hem, the handles
// of its curves are shorter, so that it never turns back.
func sideOf(hem, hip, waist, under pt) []pt {
	low, high := 0.45*(hip.x-waist.x), 0.45*(waist.x-under.x)
	up := joined(
		bezier(hip, hip.add(pt{-math.Min(70, low), 0}), waist.add(pt{math.Min(62, low), 0}), waist),
		bezier(waist, waist.add(pt{-math.Min(70, high), 0}), under.add(pt{math.Min(60, high), -1}), under))
	if hem == hip {
		return up
	}
	return joined([]pt{hem, hip}, up)
}

// hemOf is a hem from the fold at a depth to so far out at the side. Where it is wider than
// the hip above it, it rises to the side so that it meets fold and side seam square (common
// practice): by half its breadth times the slant of the side (derived here, of a parabola),
// as long as that leaves most of the seam.
func hemOf(depth float64, hip pt, out float64) []pt {
	fold := pt{depth, 0}
	if out <= hip.y || depth <= hip.x {
		return []pt{fold, {depth, out}}
	}
	way := pt{depth, out}.sub(hip)
	slant := way.y / way.x
	share := (way.x - slant*hip.y/2) / (way.x + slant*way.y/2)
	side := hip.add(way.times(math.Max(share, 0.6)))
	return bezier(fold, pt{depth, side.y / 3}, side.add(pt{way.y, -way.x}.times(side.y/3/way.len())), side)
}

// Ease of the tank as a share of the body girth: a close knit top is drafted a
// little smaller than the body (negative ease, common practice).
const (
	tankBust = 0.95
	tankHip  = 0.93
)

func tankTorso(b Body) torso {
	grow := b.Bust - 800
	t := torso{
		front:   strapTop(98+0.02*grow, 84+0.035*grow, 168+0.04*grow, 0.38),
		back:    strapTop(96+0.02*grow, 84+0.035*grow, 142+0.03*grow, 0.85),
		armhole: 194 + 0.10*grow,
		atUnder: b.Bust * tankBust / 4,
		atHip:   b.Hip * tankHip / 4,
	}
	t.waist = b.BackWaist + 5
	t.hip = t.waist + hipDepth
	t.hem = t.hip + 10
	t.atHem = t.atHip
	t.atWaist = min(between(t.atUnder, t.atHip, 0.5)-14, b.Waist*1.02/4+12)
	return t
}

// hipDepth is from waist to fullest hip: 7 in, common practice for a misses' figure.
const hipDepth = 7 * inch

// strapTop is a top that a strap grows from: at depth x, half-distance y from the
// centre, the neck leaving it lean radians inwards of straight down.
func strapTop(x, y, neckDepth, lean float64) upper {
	const across = 4 // between the two stitching lines
	u := upper{edge: bindingSeam, neck: pt{x, y}, tip: pt{x, y + across}, neckDepth: neckDepth}
	sin, cos := math.Sincos(lean)
	u.neckWay, u.tipWay = pt{cos, -sin}, pt{-math.Cos(0.3), -math.Sin(0.3)}
	u.neckHold, u.tipHold = 0.6*(neckDepth-x), 50
	return u
}

// strap is the free length from front to back strap point over the shoulder as
// drafted, with a little for the slope of the shoulder; the wearer sets it at the try-on.
func (t torso) strap() float64 { return t.front.tip.x + t.back.tip.x + 12 }

// grainLine adds the grain line of a piece along the middle of its length.
func grainLine(o pattern.Outline, y float64) pattern.Outline {
	b := o.Cut.Bounds()
	l := b.Length()
	o.GrainTop.X, o.GrainFoot.X = b.Min.X+l/4, b.Min.X+3*l/4
	o.GrainTop.Y, o.GrainFoot.Y = micro(y), micro(y)
	return o
}

// Tank drafts a close knit tank for a body chart: the neck bound front and back,
// each armhole bound with a strip that runs on as the strap.
func Tank(chart []Body) pattern.Pattern {
	p := tankFrame()
	p.Name, p.Maker = "Fennel tank", studio
	straps := map[string]measure.Length{}
	for _, b := range chart {
		t := tankTorso(b)
		t.addTo(&p, b)
		straps[b.Size] = length(t.strap())
	}
	p.Edges = tankEdges(straps)
	p.Yards = yards(p, Shop{widths, eighth})
	return p
}

// tankFrame is a tank without a size yet.
func tankFrame() pattern.Pattern {
	return pattern.Pattern{
		Kind:          "tank",
		Notes:         "Close knit tank. The strips of the armholes run on as straps.",
		Levels:        torsoLevels(),
		SeamAllowance: length(sideSeam), HemAllowance: length(hemDepth),
		Roles: []pattern.Role{
			{Name: pattern.Main, StretchAround: 35 * measure.OnePercent, Recovery: 85 * measure.OnePercent,
				WeightMin: 140 * measure.GramPerSquareMetre, WeightMax: 260 * measure.GramPerSquareMetre, Knit: true},
			{Name: pattern.Binding, StretchAround: 35 * measure.OnePercent, Recovery: 85 * measure.OnePercent, Knit: true, Optional: true},
		},
		Pieces: []pattern.Piece{foldPiece("A", "Front"), foldPiece("B", "Back")},
		Notions: []pattern.NotionNeed{
			{Name: "polyester thread", Kind: "thread", Unit: "m", Quantity: map[string]float64{"": 60}},
			{Name: "ball-point needle 75", Kind: "needle", Unit: "piece", Quantity: map[string]float64{"": 1}},
		},
		Work: tankWork(),
	}
}

func tankEdges(straps map[string]measure.Length) []pattern.Edge {
	finish, width := string(binding.WrappedTurned), length(bindingSeam)
	return []pattern.Edge{
		{Name: "front neck", Count: 1, Finish: finish, Width: width, Segments: []pattern.EdgeSegment{
			{Name: "front neck", Piece: "A", Path: "neck", Times: 2, MarkEnd: "strap point", NoJoin: true}}},
		{Name: "back neck", Count: 1, Finish: finish, Width: width, Segments: []pattern.EdgeSegment{
			{Name: "back neck", Piece: "B", Path: "neck", Times: 2, MarkEnd: "strap point"}}},
		{Name: "armhole and strap", Count: 2, Finish: finish, Width: width, Segments: []pattern.EdgeSegment{
			{Name: "back armhole", Piece: "B", Path: "armhole", Times: 1, MarkEnd: "side seam", JoinHere: true},
			{Name: "front armhole", Piece: "A", Path: "armhole", Times: 1, MarkEnd: "strap point", NoJoin: true, Catches: "front neck"},
			{Name: "strap", Free: straps, MarkEnd: "back strap point", NoJoin: true}}},
	}
}

func tankWork() []pattern.Step {
	return []pattern.Step{
		{Text: "Cut the front and the back. Cut the strips to width, longer than needed."},
		{Text: "Sew the side seams."},
		{Text: "Try on. Note how much to take in at the sides, and take it in.", TryOn: true, Asks: "take-in"},
		{Text: "Cut the neck strips to length. Bind the front neck and the back neck."},
		{Text: "Bind each armhole from the back strap point round to the front; sew on along the strap."},
		{Text: "Try on. Pin the straps to the back strap points and note their length.", TryOn: true, Asks: "strap length"},
		{Text: "Trim the straps and sew them to the back strap points."},
		{Text: "Try on again and mark the hem.", TryOn: true, Asks: "hem"},
		{Text: "Sew the hem with a stitch that stretches."},
	}
}

// studio is the invented maker of the demo patterns.
const studio = "Loomhill Studio"

func torsoLevels() []pattern.Level {
	return []pattern.Level{{Name: pattern.Bust, Girth: true}, {Name: pattern.Waist, Girth: true}, {Name: pattern.Hip, Girth: true}, {Name: pattern.BodyLen}}
}

func foldPiece(code, name string) pattern.Piece {
	return pattern.Piece{Code: code, Name: name, Role: pattern.Main, Cut: 1, OnFold: true, Fixed: true, Outlines: map[string]pattern.Outline{}}
}

// addTo adds a size with its front and back, pieces 0 and 1, to a pattern. One notch
// marks the front armhole, two the back one (common practice).
func (t torso) addTo(p *pattern.Pattern, b Body) {
	for k, u := range []upper{t.front, t.back} {
		s := t.sides(u)
		o := outline(s, notchOn(s[2], 0.5, "single"), notchOn(s[3], 0.5, []string{"single", "double"}[k]))
		p.Pieces[k].Outlines[b.Size] = grainLine(o, t.atWaist/2)
	}
	p.Sizes = append(p.Sizes, pattern.Size{Name: b.Size, Body: bodyOf(b), Finished: t.finished()})
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
