package nesttest_test

import (
	"reflect"
	"slices"
	"testing"

	"tallycloth/planner/nest"
	"tallycloth/planner/nest/nesttest"
	"tallycloth/stash/shape"
)

// counted is how many questions the options are counted in.
const counted = 4000

// question is one question with the options of its search.
type question struct {
	in nest.Instance
	o  nest.Options
}

func (q question) fabric(has func(nest.Fabric) bool) bool {
	return slices.ContainsFunc(q.in.Fabrics, has)
}
func (q question) item(has func(nest.Item) bool) bool { return slices.ContainsFunc(q.in.Items, has) }

func (q question) band(has func(nest.Band) bool) bool {
	return q.fabric(func(f nest.Fabric) bool { return slices.ContainsFunc(f.Bands, has) })
}

// pair says whether two different items are as wanted.
func (q question) pair(has func(a, b nest.Item) bool) bool {
	for i, a := range q.in.Items {
		for j, b := range q.in.Items {
			if i != j && has(a, b) {
				return true
			}
		}
	}
	return false
}

func isOutline(f nest.Fabric) bool { return len(f.Outline.Outer) > 0 }

func folds(f nest.Fabric) (n int) {
	for _, b := range f.Bands {
		if b.FoldLow {
			n++
		}
		if b.FoldHigh {
			n++
		}
	}
	return n
}

func single(f nest.Fabric) bool {
	return slices.ContainsFunc(f.Bands, func(b nest.Band) bool { return b.Layers == 1 })
}

// foldedAt says whether a fabric is folded once, so deep, in percent of its width.
func foldedAt(from, to int64) func(nest.Fabric) bool {
	return func(f nest.Fabric) bool {
		if isOutline(f) || folds(f) != 1 || len(f.Bands) != 2 {
			return false
		}
		b := f.Bands[0]
		if f.Bands[1].FoldHigh {
			b = f.Bands[1]
		}
		part := 100 * (b.To - b.From) / f.Width
		return part >= from && part < to
	}
}

