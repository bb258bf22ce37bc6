package draft

import (
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Kind is a kind of garment that Quick drafts.
type Kind string

// The kinds.
const (
	QuickTank     Kind = "tank"
	QuickTee      Kind = "tee"
	LongSleeve    Kind = "long sleeve"
	QuickLeggings Kind = "leggings"
	QuickShorts   Kind = "shorts"
	Skirt         Kind = "skirt"
	Dress         Kind = "dress"
)

// Kinds lists them.
func Kinds() []Kind {
	return []Kind{QuickTank, QuickTee, LongSleeve, QuickLeggings, QuickShorts, Skirt, Dress}
}

// Measurements of finished garments besides the usual levels.
const (
	Shoulders  = "shoulder width"
	Armhole    = "armhole depth"
	NeckWidth  = "neck width"
	NeckDepth  = "neck depth"
	Strap      = "strap length"
	SleeveLen  = "sleeve length"
	UpperArm   = "upper arm"
	Wrist      = "sleeve hem"
	Rise       = "front rise"
	Inseam     = "inseam"
	LegOpening = "leg opening"
	HemGirth   = "hem"
)

// Ask is a measurement that a kind of garment asks for.
type Ask struct {
	Name   string
	Where  string // where the tape lies on the garment, lying flat and not stretched
	Needed bool   // it is not found by rule
	Girth  bool   // all the way round, twice what it measures lying flat
	// least and most a garment can have, in mm, and the usual step from size to size.
	least, most float64
	step        measure.Length
}

// Asks lists what the kind asks for, the needed measurements first.
func (k Kind) Asks() []Ask { return kinds[k].asks }

// quickKind is how a kind is drafted.
type quickKind struct {
	notes string
	asks  []Ask
	frame func() pattern.Pattern
	draft func(*quick, string, measured) error
}

const (
	girthStep  = 2 * measure.Inch
	lengthStep = measure.Inch / 4
)

// needed marks asks as needed.
func needed(asks ...Ask) []Ask {
	for i := range asks {
		asks[i].Needed = true
	}
	return asks
}

// The measurements. Limits are wide, from a small child to the largest tables (ours).
var (
	askBust     = Ask{Name: pattern.Bust, Where: "round the garment at the underarms", Girth: true, least: 400, most: 2200, step: girthStep}
	askHip      = Ask{Name: pattern.Hip, Where: "round the garment at the fullest hip", Girth: true, least: 400, most: 2400, step: girthStep}
	askWaist    = Ask{Name: pattern.Waist, Where: "round the garment at the waist", Girth: true, least: 300, most: 2200, step: girthStep}
	askOpen     = Ask{Name: pattern.Waist, Where: "round the top, before elastic gathers it", Girth: true, least: 300, most: 2400, step: girthStep}
	askBody     = Ask{Name: pattern.BodyLen, Where: "from the neck at the shoulder down to the hem", least: 250, most: 1700, step: lengthStep}
	askSkirt    = Ask{Name: pattern.BodyLen, Where: "from the top of the waist down to the hem", least: 200, most: 1300, step: lengthStep}
	askStrap    = Ask{Name: Strap, Where: "from front to back over the shoulder", least: 60, most: 700, step: lengthStep}
	askShoulder = Ask{Name: Shoulders, Where: "across, from armhole to armhole", least: 180, most: 800, step: measure.Inch / 2}
	askArmhole  = Ask{Name: Armhole, Where: "straight down, from the neck at the shoulder to the level of the underarm", least: 90, most: 450, step: lengthStep}
	askNeck     = Ask{Name: NeckWidth, Where: "across, seam to seam, at the shoulders", least: 100, most: 450, step: measure.Inch / 8}
	askNeckDown = Ask{Name: NeckDepth, Where: "in front, from the neck at the shoulder down to the seam", least: 30, most: 400, step: measure.Inch / 16}
	askSleeve   = Ask{Name: SleeveLen, Where: "from the shoulder seam down to the hem", least: 60, most: 850, step: lengthStep}
	askArm      = Ask{Name: UpperArm, Where: "round the sleeve below the underarm", Girth: true, least: 120, most: 900, step: measure.Inch / 2}
	askWrist    = Ask{Name: Wrist, Where: "round the hem of the sleeve", Girth: true, least: 90, most: 900, step: measure.Inch / 4}
	askRise     = Ask{Name: Rise, Where: "along the centre seam in front, from the top down to the crotch", least: 120, most: 550, step: measure.Inch / 2}
	askInseam   = Ask{Name: Inseam, Where: "inside the leg, from the crotch down to the hem", least: 20, most: 1000, step: 0}
	askThigh    = Ask{Name: pattern.Thigh, Where: "round the leg at the crotch", Girth: true, least: 200, most: 1400, step: measure.Inch}
	askLeg      = Ask{Name: LegOpening, Where: "round the hem of the leg", Girth: true, least: 120, most: 1400, step: measure.Inch}
	askHem      = Ask{Name: HemGirth, Where: "round the hem", Girth: true, least: 400, most: 4000, step: girthStep}
)

func with(first []Ask, more ...Ask) []Ask { return append(first, more...) }

// kinds says how each kind is drafted. What the sleeves of a dress measure may be left out:
// then it has none.
var kinds = map[Kind]quickKind{
	QuickTank: {"Close knit tank drafted from measurements. The strips of the armholes run on as straps.",
		with(needed(askBust, askHip, askBody), askWaist, askStrap, askArmhole), tankFrame, draftTank},
	QuickTee: {"Knit top with short sleeves and a folded neckband, drafted from measurements.",
		with(needed(askBust, askHip, askBody, askSleeve), askWaist, askShoulder, askArmhole, askNeck, askNeckDown, askArm, askWrist), teeFrame, draftTee},
	LongSleeve: {"Knit top with long sleeves and a folded neckband, drafted from measurements.",
		with(needed(askBust, askHip, askBody, askSleeve), askWaist, askShoulder, askArmhole, askNeck, askNeckDown, askArm, askWrist), teeFrame, draftTee},
	QuickLeggings: {"Leggings without a side seam and with an elastic casing, drafted from measurements.",
		with(needed(askOpen, askHip, askRise, askInseam), askThigh, askLeg), leggingsFrame, draftLeggings},
	QuickShorts: {"Pull-on shorts with an elastic casing, drafted from measurements.",
		with(needed(askOpen, askHip, askRise, askInseam), askThigh, askLeg), shortsFrame, draftShorts},
	Skirt: {"Pull-on knit skirt with an elastic casing, drafted from measurements.",
		with(needed(askOpen, askHip, askSkirt), askHem), skirtFrame, draftSkirt},
	Dress: {"Knit dress with a folded neckband, drafted from measurements. Without a sleeve length it has no sleeves, and its armholes are finished with a band.",
		with(needed(askBust, askHip, askBody), askWaist, askHem, askSleeve, askShoulder, askArmhole, askNeck, askNeckDown, askArm, askWrist), teeFrame, draftTee},
}
