package match

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"tallycloth/planner/nest"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Share is a question with how many garments of it are to lie on one cloth.
type Share struct {
	Q *Question
	N int
	// Crosswise says that these garments are cut crosswise.
	Crosswise bool
}

// Together is several garments laid on one cloth, in one layer.
type Together struct {
	// Layouts has one for each garment, share by share: its own pieces only, so that each
	// can be reserved, taken in hand and checked by itself. Its Instance is empty.
	Layouts []Layout
	// Ifs are what the layouts ask of the person, by share.
	Ifs [][]If
	// Used is how far the layouts reach, from where cutting may begin.
	Used measure.Length
	// Keep is by garment the length to keep over the whole width, where the pattern has
	// only a yardage table; the garment's layout is then empty. Empty where all have outlines.
	Keep []shape.Ring
}

// Pieces lists what is laid or kept, garment by garment.
func (t Together) Pieces() []shape.Ring {
	out := slices.Clone(t.Keep)
	for _, p := range pieces(t.Layouts) {
		out = append(out, p.Outline)
	}
	return out
}

// Outcome says how laying several garments on a cloth ended.
type Outcome int

// The outcomes.
const (
	NotFound   Outcome = iota // not in the steps given
	Lies                      // a checked layout
	Impossible                // a bound proves that they do not fit
)

// Suits compares a fabric with what the question's use of fabric asks, quantity aside.
func (q *Question) Suits(f stash.Fabric, crosswise bool) (Grade, []Reason, []If) {
	s := suits(q.role, f, crosswise)
	return s.grade, s.reasons, s.ifs
}

// Area is the area of all that the question lays for one garment.
func (q *Question) Area() measure.Area { return measure.Area(q.area()) }

// LayTogether lays several garments on one cloth among what is reserved there, in one
// layer, unwashed cloth at the size it will have. Strips are cut whole where that goes,
// else in two or three parts. With steps 0 the cloth is only filled in a few orders; else
// a search of so many steps follows, which begins anew with seed. Whether the fabric suits
// is not looked at. All questions must be of the same settings. The error is the context's,
// or says which outline cannot be laid.
func LayTogether(ctx context.Context, c stash.ClothState, shares []Share, steps int64, seed uint64) (Together, Outcome, error) {
	l := newLay(c, shares)
	if l.yards {
		return l.byYardage()
	}
	proved := true
	for _, parts := range l.stripParts() {
		in := l.instance(parts)
		o := nest.Options{Seed: seed, FillOnly: steps == 0, Steps: steps}
		a, err := nest.Solve(ctx, in, o)
		switch {
		case err != nil:
			return Together{}, NotFound, fmt.Errorf("laying garments together on %s: %w", c.Cloth.Code, err)
		case ctx.Err() != nil:
			return Together{}, NotFound, context.Cause(ctx)
		case len(a.Solution.Left) == 0:
			out := l.together(a.Solution, parts)
			if err := checkOpen(c, pieces(out.Layouts)); err != nil {
				return Together{}, NotFound, err
			}
			return out, Lies, nil
		}
		proved = proved && a.Reason == nest.Impossible && l.proves(a.Why)
	}
	if proved {
		return Together{}, Impossible, nil
	}
	return Together{}, NotFound, nil
}

// lay is a cloth with what is to lie on it.
type lay struct {
	c      stash.ClothState
	u      usable
	scale  scale
	shares []Share
	yards  bool   // some garment has no outlines
	items  []item // of every garment of every share, in order
	first  []int  // of each garment, its first item
	of     []int  // of each garment, its share
}

