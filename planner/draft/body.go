package draft

import "tallycloth/stash/measure"

// Body is one size of a body chart, girths and lengths in millimetres.
type Body struct {
	Size                        string
	Bust, Waist, Hip, BackWaist float64
}

// inch in millimetres, exact (NIST SP 811).
const inch = 25.4

// Chart is the body chart the demo patterns are graded from: the standard body
// measurements for misses of the US pattern industry (1967/68 revision), sizes 8
// to 22 renamed 1 to 8, in inches as printed. Sizes 8 to 20 agree in two printed
// sources, size 22 stands in one; see testdata/body.
func Chart() []Body {
	rows := []struct {
		size                   string
		bust, waist, hip, back float64
	}{
		{"1", 31.5, 24, 33.5, 15.75},
		{"2", 32.5, 25, 34.5, 16},
		{"3", 34, 26.5, 36, 16.25},
		{"4", 36, 28, 38, 16.5},
		{"5", 38, 30, 40, 16.75},
		{"6", 40, 32, 42, 17},
		{"7", 42, 34, 44, 17.25},
		{"8", 44, 37, 46, 17.5},
	}
	var out []Body
	for _, r := range rows {
		out = append(out, Body{r.size, r.bust * inch, r.waist * inch, r.hip * inch, r.back * inch})
	}
	return out
}

// length turns millimetres into a Length, to the nearest 0.5 mm.
func length(mm float64) measure.Length {
	return measure.Length(2*mm+0.5) * measure.Millimetre / 2
}
