package demo

import (
	"context"
	"fmt"

	"tallycloth/planner"
	"tallycloth/planner/draft"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// Fill makes the demo studio in a library, which should be empty. An error leaves what
// was done until then.
func Fill(ctx context.Context, s *planner.Studio) error {
	f := &filler{Studio: s, ctx: ctx, fabrics: map[string]stash.ID{}, cloths: map[string][]stash.ID{}, patterns: map[string]pattern.Pattern{}}
	for _, step := range []func() error{f.addFabrics, f.buy, f.addLeftovers, f.addNotions, f.addPatterns, f.makeGarments} {
		if err := step(); err != nil {
			return fmt.Errorf("making the demo studio: %w", err)
		}
	}
	return nil
}

// filler remembers what is in the library by name.
type filler struct {
	*planner.Studio
	ctx      context.Context
	fabrics  map[string]stash.ID
	cloths   map[string][]stash.ID // lengths of a fabric in the order they were bought
	patterns map[string]pattern.Pattern
}

func (f *filler) addFabrics() error {
	for _, row := range fabrics {
		rec, err := row.record()
		if err != nil {
			return err
		}
		if err := f.SaveFabric(f.ctx, rec); err != nil {
			return err
		}
	}
	all, err := f.Fabrics(f.ctx)
	for _, x := range all {
		f.fabrics[x.Name] = x.ID
	}
	return err
}

// buy logs what was bought: rows that follow each other with one day and one shop are one
// purchase.
func (f *filler) buy() error {
	for from := 0; from < len(purchases); {
		to := from + 1
		for to < len(purchases) && purchases[to].date == purchases[from].date && purchases[to].shop == purchases[from].shop {
			to++
		}
		if err := f.buyAtOnce(purchases[from:to]); err != nil {
			return err
		}
		from = to
	}
	return nil
}

func (f *filler) buyAtOnce(rows []bought) error {
	b := planner.Buying{Date: stash.Date(rows[0].date), Supplier: rows[0].shop}
	if rows[0].shop != stall { // a parcel
		b.Postage = measure.Money{Minor: 490, Currency: rows[0].currency}
	}
	for _, r := range rows {
		b.Lines = append(b.Lines, planner.BuyingLine{
			FabricID: f.fabrics[r.fabric], Place: r.place, Lot: lots[[2]string{r.fabric, r.date}], Length: measure.Length(r.length) * cm,
			Price: measure.Money{Minor: r.price, Currency: r.currency}, Washed: r.washed, Trued: r.trued,
		})
	}
	got, err := f.LogBuying(f.ctx, b)
	if err != nil {
		return err
	}
	for i, c := range got.Cloths {
		f.cloths[rows[i].fabric] = append(f.cloths[rows[i].fabric], c.Cloth.ID)
	}
	return nil
}

func (f *filler) addLeftovers() error {
	for _, l := range leftovers() {
		_, err := f.AddLeftover(f.ctx, planner.LeftoverForm{
			FabricID: f.fabrics[l.fabric], Outline: l.outline, Length: measure.Length(l.length) * cm, Width: measure.Length(l.width) * cm,
			Place: l.place, Notes: l.notes, Washed: true, SelvedgeLow: l.low, SelvedgeHigh: l.high,
		})
		if err != nil {
			return err
		}
	}
	return nil
}

func (f *filler) addNotions() error {
	_, err := f.Write(f.ctx, "Added notions", func(tx planner.Tx) error {
		for _, n := range notions {
			n.ID = f.NewID()
			if err := tx.PutNotion(f.ctx, n); err != nil {
				return err
			}
		}
		return nil
	})
	return err
}

func (f *filler) addPatterns() error {
	for _, p := range draft.DemoPatterns(f.NewID) {
		kept, err := f.SavePattern(f.ctx, p)
		if err != nil {
			return err
		}
		f.patterns[p.Kind] = kept
	}
	return nil
}

// project is one garment: what of, in which size, from which length of which fabric, and
// how far it came.
type project struct {
	kind, size, name, who string
	fabric                string
	nth                   int
	state                 garment.State
	strips                bool
}

var projects = []project{
	{"tank", "3", "Tank for Saturday class", "Ottilie", "Brick jersey", 0, garment.Finished, true},
	{"shorts", "5", "Garden shorts", "Bram", "Fog french terry", 0, garment.Finished, false},
	{"tank", "6", "Plum tank", "Mirela", "Plum modal jersey", 0, garment.Fitted, true},
	{"sleep shirt", "2", "Sleep shirt, oat", "Ottilie", "Oat jersey", 1, garment.Sewing, false},
	{"shorts", "4", "Ponte shorts, sample", "", "Bottle ponte", 0, garment.Cut, false},
	{"tank", "2", "Tank with wide straps", "Jorun", "Brick jersey", 1, garment.Reserved, true},
	{"sleep shirt", "5", "Chalk sleep shirt", "Bram", "Chalk interlock", 1, garment.Reserved, false},
	{"tank", "8", "Class sample, largest size", "", "", 0, garment.Wanted, false},
	{"shorts", "1", "Shorts for the twins", "Mirela", "", 0, garment.Wanted, false},
	{"sleep shirt", "7", "Velour sleep shirt", "Jorun", "", 0, garment.GivenUp, false},
}

func (f *filler) makeGarments() error {
	for _, p := range projects {
		if err := f.makeGarment(p); err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
	}
	return nil
}

func (f *filler) makeGarment(p project) error {
	pat := f.patterns[p.kind]
	g, err := f.NewGarment(f.ctx, pat.ID, p.size, p.name, p.who)
	if err != nil {
		return err
	}
	if p.fabric != "" {
		search := planner.Search{PatternID: pat.ID, Size: p.size, Role: pattern.Main, Strips: p.strips}
		found, err := f.CheckCloth(f.ctx, f.cloths[p.fabric][p.nth], search)
		if err != nil {
			return err
		}
		if _, err := f.Reserve(f.ctx, g.ID, found, pattern.Main); err != nil {
			return err
		}
	}
	return f.bring(g.ID, p.state)
}

// cut marks a garment cut and keeps what is worth keeping.
func (f *filler) cut(id stash.ID) error {
	plan, err := f.CutPlan(f.ctx, id)
	if err != nil {
		return err
	}
	_, err = f.MarkCut(f.ctx, id, planner.AllLeft(plan))
	return err
}

// bring takes a garment through its life up to a state.
func (f *filler) bring(id stash.ID, to garment.State) error {
	for {
		g, err := f.Garment(f.ctx, id)
		if err != nil || g.State == to {
			return err
		}
		if to == garment.GivenUp {
			g.State = to
			return f.SaveGarment(f.ctx, g)
		}
		if g.State = g.State.Next(); g.State == garment.Cut {
			err = f.cut(id)
		} else {
			err = f.SaveGarment(f.ctx, g)
		}
		if err != nil {
			return err
		}
	}
}
