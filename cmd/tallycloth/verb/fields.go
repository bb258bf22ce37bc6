package verb

import (
	"strconv"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// mm is a length in JSON: millimetres with up to three decimals, exact.
type mm measure.Length

// MarshalJSON writes whole micrometres as a decimal number of millimetres.
func (l mm) MarshalJSON() ([]byte, error) {
	sign, v := "", int64(l)
	if v < 0 {
		sign, v = "-", -v
	}
	s := sign + strconv.FormatInt(v/1000, 10)
	if f := strings.TrimRight(strconv.FormatInt(1000+v%1000, 10)[1:], "0"); f != "" {
		s += "." + f
	}
	return []byte(s), nil
}

// share is a percent in JSON, or null when it was not measured.
type share struct{ stash.Reading }

// MarshalJSON writes 12.5 for 12.5 %.
func (r share) MarshalJSON() ([]byte, error) {
	if !r.Known {
		return []byte("null"), nil
	}
	return []byte(strings.TrimSuffix(measure.FormatPercent(r.Value), " %")), nil
}

// m2 is an area in square metres.
func m2(a measure.Area) float64 { return a.SquareMetres() }

// fabricFields is a fabric in JSON. Stretch and the like are null until measured.
type fabricFields struct {
	Name             string   `json:"name"`
	Construction     string   `json:"construction"`
	Fibres           string   `json:"fibres"`
	WeightGSM        float64  `json:"weight_gsm"`
	WidthMM          mm       `json:"width_mm"`
	Tubular          bool     `json:"tubular"`
	Direction        string   `json:"direction"`
	StretchAcross    share    `json:"stretch_across_percent"`
	StretchAlong     share    `json:"stretch_along_percent"`
	ClassAcross      string   `json:"stretch_across_word"`
	ClassAlong       string   `json:"stretch_along_word"`
	RecoveryAcross   share    `json:"recovery_across_percent"`
	RecoveryAlong    share    `json:"recovery_along_percent"`
	ShrinkageAcross  share    `json:"change_in_washing_across_percent"`
	ShrinkageAlong   share    `json:"change_in_washing_along_percent"`
	Colour           string   `json:"colour"`
	Supplier         string   `json:"supplier"`
	Tags             []string `json:"tags"`
	SameBothFaces    bool     `json:"same_on_both_faces"`
	RepeatAlongMM    mm       `json:"repeat_along_mm"`
	RepeatAcrossMM   mm       `json:"repeat_across_mm"`
	SelvedgeLossMM   mm       `json:"selvedge_loss_mm"`
	NarrowingAcross  share    `json:"narrowing_across_percent"`
	StretchIsAssumed bool     `json:"stretch_is_assumed"`
}

var directions = map[stash.Direction]string{
	stash.EitherWay: "either way", stash.SameWayInGarment: "same way within a garment", stash.SameWayForAll: "same way for everything",
}

// stretchWord is the class of a stretch that was measured, else "".
func stretchWord(r stash.Reading, words stash.StretchClasses) string {
	if !r.Known {
		return ""
	}
	return words.Of(r.Value)
}

func fieldsOfFabric(f stash.Fabric, words stash.StretchClasses) fabricFields {
	return fabricFields{
		Name: f.Name, Construction: string(f.Construction), Fibres: f.Fibres.String(),
		WeightGSM: float64(f.Weight) / float64(measure.GramPerSquareMetre), WidthMM: mm(f.FullWidth), Tubular: f.Tubular,
		Direction: directions[f.Direction], SelvedgeLossMM: mm(f.SelvedgeLoss),
		ClassAcross: stretchWord(f.Crosswise.Stretch, words), ClassAlong: stretchWord(f.Lengthwise.Stretch, words),
		StretchAcross: share{f.Crosswise.Stretch}, StretchAlong: share{f.Lengthwise.Stretch},
		RecoveryAcross: share{f.Crosswise.Recovery}, RecoveryAlong: share{f.Lengthwise.Recovery},
		ShrinkageAcross: share{f.Crosswise.Shrinkage}, ShrinkageAlong: share{f.Lengthwise.Shrinkage},
		NarrowingAcross: share{f.Crosswise.Narrowing}, Colour: f.ColourName, Supplier: f.Supplier, Tags: some(f.Tags),
		SameBothFaces: f.SameBothFace, RepeatAlongMM: mm(f.RepeatAlong), RepeatAcrossMM: mm(f.RepeatAcross),
		StretchIsAssumed: !f.Crosswise.Stretch.Known,
	}
}

// some makes an empty list of nil, which JSON would call null.
func some[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

// clothFields is a length or leftover in JSON.
type clothFields struct {
	Code     string         `json:"code"`
	Fabric   string         `json:"fabric"`
	LengthMM mm             `json:"length_mm"` // of its bounds, for an odd outline
	WidthMM  mm             `json:"width_mm"`
	Odd      bool           `json:"odd_outline"`
	Lot      string         `json:"lot"`
	Place    string         `json:"place"`
	Washed   bool           `json:"washed"`
	AreaM2   float64        `json:"area_m2"`
	FreeM2   float64        `json:"free_m2"`
	Reserved []reservedLine `json:"reserved"`
}

// reservedLine says what keeps a part of a cloth.
type reservedLine struct {
	Garment string `json:"garment"`
	UsedFor string `json:"used_for"`
	Pieces  int    `json:"pieces"`
}

func fieldsOfCloth(c stash.ClothState, garments map[stash.ID]string) clothFields {
	out := clothFields{
		Code: c.Cloth.Code, Fabric: c.Fabric.Name, LengthMM: mm(c.Cloth.Length), WidthMM: mm(c.Cloth.Width),
		Odd: !c.Cloth.Plain(), Lot: c.Cloth.Lot, Place: c.Cloth.Place, Washed: c.Cloth.Washed,
		AreaM2: m2(c.Area), FreeM2: m2(c.FreeArea), Reserved: []reservedLine{},
	}
	for _, r := range c.Reservations {
		out.Reserved = append(out.Reserved, reservedLine{Garment: garments[r.GarmentID], UsedFor: r.UsedFor, Pieces: len(r.Pieces)})
	}
	return out
}

// patternFields is a pattern in JSON.
type patternFields struct {
	Name   string        `json:"name"`
	Maker  string        `json:"maker"`
	Kind   string        `json:"kind"`
	Sizes  []string      `json:"sizes"`
	Uses   []useFields   `json:"uses"`
	Pieces []pieceFields `json:"pieces"`
	Edges  []string      `json:"edges_to_finish"`
	// Approximate outlines were drafted from measurements.
	Approximate bool `json:"approximate"`
}

// useFields is what one use of fabric asks; 0 asks nothing.
type useFields struct {
	UsedFor       string  `json:"used_for"`
	Knit          bool    `json:"knit_only"`
	StretchAround float64 `json:"stretch_around_percent"`
	StretchAlong  float64 `json:"stretch_along_percent"`
	Recovery      float64 `json:"recovery_percent"`
	Optional      bool    `json:"optional"`
}

// pieceFields is a pattern piece.
type pieceFields struct {
	Code    string `json:"code"`
	Name    string `json:"name"`
	UsedFor string `json:"used_for"`
	Cut     int    `json:"cut"`
	Pairs   bool   `json:"mirrored_pairs"`
	OnFold  bool   `json:"on_fold"`
	Sizes   int    `json:"sizes_with_outline"`
}

func fieldsOfPattern(p pattern.Pattern) patternFields {
	out := patternFields{Name: p.Name, Maker: p.Maker, Kind: p.Kind, Sizes: []string{}, Uses: []useFields{}, Pieces: []pieceFields{}, Edges: []string{}, Approximate: p.Approximate}
	for _, z := range p.Sizes {
		out.Sizes = append(out.Sizes, z.Name)
	}
	for _, r := range p.Roles {
		out.Uses = append(out.Uses, useFields{
			UsedFor: r.Name, Knit: r.Knit, Optional: r.Optional, StretchAround: 100 * r.StretchAround.Fraction(),
			StretchAlong: 100 * r.StretchAlong.Fraction(), Recovery: 100 * r.Recovery.Fraction(),
		})
	}
	for _, q := range p.Pieces {
		out.Pieces = append(out.Pieces, pieceFields{Code: q.Code, Name: q.Name, UsedFor: q.Role, Cut: q.Cut, Pairs: q.Pairs, OnFold: q.OnFold, Sizes: len(q.Outlines)})
	}
	for _, e := range p.Edges {
		out.Edges = append(out.Edges, e.Name)
	}
	return out
}

// garmentFields is a garment in JSON.
type garmentFields struct {
	Name    string   `json:"name"`
	Pattern string   `json:"pattern"`
	Size    string   `json:"size"`
	For     string   `json:"for"`
	State   string   `json:"state"`
	Wanted  string   `json:"wanted"`
	Cloth   []string `json:"cloth"` // codes of the cloth reserved for it
	Strips  int      `json:"strips"`
}

func fieldsOfGarment(g garment.Garment, patternName string, codes []string) garmentFields {
	return garmentFields{
		Name: g.Name, Pattern: patternName, Size: g.Size, For: g.For, State: string(g.State), Wanted: string(g.Wanted),
		Cloth: some(codes), Strips: len(g.Strips),
	}
}

// The words for verdicts and proofs in JSON, which do not change with the language.
var (
	grades = map[match.Grade]string{
		match.Enough: "enough", match.Tight: "tight", match.EnoughIf: "enough if", match.CannotTell: "cannot tell",
		match.NotEnough: "not enough", match.Unsuitable: "unsuitable",
	}
	proofs = map[match.Proof]string{
		match.NoProof: "none", match.ByLayout: "layout", match.ByYardage: "yardage table", match.ByBound: "no layout can exist",
		match.ByProperties: "the fabric", match.BySearch: "looked for and not found",
	}
)
