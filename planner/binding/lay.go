package binding

import (
	"slices"

	"tallycloth/stash/measure"
)

// chunk is one length of a strip in a bin of its group.
type chunk struct {
	bin, kind, copy int
	from, to        measure.Length // along the strip
	back            bool           // while laying: from and to count from the strip's end
}

// cutLength is the chunk's length with the seams of its joins, half of a join's
// take on each side.
func (c chunk) cutLength(k kind) measure.Length {
	l := c.to - c.from
	if c.from > 0 {
		l += k.take - k.take/2
	}
	if c.to < k.length {
		l += k.take / 2
	}
	return l
}

// layer lays a group's strips into its bins one bin after the other: whole strips,
// then a strip that runs on into the next bin, cut as far on as a join may fall there.
// As far on as possible leaves the least for the bins to come, so no other place in the same
// order can do better; all orders of bins and strips, from either end, are tried.
type layer struct {
	kinds   []kind
	sources []Source
	bins    []int // sources left to open
	counts  []int // strips left
	next    []int // copies begun
	chunks  []chunk
	free    []measure.Length // left in each bin opened
	opened  []int            // the source of each
	steps   int
}

// mostLaySteps bounds the orders tried for one group.
const mostLaySteps = 20_000

// layGroup returns the chunks of a group, bins numbered as in bins, or nil where joins
// may not fall so that it can be cut.
func layGroup(kinds []kind, sources []Source, bins, counts []int) []chunk {
	l := &layer{kinds: kinds, sources: sources, bins: slices.Clone(bins), counts: slices.Clone(counts), next: make([]int, len(kinds))}
	if !l.open(nil) {
		return nil
	}
	l.ease()
	for i, b := range renumber(l.opened, bins) {
		l.opened[i] = b
	}
	out := make([]chunk, len(l.chunks))
	for i, c := range l.chunks {
		c.bin = l.opened[c.bin]
		if c.back {
			length := kinds[c.kind].length
			c.from, c.to, c.back = length-c.to, length-c.from, false
		}
		out[i] = c
	}
	return out
}

// renumber gives each bin opened its own place in bins.
func renumber(opened, bins []int) []int {
	taken := make([]bool, len(bins))
	out := make([]int, len(opened))
	for i, src := range opened {
		for j, b := range bins {
			if b == src && !taken[j] {
				out[i], taken[j] = j, true
				break
			}
		}
	}
	return out
}

// open opens each bin that is left in turn; carry is the strip that runs on into it.
func (l *layer) open(carry *chunk) bool {
	if l.steps++; l.steps > mostLaySteps {
		return false
	}
	for i, src := range l.bins {
		if slices.Contains(l.bins[:i], src) {
			continue
		}
		l.bins = slices.Delete(slices.Clone(l.bins), i, i+1)
		l.opened, l.free = append(l.opened, src), append(l.free, l.sources[src].Across)
		if l.fill(0, carry) {
			return true
		}
		l.opened, l.free = l.opened[:len(l.opened)-1], l.free[:len(l.free)-1]
		l.bins = slices.Insert(l.bins, i, src)
	}
	return false
}

// fill lays whole strips of kinds from i on into the bin that is open, any number
// of them, then goes on with what runs on. Many first: then the next bins have less to hold.
func (l *layer) fill(i int, carry *chunk) bool {
	if l.steps++; l.steps > mostLaySteps {
		return false
	}
	if i == len(l.kinds) {
		return l.runOn(carry)
	}
	bin := len(l.free) - 1
	k := l.kinds[i]
	if l.counts[i] > 0 && k.length <= l.free[bin] {
		l.begin(i, chunk{to: k.length})
		if l.fill(i, carry) {
			return true
		}
		l.undo()
		l.next[i]--
		l.counts[i]++
	}
	return l.fill(i+1, carry)
}

// begin lays the first chunk of a new strip of kind i into the open bin.
func (l *layer) begin(i int, c chunk) chunk {
	c.kind, c.copy = i, l.next[i]
	l.counts[i]--
	l.next[i]++
	return l.put(c)
}

func (l *layer) put(c chunk) chunk {
	c.bin = len(l.free) - 1
	l.free[c.bin] -= c.cutLength(l.kinds[c.kind])
	l.chunks = append(l.chunks, c)
	return c
}

func (l *layer) undo() {
	c := l.chunks[len(l.chunks)-1]
	l.free[c.bin] += c.cutLength(l.kinds[c.kind])
	l.chunks = l.chunks[:len(l.chunks)-1]
}

// runOn ends the strip that ran into this bin, or cuts it again, and starts the
// strip that runs on into the next.
func (l *layer) runOn(carry *chunk) bool {
	bin := len(l.free) - 1
	if carry != nil {
		k := l.kinds[carry.kind]
		rest := chunk{kind: carry.kind, copy: carry.copy, from: carry.to, to: k.length, back: carry.back}
		if rest.cutLength(k) > l.free[bin] {
			return l.cutAndOpen(rest, l.put)
		}
		l.put(rest)
		if l.startNext() {
			return true
		}
		l.undo()
		return false
	}
	return l.startNext()
}

// startNext starts a strip, of any kind and from either end, that runs on into the
// next bin; true when there is nothing left to lay.
func (l *layer) startNext() bool {
	done := true
	for i, n := range l.counts {
		if n == 0 {
			continue
		}
		done = false
		for _, back := range []bool{false, true} {
			if l.cutAndOpen(chunk{kind: i, to: l.kinds[i].length, back: back}, func(c chunk) chunk { return l.begin(i, c) }) {
				return true
			}
			if l.kinds[i].everywhere() {
				break // either end is as good
			}
		}
	}
	return done
}

// cutAndOpen cuts c as far on as a join may fall and the open bin has room, and opens
// the next bin for the rest.
func (l *layer) cutAndOpen(c chunk, put func(chunk) chunk) bool {
	k := l.kinds[c.kind]
	room := l.free[len(l.free)-1] - k.take/2
	if c.from > 0 {
		room -= k.take - k.take/2
	}
	at, ok := k.lastJoin(c.from, min(c.from+room, k.length-1), c.back)
	if !ok {
		return false
	}
	before := len(l.chunks)
	fresh := c.from == 0
	c.to = at
	c = put(c)
	if l.open(&c) {
		return true
	}
	for len(l.chunks) > before {
		l.undo()
	}
	if fresh {
		l.counts[c.kind]++
		l.next[c.kind]--
	}
	return false
}

// everywhere says whether a join may fall anywhere along the strip's middle, so that both ends are alike.
func (k kind) everywhere() bool {
	return len(k.joinable) == 1 && k.joinable[0].from == k.length-k.joinable[0].to
}

// lastJoin returns the place farthest on in (after, upto] where a join may fall.
func (k kind) lastJoin(after, upto measure.Length, back bool) (measure.Length, bool) {
	best, ok := measure.Length(0), false
	for _, j := range k.joinable {
		if back {
			j = span{k.length - j.to, k.length - j.from}
		}
		if at := min(j.to, upto); at >= j.from && at > after && (!ok || at > best) {
			best, ok = at, true
		}
	}
	return best, ok
}
