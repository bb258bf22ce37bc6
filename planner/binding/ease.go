package binding

import "tallycloth/stash/measure"

// ease moves each join back into what room the later bin has left: to a wished place,
// else to where it parts the strip evenly. Later joins first, as their bins are settled.
func (l *layer) ease() {
	for i := len(l.chunks) - 1; i >= 0; i-- {
		c := &l.chunks[i]
		k := l.kinds[c.kind]
		if c.to == k.length {
			continue
		}
		later := l.after(i)
		low, high := max(c.to-l.free[later.bin], c.from+1), c.to
		at := k.easiest(low, high, l.even(*c), c.back)
		l.free[later.bin] -= c.to - at
		l.free[c.bin] += c.to - at
		c.to, later.from = at, at
	}
}

// after returns the chunk of the same strip that follows chunk i.
func (l *layer) after(i int) *chunk {
	c := l.chunks[i]
	for j := range l.chunks {
		d := &l.chunks[j]
		if d.kind == c.kind && d.copy == c.copy && d.from == c.to {
			return d
		}
	}
	panic("binding: a strip that was cut has no second part")
}

// even is where the join after c would fall if all parts of its strip were alike.
func (l *layer) even(c chunk) measure.Length {
	parts, nth := 0, 0
	for _, d := range l.chunks {
		if d.kind == c.kind && d.copy == c.copy {
			parts++
			if d.from <= c.from {
				nth++
			}
		}
	}
	return l.kinds[c.kind].length * measure.Length(nth) / measure.Length(parts)
}

// easiest returns the best place for a join from low to high: a wished one, else the one
// nearest to even. One place at least, high, must be allowed.
func (k kind) easiest(low, high, even measure.Length, back bool) measure.Length {
	for _, w := range k.wished {
		if back {
			w = k.length - w
		}
		if w >= low && w <= high {
			return w
		}
	}
	best := high
	for _, j := range k.joinable {
		if back {
			j = span{k.length - j.to, k.length - j.from}
		}
		from, to := max(low, j.from), min(high, j.to)
		if from > to {
			continue
		}
		if at := min(max(even, from), to); gap(at, even) < gap(best, even) {
			best = at
		}
	}
	return best
}

func gap(a, b measure.Length) measure.Length {
	if a < b {
		return b - a
	}
	return a - b
}
