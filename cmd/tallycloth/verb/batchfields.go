package verb

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"
)

// batchFields is a batch with its plan in JSON.
type batchFields struct {
	Name       string            `json:"name"`
	Wanted     int               `json:"wanted"`
	Made       int               `json:"made"`
	AtMostMore int               `json:"at_most_more"`
	Best       bool              `json:"best"`
	Tried      int               `json:"tried"`
	Whole      int               `json:"whole_lengths"`
	Waste      float64           `json:"waste_m2"`
	Priorities []priorityFields  `json:"priorities"`
	Cloth      []batchCloth      `json:"cloth"`
	Garments   []batchGarment    `json:"garments"`
	Missing    []batchMissing    `json:"missing"`
	Buy        []batchBuy        `json:"buy"`
	Sizes      []batchSize       `json:"sizes"`
	Blended    []string          `json:"blended"`
	Kept       bool              `json:"kept"`
	Reserved   []string          `json:"reserved"`
	patterns   []pattern.Pattern // of the library
}

type batchLine struct {
	Name    string `json:"name"`
	Changed string `json:"changed"`
	Wanted  int    `json:"wanted"`
	Made    int    `json:"made"`
}

type priorityFields struct {
	Priority int `json:"priority"`
	Wanted   int `json:"wanted"`
	Made     int `json:"made"`
}

type batchCloth struct {
	Code   string      `json:"code"`
	Fabric string      `json:"fabric"`
	Whole  bool        `json:"whole_length"`
	Waste  float64     `json:"waste_m2"`
	Parts  []batchPart `json:"parts"`
	Left   []batchLeft `json:"left"`
}

type batchPart struct {
	Garment    int           `json:"garment"`
	UsedFor    string        `json:"used_for"`
	Conditions []string      `json:"conditions"`
	Pieces     []placeFields `json:"pieces"`
	Kept       [][2]float64  `json:"kept_mm"`
}

type batchLeft struct {
	Outline  [][2]float64 `json:"outline_mm"`
	Straight [2]mm        `json:"straight_mm"`
}

type batchGarment struct {
	Number  int         `json:"number"`
	Row     int         `json:"row"`
	Pattern string      `json:"pattern"`
	Size    string      `json:"size"`
	Variant string      `json:"variant"`
	For     string      `json:"for"`
	Date    string      `json:"date"`
	Adjust  []string    `json:"adjustments"`
	From    []batchFrom `json:"from"`
	name    string
}

// batchSize is the size proposed for the person of a row.
type batchSize struct {
	Row      int      `json:"row"`
	Person   string   `json:"person"`
	Size     string   `json:"size"`
	Proposed string   `json:"proposed"`
	Between  bool     `json:"between"`
	Why      []string `json:"why"`
	pattern  string
}

type batchFrom struct {
	UsedFor string `json:"used_for"`
	Code    string `json:"code"`
}

type batchMissing struct {
	Row     int      `json:"row"`
	Pattern string   `json:"pattern"`
	Size    string   `json:"size"`
	Count   int      `json:"count"`
	Why     []string `json:"why"`
	name    string
}

type batchBuy struct {
	UsedFor string        `json:"used_for"`
	Fabric  string        `json:"fabric"`
	For     []int         `json:"for"`
	Lengths []batchLength `json:"lengths"`
	words   []string
}

type batchLength struct {
	Width   mm   `json:"width_mm"`
	Needed  mm   `json:"needed_mm"`
	Buy     mm   `json:"buy_mm"`
	Apart   mm   `json:"apart_mm"`
	Saves   mm   `json:"saves_mm"`
	ByTable bool `json:"by_table"`
}

