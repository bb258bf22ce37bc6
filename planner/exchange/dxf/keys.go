package dxf

import (
	"slices"
	"strings"
)

// The words that begin the texts of ASTM D6673, "KEY: value", from memory. Those about
// the style come once, those about a piece in its block.
const (
	styleKey    = "STYLE NAME"
	authorKey   = "AUTHOR"
	dateKey     = "CREATION DATE"
	timeKey     = "CREATION TIME"
	rulesKey    = "GRADE RULE TABLE"
	sampleKey   = "SAMPLE SIZE"
	unitsKey    = "UNITS"
	pieceKey    = "PIECE NAME"
	sizeKey     = "SIZE"
	quantityKey = "QUANTITY"
	materialKey = "MATERIAL"
	categoryKey = "CATEGORY"
	noteKey     = "ANNOTATION"
)

// Words of our own that name a line drawn on a piece; they stand at its first point.
const (
	edgeKey   = "EDGE"   // on the sew lines: a stretch of an edge to finish
	stripeKey = "STRIPE" // on the stripe lines: a mark to match by
)

var keys = []string{styleKey, authorKey, dateKey, timeKey, rulesKey, sampleKey, unitsKey, pieceKey, sizeKey, quantityKey, materialKey, categoryKey, noteKey, edgeKey, stripeKey}

// keyed reads "KEY: value"; ok is false for other words.
func keyed(text string) (key, value string, ok bool) {
	before, after, found := strings.Cut(text, ":")
	if !found {
		return "", "", false
	}
	k := strings.ToUpper(strings.Join(strings.FieldsFunc(before, func(r rune) bool { return r == ' ' || r == '_' || r == '\t' }), " "))
	return k, strings.TrimSpace(after), slices.Contains(keys, k)
}

// Notes about a piece that the standard has no key for, as they are written and read.
const (
	letterNote    = "letter "
	pairsNote     = "cut in mirrored pairs"
	crosswiseNote = "grain crosswise"
	biasNote      = "grain on the bias"
	fixedNote     = "no tilt"
	bareNote      = "without seam allowance"
	halfNote      = " (half)"
)

// usual are words for what fabric is used for, by the names roles have here.
var usual = map[string]string{
	"main": "main", "self": "main", "shell": "main", "fabric": "main", "body": "main",
	"contrast": "contrast", "lining": "lining", "binding": "binding",
}
