package planner

import (
	"slices"
	"strings"

	"tallycloth/stash"
)

// PastTold is what is told of the history in one line: one line of it, or all lines that one undo or redo
// wrote, or that one act wrote which was taken back since.
type PastTold struct {
	PastLine            // the first that is told
	With     []PastLine // the others
}

// Together says whether more than this line is meant: the act as a whole is told, by its sentence.
func (t PastTold) Together() bool { return t.Kind == stash.Reversed || t.TakenBack }

// Told puts together what a person did at once and took back at once. Lines are in their order, either way.
func Told(lines []PastLine) []PastTold {
	var out []PastTold
	for _, l := range lines {
		if n := len(out) - 1; n >= 0 && out[n].Together() && out[n].ActID == l.ActID && out[n].TakenBack == l.TakenBack {
			out[n].With = append(out[n].With, l)
			continue
		}
		out = append(out, PastTold{PastLine: l})
	}
	return out
}

// All are the lines that are told together.
func (t PastTold) All() []PastLine { return append([]PastLine{t.PastLine}, t.With...) }

// FabricName, ClothCode and GarmentName are what Names lists.
func (l PastLine) FabricName() string  { return l.Fabric }
func (l PastLine) ClothCode() string   { return l.Code }
func (l PastLine) GarmentName() string { return l.Garment }

// Names lists what lines that are told together are about, each once, in their order.
func (t PastTold) Names(of func(PastLine) string) string {
	var out []string
	for _, l := range t.All() {
		if name := of(l); name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return strings.Join(out, ", ")
}

// Yards is what all of it changed cloth by.
func (t PastTold) Yards() Yards {
	var sum Yards
	for _, l := range t.All() {
		y := YardsOf(l.Area, l.FullWidth)
		sum.Area, sum.Length = sum.Area+y.Area, sum.Length+y.Length
	}
	return sum
}
