package say

import (
	"testing"

	"tallycloth/planner"
	"tallycloth/planner/match"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

func TestPlanningInWords(t *testing.T) {
	p := planner.BatchPlan{Made: make([]planner.PlannedGarment, 7), AtMost: []int{9}, Tried: 140}
	if got, want := Planning(p, 12), "7 of 12 garments so far; at most 2 more are possible; 140 layouts tried"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for want, c := range map[string]struct {
		p      planner.BatchPlan
		wanted int
	}{
		"7 of 12 garments can be made; at most 2 more are possible.":                                   {p, 12},
		"All 7 garments can be made; by the order chosen no plan is better.":                           {planner.BatchPlan{Made: p.Made, AtMost: []int{7}, Best: true}, 7},
		"The garment can be made.":                                                                     {planner.BatchPlan{Made: p.Made[:1]}, 1},
		"None of 2 garments can be made; no more are possible; by the order chosen no plan is better.": {planner.BatchPlan{Best: true}, 2},
	} {
		if got := Planned(c.p, c.wanted); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
}

func TestMadeByPriority(t *testing.T) {
	rows := []planner.Wanted{{Count: 3, Priority: 1}, {Count: 2, Priority: 4}}
	p := planner.BatchPlan{Made: []planner.PlannedGarment{{Row: 0}, {Row: 0}, {Row: 1}}}
	if got, want := ByPriority(rows, p), "1: 2 of 3, 4: 1 of 2"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got, want := ByPriority(rows[:1], planner.BatchPlan{}), "0 of 3"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// What comes nearest is told with what it lacks, and what would be enough if it were allowed.
func TestNearestMissInWords(t *testing.T) {
	v := Voice{Units: measure.Metric}
	fabric := stash.Fabric{Name: "Moss jersey", FullWidth: 150 * measure.Centimetre}
	at := func(code string, whole bool, d match.Verdict) planner.Finding {
		c := stash.Cloth{Code: code, Length: measure.Metre, Width: 150 * measure.Centimetre, SelvedgeLow: true, SelvedgeHigh: true}
		if c.ID[0] = code[0]; !whole {
			c.CutFrom[0] = 1
		}
		return planner.Finding{Cloth: stash.ClothState{Cloth: c, Fabric: fabric}, Verdict: d}
	}
	short := at("C17", false, match.Verdict{Grade: match.NotEnough, Short: 12 * measure.Centimetre})
	stiff := at("K3", false, match.Verdict{Grade: match.Unsuitable, Reasons: []match.Reason{{What: match.Stretch, Grain: "crosswise", Asked: 3500, Has: 2000, Bad: true}}})
	enough := at("L4", true, match.Verdict{Grade: match.Enough})
	for want, m := range map[string]planner.NearestMiss{
		"12 cm short on C17, Moss jersey; enough on L4, Moss jersey, a whole length, if you allow those": {Finding: enough, Allowed: &short},
		"12 cm short on C17, Moss jersey":                                                                      {Finding: short, Allowed: &short},
		"on K3, Moss jersey: stretches 20 % crosswise, asked 35 %":                                             {Finding: stiff, Allowed: &stiff},
		"no cloth that may be used would serve; enough on L4, Moss jersey, a whole length, if you allow those": {Finding: enough},
		"no cloth that may be used would serve; nearest of the others: 12 cm short on C17, Moss jersey":        {Finding: short},
		"no cloth on the shelf may be used for it":                                                             {None: true},
		"": {Finding: enough, Allowed: &enough},
	} {
		if got := v.Miss(m); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
}

func TestBuyingInWords(t *testing.T) {
	v := Voice{Units: measure.Metric}
	b := planner.BuyingWidth{Width: 150 * measure.Centimetre, Buy: 170 * measure.Centimetre, Apart: 200 * measure.Centimetre}
	if got, want := v.Buying(b), "1.70 m at 150 cm wide; 2 m if each is bought by itself, so sharing saves 30 cm"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// The orders are all six of the three criteria, each in words of its own.
func TestOrders(t *testing.T) {
	seen := map[string]bool{}
	for _, o := range Orders() {
		seen[Order(o)] = true
	}
	if len(seen) != 6 || !seen["few whole lengths, then little waste, then few cloths"] {
		t.Errorf("%v", seen)
	}
}