// fieldsOfBatch puts a batch together, and works out what comes nearest and what to buy.
func (l *library) fieldsOfBatch(ctx context.Context, b planner.Batch) (batchFields, error) {
	out := batchFields{Name: b.Name, Wanted: say.Wants(b.Rows), Priorities: []priorityFields{}, Cloth: []batchCloth{}, Garments: []batchGarment{}, Missing: []batchMissing{},
		Buy: []batchBuy{}, Sizes: []batchSize{}, Blended: []string{}, Reserved: []string{}}
	var err error
	if out.patterns, err = l.Patterns(ctx); err != nil {
		return out, err
	}
	if err := l.addSizes(ctx, b, &out); err != nil || b.Plan == nil {
		return out, err
	}
	p := *b.Plan
	out.Made, out.AtMostMore, out.Best, out.Tried, out.Whole, out.Waste = len(p.Made), p.AtMostMore(), p.Best, p.Tried, p.Score.Whole, m2(say.Wasted(p))
	for n, g := range p.Made {
		out.Garments = append(out.Garments, out.garment(l.voice, b, p, n, g))
	}
	out.addPriorities(b, p)
	for _, c := range p.Cuts {
		out.Cloth = append(out.Cloth, l.batchCloth(c))
	}
	return out, l.addMissing(ctx, b, p, &out)
}

// addSizes says which sizes are proposed for people.
func (l *library) addSizes(ctx context.Context, b planner.Batch, out *batchFields) error {
	sizes, err := l.RowSizes(ctx, b.Rows)
	for _, z := range sizes {
		w := b.Rows[z.Row]
		out.Sizes = append(out.Sizes, batchSize{z.Row + 1, z.Person.Name, w.Size, z.Choice.Size, z.Between(), l.voice.SizeWhy(z.Choice), out.patternOf(w)})
	}
	return err
}

// patternOf is a pattern's name.
func (f *batchFields) patternOf(w planner.Wanted) string {
	for _, p := range f.patterns {
		if p.ID == w.PatternID {
			return p.Name
		}
	}
	return "a pattern that is gone"
}

func (f *batchFields) garment(v say.Voice, b planner.Batch, p planner.BatchPlan, n int, g planner.PlannedGarment) batchGarment {
	w := b.Rows[g.Row]
	out := batchGarment{Number: n + 1, Row: g.Row + 1, Pattern: f.patternOf(w), Size: w.Size, Variant: w.Variant, For: w.For, Date: string(w.Date), From: []batchFrom{}, Adjust: []string{}}
	for _, st := range w.Adjustments {
		out.Adjust = append(out.Adjust, v.Adjustment(st))
	}
	out.name = say.GarmentOf(w, out.Pattern, g.Number)
	for _, c := range p.Cuts {
		for _, q := range c.Parts {
			if q.Garment == n {
				out.From = append(out.From, batchFrom{q.Role, c.Cloth.Cloth.Code})
			}
		}
	}
	return out
}

func (f *batchFields) addPriorities(b planner.Batch, p planner.BatchPlan) {
	at := func(w planner.Wanted) *priorityFields {
		n := max(w.Priority, 1)
		i := slices.IndexFunc(f.Priorities, func(x priorityFields) bool { return x.Priority == n })
		if i < 0 {
			i, f.Priorities = len(f.Priorities), append(f.Priorities, priorityFields{Priority: n})
		}
		return &f.Priorities[i]
	}
	for _, w := range b.Rows {
		at(w).Wanted += max(w.Count, 1)
	}
	for _, g := range p.Made {
		at(b.Rows[g.Row]).Made++
	}
	slices.SortFunc(f.Priorities, func(a, b priorityFields) int { return a.Priority - b.Priority })
}

// ringOf is an outline in JSON.
func ringOf(r shape.Ring) [][2]float64 {
	out := [][2]float64{}
	for _, q := range r {
		out = append(out, [2]float64{float64(q.X) / 1000, float64(q.Y) / 1000})
	}
	return out
}

func (l *library) batchCloth(c planner.PlannedCut) batchCloth {
	out := batchCloth{Code: c.Cloth.Cloth.Code, Fabric: c.Cloth.Fabric.Name, Whole: c.Whole, Waste: m2(c.Waste), Parts: []batchPart{}, Left: []batchLeft{}}
	for _, q := range c.Parts {
		part := batchPart{Garment: q.Garment + 1, UsedFor: q.Role, Conditions: []string{}, Pieces: []placeFields{}, Kept: ringOf(q.Keep)}
		for _, i := range q.Ifs {
			part.Conditions = append(part.Conditions, l.voice.If(i))
		}
		for _, piece := range q.Layout.Pieces {
			part.Pieces = append(part.Pieces, fieldsOfPlace(piece))
		}
		out.Parts = append(out.Parts, part)
	}
	for _, k := range c.Left {
		out.Left = append(out.Left, batchLeft{ringOf(k.Outline.Outer), [2]mm{mm(k.Straight.Length()), mm(k.Straight.Width())}})
	}
	return out
}

