package say

import (
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
)

// Asks says what a use asks of its fabric: "a knit, stretches 30 % around, recovers 80 %".
func (v Voice) Asks(r pattern.Role) string {
	var out []string
	if r.Knit {
		out = append(out, "a knit")
	}
	switch {
	case r.StretchAround > 0 && r.StretchAlong > 0:
		out = append(out, fmt.Sprintf("stretches %s around, %s up and down", measure.FormatPercent(r.StretchAround), measure.FormatPercent(r.StretchAlong)))
	case r.StretchAround > 0:
		out = append(out, fmt.Sprintf("stretches %s around", measure.FormatPercent(r.StretchAround)))
	case r.StretchAlong > 0:
		out = append(out, fmt.Sprintf("stretches %s up and down", measure.FormatPercent(r.StretchAlong)))
	}
	if r.Recovery > 0 {
		out = append(out, "recovers "+measure.FormatPercent(r.Recovery))
	}
	if w := v.weights(r.WeightMin, r.WeightMax); w != "" {
		out = append(out, w)
	}
	if len(out) == 0 {
		return "nothing special"
	}
	return strings.Join(out, ", ")
}

// AsksShort is Asks for a narrow column: "knit, stretches 35 %".
func AsksShort(r pattern.Role) string {
	out := "any fabric"
	if r.Knit {
		out = "knit"
	}
	if most := max(r.StretchAround, r.StretchAlong); most > 0 {
		out += ", stretches " + measure.FormatPercent(most)
	}
	return out
}

// weights says between which weights a fabric should be.
func (v Voice) weights(least, most measure.Weight) string {
	switch {
	case least > 0 && most > 0:
		low := strings.Fields(measure.FormatWeight(least, v.Units))
		return low[0] + " to " + measure.FormatWeight(most, v.Units)
	case least > 0:
		return "at least " + measure.FormatWeight(least, v.Units)
	case most > 0:
		return "at most " + measure.FormatWeight(most, v.Units)
	}
	return ""
}

// Signed writes a difference of girths: "+6 cm", "−4.5 cm", "0".
func (v Voice) Signed(l measure.Length) string {
	switch s := v.Width(max(l, -l)); {
	case s == v.Width(0) || strings.HasPrefix(s, "0 "):
		return "0"
	case l > 0:
		return "+" + s
	case l < 0:
		return "−" + s
	default:
		return "0"
	}
}

// Caution is the usual caution where a pattern is for something that can hurt
// (`common practice`), or "".
func Caution(p pattern.Pattern) string {
	text := p.Kind + " " + p.Name + " " + p.Notes
	switch {
	case garment.ForSleep(text):
		return garment.Sleepwear.Says()
	case garment.ForChild(text):
		return "No drawstrings at the neck of children's wear, and no small parts that come off."
	}
	return ""
}

// Approximate says what approximate outlines are, of a pattern that has them.
func Approximate(v Voice, p pattern.Pattern) string {
	return "Approximate outlines, drafted from measurements. They are " + v.Fine(p.Spare) + " longer at each end than they need be, so that a layout of them holds; cut from true outlines, or try it out in cheap cloth first."
}

// YardageRows is the yardage table of a pattern in a size, its titles first: what is the same in one direction and
// either way stands there once.
func (v Voice) YardageRows(p pattern.Pattern, size string) [][]string {
	rows := [][]string{{"Used for", "At width", "", "Length"}}
	serves := func(y pattern.YardageRow) bool { return len(y.Sizes) == 0 || slices.Contains(y.Sizes, size) }
	for _, y := range p.Yards {
		same := func(o pattern.YardageRow) bool {
			return serves(o) && o.WithNap != y.WithNap && o.Role == y.Role && o.Width == y.Width && o.Length == y.Length
		}
		once := slices.ContainsFunc(p.Yards, same)
		if !serves(y) || y.WithNap && once {
			continue
		}
		way := ""
		switch {
		case y.WithNap:
			way = "one direction"
		case !once:
			way = "either way"
		}
		rows = append(rows, []string{y.Role, v.Width(y.Width), way, v.Length(y.Length)})
	}
	return rows
}
