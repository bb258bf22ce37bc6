package match_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// TestFreerServesWhereStricterDoes: a length that is enough folded is enough open, and
// one that is enough with all pieces one way is enough where they may be turned.
func TestFreerServesWhereStricterDoes(t *testing.T) {
	tank, tee, shorts := demo(t)
	enough := 0
	questions := map[string]*match.Question{}
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom([]pattern.Pattern{slab(), tank, shorts, tee}).Draw(t, "pattern")
		size := p.Sizes[rapid.IntRange(0, len(p.Sizes)-1).Draw(t, "size")].Name
		f := jersey(measure.Length(rapid.IntRange(9, 17).Draw(t, "width")) * 10 * cm)
		f.Direction = stash.SameWayForAll
		c := lengthOf(f, measure.Length(rapid.IntRange(400, 2200).Draw(t, "length"))*mm)
		grade := func(fold bool, d stash.Direction) match.Grade {
			c.Fabric.Direction = d
			key := fmt.Sprint(p.Name, size, fold)
			if questions[key] == nil {
				a := askFor(p, size)
				a.Fold = fold
				q, err := match.New(a)
				if err != nil {
					t.Fatal(err)
				}
				questions[key] = q
			}
			return must(t, questions[key], c).Grade
		}
		folded, open := grade(true, stash.SameWayForAll), grade(false, stash.SameWayForAll)
		if folded == match.Enough {
			enough++
		}
		if folded <= match.Tight && open > match.Tight {
			t.Fatalf("graded %d folded, %d open", folded, open)
		}
		for _, fold := range []bool{true, false} {
			one, same, either := grade(fold, stash.SameWayForAll), grade(fold, stash.SameWayInGarment), grade(fold, stash.EitherWay)
			if one <= match.Tight && same > match.Tight || same <= match.Tight && either > match.Tight {
				t.Fatalf("graded %d one way, %d one way in the garment, %d either way", one, same, either)
			}
		}
	})
	if enough == 0 {
		t.Error("nothing was enough folded: the lengths ask too much")
	}
}
