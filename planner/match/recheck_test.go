package match_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// stripsFor are two strips, one of which may be joined.
func stripsFor() []match.StripAsk {
	return []match.StripAsk{
		{Name: "neck", Length: 54 * cm, Width: 4 * cm, Count: 1},
		{Name: "armhole", Length: 70 * cm, Width: 35 * mm, Count: 2, MayJoin: true, JoinLoss: 4 * cm},
	}
}

// Layouts that a search found break no rule, whatever the cloth, the fabric and the way they are cut.
func TestLayoutsFoundHaveNoFaults(t *testing.T) {
	tank, tee, shorts := demo(t)
	looked := 0
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom([]pattern.Pattern{slab(), tank, shorts, tee}).Draw(t, "pattern")
		a := askFor(p, p.Sizes[rapid.IntRange(0, len(p.Sizes)-1).Draw(t, "size")].Name)
		a.Fold = rapid.Bool().Draw(t, "fold")
		a.Tilt = rapid.SampledFrom([]shape.Angle{0, 0, 500, 2000}).Draw(t, "tilt")
		if rapid.Bool().Draw(t, "strips") {
			a.Strips = stripsFor()
		}
		c := anyCloth(t)
		v, err := match.New(a)
		if err != nil {
			t.Fatal(err)
		}
		got := must(t, v, c)
		if got.Layout == nil {
			return
		}
		looked++
		if f := v.Faults(c, *got.Layout); len(f) > 0 {
			t.Fatalf("%d faults, first %+v in %+v", len(f), f[0], got.Layout.Frame)
		}
	})
	if looked < 10 {
		t.Errorf("only %d layouts were looked at", looked)
	}
}

// layoutOf is the layout of a pattern on 150 cm of jersey, as a search found it.
func layoutOf(t *testing.T, p pattern.Pattern, fold bool, change func(*stash.Fabric)) (*match.Question, stash.ClothState, match.Layout) {
	t.Helper()
	a := askFor(p, p.Sizes[0].Name)
	a.Fold = fold
	f := jersey(120 * cm)
	change(&f)
	c := lengthOf(f, 150*cm)
	q := ask(t, a)
	v := verdict(t, a, c)
	if v.Layout == nil {
		t.Fatalf("no layout: %+v", v)
	}
	return q, c, *v.Layout
}

// relaid lays piece i anew: its outline follows its place.
func relaid(l *match.Layout, i int, change func(*shape.Placement)) {
	p := &l.Pieces[i]
	base := (shape.Placement{Angle: (-p.Place.Angle).Norm()}).Apply(p.Outline.Move(shape.Point{X: -p.Place.At.X, Y: -p.Place.At.Y}))
	if p.Place.Mirror {
		base = (shape.Placement{Mirror: true}).Apply(base)
	}
	change(&p.Place)
	p.Outline = p.Place.Apply(base)
}

func find(l match.Layout, name string, layer int) int {
	return slices.IndexFunc(l.Pieces, func(p match.PlacedPiece) bool { return p.Name == name && p.Layer == layer })
}

// lopsided is the slab with flaps that are not their own mirror image: a corner is off.
func lopsided() pattern.Pattern {
	p := slab()
	at := func(x, y int64) shape.Point { return shape.Point{X: x * 1000, Y: y * 1000} }
	p.Pieces[1].Outlines = map[string]pattern.Outline{"M": {Cut: shape.Ring{at(0, 0), at(300, 0), at(300, 200), at(80, 200), at(0, 120)}}}
	return p
}

