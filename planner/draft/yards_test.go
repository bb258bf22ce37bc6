package draft

import (
	"context"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// TestYardageTables: every size has a row at both widths; a wider cloth never takes more;
// the tank takes no more than 1 1/4 yd at 45 to 60 in, strips included (common practice).
func TestYardageTables(t *testing.T) {
	for _, p := range demo(t) {
		found := map[string]map[measure.Length]measure.Length{}
		for _, y := range p.Yards {
			for _, s := range y.Sizes {
				if found[s] == nil {
					found[s] = map[measure.Length]measure.Length{}
				}
				found[s][y.Width] = max(found[s][y.Width], y.Length)
			}
			if p.Kind == "tank" && y.Length > measure.Yard+measure.Yard/4 {
				t.Errorf("the tank takes %d µm at %d", y.Length, y.Width)
			}
			if y.Length%eighth != 0 {
				t.Errorf("%s: %d µm is not in eighths of a yard", p.Name, y.Length)
			}
		}
		for _, s := range p.Sizes {
			narrow, wide := found[s.Name][45*measure.Inch], found[s.Name][60*measure.Inch]
			if narrow == 0 || wide == 0 || wide > narrow {
				t.Errorf("%s size %s: %d at 45 in, %d at 60 in", p.Name, s.Name, narrow, wide)
			}
		}
	}
}

// TestLaidLengthsHold lays the pieces of the middle and the largest size on the lengths
// of the table at 45 in, heads one way, by the layout engine and its own check.
func TestLaidLengthsHold(t *testing.T) {
	for _, p := range demo(t) {
		for _, size := range []int{3, 7} {
			s := p.Sizes[size].Name
			length := measure.Length(laid[p.Kind][0][size])*eighth - besides(p, s, widths[0])
			in := nest.Instance{
				Fabrics: []nest.Fabric{{Width: int64(widths[0] - 2*selvedgeLoss), Length: int64(length)}},
				Items:   items(p, s), Clearance: int64(clearance), Ask: nest.FitsAll,
				Groups: []nest.Group{{Angles: []shape.Angle{shape.Turn0}}},
			}
			a, err := nest.Solve(context.Background(), in, nest.Options{Seed: 1, Steps: 60})
			if err != nil {
				t.Fatal(err)
			}
			if a.Reason != nest.Found {
				t.Errorf("%s size %s does not lie on %d µm: %+v", p.Name, s, length, a.Why)
			} else if err := nest.Check(in, a.Solution); err != nil {
				t.Errorf("%s size %s: %v", p.Name, s, err)
			}
		}
	}
}

func items(p pattern.Pattern, size string) []nest.Item {
	var out []nest.Item
	for _, q := range p.PiecesOf(pattern.Main, size) {
		it := nest.Item{Outline: q.Whole(size), Count: q.Cut}
		if q.Pairs {
			it.Count = q.Cut / 2
			out = append(out, it)
			it.Mirror = nest.Mirrored
		}
		out = append(out, it)
	}
	return out
}

// TestTableUnderEstimate: a true layout takes no more than boxes in rows, and no less
// than the area of the pieces over the width.
func TestTableUnderEstimate(t *testing.T) {
	for _, p := range demo(t) {
		for column, width := range widths {
			for k, s := range p.Sizes {
				length := measure.Length(laid[p.Kind][column][k]) * eighth
				rows := roundUp(inRows(boxes(p, s.Name), width-2*selvedgeLoss)+besides(p, s.Name, width), eighth)
				var area int64
				for _, q := range p.PiecesOf(pattern.Main, s.Name) {
					area += q.Whole(s.Name).Area() * int64(q.Cut)
				}
				if least := measure.Length(area / int64(width)); length > rows || length < least {
					t.Errorf("%s size %s at %d: %d, boxes take %d, areas %d", p.Name, s.Name, width, length, rows, least)
				}
			}
		}
	}
}

// The table of a quick outline is in the widths and steps of the shop: centimetres by tens, or inches by eighths
// of a yard.
func TestTableOfTheShop(t *testing.T) {
	row := Row{Name: "M", Finished: map[string]measure.Length{"bust": 92 * measure.Centimetre, "hip": 96 * measure.Centimetre, "length": 60 * measure.Centimetre}}
	for _, units := range []measure.System{measure.Metric, measure.Imperial} {
		p, err := Quick(Form{Name: "q", Kind: QuickTank, Sizes: []Row{row}, Units: units})
		if err != nil {
			t.Fatal(err)
		}
		step, unit, of := 10*measure.Centimetre, measure.Length(measure.Centimetre), 4
		if units == measure.Imperial {
			step, unit, of = eighth, measure.Inch, 3
		}
		if len(p.Yards) != 2*of {
			t.Errorf("%d rows, want %d widths with and without one direction", len(p.Yards), of)
		}
		for _, y := range p.Yards {
			if y.Width%unit != 0 || y.Length%step != 0 || y.Length == 0 {
				t.Errorf("units %v: %d µm at %d µm", units, y.Length, y.Width)
			}
		}
	}
}
