package stash

import "tallycloth/stash/measure"

// habit is what a construction is assumed to do until it is measured.
type habit struct {
	knit           bool
	along, across  measure.Percent // stretch
	recovery       measure.Percent // share of the extension
	narrowing      measure.Percent
	dcLong, dcWide measure.Percent // change in washing
	weight         measure.Weight  // for sorting and thread only, see Assumed
	direction      Direction
}

const (
	pc  = measure.OnePercent
	gsm = measure.GramPerSquareMetre
)

// habits are low-confidence defaults, chosen on the careful side. What stands
// behind them:
//
//   - plain jersey extends about twice as much widthwise as lengthwise, 1×1 rib
//     about twice as much as jersey (published weft-knit notes);
//   - most knit materials shrink 2–7 % (Zakaria & Gupta, eds, Anthropometry, Apparel
//     Sizing and Design, p. 356);
//   - weights are the middle of published ranges for jersey, rib, interlock and
//     fleece (knit-mill tables), and from memory for the others;
//   - swim tricot and power net stretch most lengthwise (common practice);
//   - all other figures are ours.
var habits = map[Construction]habit{
	Jersey:      {true, 15 * pc, 30 * pc, 80 * pc, 10 * pc, -6 * pc, -4 * pc, 170 * gsm, SameWayInGarment},
	Rib:         {true, 20 * pc, 60 * pc, 85 * pc, 15 * pc, -6 * pc, -4 * pc, 240 * gsm, SameWayInGarment},
	Interlock:   {true, 15 * pc, 30 * pc, 85 * pc, 8 * pc, -5 * pc, -4 * pc, 230 * gsm, SameWayInGarment},
	FrenchTerry: {true, 10 * pc, 20 * pc, 80 * pc, 8 * pc, -6 * pc, -4 * pc, 260 * gsm, SameWayInGarment},
	Sweatshirt:  {true, 10 * pc, 20 * pc, 80 * pc, 8 * pc, -6 * pc, -4 * pc, 280 * gsm, SameWayInGarment},
	Ponte:       {true, 15 * pc, 20 * pc, 85 * pc, 6 * pc, -3 * pc, -3 * pc, 300 * gsm, SameWayInGarment},
	SwimKnit:    {true, 60 * pc, 50 * pc, 92 * pc, 15 * pc, -1 * pc, -1 * pc, 200 * gsm, SameWayInGarment},
	Mesh:        {true, 20 * pc, 30 * pc, 80 * pc, 12 * pc, -2 * pc, -2 * pc, 120 * gsm, SameWayInGarment},
	PowerNet:    {true, 60 * pc, 40 * pc, 92 * pc, 15 * pc, -1 * pc, -1 * pc, 130 * gsm, SameWayInGarment},
	Velour:      {true, 15 * pc, 30 * pc, 80 * pc, 8 * pc, -4 * pc, -3 * pc, 250 * gsm, SameWayForAll},
	WovenPlain:  {false, 0, 0, 100 * pc, 0, -4 * pc, -2 * pc, 140 * gsm, EitherWay},
	WovenTwill:  {false, 0, 0, 100 * pc, 0, -4 * pc, -2 * pc, 240 * gsm, EitherWay},
	OtherKnit:   {true, 10 * pc, 20 * pc, 80 * pc, 10 * pc, -6 * pc, -4 * pc, 200 * gsm, SameWayInGarment},
	OtherWoven:  {false, 0, 0, 100 * pc, 0, -4 * pc, -2 * pc, 150 * gsm, EitherWay},
}

// of returns the habit of a construction; an unknown one is taken for a knit that
// stretches little.
func (c Construction) habit() habit {
	if h, ok := habits[c]; ok {
		return h
	}
	return habits[OtherKnit]
}

// Constructions lists the constructions that the tool has assumptions for.
func Constructions() []Construction {
	return []Construction{Jersey, Rib, Interlock, FrenchTerry, Sweatshirt, Ponte, SwimKnit, Mesh, PowerNet, Velour, OtherKnit, WovenPlain, WovenTwill, OtherWoven}
}

// Knit says whether a construction is a knit; an unknown one counts as a knit.
func (c Construction) Knit() bool { return c.habit().knit }

// UsualDirection is the direction a fabric of this construction has unless a print
// says otherwise: knits shade, pile lies one way, plain weaves do neither.
func (c Construction) UsualDirection() Direction { return c.habit().direction }

// Assumed returns f with an assumed value in each reading that was not measured, by
// construction and elastane content. Such a reading keeps Known false, so that
// whoever uses it can say "assumed, measure it"; a measured one stays as it is. A
// weight that is not known gets a usual one for the construction: compare with
// f.Weight to tell.
func Assumed(f Fabric) Fabric {
	h := f.Construction.habit()
	if f.Fibres.Share("elastane") >= 3*pc && h.knit {
		h.recovery = max(h.recovery, 90*pc) // good recovery, from memory
		h.along, h.across = h.along+10*pc, h.across+10*pc
	}
	f.Lengthwise = h.fill(f.Lengthwise, h.along, h.dcLong)
	f.Crosswise = h.fill(f.Crosswise, h.across, h.dcWide)
	if f.Weight == 0 {
		f.Weight = h.weight
	}
	return f
}

// fill puts assumed values where g has none. What is known of a bench test fills the
// rest of it: growth = stretch × (1 − recovery), derived here from their definitions.
func (h habit) fill(g Grain, stretch, dc measure.Percent) Grain {
	assume(&g.Stretch, stretch)
	recovery := h.recovery
	if g.Growth.Known && g.Stretch.Value > 0 {
		recovery = max(0, whole-g.Growth.Value*whole/g.Stretch.Value)
	}
	assume(&g.Recovery, recovery)
	assume(&g.Growth, g.Stretch.Value*(whole-g.Recovery.Value)/whole)
	assume(&g.Narrowing, h.narrowing)
	assume(&g.Shrinkage, dc)
	return g
}

func assume(r *Reading, p measure.Percent) {
	if !r.Known {
		r.Value = p
	}
}

// Known returns f with only what was measured in its readings: the opposite of
// Assumed, but for the weight. It is what a Store keeps.
func Known(f Fabric) Fabric {
	for _, g := range []*Grain{&f.Lengthwise, &f.Crosswise} {
		for _, r := range []*Reading{&g.Stretch, &g.Growth, &g.Recovery, &g.Narrowing, &g.Shrinkage} {
			if !r.Known {
				*r = Reading{}
			}
		}
	}
	return f
}
