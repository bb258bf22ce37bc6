package match_test

import (
	"context"
	"testing"

	"tallycloth/planner/match"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// slabStrips are strips of the slab, cut across the cloth.
func slabStrips(a *match.Ask) {
	a.Strips = []match.StripAsk{{Name: "neck", Length: 70 * cm, Width: 4 * cm}, {Name: "armhole", Length: 60 * cm, Width: 4 * cm, Count: 2}}
}

// reach is where the pattern pieces of a layout end along the cloth, where its strips begin, and
// where those end.
func reach(l *match.Layout) (pieces, from, to int64) {
	from = 1 << 60
	for _, p := range l.Pieces {
		b := p.Outline.Bounds()
		if p.Role == pattern.Binding {
			from, to = min(from, b.Min.X), max(to, b.Max.X)
		} else {
			pieces = max(pieces, b.Max.X)
		}
	}
	return pieces, from, to
}

// Strips lie right behind the pattern pieces, so that all that is said to be spare is one stretch.
func TestStripsLieNextToThePieces(t *testing.T) {
	a := askFor(slab(), "M")
	slabStrips(&a)
	c := lengthOf(jersey(120*cm), 230*cm)
	v := verdict(t, a, c)
	pieces, from, to := reach(v.Layout)
	if from != pieces+int64(a.Clearance) {
		t.Errorf("the pieces end at %d µm, the strips begin at %d", pieces, from)
	}
	if rest := int64(v.Layout.Frame.Origin.X) + int64(v.Layout.Frame.Length) - to; rest != int64(v.SpareLength) {
		t.Errorf("%d µm are said to be spare, %d are left in one stretch", v.SpareLength, rest)
	}
	q, err := match.New(a)
	if err != nil {
		t.Fatal(err)
	}
	// Strips put further along are drawn back when the search goes on, but for kept ones.
	for _, kept := range []bool{false, true} {
		h := q.NewHand(c, *v.Layout)
		l := h.Layout()
		keep := make([]bool, len(l.Pieces))
		for i, p := range l.Pieces {
			by, strip := int64(40*cm), p.Role == pattern.Binding
			if strip {
				by = int64(60 * cm)
			} else if p.Piece != "B" {
				continue
			}
			p.Outline, p.Place.At.X = p.Outline.Move(shape.Point{X: by}), p.Place.At.X+by
			l.Pieces[i], keep[i] = p, kept && strip
		}
		tried, err := q.KeepTrying(context.Background(), c, l, match.Trying{Steps: 1, Keep: keep})
		if err != nil {
			t.Fatal(err)
		}
		_, begins, _ := reach(&l)
		end, begin, _ := reach(&tried.Layout)
		if !tried.Better {
			t.Fatalf("nothing better came, kept %v", kept)
		}
		if want := end + int64(a.Clearance); !kept && begin != want {
			t.Errorf("the strips begin at %d µm, want %d", begin, want)
		}
		if kept && begin != begins {
			t.Errorf("strips kept in place moved from %d to %d µm", begins, begin)
		}
	}
}

// The width that a layout needs is what its pieces take, not all of a cloth that is folded from
// both sides: panel 50 cm, flaps 20 cm each and 3 mm between are 90.6 cm.
func TestWidthNeeded(t *testing.T) {
	for _, c := range []struct {
		width, length measure.Length
		lane          measure.Length // widest free along all of it
	}{
		{120 * cm, 100 * cm, 0}, {94 * cm, 63 * cm, 14 * mm}, {180 * cm, 100 * cm, 0},
	} {
		v := verdict(t, askFor(slab(), "M"), lengthOf(jersey(c.width), c.length))
		if v.Layout == nil {
			t.Fatalf("%d: no layout", c.width)
		}
		for _, r := range v.Reasons {
			if r.What == match.Width && (r.Asked != int64(906*mm) || r.Has != int64(c.width-2*cm)) {
				t.Errorf("on %d µm: needs %d of %d", c.width, r.Asked, r.Has)
			}
		}
		if c.lane > 0 && v.SpareWidth != c.lane {
			t.Errorf("on %d µm the widest free lane is %d, want %d", c.width, v.SpareWidth, c.lane)
		}
		checkLane(t, v)
	}
}

// checkLane checks that the lane which is said to be free is there.
func checkLane(t *testing.T, v match.Verdict) {
	t.Helper()
	low := int64(cm) // the selvedge
	free := func(at int64) bool {
		for _, p := range v.Layout.Pieces {
			if b := p.Outline.Bounds(); b.Min.Y < at+int64(v.SpareWidth) && b.Max.Y > at {
				return false
			}
		}
		return true
	}
	starts := []int64{low}
	for _, p := range v.Layout.Pieces {
		starts = append(starts, p.Outline.Bounds().Max.Y)
	}
	for _, at := range starts {
		if free(at) {
			return
		}
	}
	t.Errorf("no lane of %d µm is free", v.SpareWidth)
}

// On a leftover nothing that is reserved is called spare, and only what is free is there.
func TestSpareOfAReservedLeftover(t *testing.T) {
	box := func(x, y, l, w measure.Length) shape.Ring {
		return shape.Box{Min: shape.Point{X: int64(x), Y: int64(y)}, Max: shape.Point{X: int64(x + l), Y: int64(y + w)}}.Ring()
	}
	c := leftoverOf(jersey(150*cm), shape.Polygon{Outer: box(0, 0, 220*cm, 100*cm)})
	free := verdict(t, askFor(slab(), "M"), c)
	c.Reservations = []stash.Reservation{{Live: true, Pieces: []stash.ReservedPiece{{Name: "Front", Outline: box(150*cm, 10*cm, 50*cm, 40*cm)}}}}
	taken := verdict(t, askFor(slab(), "M"), c)
	if free.Layout == nil || taken.Layout == nil {
		t.Fatal("no layout")
	}
	if free.SpareLength < 100*cm || taken.SpareLength > 20*cm {
		t.Errorf("%d µm to spare, %d with a part reserved 20 cm from its end", free.SpareLength, taken.SpareLength)
	}
	has := func(v match.Verdict) int64 {
		for _, r := range v.Reasons {
			if r.What == match.Area {
				return r.Has
			}
		}
		return 0
	}
	if d := has(free) - has(taken); d != 200_000 { // 0.2 m², in mm²
		t.Errorf("%d mm² less are there", d)
	}
}
