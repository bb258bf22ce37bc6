package sizing

import (
	"fmt"
	"math"
	"slices"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Ask asks for a size of a pattern for a body.
type Ask struct {
	Pattern pattern.Pattern
	Body    map[string]measure.Length
	// Stretch is the bench stretch of the fabric chosen, around the body. Where none is
	// chosen, what the pattern asks counts.
	Stretch measure.Percent
	Chosen  bool
	Assumed bool // nobody measured that stretch
}

// Wear says how it feels to wear a garment that is smaller than the body.
type Wear int

// The grades of wear: up to a third of the bench stretch is comfortable, up to half firm,
// above that a warning (common practice).
const (
	Loose Wear = iota // the garment is not smaller than the body
	Comfortable
	Firm
	TooFar
	Unknown // nothing is known of the fabric
)

// Ease is what a level of a size does on a body.
type Ease struct {
	Level          string
	Body, Finished measure.Length
	Ease           measure.Length  // finished − body
	Worn           measure.Percent // body/finished − 1, 0 where there is ease
	Wear           Wear
}

// Option is a size that could be chosen.
type Option struct {
	Size  string
	Front string // the cup its front is for, or ""
	Eases []Ease // of the levels that are known
}

// Worst is the tightest level's grade.
func (o Option) Worst() Wear {
	w := Loose
	for _, e := range o.Eases {
		w = max(w, e.Wear)
	}
	return w
}

// AtLevel is the size that one level alone would take.
type AtLevel struct {
	Level string
	Size  string
	Body  measure.Length
	Chart measure.Length // of the body the size is for; 0: chosen by the finished garment
	// Beyond is how much the body is larger than the largest, or (negative) smaller than
	// the smallest size of the chart.
	Beyond measure.Length
}

// Why is a ground of a proposal.
type Why string

// The grounds.
const (
	ByHighBust   Why = "high bust"     // the size whose high bust matches
	ByBust       Why = "bust"          // no high bust is known
	ByBustAlone  Why = "bust alone"    // the pattern says a size by the bust, and by no body
	ByHip        Why = "hip"           // nothing is fitted at the bust
	ByWaist      Why = "waist"         // nor at the hip
	ByGarment    Why = "garment"       // no body chart: the smallest that is comfortable
	FrontFits    Why = "front"         // the pattern has a front of her cup
	FrontBetween Why = "between cups"  // the cup lies between two fronts
	FrontOther   Why = "other cup"     // the front is drafted for another cup
	LevelsDiffer Why = "levels differ" // waist or hip ask for another size: blend
	TooLarge     Why = "beyond"        // the chart ends before
	FabricFirm   Why = "firm fabric"   // it stretches less than the pattern asks
	FabricMore   Why = "stretchy"      // much more: a smaller size may do
	TooTight     Why = "tight"         // worn, it is stretched further than is good
)

// Choice is the answer.
type Choice struct {
	Size    string
	Levels  []AtLevel
	Why     []Why
	Cup     float64  // full bust less high bust in inches; 0: not known
	Options []Option // the size proposed with its neighbours, in grading order, all fronts of her size
	Limit   measure.Percent
	Asked   measure.Percent // the bench stretch that the pattern asks of a fabric; 0: not said
	Assumed bool            // nobody measured how far the fabric stretches
	// MeantAt is the level that is stretched furthest when worn in a fabric much firmer or
	// stretchier than the pattern asks, Meant how much wider (or, negative, narrower) the garment
	// would have to be there to sit as meant; "" where no level is stretched.
	MeantAt string
	Meant   measure.Length
	// MeantSize is the size that comes nearest to that there, of those for the same front.
	MeantSize string
}

// AtLevels are the sizes of a choice level by level, as BlendLevels takes them: that of the bust
// where it led, else waist and hip alone.
func (c Choice) AtLevels() map[string]string {
	at := map[string]string{pattern.Waist: c.Size, pattern.Hip: c.Size}
	for i, l := range c.Levels {
		switch l.Level {
		case pattern.HighBust, pattern.Bust:
			if i == 0 {
				at[pattern.Bust] = c.Size
			}
		default:
			at[l.Level] = l.Size
		}
	}
	return at
}

// Choose proposes a size: by the high bust and then the front of her cup, or by the bust, the
// hip, the waist, the first that both body and pattern know. Between two sizes it takes the
// larger. Other levels have their own sizes in Levels.
func Choose(a Ask) (Choice, error) {
	if len(a.Pattern.Sizes) == 0 {
		return Choice{}, invalid("the pattern has no size", "Add its sizes first.")
	}
	c := Choice{Limit: a.limit(), Assumed: a.Chosen && a.Assumed}
	lead := ""
	for _, level := range []string{pattern.HighBust, pattern.Bust, pattern.Hip, pattern.Waist} {
		at, ok := a.at(level)
		if !ok || level == pattern.Bust && lead != "" {
			continue
		}
		if lead == "" {
			lead = level
			c.Size = at.Size
		}
		c.Levels = append(c.Levels, at)
	}
	for _, level := range []string{pattern.Thigh, UpperArm} { // they lead to no size, and a blend follows them
		if at, ok := a.at(level); ok && lead != "" {
			c.Levels = append(c.Levels, at)
		}
	}
	if lead == "" {
		return Choice{}, a.speechless()
	}
	c.because(lead)
	a.front(&c, lead)
	a.closest(&c, lead)
	a.options(&c, lead)
	a.doubts(&c)
	return c, nil
}

// speechless says why no size can be proposed: the pattern has nothing to say one by, or the body
// lacks it.
func (a Ask) speechless() error {
	for _, s := range a.Pattern.Sizes {
		for _, level := range []string{pattern.HighBust, pattern.Bust, pattern.Hip, pattern.Waist} {
			if chart, _ := chartOf(s, level); chart > 0 || s.Finished[level] > 0 {
				return invalid("nothing that the pattern says a size by was measured", "Measure bust, waist or hip.")
			}
		}
	}
	return invalid("the pattern does not say for which body its sizes are, nor how wide the garment is",
		"In Patterns, start its body chart from a table, or choose the size yourself.")
}

func (c *Choice) because(lead string) {
	why := map[string]Why{pattern.HighBust: ByHighBust, pattern.Bust: ByBust, pattern.Hip: ByHip, pattern.Waist: ByWaist}[lead]
	if why == ByBust && c.Levels[0].Chart == 0 {
		why = ByBustAlone // a high bust would change nothing
	}
	c.Why = append(c.Why, why)
	if c.Levels[0].Chart == 0 {
		c.Why = append(c.Why, ByGarment)
	}
}

// limit is the bench stretch that counts.
func (a Ask) limit() measure.Percent {
	if a.Chosen {
		return a.Stretch
	}
	r, _ := a.Pattern.Role(pattern.Main)
	return r.StretchAround
}

// cupStep is the difference of full and high bust from cup to cup: 1 in A, 2 B, 3 C, 4 D, and
// on (common practice); draftedCup is what a pattern that says none is drafted for.
const (
	cupStep    = measure.Inch
	draftedCup = "B"
)

// CupName is the name of a cup of so many steps, "" for none.
func CupName(steps int) string {
	if steps < 1 || steps > 8 {
		return ""
	}
	return string(rune('A' + steps - 1))
}

func cupSteps(name string) int {
	for n := 1; n <= 8; n++ {
		if CupName(n) == name {
			return n
		}
	}
	return 2
}

// chartOf is the body a size is drafted for at a level. A chart without a high bust has its
// bust less the cup it is drafted for.
func chartOf(s pattern.Size, level string) (measure.Length, bool) {
	if l, ok := s.Body[level]; ok && l > 0 {
		return l, true
	}
	if bust := s.Body[pattern.Bust]; level == pattern.HighBust && bust > 0 {
		cup := s.Front
		if cup == "" {
			cup = draftedCup
		}
		return bust - measure.Length(cupSteps(cup))*cupStep, true
	}
	return 0, false
}

// at finds the size of one level.
func (a Ask) at(level string) (AtLevel, bool) {
	body, ok := a.Body[level]
	if !ok || body <= 0 {
		return AtLevel{}, false
	}
	out := AtLevel{Level: level, Body: body}
	least, most := measure.Length(math.MaxInt64), measure.Length(0)
	off := measure.Length(math.MaxInt64)
	for _, s := range a.Pattern.Sizes {
		chart, ok := chartOf(s, level)
		if !ok {
			continue
		}
		least, most = min(least, chart), max(most, chart)
		d := max(chart-body, body-chart)
		if d < off || d == off && chart > out.Chart {
			off, out.Size, out.Chart = d, s.Name, chart
		}
	}
	if out.Size == "" {
		return a.byGarment(out)
	}
	switch {
	case body > most:
		out.Beyond = body - most
	case body < least:
		out.Beyond = body - least
	}
	return out, true
}

// byGarment is the smallest size that is comfortable at a level, where no body chart says
// one: body ≤ finished·(1 + stretch/3).
func (a Ask) byGarment(at AtLevel) (AtLevel, bool) {
	var largest measure.Length
	best := measure.Length(math.MaxInt64)
	last := ""
	for _, s := range a.Pattern.Sizes {
		f := s.Finished[at.Level]
		if f <= 0 {
			continue
		}
		reach := measure.Length(float64(f) * (1 + a.limit().Fraction()/3))
		if reach >= at.Body && f < best {
			best, at.Size = f, s.Name
		}
		if reach > largest {
			largest, last = reach, s.Name
		}
	}
	if at.Size == "" && last != "" {
		at.Size, at.Beyond = last, at.Body-largest
	}
	return at, last != ""
}

// front takes the front of her cup among sizes of the same high bust.
func (a Ask) front(c *Choice, lead string) {
	full, high := a.Body[pattern.Bust], a.Body[pattern.HighBust]
	if lead != pattern.HighBust || full <= high || high <= 0 {
		return
	}
	c.Cup = float64(full-high) / float64(cupStep)
	chosen, _ := a.Pattern.Size(c.Size)
	chart, _ := chartOf(chosen, pattern.HighBust)
	best, size, cup, fronts := math.Inf(1), "", 0, 0
	for _, s := range a.Pattern.Sizes {
		other, ok := chartOf(s, pattern.HighBust)
		if !ok || other != chart || s.Front == "" {
			continue
		}
		fronts++
		steps := cupSteps(s.Front)
		if off := math.Abs(float64(steps) - c.Cup); off < best-1e-9 || off < best+1e-9 && steps > cup {
			best, size, cup = off, s.Name, steps
		}
	}
	switch {
	case fronts == 0:
		if math.Abs(c.Cup-float64(cupSteps(draftedCup))) > 0.5 {
			c.Why = append(c.Why, FrontOther)
		}
		return
	case best > 0.5:
		c.Why = append(c.Why, FrontOther)
	case best > 0.25 && fronts > 1:
		c.Why = append(c.Why, FrontBetween)
	default:
		c.Why = append(c.Why, FrontFits)
	}
	c.Size, c.Levels[0].Size = size, size
}

// closest takes, of sizes that are the same to the leading level and for the same front, the
// one that is nearest at the other levels: a blend made for her. Where no body chart says what a
// size is for, it is the garments of the sizes that each level alone would take that are compared.
func (a Ask) closest(c *Choice, lead string) {
	chosen, _ := a.Pattern.Size(c.Size)
	of := measured(chosen, lead)
	if of == 0 {
		return
	}
	off := func(s pattern.Size) (sum measure.Length) {
		for _, l := range c.Levels {
			want := l.Body
			if l.Chart == 0 {
				alone, _ := a.Pattern.Size(l.Size)
				want = alone.Finished[l.Level]
			}
			if x := measured(s, l.Level); x > 0 {
				sum += max(x-want, want-x)
			}
		}
		return sum
	}
	for _, s := range a.Pattern.Sizes {
		if measured(s, lead) == of && s.Front == chosen.Front && off(s) < off(chosen) {
			chosen = s
		}
	}
	c.Size, c.Levels[0].Size = chosen.Name, chosen.Name
}

// measured is what a size is told by at a level: the body that it is for, or else its garment.
func measured(s pattern.Size, level string) measure.Length {
	if chart, ok := chartOf(s, level); ok {
		return chart
	}
	return s.Finished[level]
}

// options lists the size with those before and after it that are others to the leading level, and
// what lies between: other fronts, and blends.
func (a Ask) options(c *Choice, lead string) {
	sizes := a.Pattern.Sizes
	at := slices.IndexFunc(sizes, func(s pattern.Size) bool { return s.Name == c.Size })
	of := measured(sizes[at], lead)
	from, to := at, at
	for from > 0 && measured(sizes[from], lead) == of {
		from--
	}
	for to < len(sizes)-1 && measured(sizes[to], lead) == of {
		to++
	}
	for _, s := range sizes[from : to+1] {
		c.Options = append(c.Options, a.Option(s))
	}
}

// Option is what a size does on the body.
func (a Ask) Option(s pattern.Size) Option {
	o := Option{Size: s.Name, Front: s.Front}
	for _, l := range a.Pattern.Levels {
		body, finished := a.Body[l.Name], s.Finished[l.Name]
		if !l.Girth || body <= 0 || finished <= 0 {
			continue
		}
		e := Ease{Level: l.Name, Body: body, Finished: finished, Ease: finished - body}
		if e.Ease < 0 {
			e.Worn = measure.PercentOf(float64(body)/float64(finished) - 1)
		}
		e.Wear = a.wear(e)
		o.Eases = append(o.Eases, e)
	}
	return o
}

func (a Ask) wear(e Ease) Wear {
	limit := a.limit()
	switch {
	case e.Ease >= 0:
		return Loose
	case limit <= 0 && !a.Chosen:
		return Unknown
	case 3*e.Worn <= limit:
		return Comfortable
	case 2*e.Worn <= limit:
		return Firm
	}
	return TooFar
}

// doubts adds what speaks about the levels and the fabric.
func (a Ask) doubts(c *Choice) {
	chosen, _ := a.Pattern.Size(c.Size)
	for _, l := range c.Levels {
		s, _ := a.Pattern.Size(l.Size)
		// Another front of the same size is no other size, nor is a blend that is the same there.
		differs := measured(chosen, l.Level) != measured(s, l.Level)
		if differs && !slices.Contains(c.Why, LevelsDiffer) {
			c.Why = append(c.Why, LevelsDiffer)
		}
		if l.Beyond != 0 && !slices.Contains(c.Why, TooLarge) {
			c.Why = append(c.Why, TooLarge)
		}
	}
	if r, ok := a.Pattern.Role(pattern.Main); ok && a.Chosen && r.StretchAround > 0 {
		c.Asked = r.StretchAround
		if a.Stretch < c.Asked || 2*a.Stretch >= 3*c.Asked {
			c.meant(a.Option(chosen), a.Stretch)
			c.MeantSize = a.nearestFinished(chosen, c.MeantAt, chosen.Finished[c.MeantAt]+c.Meant)
		}
		switch {
		case a.Stretch < r.StretchAround:
			c.Why = append(c.Why, FabricFirm)
		case 2*a.Stretch >= 3*r.StretchAround:
			c.Why = append(c.Why, FabricMore)
		}
	}
	if a.Option(chosen).Worst() == TooFar {
		c.Why = append(c.Why, TooTight)
	}
}

// meant finds how much wider the garment would have to be to sit in a fabric as it was meant to:
// so that worn it takes the same share of the stretch that the fabric has as of the stretch that
// the pattern asks, finished = body/(1 + worn·has/asked) (derived here).
func (c *Choice) meant(o Option, has measure.Percent) {
	var worst Ease
	for _, e := range o.Eases {
		if e.Worn > worst.Worn {
			worst = e
		}
	}
	if worst.Worn == 0 {
		return
	}
	worn := float64(worst.Body)/float64(worst.Finished) - 1
	wide := float64(worst.Body) / (1 + worn*float64(has)/float64(c.Asked))
	c.MeantAt, c.Meant = worst.Level, measure.Length(math.Round(wide))-worst.Finished
}

// nearestFinished is the size whose garment comes nearest to a measure at a level, of those for the front of
// one; "" for no level. Of two it is the one that was chosen, or the first.
func (a Ask) nearestFinished(of pattern.Size, level string, want measure.Length) string {
	if level == "" {
		return ""
	}
	off := func(s pattern.Size) measure.Length { return max(s.Finished[level]-want, want-s.Finished[level]) }
	for _, s := range a.Pattern.Sizes {
		if s.Finished[level] > 0 && s.Front == of.Front && off(s) < off(of) {
			of = s
		}
	}
	return of.Name
}

// Started gives a pattern's sizes the bodies of a published table, in order, from the row of
// that size on. It refuses a table with too few rows.
func Started(sizes []pattern.Size, t Table, from string) ([]pattern.Size, error) {
	at := slices.IndexFunc(t.Rows, func(r TableRow) bool { return r.Size == from })
	if at < 0 || at+len(sizes) > len(t.Rows) {
		return nil, invalid(fmt.Sprintf("the table has not %d sizes from %s on", len(sizes), from), "Begin at a smaller size of it, or choose another table.")
	}
	out := slices.Clone(sizes)
	for i := range out {
		out[i].Body = map[string]measure.Length{}
		for name, l := range t.Rows[at+i].Body {
			out[i].Body[name] = l
		}
	}
	return out, nil
}

func invalid(what, do string) error { return &stash.Error{Kind: stash.Invalid, What: what, Do: do} }