// TestFaults breaks one rule after the other and expects that it is found, and no other,
// on the piece that breaks it. The panel lies with its fold edge on the fold at half of
// the 118 cm usable, the flaps are a mirrored pair.
func TestFaults(t *testing.T) {
	const open, folded = false, true
	none := func(*stash.Fabric) {}
	for _, c := range []struct {
		name  string
		fold  bool
		grain pattern.GrainRule
		f     func(*stash.Fabric)
		spoil func(*match.Layout, *stash.ClothState)
		want  match.FaultKind
		piece string
	}{
		{"a piece is gone", open, 0, none, func(l *match.Layout, _ *stash.ClothState) { l.Pieces = l.Pieces[1:] }, match.Missing, "Panel"},
		{"a piece twice", open, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			l.Pieces = append(slices.Clone(l.Pieces), l.Pieces[0])
			i := len(l.Pieces) - 1
			relaid(l, i, func(p *shape.Placement) { p.At.X = 1_450_000 - 600_000 })
		}, match.TooMany, "Panel"},
		{"another outline", open, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			l.Pieces[0].Outline = slices.Clone(l.Pieces[0].Outline)
			l.Pieces[0].Outline[0].X++
		}, match.OtherOutline, "Panel"},
		{"over the selvedge", open, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			relaid(l, find(*l, "Flap", 0), func(p *shape.Placement) { p.At = p.At.Add(shape.Point{X: 900_000, Y: -900_000}) })
		}, match.OffCloth, "Flap"},
		{"over another", open, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			relaid(l, 2, func(p *shape.Placement) { p.At = l.Pieces[0].Place.At })
		}, match.OverPiece, "Flap"},
		{"too near", open, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			b, q := l.Pieces[1].Outline.Bounds(), l.Pieces[2].Outline.Bounds()
			relaid(l, 1, func(p *shape.Placement) {
				p.At = p.At.Add(shape.Point{X: 1_300_000 - b.Max.X, Y: 600_000 - b.Min.Y})
			})
			relaid(l, 2, func(p *shape.Placement) {
				p.At = p.At.Add(shape.Point{X: 1_300_000 - q.Max.X, Y: 602_000 + b.Width() - q.Min.Y})
			})
		}, match.TooNear, "Flap"},
		{"on what is reserved", open, 0, none, func(l *match.Layout, c *stash.ClothState) {
			*c = withReserved(*c, shape.Box{Min: shape.Point{X: 100_000, Y: 100_000}, Max: shape.Point{X: 110_000, Y: 110_000}})
		}, match.OverReserved, "Panel"},
		{"off the grain", open, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			i := find(*l, "Flap", 0)
			relaid(l, i, func(p *shape.Placement) { p.Angle, p.At = 20_000, shape.Point{X: 1_000_000, Y: 800_000} })
		}, match.OffGrain, "Flap"},
		{"on the crosswise grain", open, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			i := find(*l, "Flap", 0)
			relaid(l, i, func(p *shape.Placement) { p.Angle, p.At = shape.Turn90, shape.Point{X: 1_200_000, Y: 800_000} })
		}, match.OffGrain, "Flap"},
		{"against the nap", open, 0, func(f *stash.Fabric) { f.Direction = stash.SameWayForAll }, turnAway, match.WrongWay, "Flap"},
		{"against the rest of its garment", open, 0, func(f *stash.Fabric) { f.Direction = stash.SameWayInGarment }, turnAway, match.WrongWay, "Flap"},
		{"both of one face", open, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			i := slices.IndexFunc(l.Pieces, func(p match.PlacedPiece) bool { return p.Place.Mirror })
			relaid(l, i, func(p *shape.Placement) { p.Mirror, p.At = false, shape.Point{X: 1_000_000, Y: 800_000} })
		}, match.NotMirrored, "Flap"},
		{"off the fold", folded, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			relaid(l, find(*l, "Panel", 0), func(p *shape.Placement) { p.At = p.At.Add(shape.Point{X: 700_000, Y: -4_000}) })
		}, match.OffFold, "Panel"},
		{"on the fold but at right angles to it", folded, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			relaid(l, find(*l, "Panel", 0), func(p *shape.Placement) { p.Angle, p.At = shape.Turn90, shape.Point{X: 1_100_000, Y: 100_000} })
		}, match.OffGrain, "Panel"},
		{"layers apart", folded, 0, none, func(l *match.Layout, _ *stash.ClothState) {
			relaid(l, find(*l, "Flap", 0), func(p *shape.Placement) { p.At = p.At.Add(shape.Point{X: 500_000}) })
		}, match.NotPaired, "Flap"},
	} {
		t.Run(c.name, func(t *testing.T) {
			q, cloth, l := layoutOf(t, lopsided(), c.fold, c.f)
			if got := q.Faults(cloth, l); len(got) > 0 {
				t.Fatalf("before: %+v", got)
			}
			if (len(l.Frame.Folds) > 0) != c.fold {
				t.Fatalf("frame %+v", l.Frame)
			}
			l.Pieces = slices.Clone(l.Pieces)
			c.spoil(&l, &cloth)
			got := match.Gravest(q.Faults(cloth, l))
			if len(got) == 0 || !slices.ContainsFunc(got, func(f match.Fault) bool { return f.Kind == c.want && f.Name == c.piece }) {
				t.Fatalf("%+v", got)
			}
			for _, f := range got {
				if f.Kind != c.want && (c.want == match.OffGrain || f.Kind != match.OverPiece) {
					t.Errorf("also %+v", f)
				}
			}
		})
	}
}

