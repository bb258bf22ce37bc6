package say

import (
	"fmt"
	"strings"

	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
)

// SizeWhy says why a size is proposed and what speaks about it, a sentence each.
func (v Voice) SizeWhy(c sizing.Choice) []string {
	var out []string
	lead := c.Levels[0]
	for _, w := range c.Why {
		out = append(out, Sentence(v.sizeWhy(w, c, lead)))
	}
	return out
}

func (v Voice) sizeWhy(w sizing.Why, c sizing.Choice, lead sizing.AtLevel) string {
	near := fmt.Sprintf("the %s is %s", lead.Level, v.Width(lead.Body))
	if lead.Chart > 0 {
		near += fmt.Sprintf(", size %s is for %s", lead.Size, v.Width(lead.Chart))
	}
	switch w {
	case sizing.ByHighBust:
		return "by the high bust: " + near
	case sizing.ByBust:
		return near + "; measure the high bust too, it says more about the shoulders"
	case sizing.ByHip, sizing.ByWaist, sizing.ByBustAlone:
		return near
	case sizing.ByGarment:
		return "the pattern has no body chart: this is the smallest size that is comfortable to wear"
	case sizing.FrontFits:
		return "its front is for this cup, " + cup(c)
	case sizing.FrontBetween:
		return fmt.Sprintf("the cup lies between two fronts (%s): compare the ease at the bust of both", v.cupDifference(c))
	case sizing.FrontOther:
		return fmt.Sprintf("full and high bust differ by %s, and the front is drafted for another cup: look at the ease at the bust", v.cupDifference(c))
	case sizing.LevelsDiffer:
		return v.levels(c)
	case sizing.TooLarge:
		return v.beyond(c)
	case sizing.FabricFirm:
		return fmt.Sprintf("the fabric stretches %s%s, less than the %s that the pattern asks: it is firmer to wear than meant%s",
			measure.FormatPercent(c.Limit), assumed(c), measure.FormatPercent(c.Asked), v.meant(c, "wider"))
	case sizing.FabricMore:
		return fmt.Sprintf("the fabric stretches %s%s, much more than the %s that the pattern asks: a smaller size may do%s",
			measure.FormatPercent(c.Limit), assumed(c), measure.FormatPercent(c.Asked), v.meant(c, "narrower"))
	case sizing.TooTight:
		return "worn, this size is stretched further than half of what the fabric gives: take a larger one or a stretchier fabric"
	}
	return string(w)
}

// assumed says that nobody measured the stretch.
func assumed(c sizing.Choice) string {
	if c.Assumed {
		return " (assumed, measure it)"
	}
	return ""
}

// meant says how much wider or narrower the garment would have to be to sit as meant.
func (v Voice) meant(c sizing.Choice, how string) string {
	if c.MeantAt == "" {
		return "; nowhere is it smaller than the body, so it only gives less or more in moving"
	}
	nearest := "no size comes nearer to that"
	if c.MeantSize != c.Size {
		nearest = "size " + c.MeantSize + " comes nearest to that"
	}
	return fmt.Sprintf("; to sit as meant size %s would be %s %s at the %s, and %s",
		c.Size, v.Fine(max(c.Meant, -c.Meant)), how, c.MeantAt, nearest)
}

// cupDifference is full less high bust.
func (v Voice) cupDifference(c sizing.Choice) string {
	return v.Width(measure.Length(c.Cup * float64(measure.Inch)))
}

func cup(c sizing.Choice) string { return sizing.CupName(int(c.Cup + 0.5)) }

func (v Voice) levels(c sizing.Choice) string {
	var parts []string
	for _, l := range c.Levels {
		parts = append(parts, fmt.Sprintf("size %s at the %s", l.Size, l.Level))
	}
	return "between sizes: " + strings.Join(parts, ", ")
}

func (v Voice) beyond(c sizing.Choice) string {
	var parts []string
	for _, l := range c.Levels {
		switch {
		case l.Beyond > 0:
			parts = append(parts, fmt.Sprintf("the %s is %s larger than that of the largest size", l.Level, v.Width(l.Beyond)))
		case l.Beyond < 0:
			parts = append(parts, fmt.Sprintf("the %s is %s smaller than that of the smallest size", l.Level, v.Width(-l.Beyond)))
		}
	}
	return strings.Join(parts, ", ")
}

// Wear says how a level feels worn.
func Wear(w sizing.Wear) string {
	switch w {
	case sizing.Loose:
		return "with ease"
	case sizing.Comfortable:
		return "comfortable"
	case sizing.Firm:
		return "firm"
	case sizing.TooFar:
		return "too tight"
	}
	return "not known"
}

// EaseRows is a table of what the sizes that could be chosen do at each level.
func (v Voice) EaseRows(c sizing.Choice) [][]string {
	rows := [][]string{{"", "Body", "Garment", "Ease", "Stretched", "Worn"}}
	for _, o := range c.Options {
		name := o.Size
		if o.Size == c.Size {
			name += " ←"
		}
		for _, e := range o.Eases {
			worn := ""
			if e.Worn > 0 {
				worn = measure.FormatPercent((e.Worn + measure.OnePercent/2) / measure.OnePercent * measure.OnePercent)
			}
			rows = append(rows, []string{name + "  " + e.Level, v.Width(e.Body), v.Width(e.Finished), v.Signed(e.Ease), worn, Wear(e.Wear)})
			name = strings.Repeat(" ", 3)
		}
	}
	return rows
}
