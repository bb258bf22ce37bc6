package nest

import (
	"math/rand/v2"
	"testing"

	"tallycloth/stash/shape"
)

// TestTurnOneTurnsAWholeGroup: all copies of a group get the new turn and stay
// within the cloth, those of no group stay where they are.
func TestTurnOneTurnsAWholeGroup(t *testing.T) {
	in := heap(9, 0)
	in.Groups = []Group{{Angles: []shape.Angle{shape.Turn0, shape.Turn180}}}
	for i := range 2 {
		in.Items[i].Group, in.Items[i].Angles = 0, nil
	}
	b := boardOf(t, in)
	was := append([]place(nil), b.at...)
	if !b.turnOne(rand.New(rand.NewPCG(1, 1))) {
		t.Fatal("nothing was turned")
	}
	for i, c := range b.g.copies {
		q := b.g.p.poses[b.at[i].site.pose]
		if c.Item == 2 {
			if b.at[i] != was[i] {
				t.Errorf("copy %v of no group moved", c)
			}
			continue
		}
		if q.angle == b.g.p.poses[was[i].site.pose].angle {
			t.Errorf("copy %v was not turned", c)
		}
		s := b.at[i].site
		if b.at[i].x < s.lowX || b.at[i].y < s.lowY || b.at[i].y > s.highY {
			t.Errorf("copy %v left the cloth", c)
		}
	}
}

// TestTurnOneKeepsPins: a group with a pinned copy keeps its turn.
func TestTurnOneKeepsPins(t *testing.T) {
	in := heap(9, 0)
	in.Groups = []Group{{Angles: []shape.Angle{shape.Turn0, shape.Turn180}}}
	in.Items[0].Group, in.Items[0].Angles = 0, nil
	first := solved(t, in, Options{FirstOnly: true}).Solution
	in.Items[0].Pinned = []Pin{{Place: first.Laid[0].Place}}
	if boardOf(t, in).turnOne(rand.New(rand.NewPCG(1, 1))) {
		t.Error("a pinned copy's group was turned")
	}
}

// boardOf is the board of the first layout found.
func boardOf(t *testing.T, in Instance) *board {
	t.Helper()
	sol := solved(t, in, Options{FirstOnly: true}).Solution
	b := newBoard(newGame(newProblem(in), copies(in)))
	if !b.takeUp(sol, nowhere) {
		t.Fatal("the layout cannot be taken up")
	}
	return b
}