// byYardage keeps a length for each garment by its yardage table, the longest first, each
// in the first stretch of a plain length that has room for it (first fit decreasing;
// Johnson, 1973). Garments with outlines do not share a cloth with such.
func (l *lay) byYardage() (Together, Outcome, error) {
	var need []int64 // by garment
	for k, s := range l.shares {
		e, ok := EstimateYardage(s.Q.ask.Pattern, s.Q.ask.Size, s.Q.ask.Role, l.c.Fabric, 0, l.u.dcLength)
		if !s.Q.ByYardage() || !ok || !l.c.Cloth.Plain() {
			return Together{}, NotFound, nil
		}
		for range s.N {
			need, l.of = append(need, int64(e.Needed)), append(l.of, k)
		}
	}
	u := l.u
	u.length, u.width = u.box.Length(), u.box.Width() // before washing, as the estimate
	free := u.freeStretches(l.c.Reservations, int64(l.shares[0].Q.ask.Clearance))
	out := Together{Keep: make([]shape.Ring, len(need)), Layouts: make([]Layout, len(need)), Ifs: make([][]If, len(l.shares))}
	order := make([]int, len(need))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(need[b], need[a]) })
	for _, g := range order {
		k := slices.IndexFunc(free, func(f stretchOf) bool { return f.to-f.from >= need[g] })
		if k < 0 {
			return Together{}, NotFound, nil
		}
		from := u.box.Min.Add(shape.Point{X: free[k].from})
		out.Keep[g] = shape.Box{Min: from, Max: from.Add(shape.Point{X: need[g], Y: u.width})}.Ring()
		free[k].from += need[g]
		out.Used = max(out.Used, measure.Length(free[k].from))
	}
	for k := range l.shares {
		out.Ifs[k] = l.washIfs(nil)
	}
	return out, Lies, nil
}

// washIfs adds that the cloth is to be washed first, where it is.
func (l *lay) washIfs(ifs []If) []If {
	if l.u.washing() {
		ifs = append(ifs, If{Condition: WashFirst, Percent: l.u.dcLength, Assumed: l.u.assumed})
	}
	return ifs
}

func newLay(c stash.ClothState, shares []Share) *lay {
	l := &lay{c: c, shares: slices.Clone(shares)}
	for i := range l.shares {
		l.shares[i].Q = l.shares[i].Q.For(c.Fabric)
	}
	l.u = usableOf(c, shares[0].Q.ask.EndLoss)
	if !c.Cloth.Plain() {
		l.scale = scale{l.u.dcLength, l.u.dcWid}
	}
	for _, s := range shares {
		l.yards = l.yards || s.Q.ByYardage()
	}
	return l
}

// bed is how the cloth lies for a share.
func (l *lay) bed(s Share, parts int) bed {
	b := bedOf(l.u, l.c.Fabric)
	b.turned = s.Crosswise
	if len(s.Q.ask.Strips) > 0 {
		b.strips = parts
	}
	return b
}

// stripParts are into how many parts strips may be cut.
func (l *lay) stripParts() []int {
	out := []int{1}
	for _, s := range l.shares {
		if p := s.Q.stripParts(); len(p) > len(out) {
			out = p
		}
	}
	return out
}

// proves says whether a bound holds however strips are joined: of strips that may be cut
// into more parts still, only their area is sure.
func (l *lay) proves(why nest.Bound) bool {
	return len(l.stripParts()) == 1 || why.Kind == nest.BoundArea
}

// instance is the question to the engine: each garment its own group, so that each can
// point its own way where the fabric only asks for one way within a garment.
func (l *lay) instance(parts int) nest.Instance {
	l.items, l.first, l.of = l.items[:0], l.first[:0], l.of[:0]
	in := nest.Instance{Fabrics: []nest.Fabric{l.fabric()}, Clearance: int64(l.shares[0].Q.ask.Clearance), Ask: nest.FitsAll}
	for k, s := range l.shares {
		b := l.bed(s, parts)
		some := s.Q.items(b, l.scale)
		for range s.N {
			l.first, l.of = append(l.first, len(l.items)), append(l.of, k)
			for _, it := range some {
				if it.item.Group != nest.NoGroup {
					it.item.Group = len(in.Groups)
				}
				l.items = append(l.items, it)
				in.Items = append(in.Items, it.item)
			}
			if b.direction == stash.SameWayInGarment {
				in.Groups = append(in.Groups, nest.Group{Angles: []shape.Angle{shape.Turn0, shape.Turn180}})
			}
		}
	}
	return in
}

// fabric is the cloth with what is reserved on it in the way.
func (l *lay) fabric() nest.Fabric {
	b := bedOf(l.u, l.c.Fabric)
	if l.c.Cloth.Plain() {
		f := b.fabric(l.u.length)
		f.Obstacles = obstacles(l.c, b, l.u.box.Min)
		return f
	}
	f := nest.Fabric{Outline: l.c.Cloth.Outline, Obstacles: edges(l.c.Cloth.Outline.Bounds(), l.u.box)}
	f.Obstacles = append(f.Obstacles, obstacles(l.c, b, shape.Point{})...)
	return f
}

