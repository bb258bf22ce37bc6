package binding

import (
	"cmp"
	"context"
	"encoding/binary"
	"slices"

	"tallycloth/stash/measure"
)

// Cutting strips with joins is bin packing with fragmentation: strips are the items,
// lengths cut across the sources the bins. Strips that share a cut-across length, directly or
// through others, make a group. In a best plan the pieces of a group form a tree (a cycle
// can be undone by shifting length round it until a piece vanishes), so a group on m
// bins has m − 1 joins exactly. The search therefore splits the strips into groups:
// for the longest strip left it tries every group that holds it, on one bin (only
// fillings to which nothing can be added, as taking a strip away from another group
// never hurts), then on two, three …, and goes on with the rest. Branches end where a
// bound on joins and fabric, or an earlier visit to the same rest, shows that they cannot win.
// Source: branch and bound with dominance (P. C. Gilmore and R. E. Gomory, 1961, for
// patterns; the tree argument derived here, compare N. Menakerman and R. Rom, 2001).
//
// Where joins are forbidden on some segments, only groups whose bins lie in a row are
// looked for, one join between neighbours. What is found then is proved only where it is as good as
// the best plan with joins allowed anywhere.

// group is strips that share cut-across lengths.
type group struct {
	bins   []int // source of each bin
	counts []int // strips of each kind
	chunks []chunk
}

// cost is compared in order of its fields.
type cost struct{ short, joins, area, order int64 }

func (c cost) compare(d cost) int {
	return cmp.Or(cmp.Compare(c.short, d.short), cmp.Compare(c.joins, d.joins), cmp.Compare(c.area, d.area), cmp.Compare(c.order, d.order))
}

func (c cost) plus(d cost) cost {
	return cost{c.short + d.short, c.joins + d.joins, c.area + d.area, c.order + d.order}
}

// answer is a way to cut.
type answer struct {
	cost   cost
	groups []group
}

// mostNodes bounds the search; a garment's strips take some tens, a large batch some thousands.
const mostNodes = 200_000

// searcher holds a search and its best answer so far.
type searcher struct {
	ctx     context.Context
	kinds   []kind
	sources []Source
	widest  measure.Length // greatest Across
	alike   bool           // all sources have the same Across
	leave   bool           // strips may be left without cloth
	left    []int          // strips of each kind to place
	along   []measure.Length
	path    []group
	best    answer
	found   bool
	nodes   int
	cut     bool // the bound on nodes was met
	seen    map[string]cost
	laid    map[string][]chunk // how groups on several bins are cut; nil where they cannot be
}

// search returns the best way to cut, and whether it is proved.
func search(ctx context.Context, kinds []kind, sources []Source) (answer, bool, error) {
	if err := ctx.Err(); err != nil {
		return answer{}, false, err
	}
	if a, ok := newSearcher(ctx, kinds, sources).unjoined(); ok {
		return a, true, nil
	}
	best, proved := branch(ctx, kinds, sources)
	if proved && !free(kinds) {
		// Shifting length round a cycle may bring a join to where none may fall, so
		// the tree argument does not hold; but no plan is better than one for free joins.
		bound, known := branch(ctx, freed(kinds), sources)
		proved = known && bound.cost == best.cost
	}
	return best, proved, ctx.Err()
}

// branch is the branch and bound: first for all strips, then with strips left out.
func branch(ctx context.Context, kinds []kind, sources []Source) (answer, bool) {
	for _, leave := range []bool{false, true} {
		s := newSearcher(ctx, kinds, sources)
		s.leave = leave
		if !leave && s.leastShort().short > 0 {
			continue
		}
		s.descend(cost{})
		if s.found || ctx.Err() != nil {
			return s.best, !s.cut
		}
	}
	return answer{}, false
}

// free says whether joins may fall anywhere.
func free(kinds []kind) bool {
	for _, k := range kinds {
		if len(k.joinable) != 1 || k.joinable[0] != (span{0, k.length}) {
			return false
		}
	}
	return true
}

// freed returns the kinds with joins allowed anywhere.
func freed(kinds []kind) []kind {
	out := slices.Clone(kinds)
	for i := range out {
		out[i].joinable, out[i].wished = []span{{0, out[i].length}}, nil
	}
	return out
}

