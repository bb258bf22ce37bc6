package drawn

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"tallycloth/planner/pattern"
	"tallycloth/stash/shape"
)

// What tells a fold edge, in µm; common practice, or what follows from it.
const (
	bentLeast = 30_000 // the shaft of a bent arrow is at least so long
	armMost   = 80_000 // and its arms at most
	tipOff    = 10_000 // off the edge that its tips point to
	wordsOff  = 20_000 // off an outline, and written beside it
	wordsIn   = 60_000 // off an edge, and still written at it
)

// foldSign is what says that a piece is drawn as a half: where, and how it was known.
type foldSign struct {
	at     shape.Point
	why    string
	shapes []int // that are the sign
}

// saysFold says whether words are about a fold: "place on fold", not "folded".
func saysFold(text string) bool {
	return slices.Contains(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }), "fold")
}

// foldWords finds the words about a fold on each outline of a piece, or beside it.
func (b *builder) foldWords() map[int]foldSign {
	out := map[int]foldSign{}
	if !slices.ContainsFunc(b.drawing.Words, func(w Word) bool { return saysFold(w.Text) }) {
		return out
	}
	placed := map[int]bool{}
	for _, w := range b.drawing.wordsIn() {
		if _, piece := b.at[w.shape]; piece && saysFold(b.drawing.Words[w.word].Text) {
			placed[w.word] = true
			b.foldWord(out, w.shape, b.drawing.Words[w.word])
		}
	}
	for k, w := range b.drawing.Words {
		if placed[k] || !saysFold(w.Text) {
			continue
		}
		if i := b.beside(w); i >= 0 {
			b.foldWord(out, i, w)
		} else {
			b.warn(Text, w.Text, "it is written at no pattern piece, so nothing came of it", "Say beside a piece which of its edges lies on the fold.")
		}
	}
	return out
}

func (b *builder) foldWord(out map[int]foldSign, i int, w Word) {
	if out[i].why != "" {
		return
	}
	ring, at := b.drawing.Shapes[i].Ring, w.At[0]
	if _, _, far := pattern.NearestSide(ring, at); far > wordsIn {
		if _, _, near := pattern.NearestSide(ring, w.At[1]); near <= wordsIn {
			at = w.At[1]
		}
	}
	out[i] = foldSign{at: at, why: fmt.Sprintf("“%s” is written there", w.Text)}
}

// beside is the outline of a piece that words outside of all are written beside, −1 for none.
func (b *builder) beside(w Word) int {
	best, gap := -1, float64(wordsOff)
	for i := range b.at {
		for _, at := range w.At {
			box := b.boxes[i].Grown(wordsOff)
			if !box.Meets(shape.Box{Min: at, Max: at}) {
				continue
			}
			if _, _, d := pattern.NearestSide(b.drawing.Shapes[i].Ring, at); d < gap || d == gap && i < best {
				best, gap = i, d
			}
		}
	}
	return best
}

// foldSign finds what says that a piece is drawn as a half: a bent arrow, a line named fold, words.
func (b *builder) foldSign(i int, on []int, ring shape.Ring, words map[int]foldSign) (foldSign, bool) {
	for _, k := range on {
		if a, ok := bentArrow(b.drawing.Shapes[k], ring); ok {
			s := foldSign{at: middleOf(a.tips[0], a.tips[1]), why: "a bent arrow points to it", shapes: []int{k}}
			for _, h := range on {
				if h != k && a.head(b.drawing.Shapes[h]) {
					s.shapes = append(s.shapes, h)
				}
			}
			return s, true
		}
	}
	for _, k := range on {
		f := b.drawing.Shapes[k]
		if _, straight := straightIn(f); straight && slices.ContainsFunc(append([]string{f.Name}, f.Group...), saysFold) {
			box := shape.Ring(f.points()).Bounds()
			return foldSign{at: middleOf(box.Min, box.Max), why: "a straight line named fold lies there", shapes: []int{k}}, true
		}
	}
	s, ok := words[i]
	return s, ok
}

// bent is an arrow whose two ends are bent to the same side: its shaft, and the tips of its arms.
type bent struct {
	shaft stretch
	tips  [2]shape.Point
}

