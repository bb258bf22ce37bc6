package plannertest

import (
	"bytes"
	"cmp"
	"context"
	"maps"
	"math"
	"slices"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/stashtest"
)

// The kinds of record of the stash that lines of history name.
const (
	fabricKind   = "fabric"
	clothKind    = "cloth"
	purchaseKind = "purchase"
)

// lines returns the whole history with names, oldest first.
func (s *Store) lines(ctx context.Context) ([]planner.PastLine, error) {
	v := s.core.View()
	moves, err := v.Movements(ctx, stash.NoID)
	if err != nil {
		return nil, err
	}
	acts, err := v.Acts(ctx, 0)
	if err != nil {
		return nil, err
	}
	undone, did := map[stash.ID]bool{}, map[stash.ID]string{}
	for _, a := range acts {
		undone[a.ID], did[a.ID] = a.Undone, a.Sentence
	}
	out := make([]planner.PastLine, len(moves))
	cloths := map[stash.ID]stash.Cloth{}
	fabrics := map[stash.ID]stash.Fabric{}
	for i, m := range moves {
		c, seen := cloths[m.ClothID]
		if !seen {
			c, _ = stashtest.Ever[stash.Cloth](v, clothKind, m.ClothID)
			cloths[m.ClothID] = c
		}
		f, seen := fabrics[c.FabricID]
		if !seen {
			f, _ = stashtest.Ever[stash.Fabric](v, fabricKind, c.FabricID)
			fabrics[c.FabricID] = f
		}
		g, _ := stashtest.Ever[garment.Garment](v, garmentKind, m.GarmentID)
		out[i] = planner.PastLine{Movement: m, FabricID: c.FabricID, Fabric: f.Name, FullWidth: f.FullWidth, Code: c.Code, Garment: g.Name, Sentence: did[m.ActID],
			TakenBack: m.Kind != stash.Reversed && undone[m.ActID]}
		if m.Kind == stash.Bought {
			p, _ := stashtest.Ever[stash.Purchase](v, purchaseKind, c.PurchaseID)
			out[i].BoughtOn = p.Date
		}
	}
	return out, nil
}

// Past returns lines of history, the last written first.
func (s *Store) Past(ctx context.Context, p planner.Past, before int64, limit int) ([]planner.PastLine, error) {
	all, err := s.lines(ctx)
	if err != nil {
		return nil, err
	}
	var out []planner.PastLine
	for _, l := range slices.Backward(all) {
		if len(out) < limit && (before <= 0 || l.Seq < before) && p.Has(l) {
			out = append(out, l)
		}
	}
	return out, nil
}

// PastCount counts lines of history.
func (s *Store) PastCount(ctx context.Context, p planner.Past) (int, error) {
	all, err := s.Past(ctx, p, 0, math.MaxInt)
	return len(all), err
}

// PastExtent returns over which days lines of history lie.
func (s *Store) PastExtent(ctx context.Context, p planner.Past) (planner.Extent, error) {
	all, err := s.lines(ctx)
	if err != nil {
		return planner.Extent{}, err
	}
	var e planner.Extent
	for _, l := range all {
		if !p.Has(l) {
			continue
		}
		counts, noted := l.Day(p.Zone), planner.PastLine{Movement: l.Movement}.Day(p.Zone)
		if e.First == "" {
			e.First, e.Last = noted, noted
		}
		e.First, e.Last = min(e.First, counts, noted), max(e.Last, counts, noted)
	}
	return e, nil
}

// Flows adds up what lines that stand changed cloth by.
func (s *Store) Flows(ctx context.Context, p planner.Past, starts []stash.Date) ([]planner.Flow, error) {
	all, err := s.lines(ctx)
	if err != nil {
		return nil, err
	}
	sums := map[planner.Flow]measure.Area{} // by all but the area
	for _, l := range all {
		if l.Area == 0 || l.Kind == stash.Reversed || l.TakenBack || !p.About(l) {
			continue
		}
		day := l.Day(p.Zone)
		at, found := slices.BinarySearch(starts, day)
		if !found {
			at--
		}
		sums[planner.Flow{Span: at, Kind: l.Kind, Came: l.Area > 0, FullWidth: l.FullWidth}] += l.Area
	}
	var out []planner.Flow
	for f, a := range sums {
		f.Area = a
		out = append(out, f)
	}
	slices.SortFunc(out, func(a, b planner.Flow) int {
		return cmp.Or(cmp.Compare(a.Span, b.Span), cmp.Compare(a.Kind, b.Kind), stash.FalseFirst(a.Came, b.Came), cmp.Compare(a.FullWidth, b.FullWidth))
	})
	return out, nil
}

// CutParts returns what stands of all cutting.
func (s *Store) CutParts(ctx context.Context) ([]planner.CutPart, error) {
	all, err := s.lines(ctx)
	if err != nil {
		return nil, err
	}
	cutting := map[stash.ID]bool{}
	for _, l := range all {
		cutting[l.ActID] = cutting[l.ActID] || l.Kind == stash.Cut
	}
	sums := map[planner.CutPart]measure.Area{} // by all but the area
	for _, l := range all {
		if !cutting[l.ActID] || l.TakenBack || l.Area == 0 || l.Kind != stash.Cut && l.Kind != stash.Discarded {
			continue
		}
		sums[planner.CutPart{ActID: l.ActID, ClothID: l.ClothID, GarmentID: l.GarmentID, Waste: l.Kind == stash.Discarded}] -= l.Area
	}
	return inOrder(sums), nil
}

// inOrder are parts with their areas, by act, cloth, garment, waste last.
func inOrder(sums map[planner.CutPart]measure.Area) []planner.CutPart {
	out := slices.AppendSeq([]planner.CutPart(nil), maps.Keys(sums))
	for i := range out {
		out[i].Area = sums[out[i]]
	}
	slices.SortFunc(out, func(a, b planner.CutPart) int {
		return cmp.Or(bytes.Compare(a.ActID[:], b.ActID[:]), bytes.Compare(a.ClothID[:], b.ClothID[:]), stash.FalseFirst(a.Waste, b.Waste), bytes.Compare(a.GarmentID[:], b.GarmentID[:]))
	})
	return out
}

// ReservedParts returns what is reserved and not cut yet.
func (s *Store) ReservedParts(ctx context.Context) ([]planner.CutPart, error) {
	shelf, err := s.Cloths(ctx)
	sums := map[planner.CutPart]measure.Area{} // by all but the area
	for _, c := range shelf {
		for _, r := range c.Reservations {
			sums[planner.CutPart{ClothID: r.ClothID, GarmentID: r.GarmentID}] += r.Area()
		}
	}
	return inOrder(sums), err
}

// EveryCloth returns all cloth, gone or not, by ID.
func (s *Store) EveryCloth(ctx context.Context) ([]stash.Cloth, error) {
	return stashtest.List(s.core.View(), clothKind, func(a, b stash.Cloth) int { return bytes.Compare(a.ID[:], b.ID[:]) })
}
