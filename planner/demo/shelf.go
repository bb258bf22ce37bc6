package demo

import (
	"math"

	"tallycloth/stash"
	"tallycloth/stash/shape"
)

// bought is one purchase: the fabric, the length in cm and the price in minor units.
type bought struct {
	fabric, date, shop, place string
	length                    int
	price                     int64
	currency                  string
	washed, trued             bool
}

const (
	hall  = "hall cupboard"
	attic = "attic, second box"
	desk  = "under the table"

	stall = "Saturday stall"
)

// lots are the dye lots that were marked, by fabric and day.
var lots = map[[2]string]string{
	{"Brick jersey", "2024-03-09"}: "41", {"Brick jersey", "2026-01-17"}: "57",
	{"Plum modal jersey", "2024-11-30"}: "B2", {"Plum modal jersey", "2026-01-17"}: "B7",
}

var purchases = []bought{
	{"Moss rib", "2024-03-09", "Quillfeather Textiles", hall, 110, 1540, "EUR", true, true},
	{"Brick jersey", "2024-03-09", "Quillfeather Textiles", hall, 210, 3150, "EUR", true, true},
	{"Oat jersey", "2024-04-20", stall, hall, 300, 2400, "EUR", false, false},
	{"Chalk interlock", "2024-05-11", "Gable & Thistle", attic, 250, 3000, "GBP", true, false},
	{"Harbour twill", "2024-06-01", "Gable & Thistle", attic, 170, 2210, "GBP", false, false},
	{"Linen for aprons", "2024-06-01", "Gable & Thistle", attic, 320, 4480, "GBP", false, false},
	{"Fog french terry", "2024-09-14", "Quillfeather Textiles", hall, 190, 3420, "EUR", true, true},
	{"Fox sweatshirt fleece", "2024-10-05", stall, attic, 160, 1920, "EUR", false, false},
	{"Bottle ponte", "2024-10-19", "Quillfeather Textiles", hall, 140, 2660, "EUR", true, true},
	{"Plum modal jersey", "2024-11-30", "Lantern Lane Remnants", desk, 230, 4370, "EUR", true, true},
	{"Damson velour", "2024-12-07", "Lantern Lane Remnants", attic, 125, 2125, "EUR", false, false},
	{"Tide stripe jersey", "2025-01-18", "Gable & Thistle", hall, 150, 2250, "GBP", true, true},
	{"Rosehip tube rib", "2025-01-18", "Gable & Thistle", hall, 80, 1120, "GBP", true, true},
	{"Lagoon swim knit", "2025-03-22", "Quillfeather Textiles", desk, 135, 3105, "EUR", true, true},
	{"Coal power net", "2025-03-22", "Quillfeather Textiles", desk, 90, 1710, "EUR", true, true},
	{"Ladybird print jersey", "2025-04-12", stall, hall, 175, 2450, "EUR", true, false},
	{"Inkwell interlock", "2025-05-03", "Quillfeather Textiles", hall, 205, 3280, "EUR", false, false},
	{"Cloud sport mesh", "2025-05-03", "Quillfeather Textiles", desk, 115, 1035, "EUR", true, true},
	{"Heather wool jersey", "2025-08-30", "Gable & Thistle", attic, 185, 5180, "GBP", true, true},
	{"Skylight silk knit", "2025-08-30", "Gable & Thistle", attic, 95, 3420, "GBP", true, true},
	{"Bark hemp jersey", "2025-09-27", "Lantern Lane Remnants", attic, 140, 2380, "EUR", false, false},
	{"Marigold terry", "2025-10-11", stall, hall, 155, 1860, "EUR", true, false},
	{"Slate ponte", "2025-10-25", "Lantern Lane Remnants", desk, 130, 1690, "EUR", false, false},
	{"Sand poplin", "2025-11-15", stall, attic, 220, 1540, "EUR", true, true},
	{"Mist cotton lawn", "2025-11-15", stall, attic, 160, 1440, "EUR", false, false},
	{"Brick jersey", "2026-01-17", "Quillfeather Textiles", hall, 165, 2640, "EUR", true, true},
	{"Plum modal jersey", "2026-01-17", "Quillfeather Textiles", desk, 145, 2900, "EUR", true, true},
	{"Oat jersey", "2026-02-07", stall, hall, 260, 2080, "EUR", true, true},
	{"Chalk interlock", "2026-02-21", "Gable & Thistle", hall, 185, 2405, "GBP", true, true},
	{"Moss rib", "2026-02-21", "Gable & Thistle", hall, 70, 910, "GBP", true, true},
}

// left is a leftover from before the library: an outline, or length and width in cm.
type left struct {
	fabric, place, notes string
	outline              shape.Polygon
	length, width        int
	low, high            bool // selvedges
}

