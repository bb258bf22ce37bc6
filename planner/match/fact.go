package match

import (
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// fact is a property of a fabric: measured, assumed by its construction, or unknown.
type fact struct {
	value   measure.Percent
	known   bool // measured or assumed
	assumed bool
}

// grainFacts is what a fabric does along one grain.
type grainFacts struct {
	name                         string // crosswise or lengthwise
	stretch, recovery, shrinkage fact
}

// The names of the two grains in a Reason.
const (
	crosswise  = "crosswise"
	lengthwise = "lengthwise"
)

// factsOf reads a fabric with what is assumed by its construction filled in. Of a
// fabric whose construction was not said nothing is assumed.
func factsOf(f stash.Fabric) (along, across grainFacts) {
	a := f
	if f.Construction != "" {
		a = stash.Assumed(f)
	}
	guess := f.Construction != ""
	return grain(lengthwise, a.Lengthwise, guess), grain(crosswise, a.Crosswise, guess)
}

func grain(name string, g stash.Grain, guess bool) grainFacts {
	read := func(r stash.Reading) fact { return fact{r.Value, r.Known || guess, !r.Known && guess} }
	return grainFacts{name, read(g.Stretch), read(g.Recovery), read(g.Shrinkage)}
}
