package draft

import (
	"math"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// seat is by how much the back centre rises above the side and, where the waist lets it, leans in (ours, as
// in legs).
const seat = 22.0

// legsOf drafts front and back of half a garment for two legs. The back is a little wider;
// the crotch reaches out by 1/24 of the hip in front and twice that behind, or so far that
// the thigh is as said; the centre leans and rises for the seat (as in leg; shares from memory).
func legsOf(m measured) (front, back leg, err error) {
	hip, waist := m[pattern.Hip], m[pattern.Waist]
	reach := m.rule(pattern.Thigh, 5*hip/8) - hip/2
	if reach < hip/40 {
		return front, back, invalid("Measure round one leg, at the crotch.", "A thigh of %s leaves no crotch on a hip of %s", cmText(m[pattern.Thigh]), cmText(hip))
	}
	front = leg{inseam: m[Inseam], atHip: hip/4 - hip/160, extension: reach / 3}
	back = leg{inseam: m[Inseam], atHip: hip/4 + hip/160, extension: 2 * reach / 3}
	less := (hip - waist) / 2
	back.lean = math.Max(0, math.Min(seat, 0.6*less))
	back.lift = seat
	front.trim = (less - back.lean) / 2
	back.trim = front.trim
	return front, back, nil
}

// riseDepth is how deep the crotch lies where the front centre seam is as long as said and
// the inseam leaves the crotch in a direction.
func riseDepth(f leg, along float64, in pt) (float64, error) {
	lo, hi := 20.0, along+50
	long := func(depth float64) float64 {
		f.rise = depth
		return lengthOf(f.centre(pt{0, 0}, pt{depth, -f.extension}, in))
	}
	for range 50 {
		if mid := (lo + hi) / 2; long(mid) > along {
			hi = mid
		} else {
			lo = mid
		}
	}
	if lo < 110 {
		return 0, invalid("Measure along the centre seam, from the top down to the crotch.", "A %s of %s is too short to sit on a hip", Rise, cmText(along))
	}
	return lo, nil
}

// shortsHem is the leg opening of shorts as a share of the thigh (ours). They come in at the inseam
// more than at the side, which hangs nearly straight.
const shortsHem = 0.94

func draftShorts(q *quick, size string, m measured) error {
	front, back, err := legsOf(m)
	if err != nil {
		return err
	}
	back.drop = math.Min(2, m[Inseam]/10)
	wide := front.atHip + front.extension + back.atHip + back.extension
	less := wide - m.rule(LegOpening, shortsHem*m[pattern.Thigh])
	front.inLean = math.Max(less/4, 0)
	back.inLean = front.inLean
	front.outLean = (less - front.hemIn() - back.hemIn()) / 2 // the sides come in by what the inseams do not
	back.outLean = front.outLean
	if front.rise, err = riseDepth(front, m[Rise], pt{}.toward(pt{front.inseam, front.hemIn()})); err != nil {
		return err
	}
	back.rise = front.rise
	for k, l := range []leg{front, back} {
		s := l.sides()
		if err := q.put(k, size, l.atHip/2, s, mark{3, 0.5, "single"}, mark{0, 0.5, []string{"single", "double"}[k]}); err != nil {
			return err
		}
	}
	q.p.Notions[1].Quantity[size] = elasticFor(0.85 * m[pattern.Waist])
	return nil
}

func leggingsFrame() pattern.Pattern {
	p := shortsFrame()
	p.Roles[0].StretchAround, p.Roles[0].StretchAlong, p.Roles[0].Recovery = 50*measure.OnePercent, 20*measure.OnePercent, 85*measure.OnePercent
	p.Pieces = []pattern.Piece{{Code: "A", Name: "Leg", Role: pattern.Main, Cut: 2, Pairs: true, Outlines: map[string]pattern.Outline{}}}
	p.Work[1].Text = "Sew the inseams and the centre seam."
	return p
}

// draftLeggings puts front and back of a leg together along a straight side, y = 0, the
// front at y < 0. The back crotch is lowered until both inseams are equally long.
func draftLeggings(q *quick, size string, m measured) error {
	front, back, err := legsOf(m)
	if err != nil {
		return err
	}
	if front.rise, err = riseDepth(front, m[Rise], pt{1, 0}); err != nil {
		return err
	}
	back.rise = front.rise
	out := m.rule(LegOpening, 0.42*m[pattern.Thigh]) / 2
	foot := front.rise + front.inseam
	crotch, crotchBack := pt{front.rise, -front.atHip - front.extension}, pt{back.rise, back.atHip + back.extension}
	inFront := inseamTo(crotch, pt{foot, -out})
	want := lengthOf(inFront)
	lo, hi := 0.0, math.Min(60, back.inseam/2)
	for range 50 {
		crotchBack.x = back.rise + (lo+hi)/2
		if lengthOf(inseamTo(crotchBack, pt{foot, out})) > want {
			lo = (lo + hi) / 2
		} else {
			hi = (lo + hi) / 2
		}
	}
	inBack := inseamTo(crotchBack, pt{foot, out})
	back.drop = crotchBack.x - back.rise
	centreFront := mapped(front.centre(pt{0, 0}, pt{front.rise, -front.extension}, pt{1, 0}), func(p pt) pt { return pt{p.x, p.y - front.atHip} })
	top := pt{-back.lift, back.lean}
	centreBack := mapped(back.centre(top, pt{crotchBack.x, -back.extension}, pt{1, 0}), func(p pt) pt { return pt{p.x, back.atHip - p.y} })
	trims := front.trim + back.trim // without a side seam the waist comes in at the centres
	slope := func(p pt, by float64) pt { return pt{p.x, p.y + by*math.Max(0, 1-math.Max(p.x, 0)/(0.55*front.rise))} }
	centreFront = mapped(centreFront, func(p pt) pt { return slope(p, trims/2) })
	centreBack = mapped(centreBack, func(p pt) pt { return slope(p, -trims/2) })
	s := []side{
		{"centre front", centreFront, sideSeam},
		{"inseam", inFront, sideSeam},
		straight("hem", hemDepth, pt{foot, -out}, pt{foot, out}),
		{"inseam", backwards(inBack), sideSeam},
		{"centre back", backwards(centreBack), sideSeam},
		straight("waist", casing, centreBack[0], pt{0, 0}, centreFront[0]),
	}
	q.p.Notions[1].Quantity[size] = elasticFor(0.85 * m[pattern.Waist])
	return q.put(0, size, 0, s, mark{0, 0.5, "single"}, mark{4, 0.5, "double"})
}

// inseamTo runs from the crotch down to the hem: it leaves the crotch straight down where
// the centre seam comes to it square, and reaches the hem upright.
func inseamTo(crotch, hem pt) []pt {
	down := hem.x - crotch.x
	return bezier(crotch, pt{crotch.x + 0.15*down, between(crotch.y, hem.y, 0.35)}, pt{hem.x - 0.5*down, hem.y}, hem)
}

func mapped(pts []pt, f func(pt) pt) []pt {
	out := make([]pt, len(pts))
	for i, p := range pts {
		out[i] = f(p)
	}
	return out
}

func backwards(pts []pt) []pt {
	out := make([]pt, len(pts))
	for i, p := range pts {
		out[len(pts)-1-i] = p
	}
	return out
}

func skirtFrame() pattern.Pattern {
	p := shortsFrame()
	p.Pieces = []pattern.Piece{{Code: "A", Name: "Front and back", Role: pattern.Main, Cut: 2, OnFold: true, Fixed: true, Outlines: map[string]pattern.Outline{}}}
	p.Work[0].Text, p.Work[1].Text = "Cut the pattern piece twice on the fold.", "Sew the side seams."
	p.Work[5].Text = "Sew the hem."
	return p
}

// draftSkirt drafts a half that serves for front and back, the waist at x = 0.
func draftSkirt(q *quick, size string, m measured) error {
	depth := math.Min(hipDepth, m[pattern.BodyLen]/2)
	waist, hip := pt{0, m[pattern.Waist] / 4}, pt{depth, m[pattern.Hip] / 4}
	below := m[pattern.BodyLen] - depth
	hem := hemOf(m[pattern.BodyLen], hip, m.rule(HemGirth, m[pattern.Hip]*(1+math.Min(below/4000, 0.2)))/4)
	s := []side{
		straight("", 0, pt{0, 0}, hem[0]),
		{"hem", hem, hemDepth},
		{"side", joined([]pt{hem[len(hem)-1], hip}, bezier(hip, hip.add(pt{-depth / 3, 0}), waist.add(pt{depth / 3, math.Max(0, (hip.y-waist.y)/4)}), waist)), sideSeam},
		straight("waist", casing, waist, pt{0, 0}),
	}
	q.p.Notions[1].Quantity[size] = elasticFor(0.85 * m[pattern.Waist])
	return q.put(0, size, hip.y/2, s, mark{2, 0.5, "single"})
}
