package planner

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"tallycloth/planner/batch"
	"tallycloth/planner/leftover"
	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// bench is a batch with all that it is planned from: what each row asks, which cloth may be
// used, and the layouts found so far.
type bench struct {
	keep     leftover.Limits // what is worth keeping
	ask      Batch
	patterns []pattern.Pattern // by row
	uses     [][]use           // by row
	asks     [][]*match.Question
	cloths   []stash.ClothState
	lots     []lotKey // by lot
	lot      []int    // of each cloth
	suits    [][][]suited
	mu       sync.Mutex
	laid     []*laying
}

// lotKey names cloths that may be used for one another: of one fabric and lot.
type lotKey struct {
	fabric stash.ID
	lot    string
}

// suited says how a fabric serves a use on a cloth.
type suited struct {
	ok        bool
	crosswise bool // only cut crosswise
	ifs       []match.If
}

// laying is a layout of a load on a cloth.
type laying struct {
	load  batch.Load
	lie   match.Together
	once  sync.Once
	left  []leftover.Leftover // worked out for layouts that a plan takes
	waste measure.Area
}

// newBench makes a batch ready. Cloth that serves no use is left out.
func newBench(ask Batch, patterns map[stash.ID]pattern.Pattern, cloths []stash.ClothState, set Settings) (*bench, error) {
	if len(ask.Rows) == 0 {
		return nil, invalid("Add a row: a pattern, a size and how many", "Nothing is wanted yet")
	}
	w := &bench{ask: ask, keep: set.Leftovers()}
	for i, row := range ask.Rows {
		p, ok := patterns[row.PatternID]
		if !ok {
			return nil, invalid("Choose a pattern for it, or take the row out", "The pattern of row %d is not in the library", i+1)
		}
		if err := row.validate(fmt.Sprintf("Row %d", i+1), p); err != nil {
			return nil, err
		}
		p, err := adjusted(p, row.Size, row.Adjustments)
		if err != nil {
			return nil, fmt.Errorf("row %d: %w", i+1, err)
		}
		uses := usesOf(p, row)
		var asks []*match.Question
		for _, u := range uses {
			q, err := questionOf(p, u.search(row), set)
			if err != nil {
				return nil, fmt.Errorf("row %d: %w", i+1, err)
			}
			asks = append(asks, q)
		}
		w.patterns, w.uses, w.asks = append(w.patterns, p), append(w.uses, uses), append(w.asks, asks)
	}
	for _, c := range cloths {
		w.add(c)
	}
	return w, nil
}

// add takes a cloth in, if it may be used for anything.
func (w *bench) add(c stash.ClothState) {
	if c.Cloth.Gone || !w.ask.May.Allows(c) {
		return
	}
	var all [][]suited
	any := false
	for i, row := range w.ask.Rows {
		var of []suited
		for k, u := range w.uses[i] {
			s := w.suit(row, u, w.asks[i][k], c)
			any = any || s.ok
			of = append(of, s)
		}
		all = append(all, of)
	}
	if !any {
		return
	}
	key := lotKey{c.Fabric.ID, c.Cloth.Lot}
	k := slices.Index(w.lots, key)
	if k < 0 {
		k, w.lots = len(w.lots), append(w.lots, key)
	}
	w.cloths, w.lot, w.suits = append(w.cloths, c), append(w.lot, k), append(w.suits, all)
}

// Allows says whether a cloth may be used.
func (m MayUse) Allows(c stash.ClothState) bool {
	id := c.Cloth.ID
	return !slices.Contains(m.Never, id) && (len(m.Only) == 0 || slices.Contains(m.Only, id)) && (m.WholeLengths || !Uncut(c))
}

// WholeLength says whether nothing was cut from a length yet, and nothing is reserved on it.
func WholeLength(c stash.ClothState) bool { return Uncut(c) && len(c.Reservations) == 0 }

// Uncut says whether nothing was cut from a length yet, though some of it may be reserved: it is no
// leftover. A length has both its selvedges, or was bought as wide as its fabric, or is of a tube,
// which has none; a leftover that was there before the library may well be as wide as its fabric.
func Uncut(c stash.ClothState) bool {
	whole := c.Cloth.SelvedgeLow && c.Cloth.SelvedgeHigh ||
		(c.Cloth.PurchaseID != stash.NoID || c.Fabric.Tubular) && c.Cloth.Width >= c.Fabric.FullWidth
	return c.Cloth.Plain() && c.Cloth.CutFrom == stash.NoID && whole
}

// suit says whether a cloth's fabric may be used for a use: by the rules of the row and by
// what the pattern asks of it.
func (w *bench) suit(row Wanted, u use, q *match.Question, c stash.ClothState) suited {
	switch {
	case u.role == pattern.Main && !row.wishes(c.Fabric):
		return suited{}
	case u.rule.From == NamedFabric && !slices.Contains(u.rule.Fabrics, c.Fabric.ID):
		return suited{}
	}
	grade, _, ifs := q.Suits(c.Fabric, false)
	if grade <= match.EnoughIf {
		return suited{ok: true, ifs: ifs}
	}
	if c.Fabric.Direction != stash.EitherWay || u.role == pattern.Binding {
		return suited{}
	}
	grade, _, ifs = q.Suits(c.Fabric, true)
	return suited{ok: grade <= match.EnoughIf, crosswise: true, ifs: ifs}
}