// turnAway turns one flap end for end where there is room.
func turnAway(l *match.Layout, _ *stash.ClothState) {
	relaid(l, find(*l, "Flap", 0), func(p *shape.Placement) {
		p.Angle = (p.Angle + shape.Turn180).Norm()
		p.At = shape.Point{X: 1_300_000, Y: 900_000}
	})
}

// A leftover's flaws and edge ask for the clearance as well.
func TestFaultsOnALeftover(t *testing.T) {
	f := jersey(150 * cm)
	at := func(x, y int64) shape.Point { return shape.Point{X: x * 1000, Y: y * 1000} }
	c := leftoverOf(f, shape.Polygon{Outer: shape.Ring{at(0, 0), at(1200, 0), at(1000, 960), at(0, 960)}, Holes: []shape.Ring{{at(1000, 40), at(1000, 60), at(1020, 60), at(1020, 40)}}})
	a := askFor(slab(), "M")
	q, v := ask(t, a), verdict(t, a, c)
	if v.Layout == nil {
		t.Fatalf("%+v", v)
	}
	l := *v.Layout
	if got := q.Faults(c, l); len(got) > 0 {
		t.Fatalf("before: %+v", got)
	}
	flap := find(l, "Flap", 0)
	for _, try := range []struct {
		to   shape.Point // of its low corner
		want match.FaultKind
	}{{at(790, 30), match.OverFlaw}, {at(790, 62), match.OverFlaw}, {at(895, 700), match.OffCloth}, {at(1, 700), match.OffCloth}} {
		l.Pieces = slices.Clone(v.Layout.Pieces)
		b := l.Pieces[flap].Outline.Bounds()
		relaid(&l, flap, func(p *shape.Placement) { p.At = p.At.Add(try.to.Sub(b.Min)) })
		got := match.Gravest(q.Faults(c, l))
		ok := slices.ContainsFunc(got, func(f match.Fault) bool {
			return f.Piece == flap && (f.Kind == try.want || try.want == match.OverFlaw && f.Kind == match.TooNear)
		})
		if !ok {
			t.Errorf("at %v: %+v", try.to, got)
		}
	}
}

