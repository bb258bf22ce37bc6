package match

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Question is an Ask made ready to be put to many cloths. Layouts that do not
// depend on the single cloth are worked out once and shared. It is safe for
// several goroutines.
type Question struct {
	ask   Ask
	role  pattern.Role
	parts []part
	lays  *shelfLayouts
	mu    sync.Mutex
	byFab map[stash.ID]*Question // with the strips of a fabric
}

// For is the question with strips as they are cut from a fabric, where the Ask says that they depend
// on it; layouts of pattern pieces are shared.
func (q *Question) For(f stash.Fabric) *Question {
	if q.ask.StripsOf == nil {
		return q
	}
	q.mu.Lock()
	defer q.mu.Unlock()
	if made := q.byFab[f.ID]; made != nil && f.ID != stash.NoID {
		return made
	}
	made := &Question{ask: q.ask, role: q.role, parts: q.parts, lays: q.lays, byFab: map[stash.ID]*Question{}}
	made.ask.StripsOf = nil
	if strips := q.ask.StripsOf(f); len(strips) == len(q.ask.Strips) {
		made.ask.Strips = strips
	}
	for _, other := range q.byFab { // so that fabrics with the same strips share all layouts
		if slices.Equal(other.ask.Strips, made.ask.Strips) {
			made = other
			break
		}
	}
	q.byFab[f.ID] = made
	return made
}

// part is a pattern piece in the size asked, ready to be laid.
type part struct {
	piece pattern.Piece
	half  shape.Ring // its half in y ≥ 0 when it is cut on the fold, else nil
	whole shape.Ring // as cut from one layer
	twin  bool       // the whole is its own mirror image
}

// New makes an Ask ready. It refuses a size the pattern does not have and
// outlines that are not closed and simple.
func New(a Ask) (*Question, error) {
	if _, ok := a.Pattern.Size(a.Size); !ok {
		return nil, &stash.Error{Kind: stash.Invalid,
			What: fmt.Sprintf("%s has no size %q", a.Pattern.Name, a.Size), Do: "Choose one of its sizes"}
	}
	if a.Role == "" {
		a.Role = pattern.Main
	}
	role, ok := a.Pattern.Role(a.Role)
	if !ok && len(a.Pattern.Roles) > 0 && a.Role != pattern.Main {
		return nil, &stash.Error{Kind: stash.Invalid,
			What: fmt.Sprintf("%s uses no fabric as %s", a.Pattern.Name, a.Role), Do: "Choose one of its uses"}
	}
	q := &Question{ask: a, role: role, lays: &shelfLayouts{of: map[layKey]*shelfLayout{}}, byFab: map[stash.ID]*Question{}}
	for _, p := range a.Pattern.PiecesOf(a.Role, a.Size) {
		made, err := newPart(a.Pattern, p, a.Size)
		if err != nil {
			return nil, fmt.Errorf("pattern piece %s of %s: %w", p.Code, a.Pattern.Name, err)
		}
		q.parts = append(q.parts, made)
	}
	return q, nil
}

func newPart(pat pattern.Pattern, p pattern.Piece, size string) (part, error) {
	ring, err := CutLine(pat, p, size)
	if err != nil {
		return part{}, err
	}
	made := part{piece: p, whole: ring}
	if p.OnFold {
		made.half, made.whole = ring, pattern.Unfold(ring)
	}
	made.twin = p.OnFold || mirrorsItself(ring)
	return made, nil
}

// mirrorsItself says whether the ring is its own mirror image about its grain line,
// wherever it lies.
func mirrorsItself(r shape.Ring) bool {
	low := func(r shape.Ring) map[shape.Point]bool {
		at, set := r.Bounds().Min, map[shape.Point]bool{}
		for _, p := range r {
			set[p.Sub(at)] = true
		}
		return set
	}
	a, b := low(r), low(shape.Placement{Mirror: true}.Apply(r))
	for p := range a {
		if !b[p] {
			return false
		}
	}
	return true
}

// ByYardage says whether the answer can only be an estimate: the pattern has no
// outlines for what is asked.
func (q *Question) ByYardage() bool { return len(q.parts) == 0 && len(q.ask.Strips) == 0 }

// quantity is the answer to "does it lie on this cloth?", the fabric aside.
type quantity struct {
	grade   Grade // Enough, Tight, EnoughIf, CannotTell or NotEnough
	proof   Proof
	reasons []Reason
	ifs     []If
	spare   measure.Length
	side    measure.Length // to spare in width
	short   measure.Length
	layout  *Layout
	keep    shape.Ring
}

