package batch

// odds learns how likely a load fits by how full it makes the cloth, for each effort.
type odds struct {
	tried, fits [oddsEfforts][oddsSteps]float64
}

const (
	oddsSteps   = 20
	oddsEfforts = 4
)

func oddsAt(fullness float64, effort int) (int, int) {
	return min(effort, oddsEfforts-1), max(0, min(oddsSteps-1, int(fullness*oddsSteps)))
}

func (o *odds) note(fullness float64, effort int, fits bool) {
	e, i := oddsAt(fullness, effort)
	o.tried[e][i]++
	if fits {
		o.fits[e][i]++
	}
}

// of returns the likelihood, before any trial a half; less with more effort, which costs more.
func (o *odds) of(fullness float64, effort int) float64 {
	e, i := oddsAt(fullness, effort)
	return (o.fits[e][i] + 1) / (o.tried[e][i] + 2) / float64(1+2*effort)
}

// slim says that loads so full were tried several times at an effort and hardly ever fit.
func (o *odds) slim(fullness float64, effort int) bool {
	e, i := oddsAt(fullness, effort)
	return o.tried[e][i] >= slimTries && o.fits[e][i] < o.tried[e][i]/10
}

const slimTries = 6