// problem is the batch as the solver sees it.
func (w *bench) problem() batch.Problem {
	p := batch.Problem{Order: w.ask.order(), Goes: w.goes, Gauges: w.gauges()}
	for i, row := range w.ask.Rows {
		r := batch.Row{Count: row.count(), Priority: row.priority()}
		for k, u := range w.uses[i] {
			r.Roles = append(r.Roles, batch.Role{Area: int64(w.asks[i][k].Area()),
				Follows: k > 0 && (u.rule.From == SameFabric || u.rule.From == GoesWith)})
		}
		p.Rows = append(p.Rows, r)
	}
	for k, c := range w.cloths {
		p.Cloths = append(p.Cloths, batch.Cloth{Lot: w.lot[k], Area: int64(c.FreeArea), Whole: WholeLength(c),
			First: slices.Contains(w.ask.May.First, c.Cloth.ID)})
	}
	for _, pin := range w.ask.Pins {
		if task, cloth, ok := w.pinned(pin); ok {
			p.Pins = append(p.Pins, batch.Pin{Task: task, Cloth: cloth, N: max(pin.Count, 1)})
		}
	}
	return p
}

// gauges says what a cloth has of quantities beside area, and what each use takes of them.
func (w *bench) gauges() func(cloth int) []batch.Gauge {
	g := match.NewGauger()
	return func(cloth int) []batch.Gauge {
		var shares []match.Share
		for i := range w.ask.Rows {
			for k := range w.uses[i] {
				shares = append(shares, match.Share{Q: w.asks[i][k], N: 1, Crosswise: w.suits[cloth][i][k].crosswise})
			}
		}
		var out []batch.Gauge
		for _, one := range g.Of(w.cloths[cloth], shares) {
			out = append(out, batch.Gauge(one))
		}
		return out
	}
}

// pinned finds what a pin is about; false where that is not there any more.
func (w *bench) pinned(pin BatchPin) (batch.Task, int, bool) {
	cloth := slices.IndexFunc(w.cloths, func(c stash.ClothState) bool { return c.Cloth.ID == pin.Cloth })
	if cloth < 0 || pin.Row < 0 || pin.Row >= len(w.uses) {
		return batch.Task{}, 0, false
	}
	role := slices.IndexFunc(w.uses[pin.Row], func(u use) bool { return u.role == pin.Role })
	return batch.Task{Row: pin.Row, Role: role}, cloth, role >= 0
}

// goes says whether a use may be cut from one lot where the main fabric is of another.
func (w *bench) goes(row, role, lot, mainLot int) bool {
	f, main := w.fabricOf(lot), w.fabricOf(mainLot)
	return w.uses[row][role].rule.goesWith(f, main, lot == mainLot)
}

func (w *bench) fabricOf(lot int) stash.Fabric {
	return w.cloths[slices.Index(w.lot, lot)].Fabric
}

// layingSteps is how long each effort searches, in steps of the layout engine.
var layingSteps = [...]int64{0, 12, 80}

// Lay lays a load on a cloth.
func (w *bench) Lay(ctx context.Context, cloth int, load batch.Load, effort int) (batch.Verdict, int64, int, error) {
	var shares []match.Share
	for _, s := range load {
		suit := w.suits[cloth][s.Row][s.Role]
		if !suit.ok {
			return batch.Impossible, 0, 0, nil
		}
		shares = append(shares, match.Share{Q: w.asks[s.Row][s.Role], N: s.N, Crosswise: suit.crosswise})
	}
	lie, outcome, err := match.LayTogether(ctx, w.cloths[cloth], shares, layingSteps[min(effort, len(layingSteps)-1)], uint64(effort)+1)
	switch {
	case err != nil:
		return batch.Unknown, 0, 0, err
	case outcome == match.Impossible:
		return batch.Impossible, 0, 0, nil
	case outcome == match.NotFound:
		return batch.Unknown, 0, 0, nil
	}
	all, rest := takenFrom(w.cloths[cloth], lie.Pieces())
	rest = max(rest-leftover.KeptArea(w.cloths[cloth].Cloth, all, w.keep), 0)
	w.mu.Lock()
	defer w.mu.Unlock()
	w.laid = append(w.laid, &laying{load: load, lie: lie})
	return batch.Fits, int64(rest), len(w.laid) - 1, nil
}

// takenFrom is what is cut from a cloth with what is reserved on it already, and the area that
// this leaves of it.
func takenFrom(c stash.ClothState, cut []shape.Ring) ([]shape.Ring, measure.Area) {
	all := slices.Clone(cut)
	for _, r := range c.Reservations {
		for _, p := range r.Pieces {
			all = append(all, p.Outline)
		}
	}
	rest := c.Cloth.Area()
	for _, r := range all {
		rest -= measure.Area(r.Area())
	}
	return all, rest
}

// remains is what is worth keeping of a cloth once outlines are cut from it, and what is wasted.
func remains(c stash.ClothState, cut []shape.Ring, keep leftover.Limits) ([]leftover.Leftover, measure.Area) {
	all, waste := takenFrom(c, cut)
	left := leftover.Of(c.Cloth, all, keep)
	for _, l := range left {
		waste -= l.Area()
	}
	return left, waste
}