func newSearcher(ctx context.Context, kinds []kind, sources []Source) *searcher {
	s := &searcher{ctx: ctx, kinds: kinds, sources: sources, alike: true, seen: map[string]cost{}, laid: map[string][]chunk{}}
	for _, k := range kinds {
		s.left = append(s.left, len(k.numbers))
	}
	for _, src := range sources {
		s.along = append(s.along, src.Along)
		s.alike = s.alike && src.Across == sources[0].Across
		s.widest = max(s.widest, src.Across)
	}
	return s
}

// rank is a source's place in the order of preference, from 0.
func (s *searcher) rank(source int) int64 {
	if r := s.sources[source].Rank; r > 0 {
		return int64(r - 1)
	}
	return int64(source)
}

// descend places the first kind that is left in every way that may still win.
func (s *searcher) descend(sofar cost) {
	if s.nodes++; s.nodes > mostNodes || s.nodes%256 == 0 && s.ctx.Err() != nil {
		s.cut = true
		return
	}
	head := slices.IndexFunc(s.left, func(n int) bool { return n > 0 })
	if head < 0 {
		if !s.found || sofar.compare(s.best.cost) < 0 {
			s.found, s.best = true, answer{sofar, slices.Clone(s.path)}
		}
		return
	}
	if s.loses(sofar) {
		return
	}
	key := s.key()
	if was, ok := s.seen[key]; ok && was.compare(sofar) <= 0 {
		return
	}
	s.seen[key] = sofar
	s.tryGroups(head, sofar)
	if s.leave {
		s.left[head]--
		s.descend(sofar.plus(cost{short: int64(s.kinds[head].length)}))
		s.left[head]++
	}
}

// key names what is left to do with what.
func (s *searcher) key() string {
	b := make([]byte, 0, 8*(len(s.left)+len(s.along)))
	for _, n := range s.left {
		b = binary.AppendVarint(b, int64(n))
	}
	for _, a := range s.along {
		b = binary.AppendVarint(b, int64(a))
	}
	return string(b)
}

// tryGroups tries the groups that hold a strip of kind head: on few bins first, and
// of those the least waste first.
func (s *searcher) tryGroups(head int, sofar cost) {
	for m := 1; m <= s.mostBins(head) && !s.cut; m++ {
		if s.losesWith(sofar, int64(m-1)) {
			return
		}
		for _, c := range s.candidates(head, m) {
			s.take(c, sofar)
			if s.cut {
				return
			}
		}
	}
}

// mostBins is the most bins a group can want: no more than its strips each on its own
// from the narrowest source, or its joins could be fewer. One more for each strip on which joins are
// forbidden somewhere.
func (s *searcher) mostBins(head int) int {
	width, narrow := s.kinds[head].width, s.narrowest()
	want, have := 0, 0
	for i, k := range s.kinds {
		if k.width == width {
			want += s.left[i] * (int(k.leastJoins(narrow)) + 2)
		}
	}
	for _, a := range s.along {
		have += int(a / width)
	}
	return min(want, have)
}

// narrowest is the least Across that a strip can be joined from.
func (s *searcher) narrowest() measure.Length {
	least := s.widest
	for i, src := range s.sources {
		if s.along[i] > 0 && src.Across > 0 {
			least = min(least, src.Across)
		}
	}
	return least
}

// candidate is a group to try, with what it costs and wastes.
type candidate struct {
	group
	cost  cost
	waste measure.Length
}

// take goes on with a candidate.
func (s *searcher) take(c candidate, sofar cost) {
	width := s.kinds[slices.IndexFunc(c.counts, func(n int) bool { return n > 0 })].width
	sofar = sofar.plus(c.cost)
	if s.found && sofar.compare(s.best.cost) >= 0 {
		return
	}
	for i, n := range c.counts {
		s.left[i] -= n
	}
	for _, b := range c.bins {
		s.along[b] -= width
	}
	s.path = append(s.path, c.group)
	s.descend(sofar)
	s.path = s.path[:len(s.path)-1]
	for _, b := range c.bins {
		s.along[b] += width
	}
	for i, n := range c.counts {
		s.left[i] += n
	}
}
