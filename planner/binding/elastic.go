package binding

import (
	"fmt"

	"tallycloth/stash/measure"
)

// Elastic is elastic at a waist or leg.
type Elastic struct {
	Girth     measure.Length  // of the body where it sits
	Factor    float64         // of the girth, 0.85–0.95 by elastic (`common practice`); zero takes ElasticFactor
	Lap       measure.Length  // sewn one end over the other, 1/2–1 in
	Stretch   measure.Percent // of the elastic; zero when not known
	Passes    measure.Length  // the girth the ring must pass: the hip; zero when it need not
	Width     measure.Length  // of the elastic
	EaseIn    measure.Length  // that the casing is wider than the elastic, 1/8–1/4 in (`common practice`)
	TurnUnder measure.Length  // edge of the casing turned under; zero where it is overlocked
	Units     measure.System
}

// Defaults for elastic (`common practice`).
const (
	ElasticFactor = 0.90
	ElasticLap    = measure.Inch / 2
	CasingEase    = measure.Inch / 8
)

// ElasticCut is what elastic comes to.
type ElasticCut struct {
	Ring   measure.Length // girth × factor
	Cut    measure.Length // ring + lap
	Casing measure.Length // below its fold: elastic + ease + turn under
	Checks []Check
}

// Work works elastic out. Errors: no girth, no width, a factor outside 0.6–1.1.
func (e Elastic) Work() (ElasticCut, error) {
	factor := e.Factor
	if factor == 0 {
		factor = ElasticFactor
	}
	switch {
	case e.Girth <= 0 || e.Girth > longestEdge:
		return ElasticCut{}, invalid("the girth is missing", "Measure round the body where the elastic sits.")
	case e.Width <= 0:
		return ElasticCut{}, invalid("the elastic has no width", "Type how wide it is.")
	case !between(factor, 0.6, 1.1):
		return ElasticCut{}, invalid(fmt.Sprintf("elastic of %.4g of the girth does not sit", factor), "Type 85 % to 95 %: less for soft elastic, more for firm.")
	case e.Lap < 0 || e.EaseIn < 0 || e.TurnUnder < 0 || e.Passes < 0:
		return ElasticCut{}, invalid("a length is negative", "Type zero or more.")
	}
	ring := rounded(factor * float64(e.Girth))
	out := ElasticCut{Ring: ring, Cut: ring + e.Lap, Casing: e.Width + e.EaseIn + e.TurnUnder}
	if e.Passes > 0 {
		out.Checks = append(out.Checks, e.passes(ring))
	}
	return out, nil
}

// passes checks that the ring, stretched to its end, gets over the hip.
func (e Elastic) passes(ring measure.Length) Check {
	say := func(l measure.Length) string {
		return measure.Style{System: e.Units, Kind: measure.StripLength}.Format(l)
	}
	if e.Stretch == 0 {
		return Check{Kind: CheckPasses, Unknown: true, Limit: float64(e.Passes), Text: "Whether the ring gets over the hip is not known",
			Do: fmt.Sprintf("Pull the elastic: a ring of %s must reach %s.", say(ring), say(e.Passes))}
	}
	reach := rounded(float64(ring) * (1 + e.Stretch.Fraction()))
	c := Check{Kind: CheckPasses, OK: reach >= e.Passes, Value: float64(reach), Limit: float64(e.Passes)}
	c.Text = fmt.Sprintf("The stretched ring reaches %s; the hip takes %s", say(reach), say(e.Passes))
	if !c.OK {
		c.Do = "Take elastic that stretches more, or cut it longer."
	}
	return c
}
