package planner

import (
	"context"
	"fmt"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Yards is an amount of fabric: its area, exact, and how long that is at the full width of
// its fabrics, each area over its own width, rounded to a micrometre.
type Yards struct {
	Area   measure.Area
	Length measure.Length
}

func (y Yards) plus(o Yards) Yards { return Yards{y.Area + o.Area, y.Length + o.Length} }

// Less is what is left of y without o.
func (y Yards) Less(o Yards) Yards { return Yards{y.Area - o.Area, y.Length - o.Length} }

// Flowed is what went in and out.
type Flowed struct {
	In      Yards // bought, or there before the library
	Cut     Yards // went into garments
	Gone    Yards // given away and discarded, waste of cutting in it
	Changed Yards // by washing, by measuring, truing and flaws: less than zero where it shrank
}

// Out is what went out in all.
func (f Flowed) Out() Yards { return f.Cut.plus(f.Gone) }

// Net is what it changed what is there by.
func (f Flowed) Net() Yards { return f.In.plus(f.Changed).Less(f.Out()) }

func (f Flowed) plus(o Flowed) Flowed {
	return Flowed{f.In.plus(o.In), f.Cut.plus(o.Cut), f.Gone.plus(o.Gone), f.Changed.plus(o.Changed)}
}

// YardageSpan is one span of a period.
type YardageSpan struct {
	From, To stash.Date // its first and last day
	Flowed
	Balance Yards // what was there at its end
}

// Yardage is what went in and out, span by span.
type Yardage struct {
	Step   Step
	Before Yards // what was there before the first span
	Spans  []YardageSpan
	Total  Flowed
	// Struck says that balances mean something: whole pieces of cloth were asked for, not
	// kinds of line, garments or words.
	Struck bool
}

// After is what was there at the end.
func (y Yardage) After() Yards { return y.Before.plus(y.Total.Net()) }

// mostSpans is how many spans a period may be parted into: 20 years of months.
const mostSpans = 240

// SumFlows puts flows together, the spans beginning on the days given; flows from the last
// of these on, where the period is over, are left out. Exactly: the areas of In − Out + Changed of
// all spans and what was there before make the balance at the end.
//
// Cloth that becomes leftovers is neither in nor out; where cloth of one code alone is asked for,
// what it leaves in others is out, and a leftover comes in.
func SumFlows(flows []Flow, starts []stash.Date, step Step, single bool) Yardage {
	y := Yardage{Step: step, Spans: make([]YardageSpan, max(len(starts)-1, 0))}
	for i := range y.Spans {
		y.Spans[i].From, y.Spans[i].To = starts[i], Before(starts[i+1])
	}
	type key struct {
		span  int
		kind  stash.MovementKind
		came  bool
		width measure.Length
	}
	sums := map[key]measure.Area{}
	var order []key
	for _, f := range flows {
		if f.Span >= len(y.Spans) {
			continue
		}
		k := key{f.Span, f.Kind, f.Came, f.FullWidth}
		if _, known := sums[k]; !known {
			order = append(order, k)
		}
		sums[k] += f.Area
	}
	for _, k := range order {
		part := flowed(k.kind, YardsOf(sums[k], k.width), single)
		if k.span < 0 {
			y.Before = y.Before.plus(part.Net())
			continue
		}
		y.Spans[k.span].Flowed = y.Spans[k.span].plus(part)
		y.Total = y.Total.plus(part)
	}
	there := y.Before
	for i := range y.Spans {
		there = there.plus(y.Spans[i].Net())
		y.Spans[i].Balance = there
	}
	return y
}

// flowed says what an amount that lines of a kind changed cloth by counts as.
func flowed(kind stash.MovementKind, by Yards, single bool) Flowed {
	out := Yards{}.Less(by)
	switch kind {
	case stash.Bought, stash.Added:
		return Flowed{In: by}
	case stash.Cut:
		return Flowed{Cut: out}
	case stash.GivenAway, stash.Discarded:
		return Flowed{Gone: out}
	case stash.LeftOver:
		switch {
		case single && by.Area > 0:
			return Flowed{In: by}
		case single:
			return Flowed{Gone: out}
		}
		return Flowed{}
	}
	return Flowed{Changed: by}
}

// YardsOf returns an area with its length at a full width, to the nearest micrometre.
func YardsOf(a measure.Area, width measure.Length) Yards {
	if width <= 0 {
		return Yards{Area: a}
	}
	w, half := int64(width), int64(width)/2
	if a < 0 {
		return Yards{a, measure.Length(-((int64(-a) + half) / w))}
	}
	return Yards{a, measure.Length((int64(a) + half) / w)}
}

// inZone asks in the person's zone.
func (s *Studio) inZone(p Past) Past {
	p.Zone = s.now().Location()
	return p
}

// checkPeriod refuses days that are none, and a period without days.
func checkPeriod(from, to stash.Date) error {
	for _, d := range []stash.Date{from, to} {
		if !d.Valid() {
			return invalid("Write it as 2026-03-02", "%q is not a day", d)
		}
	}
	if from != "" && to != "" && from > to {
		return invalid("Say the earlier day first", "The period from %s to %s is empty", from, to)
	}
	return nil
}

// History returns a page of lines of history, the last written first, in the person's own zone:
// those before the line of that number, 0 for the newest.
func (s *Studio) History(ctx context.Context, p Past, before int64, limit int) ([]PastLine, error) {
	if err := checkPeriod(p.From, p.To); err != nil {
		return nil, err
	}
	p = s.inZone(p)
	lines, err := s.Past(ctx, p, before, limit)
	for i := range lines {
		lines[i].At = lines[i].At.In(p.Zone)
	}
	return lines, err
}

// HistoryCount counts them.
func (s *Studio) HistoryCount(ctx context.Context, p Past) (int, error) {
	if err := checkPeriod(p.From, p.To); err != nil {
		return 0, err
	}
	return s.PastCount(ctx, s.inZone(p))
}

// Yardage returns what went in and out in a period, by month or year. Where an end of the
// period is open, it is that of the history.
func (s *Studio) Yardage(ctx context.Context, p Past, step Step) (Yardage, error) {
	fail := func(err error) (Yardage, error) { return Yardage{}, fmt.Errorf("adding up yardage: %w", err) }
	if err := checkPeriod(p.From, p.To); err != nil {
		return Yardage{}, err
	}
	p = s.inZone(p)
	open := p
	open.From, open.To = "", ""
	if p.From == "" || p.To == "" {
		e, err := s.PastExtent(ctx, open)
		if err != nil {
			return fail(err)
		}
		if e.First == "" {
			return Yardage{Step: step, Struck: p.Whole()}, nil
		}
		if p.From == "" {
			p.From = e.First
		}
		if p.To == "" {
			p.To = max(e.Last, p.From)
		}
		p.From = min(p.From, p.To)
	}
	starts, err := spanStarts(p.From, p.To, step)
	if err != nil {
		return Yardage{}, err
	}
	flows, err := s.Flows(ctx, open, starts)
	if err != nil {
		return fail(err)
	}
	y := SumFlows(flows, starts, step, p.Code != "")
	y.Struck = p.Whole()
	return y.between(s.today()), nil
}

// between leaves out the spans before anything was there, and those that have not begun on a day: what will be
// there nobody knows. One span at least stays.
func (y Yardage) between(today stash.Date) Yardage {
	for len(y.Spans) > 1 && y.Before == (Yards{}) && y.Spans[0].Flowed == (Flowed{}) {
		y.Spans = y.Spans[1:]
	}
	for n := len(y.Spans) - 1; n > 0 && y.Spans[n].From > today && y.Spans[n].Flowed == (Flowed{}); n-- {
		y.Spans = y.Spans[:n]
	}
	return y
}

// spanStarts are the days on which spans begin, and the day after the period.
func spanStarts(from, to stash.Date, step Step) ([]stash.Date, error) {
	starts := []stash.Date{from}
	for d := step.next(step.begin(from)); d <= to; d = step.next(d) {
		if starts = append(starts, d); len(starts) > mostSpans {
			return nil, invalid("Add it up by year, or say a shorter period", "From %s to %s are too many spans", from, to)
		}
	}
	return append(starts, After(to)), nil
}