// Check answers for one cloth. Its error is the context's, or says which outline
// of the cloth cannot be laid on.
func (q *Question) Check(ctx context.Context, c stash.ClothState) (Verdict, error) {
	q = q.For(c.Fabric)
	v := Verdict{ClothID: c.Cloth.ID}
	if c.Cloth.Gone {
		v.Grade, v.Proof = NotEnough, ByBound
		v.Reasons = []Reason{{What: Area, Bad: true}}
		return v, nil
	}
	usual := suits(q.role, c.Fabric, false)
	best, err := q.inGrain(ctx, c, usual, false)
	if err != nil || best.Grade <= EnoughIf || c.Fabric.Direction != stash.EitherWay {
		return best, err
	}
	turned := suits(q.role, c.Fabric, true)
	if turned.grade > EnoughIf || len(q.parts) == 0 {
		return best, nil
	}
	other, err := q.inGrain(ctx, c, turned, true)
	if err == nil && other.Grade <= EnoughIf {
		return other, nil
	}
	return best, err
}

// inGrain answers for one cloth cut along the grain, or all of it crosswise.
func (q *Question) inGrain(ctx context.Context, c stash.ClothState, s suit, turned bool) (Verdict, error) {
	v := Verdict{ClothID: c.Cloth.ID, Grade: s.grade, Proof: ByProperties, Reasons: s.reasons, Ifs: s.ifs}
	if s.grade > EnoughIf {
		v.Ifs = nil
		return v, nil
	}
	lie, err := q.quantity(ctx, c, turned)
	if err != nil {
		return Verdict{}, fmt.Errorf("looking whether %s is enough: %w", c.Cloth.Code, err)
	}
	return merged(c.Cloth.ID, s, lie, turned), nil
}

// merged is the verdict of a fabric that suits and of how its cloth suffices.
func merged(id stash.ID, s suit, lie quantity, turned bool) Verdict {
	v := Verdict{ClothID: id, Ifs: s.ifs}
	v.Grade, v.Proof = max(s.grade, lie.grade), lie.proof
	v.Reasons = append(slices.Clone(s.reasons), lie.reasons...)
	v.SpareLength, v.SpareWidth, v.Short = lie.spare, lie.side, lie.short
	v.Layout, v.Keep = lie.layout, lie.keep
	if v.Grade > EnoughIf {
		v.Ifs = nil
		return v
	}
	if turned {
		lie.ifs = append([]If{{Condition: CutCrosswise}}, lie.ifs...)
	}
	v.Ifs = append(slices.Clone(s.ifs), lie.ifs...)
	if len(v.Ifs) > 0 {
		v.Grade = EnoughIf
	}
	return v
}

// quantity takes the way of proof that the pattern and the cloth allow.
func (q *Question) quantity(ctx context.Context, c stash.ClothState, turned bool) (quantity, error) {
	u := usableOf(c, q.ask.EndLoss)
	var lie quantity
	var err error
	switch {
	case q.ByYardage():
		lie = q.byYardage(c, u)
	case !c.Cloth.Plain():
		lie, err = q.onLeftover(ctx, c, u, turned)
	default:
		lie, err = q.onLength(ctx, c, u, turned)
	}
	if u.washing() && lie.grade <= EnoughIf {
		lie.ifs = append(lie.ifs, If{Condition: WashFirst, Percent: u.dcLength, Assumed: u.assumed})
	}
	return q.noted(c, lie), err
}

// noted adds what a layout does not see: a repeat that is not matched from piece to
// piece, an allowance that is missing and not known.
func (q *Question) noted(c stash.ClothState, lie quantity) quantity {
	if lie.grade > EnoughIf || len(q.parts) == 0 {
		return lie
	}
	if c.Fabric.RepeatAlong > 0 && !q.marks() {
		lie.reasons = append(lie.reasons, Reason{What: Repeat, Grain: lengthwise, Asked: int64(c.Fabric.RepeatAlong)})
	}
	bare := func(p part) bool { return p.piece.WithoutAllowance }
	if q.ask.Pattern.SeamAllowance == 0 && slices.ContainsFunc(q.parts, bare) {
		lie.ifs = append(lie.ifs, If{Condition: AddAllowance})
	}
	return lie
}

// marks says whether the pattern asks for matching at all.
func (q *Question) marks() bool {
	for _, p := range q.parts {
		if len(p.piece.Outlines[q.ask.Size].MatchMarks) > 0 {
			return true
		}
	}
	return false
}