// Match marks meet the repeat at one place of it; a piece that is a centimetre off is told.
func TestFaultOfRepeat(t *testing.T) {
	p := slab()
	for i := range p.Pieces {
		o := p.Pieces[i].Outlines["M"]
		o.MatchMarks = []pattern.MatchMark{{X: int64(10+i) * int64(cm)}}
		p.Pieces[i].Outlines = map[string]pattern.Outline{"M": o}
	}
	q, c, l := layoutOf(t, p, false, func(f *stash.Fabric) { f.RepeatAlong = 12 * cm })
	if got := q.Faults(c, l); len(got) > 0 {
		t.Fatalf("before: %+v", got)
	}
	l.Pieces = slices.Clone(l.Pieces)
	i := len(l.Pieces) - 1
	relaid(&l, i, func(p *shape.Placement) { p.At.X, p.At.Y = p.At.X%120_000+960_000+10_000, 800_000 })
	got := match.Gravest(q.Faults(c, l))
	if len(got) != 1 || got[0].Kind != match.OffRepeat || got[0].Piece != i || got[0].By != 12*cm {
		t.Errorf("%+v", got)
	}
}

// Strips are looked at as well: their width, their grain, and that each is there.
func TestFaultsOfStrips(t *testing.T) {
	a := askFor(slab(), "M")
	a.Strips = stripsFor()
	c := lengthOf(jersey(120*cm), 150*cm)
	q, v := ask(t, a), verdict(t, a, c)
	if v.Layout == nil || len(q.Faults(c, *v.Layout)) > 0 {
		t.Fatalf("%+v", v)
	}
	l := *v.Layout
	l.Pieces = slices.Clone(l.Pieces)
	last := len(l.Pieces) - 1
	l.Pieces[last].Outline = shape.Box{Max: shape.Point{X: 10, Y: 10}}.Ring().Move(l.Pieces[last].Outline.Bounds().Min)
	if got := match.Gravest(q.Faults(c, l)); len(got) != 1 || got[0].Kind != match.OtherOutline {
		t.Errorf("a small square: %+v", got)
	}
	l.Pieces = slices.DeleteFunc(slices.Clone(v.Layout.Pieces), func(p match.PlacedPiece) bool { return p.Name == "neck" })
	if got := q.Faults(c, l); len(got) != 1 || got[0].Kind != match.Missing || got[0].Name != "neck" {
		t.Errorf("without its neck strip: %+v", got)
	}
}

// Only one thing is told of each piece, the gravest.
func TestGravest(t *testing.T) {
	got := match.Gravest([]match.Fault{
		{Kind: match.Missing, Piece: -1}, {Kind: match.Missing, Piece: -1},
		{Kind: match.TooNear, Piece: 1, By: 3}, {Kind: match.OverPiece, Piece: 1, By: measure.Length(5)}, {Kind: match.OverPiece, Piece: 1, By: 9},
		{Kind: match.WrongWay, Piece: 2},
	})
	if fmt.Sprint(len(got), got[2].Kind == match.OverPiece, got[2].By, got[3].Piece) != "4 true 9 2" {
		t.Errorf("%+v", got)
	}
}

// A piece off its grain by no more than may be is no fault; by more it is, and so it is of a piece that is fixed
// and where nothing may be.
func TestTilt(t *testing.T) {
	for _, c := range []struct {
		may, off shape.Angle
		fixed    bool
		fault    bool
	}{{0, 1000, false, true}, {1000, 1000, false, false}, {1000, -1000, false, false}, {1000, 1001, false, true}, {2000, 1000, true, true}} {
		p := slab()
		for i := range p.Pieces {
			p.Pieces[i].Fixed = c.fixed
		}
		ask := askFor(p, p.Sizes[0].Name)
		ask.Tilt = c.may
		q, err := match.New(ask)
		if err != nil {
			t.Fatal(err)
		}
		_, cloth, l := layoutOf(t, p, false, func(*stash.Fabric) {})
		relaid(&l, 0, func(at *shape.Placement) { at.Angle += c.off })
		found := slices.ContainsFunc(q.Faults(cloth, l), func(f match.Fault) bool { return f.Kind == match.OffGrain })
		if found != c.fault {
			t.Errorf("off by %d where %d may be (fixed: %v): off grain is %v", c.off, c.may, c.fixed, found)
		}
	}
}
