package demo

import (
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

const (
	pc  = measure.OnePercent
	cm  = measure.Centimetre
	mm  = measure.Millimetre
	gsm = measure.GramPerSquareMetre
)

// grain is stretch, recovery and change in washing in whole percent; a zero stretch
// and recovery were never measured.
type grain struct{ stretch, recovery, washed int }

func (g grain) readings() stash.Grain {
	var out stash.Grain
	if g.recovery > 0 {
		out.Stretch, out.Recovery = stash.Measured(measure.Percent(g.stretch)*pc), stash.Measured(measure.Percent(g.recovery)*pc)
		out.Growth = stash.Measured(measure.Percent(g.stretch) * measure.Percent(100-g.recovery))
	}
	if g.washed != 0 {
		out.Shrinkage = stash.Measured(measure.Percent(g.washed) * pc)
	}
	return out
}

// fabric is one row of the shelf.
type fabric struct {
	name          string
	made          stash.Construction
	fibres        string
	weight, width int // g/m², cm; weight 0 is not known
	across, along grain
	colour, said  string
	direction     stash.Direction
	more          func(*stash.Fabric)
}

var fabrics = []fabric{
	{"Moss rib", stash.Rib, "95% cotton 5% elastane", 230, 118, grain{92, 94, -4}, grain{31, 88, -6}, "#6b7a3f", "moss", stash.SameWayInGarment, nil},
	{"Brick jersey", stash.Jersey, "95% cotton 5% elastane", 185, 156, grain{58, 93, -3}, grain{42, 91, -5}, "#a5482f", "brick", stash.SameWayInGarment, nil},
	{"Oat jersey", stash.Jersey, "100% cotton", 160, 148, grain{36, 82, -4}, grain{14, 84, -7}, "#e2d3b4", "oat", stash.SameWayInGarment, nil},
	{"Plum modal jersey", stash.Jersey, "92% modal 8% elastane", 205, 162, grain{71, 95, -2}, grain{55, 94, -4}, "#5c2f4f", "plum", stash.SameWayInGarment, stitched},
	{"Tide stripe jersey", stash.Jersey, "96% viscose 4% elastane", 195, 152, grain{63, 90, -5}, grain{48, 88, -6}, "#2d5573", "tide", stash.SameWayInGarment, repeats(34*mm, 0)},
	{"Ladybird print jersey", stash.Jersey, "95% cotton 5% elastane", 210, 146, grain{49, 92, -3}, grain{33, 90, -5}, "#c23b36", "ladybird", stash.SameWayForAll, repeats(21*cm, 18*cm)},
	{"Chalk interlock", stash.Interlock, "100% cotton", 225, 171, grain{41, 87, -4}, grain{17, 88, -6}, "#f1efe8", "chalk", stash.EitherWay, nil},
	{"Inkwell interlock", stash.Interlock, "50% cotton 50% modal", 215, 158, grain{}, grain{}, "#1f2740", "inkwell", stash.SameWayInGarment, nil},
	{"Fog french terry", stash.FrenchTerry, "95% cotton 5% elastane", 270, 176, grain{29, 85, -4}, grain{16, 84, -6}, "#a9adb0", "fog", stash.SameWayInGarment, nil},
	{"Marigold terry", stash.FrenchTerry, "80% cotton 20% polyester", 260, 182, grain{22, 80, -3}, grain{}, "#dd9a22", "marigold", stash.SameWayInGarment, nil},
	{"Fox sweatshirt fleece", stash.Sweatshirt, "70% cotton 30% polyester", 300, 178, grain{21, 81, -4}, grain{9, 83, -5}, "#b4622c", "fox", stash.SameWayForAll, nil},
	{"Bottle ponte", stash.Ponte, "66% viscose 29% polyamide 5% elastane", 320, 147, grain{27, 93, -2}, grain{18, 92, -3}, "#1d4a36", "bottle", stash.SameWayInGarment, nil},
	{"Slate ponte", stash.Ponte, "65% viscose 30% polyamide 5% elastane", 0, 151, grain{}, grain{}, "#4d5a66", "slate", stash.SameWayInGarment, nil},
	{"Lagoon swim knit", stash.SwimKnit, "82% polyamide 18% elastane", 190, 150, grain{66, 96, -1}, grain{92, 97, -1}, "#13818b", "lagoon", stash.EitherWay, nil},
	{"Coal power net", stash.PowerNet, "80% polyamide 20% elastane", 140, 149, grain{46, 95, 0}, grain{74, 96, 0}, "#2b2b2e", "coal", stash.EitherWay, sameFaces},
	{"Cloud sport mesh", stash.Mesh, "100% polyester", 115, 160, grain{34, 86, -1}, grain{23, 84, -1}, "#dfe7ee", "cloud", stash.EitherWay, sameFaces},
	{"Damson velour", stash.Velour, "80% cotton 20% polyester", 255, 154, grain{33, 82, -3}, grain{16, 80, -4}, "#4a1f3d", "damson", stash.SameWayForAll, nil},
	{"Rosehip tube rib", stash.Rib, "97% cotton 3% elastane", 245, 46, grain{104, 93, -4}, grain{27, 89, -6}, "#b8404d", "rosehip", stash.SameWayInGarment, func(f *stash.Fabric) { f.Tubular, f.SelvedgeLoss = true, 0 }},
	{"Heather wool jersey", stash.Jersey, "100% wool", 175, 144, grain{44, 89, -3}, grain{19, 86, -4}, "#8a7d94", "heather", stash.SameWayInGarment, nil},
	{"Bark hemp jersey", stash.Jersey, "55% true hemp 45% cotton", 200, 168, grain{}, grain{}, "#6a5642", "bark", stash.SameWayInGarment, nil},
	{"Skylight silk knit", stash.OtherKnit, "100% silk", 120, 138, grain{31, 78, -3}, grain{12, 75, -4}, "#b7d3e8", "skylight", stash.SameWayInGarment, nil},
	{"Sand poplin", stash.WovenPlain, "100% cotton", 118, 112, grain{2, 60, -2}, grain{1, 60, -4}, "#d8c49a", "sand", stash.EitherWay, sameFaces},
	{"Harbour twill", stash.WovenTwill, "98% cotton 2% elastane", 235, 142, grain{17, 90, -2}, grain{2, 80, -3}, "#28405e", "harbour", stash.EitherWay, nil},
	{"Linen for aprons", stash.WovenPlain, "100% linen", 190, 150, grain{}, grain{}, "#c9c2ae", "flax", stash.EitherWay, sameFaces},
	{"Mist cotton lawn", stash.WovenPlain, "100% cotton", 72, 136, grain{}, grain{}, "#cfd9dd", "mist", stash.EitherWay, sameFaces},
}

func repeats(along, across measure.Length) func(*stash.Fabric) {
	return func(f *stash.Fabric) { f.RepeatAlong, f.RepeatAcross = along, across }
}

func sameFaces(f *stash.Fabric) { f.SameBothFace = true }

func stitched(f *stash.Fabric) {
	f.Stitches = []stash.StitchNote{{Seam: "side seam", Stitch: "four-thread overlock", Width: "wide", Length: "2.5", Feed: "1.3", Needle: "ball point 80", Thread: "polyester 120"}}
}

// record makes the row a fabric.
func (r fabric) record() (stash.Fabric, error) {
	fibres, err := stash.ParseFibres(r.fibres)
	if err != nil {
		return stash.Fabric{}, fmt.Errorf("the fibres of %s: %w", r.name, err)
	}
	f := stash.Fabric{
		Name: r.name, Construction: r.made, Fibres: fibres, Weight: measure.Weight(r.weight) * gsm,
		FullWidth: measure.Length(r.width) * cm, SelvedgeLoss: 12 * mm, Crosswise: r.across.readings(), Lengthwise: r.along.readings(),
		Direction: r.direction, Colour: r.colour, ColourName: r.said, Care: "30 °C, dried flat",
	}
	if r.more != nil {
		r.more(&f)
	}
	return f, nil
}