// bentArrow is the sign for a fold edge: a line with two square bends whose ends point to the outline.
func bentArrow(f Found, ring shape.Ring) (a bent, ok bool) {
	if f.Ring != nil || len(f.Open) < 4 || len(f.Open) > 40 {
		return a, false
	}
	p := cornersOf(f.Open)
	if len(p) != 4 {
		return a, false
	}
	a = bent{stretch{a: p[1], b: p[2], length: apart(p[1], p[2])}, [2]shape.Point{p[0], p[3]}}
	x0, y0 := alongLine(p[1], p[2], p[0])
	x3, y3 := alongLine(p[1], p[2], p[3])
	x3 -= a.shaft.length
	arm := math.Abs(y0)
	square := math.Abs(x0) <= 0.1*arm && math.Abs(x3) <= 0.1*arm && math.Abs(y0-y3) <= 0.2*arm
	ends := max(offRing(ring, p[0]), offRing(ring, p[3]))
	return a, square && a.shaft.length >= bentLeast && arm >= 2*markLeast && arm <= armMost && ends <= tipOff &&
		ends < min(offRing(ring, p[1]), offRing(ring, p[2]))
}

// cornersOf is a line without the points that it runs straight on at.
func cornersOf(pts []shape.Point) []shape.Point {
	out := []shape.Point{pts[0]}
	for i := 1; i < len(pts); i++ {
		for len(out) > 1 {
			x, y := alongLine(out[len(out)-2], pts[i], out[len(out)-1])
			if math.Abs(y) > 300 || x < 0 {
				break
			}
			out = out[:len(out)-1]
		}
		out = append(out, pts[i])
	}
	return out
}

// head says whether something small is the arrow head at one of its tips.
func (a bent) head(f Found) bool {
	for _, tip := range a.tips {
		near, small := false, true
		for _, p := range f.points() {
			d := apart(p, tip)
			near, small = near || d <= 1_000, small && d <= headMost
		}
		if near && small {
			return true
		}
	}
	return false
}

// folds decides on which side of each piece the fold lies that was recognised on it, and whether there is an
// edge for it. A sign without one is told, and does nothing.
func (b *builder) folds() {
	for i, m := range b.marks {
		if m.Kind != FoldMark {
			continue
		}
		k := slices.IndexFunc(b.pieces, func(q pattern.Piece) bool { return q.Code == m.Piece })
		side, why := foldSide(b.pieces[k], b.pieces[k].Outlines[m.Size].Cut.Bounds(), m.At)
		if b.marks[i].Side = side; why == "" {
			continue
		}
		if m.On {
			b.warn(Marks, b.pieces[k].Name, "it is said to lie on a fold ("+m.Why+"), but "+why, "Say beside the piece which edge lies on the fold, or draw that edge straight.")
		}
		b.marks[i].On = false
	}
}

// foldSide is the side of a piece that a sign for its fold stands at; one in the middle of it is for the only
// side that can be. Where there is none it says why.
func foldSide(q pattern.Piece, box shape.Box, at shape.Point) (side pattern.Side, why string) {
	left, right := at.Y-box.Min.Y, box.Max.Y-at.Y
	can := map[pattern.Side]bool{}
	for _, side := range []pattern.Side{pattern.LeftSide, pattern.RightSide} {
		half := q
		can[side] = half.PutOnFold(side) == nil
	}
	near := min(wordsIn, box.Width()/3)
	switch {
	case left <= near && can[pattern.LeftSide] && (left <= right || !can[pattern.RightSide]):
		return pattern.LeftSide, ""
	case right <= near && can[pattern.RightSide]:
		return pattern.RightSide, ""
	case can[pattern.LeftSide] != can[pattern.RightSide] && left > near && right > near:
		if can[pattern.LeftSide] {
			return pattern.LeftSide, ""
		}
		return pattern.RightSide, ""
	case can[pattern.LeftSide] && can[pattern.RightSide]:
		return pattern.EitherSide, "both its sides are straight, and it stands at neither"
	}
	return pattern.EitherSide, "no edge there runs straight along its grain"
}

// FoldOf is the mark by which an edge of a piece was recognised as the one on its fold; ok is false for a whole
// piece.
func FoldOf(marks []Mark, piece string) (m Mark, ok bool) {
	i := slices.IndexFunc(marks, func(m Mark) bool { return m.Kind == FoldMark && m.Piece == piece && m.On })
	if i < 0 {
		return m, false
	}
	return marks[i], true
}