// options are what the contract of planner/nest can be asked for, and in how many of a
// thousand questions each must come at least.
var options = []struct {
	name  string
	least int
	asked func(question) bool
}{
	{"least length", 250, func(q question) bool { return q.in.Ask == nest.LeastLength }},
	{"fits all", 250, func(q question) bool { return q.in.Ask == nest.FitsAll }},
	{"best subset", 250, func(q question) bool { return q.in.Ask == nest.BestSubset }},
	{"strip", 250, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return !isOutline(f) && f.Length == 0 })
	}},
	{"rectangle", 250, func(q question) bool { return q.fabric(func(f nest.Fabric) bool { return f.Length > 0 }) }},
	{"outline", 250, func(q question) bool { return q.fabric(isOutline) }},
	{"outline with holes", 200, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return len(f.Outline.Holes) > 0 })
	}},
	{"outline with obstacles", 80, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return isOutline(f) && len(f.Obstacles) > 0 })
	}},
	{"strip or rectangle with obstacles", 300, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return !isOutline(f) && len(f.Obstacles) > 0 })
	}},
	{"two fabrics", 150, func(q question) bool { return len(q.in.Fabrics) == 2 }},
	{"three fabrics", 150, func(q question) bool { return len(q.in.Fabrics) == 3 }},
	{"one fold, single layer beyond", 150, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return folds(f) == 1 && single(f) })
	}},
	{"a shallow fold", 40, func(q question) bool { return q.fabric(foldedAt(10, 35)) }},
	{"a fold about the middle", 40, func(q question) bool { return q.fabric(foldedAt(35, 65)) }},
	{"a deep fold", 40, func(q question) bool { return q.fabric(foldedAt(65, 91)) }},
	{"folded in half", 50, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return folds(f) == 1 && len(f.Bands) == 1 })
	}},
	{"two folds, selvedges meet", 50, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return folds(f) == 2 && !single(f) })
	}},
	{"two folds, single layer between", 50, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return folds(f) == 2 && single(f) })
	}},
	{"two layers without a fold", 50, func(q question) bool {
		return q.band(func(b nest.Band) bool { return b.Layers == 2 && !b.FoldLow && !b.FoldHigh })
	}},
	{"a folded outline", 40, func(q question) bool {
		return q.fabric(func(f nest.Fabric) bool { return isOutline(f) && len(f.Bands) > 0 })
	}},
	{"on the fold", 150, func(q question) bool { return q.item(func(it nest.Item) bool { return it.OnFold }) }},
	{"on the fold in a group", 60, func(q question) bool {
		return q.item(func(it nest.Item) bool { return it.OnFold && it.Group != nest.NoGroup })
	}},
	{"in one layer", 60, func(q question) bool { return q.item(func(it nest.Item) bool { return it.Layers == 1 }) }},
	{"in two layers", 60, func(q question) bool { return q.item(func(it nest.Item) bool { return it.Layers == 2 }) }},
	{"own angles", 300, func(q question) bool { return q.item(func(it nest.Item) bool { return len(it.Angles) > 0 }) }},
	{"an odd angle", 200, func(q question) bool {
		return q.item(func(it nest.Item) bool {
			return slices.ContainsFunc(it.Angles, func(a shape.Angle) bool { return a%shape.Turn90 != 0 })
		})
	}},
	{"tilt", 200, func(q question) bool { return q.item(func(it nest.Item) bool { return it.Tilt > 0 }) }},
	{"one angle for two items of a group", 200, func(q question) bool {
		return q.pair(func(a, b nest.Item) bool {
			return a.Group != nest.NoGroup && a.Group == b.Group && len(q.in.Groups[a.Group].Angles) > 1
		})
	}},
	{"two groups in use", 100, func(q question) bool {
		return q.pair(func(a, b nest.Item) bool { return a.Group == 0 && b.Group == 1 })
	}},
	{"repeat", 200, func(q question) bool { return q.item(func(it nest.Item) bool { return it.Repeat > 0 }) }},
	{"two items matched", 40, func(q question) bool {
		return q.pair(func(a, b nest.Item) bool { return a.Repeat > 0 && a.Repeat == b.Repeat })
	}},
	{"always mirrored", 250, func(q question) bool { return q.item(func(it nest.Item) bool { return it.Mirror == nest.Mirrored }) }},
	{"either face", 250, func(q question) bool { return q.item(func(it nest.Item) bool { return it.Mirror == nest.EitherFace }) }},
	{"a mirrored pair", 150, func(q question) bool {
		return q.pair(func(a, b nest.Item) bool {
			return a.Mirror == nest.AsDrawn && b.Mirror == nest.Mirrored && reflect.DeepEqual(a.Outline, b.Outline)
		})
	}},
	{"clearance", 400, func(q question) bool { return q.in.Clearance > 0 }},
	{"no clearance", 400, func(q question) bool { return q.in.Clearance == 0 }},
	{"several copies", 300, func(q question) bool { return q.item(func(it nest.Item) bool { return it.Count > 1 }) }},
	{"pinned", 80, func(q question) bool { return q.item(isPinned) }},
	{"two pinned", 20, func(q question) bool {
		return q.pair(func(a, b nest.Item) bool { return isPinned(a) && isPinned(b) })
	}},
	{"one of several copies pinned", 20, func(q question) bool {
		return q.item(func(it nest.Item) bool { return isPinned(it) && it.Count > 1 })
	}},
	{"pinned on folded cloth", 15, func(q question) bool {
		return q.item(func(it nest.Item) bool { return isPinned(it) && len(q.in.Fabrics[it.Pinned[0].Fabric].Bands) > 0 })
	}},
	{"pinned in a group", 20, func(q question) bool {
		return q.item(func(it nest.Item) bool { return isPinned(it) && it.Group != nest.NoGroup })
	}},
	{"pinned with a tilt", 10, func(q question) bool {
		return q.item(func(it nest.Item) bool { return isPinned(it) && it.Tilt > 0 })
	}},
	{"fill only", 120, func(q question) bool { return q.o.FillOnly }},
	{"first only", 250, func(q question) bool { return q.o.FirstOnly }},
	{"neither", 400, func(q question) bool { return !q.o.FillOnly && !q.o.FirstOnly }},
	{"from a layout", 60, func(q question) bool { return q.o.Start != nil }},
	{"from a part of one", 20, func(q question) bool { return q.o.Start != nil && len(q.o.Start.Left) > 0 }},
}

func isPinned(it nest.Item) bool { return len(it.Pinned) > 0 }

// TestEveryOptionOccurs: whatever the engine can be asked for is asked for often
// enough that a fault of it shows.
func TestEveryOptionOccurs(t *testing.T) {
	count := make([]int, len(options))
	for seed := range uint64(counted) {
		in := nesttest.Random(seed)
		if err := in.Validate(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		q := question{in, nesttest.Options(seed, in)}
		for k, o := range options {
			if o.asked(q) {
				count[k]++
			}
		}
	}
	for k, o := range options {
		if got := count[k] * 1000 / counted; got < o.least {
			t.Errorf("%s: in %d of a thousand questions, wanted in %d", o.name, got, o.least)
		} else {
			t.Logf("%s: %d ‰", o.name, got)
		}
	}
}

// TestSameSeedSameQuestion: a seed in a message is enough to see the question again.
func TestSameSeedSameQuestion(t *testing.T) {
	for seed := range uint64(200) {
		a, b := nesttest.Random(seed), nesttest.Random(seed)
		if !reflect.DeepEqual(a, b) || !reflect.DeepEqual(nesttest.Options(seed, a), nesttest.Options(seed, b)) {
			t.Errorf("seed %d: two questions", seed)
		}
	}
}
