package stash

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"

	"tallycloth/stash/measure"
)

// Notion is what a garment needs besides fabric: thread, elastic, needles, hardware.
type Notion struct {
	ID       ID
	Name     string
	Kind     string
	Quantity float64 // on hand, in Unit
	Unit     string
	Reorder  float64 // below this it is on the shopping list; 0 is never
	// Lines are its history, oldest first: each says what is on hand after it, the last
	// one Quantity. A notion from before histories were kept has none.
	Lines []NotionLine `json:",omitempty"`
}

// NotionMove is what happened to a notion.
type NotionMove string

// The kinds of move.
const (
	NotionCounted NotionMove = "counted"
	NotionBought  NotionMove = "bought"
	NotionUsed    NotionMove = "used"
)

// NotionLine is one line of the history of a notion.
type NotionLine struct {
	On        Date
	Move      NotionMove
	Change    float64 // signed, in the unit of the notion
	After     float64
	GarmentID ID            `json:",omitzero"` // what it was used for, or NoID
	Paid      measure.Money `json:",omitzero"`
	Note      string        `json:",omitempty"`
}

// NotionKinds are the usual kinds; another may be typed.
var NotionKinds = []string{"thread", "needles", "elastic", "clear elastic", "fold-over elastic", "rings and sliders", "hooks", "zips", "interfacing"}

// NotionUnits are the usual units; another may be typed.
var NotionUnits = []string{"m", "cm", "yd", "in", "pieces", "spools", "packs", "pairs"}

// fine is the smallest part of a unit that is kept: quantities are whole millionths.
const fine = 1e6

// Quantified returns a quantity as it is kept, rounded to a millionth.
func Quantified(q float64) float64 { return math.Round(q*fine) / fine }

// Moved returns the notion after a move, with its line of history. A move below zero is
// refused.
func (n Notion) Moved(line NotionLine) (Notion, error) {
	line.Change = Quantified(line.Change)
	line.After = Quantified(n.Quantity + line.Change)
	if line.After < 0 {
		return n, &Error{Kind: Conflict, What: fmt.Sprintf("Only %s of %s is on hand", FormatQuantity(n.Quantity, n.Unit), n.Name),
			Do: "Count it again first, or note what was bought"}
	}
	n.Quantity = line.After
	n.Lines = append(n.Lines[:len(n.Lines):len(n.Lines)], line)
	return n, nil
}

// Short says whether less is on hand than the reorder level.
func (n Notion) Short() bool { return n.Quantity < n.Reorder }

// UsedFor returns how much of the notion was used for a garment.
func (n Notion) UsedFor(garment ID) float64 {
	q := 0.0
	for _, l := range n.Lines {
		if l.Move == NotionUsed && l.GarmentID == garment {
			q -= l.Change
		}
	}
	return Quantified(q)
}

// Validate says what cannot be about a notion: nil, or an Error of kind Invalid.
func (n Notion) Validate() error {
	switch {
	case n.ID == NoID:
		return invalid("", "The notion has no number of its own")
	case strings.TrimSpace(n.Name) == "":
		return invalid("Give it a name", "The notion has no name")
	case !quantity(n.Quantity) || !quantity(n.Reorder):
		return invalid("Count it again", "Quantity and reorder level of %s cannot be negative", n.Name)
	}
	for i, l := range n.Lines {
		_, currency := measure.MinorDigits(l.Paid.Currency)
		switch {
		case l.Move != NotionCounted && l.Move != NotionBought && l.Move != NotionUsed:
			return invalid("", "%q is no kind of move of a notion", l.Move)
		case l.On == "" || !l.On.Valid():
			return invalid("Write it as 2006-01-02", "%q is not a day", l.On)
		case !quantity(l.After) || !quantity(math.Abs(l.Change)):
			return invalid("Count it again", "A quantity of %s cannot be", n.Name)
		case l.Paid.Minor < 0 || l.Paid != (measure.Money{}) && !currency:
			return invalid("Leave it empty if you do not know it", "What was paid for %s cannot be %d %q", n.Name, l.Paid.Minor, l.Paid.Currency)
		case i > 0 && l.After != Quantified(n.Lines[i-1].After+l.Change):
			return invalid("Count it again", "The history of %s does not add up", n.Name)
		}
	}
	if k := len(n.Lines); k > 0 && n.Lines[k-1].After != n.Quantity {
		return invalid("Count it again", "The history of %s does not add up to what is on hand", n.Name)
	}
	return nil
}

// quantity says whether q can be on hand.
func quantity(q float64) bool { return q >= 0 && q <= 1e12 } // not for NaN

// FormatQuantity writes a quantity with its unit: "6.5 m", "1 piece", "7 pieces".
func FormatQuantity(q float64, unit string) string {
	text := strconv.FormatFloat(Quantified(q), 'f', -1, 64)
	if len(unit) > 3 && !IsLength(unit) {
		switch one := plainWord(unit); {
		case q == 1 && one+"s" == strings.ToLower(unit):
			unit = unit[:len(unit)-1]
		case q != 1 && one == strings.ToLower(unit) && !strings.ContainsAny(one[len(one)-1:], "sxhy"):
			unit += "s"
		}
	}
	return strings.TrimSpace(text + " " + unit)
}

// ParseQuantity reads a quantity in a unit: "6.5", "6,5", "6.5 m", "2 1/2 yd", "7 pieces".
// A length in another unit of length is converted. The error says what to type.
func ParseQuantity(text, unit string) (float64, error) {
	refuse := func(wrong string) (float64, error) {
		return 0, &measure.TextError{Text: text, Wrong: wrong, Want: "a quantity such as 6.5, in " + cmp.Or(unit, "its unit")}
	}
	trimmed := strings.TrimSpace(text)
	if trimmed == "" {
		return refuse("nothing is written")
	}
	if u, ok := measure.UnitNamed(unit); ok {
		l, err := measure.ParseLength(trimmed, u)
		if err != nil {
			return 0, err
		}
		return Quantified(float64(l) / float64(u)), nil
	}
	number, word := trimmed, ""
	if i := strings.IndexFunc(trimmed, func(r rune) bool { return !strings.ContainsRune("0123456789.,", r) }); i >= 0 {
		number, word = trimmed[:i], strings.TrimSpace(trimmed[i:])
	}
	q, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	switch {
	case err != nil || !quantity(q):
		return refuse("it is not a quantity")
	case word != "" && plainWord(word) != plainWord(unit):
		return refuse("it is in another unit")
	}
	return Quantified(q), nil
}
