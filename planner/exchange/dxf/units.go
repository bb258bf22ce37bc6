package dxf

import (
	"fmt"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/stash"
)

// errNoUnits is for a file that does not say what its numbers mean.
var errNoUnits = &stash.Error{
	Err: drawn.ErrNoUnits, Kind: stash.Invalid,
	What: "the drawing does not say how large it is: a DXF file holds bare numbers, and this one names no unit",
	Do:   "Say what one unit of the drawing measures: 1 mm and 1 in (25.4 mm) are the usual ones.",
}

// insertUnits are the units of $INSUNITS that cloth may be drawn in, in mm.
var insertUnits = map[int]struct {
	mm   float64
	name string
}{
	1: {25.4, "inches"}, 2: {304.8, "feet"}, 4: {1, "millimetres"}, 5: {10, "centimetres"}, 6: {1000, "metres"},
	8: {0.0000254, "microinches"}, 9: {0.0254, "mils"}, 10: {914.4, "yards"}, 13: {0.001, "micrometres"}, 14: {100, "decimetres"},
}

// wordUnits are the units of the text UNITS, from memory of the standard, and what
// programs may write instead.
var wordUnits = map[string]float64{
	"METRIC": 1, "MM": 1, "MILLIMETER": 1, "MILLIMETERS": 1, "MILLIMETRES": 1, "CM": 10, "CENTIMETERS": 10, "CENTIMETRES": 10,
	"ENGLISH": 25.4, "IMPERIAL": 25.4, "INCH": 25.4, "INCHES": 25.4, "IN": 25.4,
}

// scale finds what one unit measures: as given, else by the text, else by the header.
func (f *File) scale(given float64, text string, n *notes) (drawn.Scale, error) {
	byHeader, inHeader := insertUnits[f.Header.Units]
	byText, inText := wordUnits[strings.ToUpper(text)]
	if text != "" && !inText {
		n.add(drawn.Unit, "", fmt.Sprintf("its unit %q is not understood", shorten(text)), "Compare a measurement you know with the picture.")
	}
	switch {
	case given > 0:
		return drawn.Scale{Unit: given, Given: true, From: "one unit as you said"}, nil
	case inText:
		if inHeader && byHeader.mm != byText {
			n.add(drawn.Unit, "", fmt.Sprintf("its words say %s and its header says %s; the words were taken", strings.ToLower(text), byHeader.name), "Compare a measurement you know with the picture.")
		}
		return drawn.Scale{Unit: byText, From: fmt.Sprintf("its units are %s, so one is %g mm", strings.ToLower(text), byText)}, nil
	case inHeader:
		return drawn.Scale{Unit: byHeader.mm, From: "its header says " + byHeader.name}, nil
	}
	return drawn.Scale{}, errNoUnits
}