// addMissing says what is not made, why, and what to buy for it.
func (l *library) addMissing(ctx context.Context, b planner.Batch, p planner.BatchPlan, out *batchFields) error {
	if len(p.Missing) == 0 {
		return nil
	}
	misses, err := l.NearestMisses(ctx, b, p)
	if err != nil {
		return err
	}
	for _, m := range p.Missing {
		w := b.Rows[m.Row]
		x := batchMissing{Row: m.Row + 1, Pattern: out.patternOf(w), Size: w.Size, Count: m.Count, Why: l.voice.Misses(m.Row, misses)}
		w.Count = 1
		x.name = say.GarmentOf(w, x.Pattern, 1)
		out.Missing = append(out.Missing, x)
	}
	buy, err := l.WhatToBuy(ctx, b, p)
	if err != nil {
		return err
	}
	for _, item := range buy {
		x := batchBuy{UsedFor: item.Role, Fabric: l.voice.ToBuy(item), For: []int{}, Lengths: []batchLength{}}
		for _, m := range item.For {
			x.For = append(x.For, m.Row+1)
		}
		for _, k := range item.Lengths {
			x.Lengths = append(x.Lengths, batchLength{mm(k.Width), mm(k.Needed), mm(k.Buy), mm(k.Apart), mm(k.Saves()), k.ByTable})
			x.words = append(x.words, l.voice.Buying(k))
		}
		out.Buy = append(out.Buy, x)
	}
	return nil
}

// tellBatch tells a batch in words.
func (l *library) tellBatch(o io.Writer, b planner.Batch, out batchFields) {
	if b.Plan == nil {
		fmt.Fprintln(o, say.Sentence(say.Count(out.Wanted, "garment is", "garments are")+" wanted; nothing is planned yet"))
		return
	}
	for _, z := range out.Sizes {
		fmt.Fprintf(o, "%s for %s: size %s%s\n", z.pattern, z.Person, z.Size, say.OtherSize(z.Size, z.Proposed))
		if z.Between {
			fmt.Fprintln(o, "   ", strings.Join(z.Why, " "), "--blend makes a size of that.")
		}
	}
	for _, text := range out.Blended {
		fmt.Fprintln(o, text+".")
	}
	fmt.Fprintln(o, say.Planned(*b.Plan, out.Wanted))
	if out.Made > 0 {
		fmt.Fprintln(o, l.voice.PlanSum(*b.Plan))
	}
	for _, g := range out.Garments {
		var from []string
		for _, f := range g.From {
			from = append(from, f.UsedFor+" from "+f.Code)
		}
		fmt.Fprintf(o, "%s %s: %s\n", pad(fmt.Sprint(g.Number), 3), g.name, strings.Join(from, ", "))
	}
	for _, c := range out.Cloth {
		left := "nothing is left"
		if len(c.Left) > 0 {
			s := c.Left[0].Straight
			left = l.voice.Free(measure.Length(s[0])) + " × " + l.voice.Width(measure.Length(s[1])) + " is left"
			if n := len(c.Left) - 1; n > 0 {
				left += fmt.Sprintf(", and %d smaller", n)
			}
		}
		fmt.Fprintf(o, "%s%s%s\n", pad(c.Code, 8), pad(c.Fabric, 30), left)
	}
	for _, m := range out.Missing {
		fmt.Fprintf(o, "× %s: %d not made\n", m.name, m.Count)
		for _, w := range m.Why {
			fmt.Fprintln(o, "   ", w)
		}
	}
	for _, x := range out.Buy {
		fmt.Fprintln(o, "To buy:", x.Fabric)
		for _, w := range x.words {
			fmt.Fprintln(o, "   ", w)
		}
	}
	if len(out.Reserved) > 0 {
		tellReserved(o, len(out.Reserved))
	}
}