func leftovers() []left {
	return []left{
		{"Brick jersey", desk, "beside an armhole", bitten(72, 64, 15, 19), 0, 0, true, false},
		{"Oat jersey", desk, "between two armholes", bitten(95, 52, 18, 17), 0, 0, false, false},
		{"Plum modal jersey", desk, "cut off at a slant", slanted(68, 81, 17), 0, 0, true, true},
		{"Moss rib", desk, "slanted end", slanted(41, 118, 12), 0, 0, true, true},
		{"Chalk interlock", attic, "dye spot", flawed(88, 74, 31, 40, 5), 0, 0, true, false},
		{"Fog french terry", attic, "pulled loop near the middle", flawed(79, 66, 52, 24, 3), 0, 0, false, true},
		{"Tide stripe jersey", hall, "beside a front", stepped(83, 71, 36, 28), 0, 0, true, false},
		{"Lagoon swim knit", desk, "beside two legs", stepped(64, 58, 22, 31), 0, 0, false, false},
		{"Heather wool jersey", attic, "beside a neck", bitten(58, 49, 12, 13), 0, 0, false, false},
		{"Bottle ponte", hall, "moth hole", flawed(67, 93, 20, 61, 2), 0, 0, true, true},
		{"Inkwell interlock", hall, "end of the bolt, slanted", slanted(96, 158, 22), 0, 0, true, true},
		{"Cloud sport mesh", desk, "round a sleeve", bitten(86, 77, 21, 26), 0, 0, true, false},
		{"Harbour twill", attic, "beside a pocket", stepped(55, 62, 18, 20), 0, 0, false, false},
		{"Damson velour", attic, "round an armhole", bitten(74, 59, 16, 18), 0, 0, false, true},
		{"Rosehip tube rib", desk, "slit open", shape.Polygon{}, 23, 92, false, false},
		{"Coal power net", desk, "", shape.Polygon{}, 38, 71, true, false},
		{"Marigold terry", hall, "for cuffs", shape.Polygon{}, 34, 96, false, true},
	}
}

func at(x, y float64) shape.Point {
	return shape.Point{X: int64(math.Round(x * 10_000)), Y: int64(math.Round(y * 10_000))}
}

// bitten is l × w cm with the round of an armhole cut out of its upper edge.
func bitten(l, w, wide, deep float64) shape.Polygon {
	r := shape.Ring{at(0, 0), at(l, 0), at(l, w)}
	for k := range 17 {
		a := math.Pi * float64(k) / 16
		r = append(r, at(l*0.55+wide*math.Cos(a), w-deep*math.Sin(a)))
	}
	return shape.Polygon{Outer: append(r, at(0, w))}
}

// slanted is l × w cm with an end that runs off by so much.
func slanted(l, w, off float64) shape.Polygon {
	return shape.Polygon{Outer: shape.Ring{at(0, 0), at(l, 0), at(l-off, w), at(0, w)}}
}

// flawed is l × w cm, a little off square, with a round flaw.
func flawed(l, w, x, y, r float64) shape.Polygon {
	p := shape.Polygon{Outer: shape.Ring{at(0, 0), at(l-1.5, 0), at(l, w), at(0, w)}}
	var hole shape.Ring
	for k := range 12 {
		a := -2 * math.Pi * float64(k) / 12
		hole = append(hole, at(x+r*math.Cos(a), y+r*math.Sin(a)))
	}
	p.Holes = []shape.Ring{hole}
	return p
}

// stepped is l × w cm without a rounded corner of so much.
func stepped(l, w, long, wide float64) shape.Polygon {
	r := shape.Ring{at(0, 0), at(l, 0), at(l, w-wide)}
	for k := 1; k < 8; k++ {
		a := math.Pi / 2 * float64(k) / 8
		r = append(r, at(l-long*math.Sin(a), w-wide*math.Cos(a)))
	}
	return shape.Polygon{Outer: append(r, at(l-long, w), at(0, w))}
}

var notions = []stash.Notion{
	{Name: "Polyester thread 120, white", Kind: "thread", Quantity: 2400, Unit: "m", Reorder: 500},
	{Name: "Polyester thread 120, plum", Kind: "thread", Quantity: 310, Unit: "m", Reorder: 500},
	{Name: "Waist elastic 30 mm", Kind: "elastic", Quantity: 6.5, Unit: "m", Reorder: 2},
	{Name: "Clear elastic 8 mm", Kind: "clear elastic", Quantity: 11, Unit: "m", Reorder: 3},
	{Name: "Fold-over elastic 16 mm, slate", Kind: "fold-over elastic", Quantity: 1.2, Unit: "m", Reorder: 2},
	{Name: "Rings and sliders 10 mm", Kind: "rings and sliders", Quantity: 14, Unit: "pairs", Reorder: 6},
	{Name: "Bra hooks, two rows", Kind: "hooks", Quantity: 3, Unit: "pieces", Reorder: 3},
	{Name: "Ball-point needles 80", Kind: "needles", Quantity: 7, Unit: "pieces", Reorder: 5},
}