// together takes an answer apart, garment by garment.
func (l *lay) together(sol nest.Solution, parts int) Together {
	out := Together{Used: measure.Length(sol.Used[0]), Ifs: make([][]If, len(l.shares))}
	laid := make([][]nest.Laid, len(l.first))
	for _, one := range sol.Laid {
		g := len(l.first) - 1
		for l.first[g] > one.Item {
			g--
		}
		laid[g] = append(laid[g], one)
	}
	for g, k := range l.of {
		s := l.shares[k]
		b := l.bed(s, parts)
		lie := Layout{Frame: l.frame(b), StripParts: b.strips, Solution: nest.Solution{Laid: laid[g]}}
		lie.Pieces = openOut(b, &lie, l.items)
		lie.Solution = nest.Solution{}
		out.Layouts = append(out.Layouts, lie)
		out.Ifs[k] = bedConditions(b, l.c.Cloth.Plain() && s.Q.ask.Fold && !b.turned)
		if s.Crosswise {
			out.Ifs[k] = append([]If{{Condition: CutCrosswise}}, out.Ifs[k]...)
		}
	}
	for k := range out.Ifs {
		out.Ifs[k] = l.washIfs(out.Ifs[k])
	}
	return out
}

func (l *lay) frame(b bed) Frame {
	if l.c.Cloth.Plain() {
		return frameOf(b, measure.Length(l.u.length), l.u.box.Min)
	}
	box := l.c.Cloth.Outline.Bounds()
	return Frame{Length: measure.Length(box.Length()), Width: measure.Length(box.Width()), Crosswise: b.turned}
}

// pieces lists what all layouts lay.
func pieces(layouts []Layout) []PlacedPiece {
	var out []PlacedPiece
	for _, l := range layouts {
		out = append(out, l.Pieces...)
	}
	return out
}

// LeastTogether lays several garments on as little of a fabric of its usable width as a search
// of so many steps finds, in one layer, at the width that it has once it is washed. Used is zero where the
// fabric is too narrow. The second result says that it was estimated by the yardage table,
// where some garment has no outlines.
func LeastTogether(ctx context.Context, f stash.Fabric, shares []Share, steps int64) (Together, bool, error) {
	c := stash.ClothState{Fabric: f, Cloth: stash.Cloth{Width: f.OpenWidth(), Length: endless, SelvedgeLow: true, SelvedgeHigh: true}}
	_, c.Cloth.Width = c.OnceWashed()
	c.Cloth.Washed = true
	l := newLay(c, shares)
	if l.yards {
		out, err := l.sumByYardage()
		return out, true, err
	}
	var best Together
	for _, parts := range l.stripParts() {
		in := l.instance(parts)
		in.Ask = nest.LeastLength
		in.Fabrics[0] = bedOf(l.u, f).fabric(0)
		a, err := nest.Solve(ctx, in, nest.Options{Seed: 1, Steps: steps})
		switch {
		case err != nil:
			return Together{}, false, fmt.Errorf("laying garments together: %w", err)
		case ctx.Err() != nil:
			return Together{}, false, context.Cause(ctx)
		case len(a.Solution.Left) > 0:
			continue
		}
		if used := measure.Length(a.Solution.Used[0]); best.Used == 0 || used < best.Used {
			best = l.together(a.Solution, parts)
		}
	}
	for i := range best.Layouts {
		best.Layouts[i].Frame.Length = best.Used
	}
	return best, false, nil
}

// endless is longer than any layout.
const endless = 10_000 * measure.Metre

// sumByYardage adds up what the yardage tables say; nothing where one says nothing.
func (l *lay) sumByYardage() (Together, error) {
	var out Together
	for _, s := range l.shares {
		e, ok := EstimateYardage(s.Q.ask.Pattern, s.Q.ask.Size, s.Q.ask.Role, l.c.Fabric, 0, 0)
		if !ok {
			return Together{}, nil
		}
		out.Used += e.Needed * measure.Length(s.N)
	}
	return out, nil
}
