package garment

import (
	"slices"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
)

// Caution is a usual caution that applies to a garment.
type Caution string

// The cautions (common practice). Local rules and people licensed in the field decide.
const (
	Sleepwear     Caution = "children's sleepwear"
	Drawstrings   Caution = "drawstrings"
	SmallParts    Caution = "small hardware"
	Latex         Caution = "latex"
	BladesAndIron Caution = "blades and irons"
)

// Cautious is what cautions are found by.
type Cautious struct {
	Pattern pattern.Pattern
	Garment Garment
	Fabrics []stash.Fabric
	Notions []stash.Notion // used, or asked for by the pattern
}

var (
	childWords   = []string{"child", "kid", "baby", "babies", "toddler", "infant", "boys", "boy's", "girls", "girl's"}
	sleepWords   = []string{"sleep", "pyjama", "pajama", "nightshirt", "nightgown", "night dress", "nightdress"}
	stringWords  = []string{"drawstring", "draw string", "tie cord", "cords", "hood string"}
	smallWords   = []string{"ring", "slider", "hook", "button", "snap", "bead", "toggle", "zip", "press stud", "popper", "charm"}
	elasticWords = []string{"elastic", "rubber", "latex"}
)

// ForChild says whether a text speaks of wear for children.
func ForChild(text string) bool { return anyWord(text, childWords) }

// ForSleep says whether a text speaks of wear for the night.
func ForSleep(text string) bool { return anyWord(text, sleepWords) }

// CautionsFor lists the cautions that apply, what can hurt first.
func CautionsFor(c Cautious) []Caution {
	text := strings.Join([]string{c.Pattern.Kind, c.Pattern.Name, c.Pattern.Notes, c.Garment.Name, c.Garment.Variant, c.Garment.For, c.Garment.Record.Purpose, c.Garment.Notes}, " ")
	var used []string
	for _, n := range c.Notions {
		used = append(used, n.Name+" "+n.Kind)
	}
	for _, n := range c.Pattern.Notions {
		used = append(used, n.Name+" "+n.Kind)
	}
	things := strings.Join(used, " ")
	child := ForChild(text)
	latex := anyWord(things, elasticWords) || slices.ContainsFunc(c.Fabrics, func(f stash.Fabric) bool { return f.Fibres.Share("elastodiene") > 0 })
	var out []Caution
	for _, k := range []struct {
		applies bool
		caution Caution
	}{
		{child && ForSleep(text), Sleepwear},
		{child && anyWord(text+" "+things, stringWords), Drawstrings},
		{child && anyWord(things, smallWords), SmallParts},
		{latex, Latex},
		{c.Garment.State.Open() && c.Garment.State != Wanted, BladesAndIron},
	} {
		if k.applies {
			out = append(out, k.caution)
		}
	}
	return out
}

// Says is the caution in words.
func (c Caution) Says() string {
	switch c {
	case Sleepwear:
		return "For children's sleepwear the rules about catching fire differ by country: look them up before choosing a loose cotton knit. Local rules and people licensed in the field decide."
	case Drawstrings:
		return "No drawstrings at the neck of children's wear: they catch and strangle. Look up the local rules for cords elsewhere."
	case SmallParts:
		return "Small hardware is a choking hazard for small children: leave it off, or sew it on so that it cannot come off, and look up the local rules."
	case Latex:
		return "Elastic may contain latex: ask who will wear it, and look at the packet."
	case BladesAndIron:
		return "Mind rotary cutters, needles and hot irons: close the blade, look for pins, switch the iron off."
	}
	return string(c)
}

// anyWord says whether a word of the text begins with one of the words.
func anyWord(text string, words []string) bool {
	text = " " + strings.Map(func(r rune) rune {
		if r == '\'' || r == '’' || r >= 'a' && r <= 'z' {
			return r
		}
		return ' '
	}, strings.ToLower(text))
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(text, " "+w) })
}
