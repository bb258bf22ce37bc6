package batch

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// Share is a number of copies of a task.
type Share struct {
	Task
	N int
}

// Load is a multiset of tasks to be laid on one cloth: sorted by row then role, no
// duplicates, N ≥ 1.
type Load []Share

func compareTasks(a, b Task) int {
	return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Role, b.Role))
}

func (l Load) find(t Task) (int, bool) {
	return slices.BinarySearchFunc(l, t, func(s Share, t Task) int { return compareTasks(s.Task, t) })
}

// Of returns how many copies of a task the load holds.
func (l Load) Of(t Task) int {
	if i, ok := l.find(t); ok {
		return l[i].N
	}
	return 0
}

// Size returns how many copies of tasks the load holds.
func (l Load) Size() int {
	n := 0
	for _, s := range l {
		n += s.N
	}
	return n
}

// With returns the load and n more copies of a task; n may be negative.
func (l Load) With(t Task, n int) Load {
	i, ok := l.find(t)
	out := slices.Clone(l)
	switch {
	case !ok && n > 0:
		return slices.Insert(out, i, Share{t, n})
	case !ok:
		return out
	}
	if out[i].N += n; out[i].N <= 0 {
		return slices.Delete(out, i, i+1)
	}
	return out
}

// Within says whether every task of the load is in another at least as often.
func (l Load) Within(m Load) bool {
	for _, s := range l {
		if m.Of(s.Task) < s.N {
			return false
		}
	}
	return true
}

// key is the load as a map key.
func (l Load) key() string {
	b := make([]byte, 0, 6*len(l))
	for _, s := range l {
		b = binary.AppendUvarint(b, uint64(s.Row))
		b = binary.AppendUvarint(b, uint64(s.Role))
		b = binary.AppendUvarint(b, uint64(s.N))
	}
	return string(b)
}

func (p Problem) loadArea(l Load) int64 {
	sum := int64(0)
	for _, s := range l {
		sum += int64(s.N) * p.area(s.Task)
	}
	return sum
}
