package list

import (
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

func copyQuantity(to, from any) {
	switch to := to.(type) {
	case *measure.Length:
		*to = *from.(*measure.Length)
	case *measure.Weight:
		*to = *from.(*measure.Weight)
	}
}

// exact writes a fact so that it reads back as the same; "" when it is not known.
func exact(d *def, rec *Record) string { return cellOf(d, rec).Text }

// cellOf writes a fact as a cell: lengths in the unit of the field, weights in g/m²,
// percents without their sign, all with a decimal point.
func cellOf(d *def, rec *Record) Cell {
	switch v := d.at(rec).(type) {
	case *string:
		return Cell{Text: *v}
	case *measure.Length:
		return number(int64(*v), d.unit)
	case *measure.Weight:
		return number(int64(*v), measure.Length(measure.GramPerSquareMetre))
	case *reading:
		if !v.Known {
			return Cell{}
		}
		return Cell{Text: decimals(int64(v.Value), measure.Length(measure.OnePercent)), Kind: Number}
	case *day:
		return Cell{Text: string(*v), Kind: Day}
	case *bool:
		return Cell{Text: map[bool]string{true: "yes", false: "no"}[*v]}
	case *measure.Money:
		return moneyCell(*v, rec.Currency)
	}
	return Cell{Text: wordsOf(d.at(rec))}
}

func number(v int64, unit measure.Length) Cell {
	if v == 0 {
		return Cell{}
	}
	return Cell{Text: decimals(v, unit), Kind: Number}
}

// moneyCell writes an amount: a bare number where the row's currency is its own.
func moneyCell(m measure.Money, own string) Cell {
	switch {
	case m == (measure.Money{}):
		return Cell{}
	case m.Currency == own && own != "":
		return Cell{Text: strings.TrimSuffix(m.String(), " "+own), Kind: Number}
	}
	return Cell{Text: m.String(), Kind: Amount}
}

func wordsOf(v any) string {
	switch v := v.(type) {
	case *stash.Fibres:
		return v.String()
	case *stash.Construction:
		return string(*v)
	case *stash.Direction:
		return directionWords[*v]
	case *[]string:
		parts := make([]string, len(*v))
		for i, s := range *v {
			parts[i] = escaped(s, ",")
		}
		return strings.Join(parts, ", ")
	case *[]stash.StitchNote:
		return writeStitches(*v)
	case *shape.Polygon:
		return writeOutline(*v)
	}
	return ""
}
