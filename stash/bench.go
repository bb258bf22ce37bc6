package stash

import (
	"fmt"
	"slices"

	"tallycloth/stash/measure"
)

// BenchReading is one stretch test of a fabric, with its day.
type BenchReading struct {
	Date      Date
	Crosswise bool
	StretchTest
}

// WithReadings returns the fabric with further stretch tests kept. What a grain is known
// for is the mean of the tests of its latest day; a grain without a test stays as it is.
func (f Fabric) WithReadings(readings ...BenchReading) (Fabric, error) {
	f.Bench = slices.Clone(f.Bench)
	for _, r := range readings {
		if err := r.Validate(); err != nil {
			return f, fmt.Errorf("reading a stretch test: %w", err)
		}
		f.Bench = append(f.Bench, r)
	}
	slices.SortStableFunc(f.Bench, func(a, b BenchReading) int {
		switch {
		case a.Date < b.Date:
			return -1
		case a.Date > b.Date:
			return 1
		}
		return 0
	})
	for _, r := range readings {
		g := &f.Lengthwise
		if r.Crosswise {
			g = &f.Crosswise
		}
		*g = meanOf(*g, f.LatestReadings(r.Crosswise))
	}
	return f, nil
}

// LatestReadings returns the tests along one grain of its latest day.
func (f Fabric) LatestReadings(crosswise bool) []BenchReading {
	var out []BenchReading
	for _, r := range f.Bench {
		if r.Crosswise != crosswise {
			continue
		}
		if len(out) > 0 && out[0].Date != r.Date {
			out = out[:0]
		}
		out = append(out, r)
	}
	return out
}

// meanOf returns a grain with the means of some tests; its shrinkage stays, and so does
// its narrowing if no test took the widths.
func meanOf(g Grain, rs []BenchReading) Grain {
	var stretch, growth, recovery, narrowing []measure.Percent
	for _, r := range rs {
		stretch, growth = append(stretch, r.Stretch()), append(growth, r.Growth())
		if p, ok := r.Recovery(); ok {
			recovery = append(recovery, p)
		}
		if p, ok := r.Narrowing(); ok {
			narrowing = append(narrowing, p)
		}
	}
	g.Stretch, g.Growth, g.Recovery = mean(stretch), mean(growth), mean(recovery)
	if len(narrowing) > 0 {
		g.Narrowing = mean(narrowing)
	}
	return g
}

// mean rounds half up; none is not measured.
func mean(ps []measure.Percent) Reading {
	if len(ps) == 0 {
		return Reading{}
	}
	sum, n := int64(0), int64(len(ps))
	for _, p := range ps {
		sum += int64(p)
	}
	d := 2*sum + n
	q := d / (2 * n)
	if d%(2*n) < 0 {
		q--
	}
	return Measured(measure.Percent(q))
}
