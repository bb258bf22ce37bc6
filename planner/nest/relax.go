package nest

import "math"

// relax moves copies apart by what they still lie in each other, again and again,
// until all only touch: projection onto the constraints in turn (Kaczmarz, 1937).
// Where a stack has no room to spare this finds the one place it can have.
func (b *board) relax() {
	pairs := b.neighbours(b.g.contact*settleReach, nil)
	for range relaxRounds {
		if b.pushAll(pairs, math.Inf(1), roundingRoom) < relaxedTo || b.g.p.stopped() {
			return
		}
	}
}

// squeeze tries the same where overlaps are small but no contacts yet: all copies
// give way at once, each a little, which single moves need many passes for. It
// says whether everything came apart within the limit; else it leaves the board
// as far as it came.
//
// Moving everything at once down the sum of depths is the separation of Imamichi,
// Yagiura, Nagamochi, "An iterated local search algorithm based on nonlinear
// programming for the irregular strip packing problem", 2009; here by projection.
func (s *separator) squeeze() bool {
	b := s.b
	s.near = b.neighbours(squeezeFrom*b.g.width, s.near[:0])
	last := math.Inf(1)
	for k := range squeezeRounds {
		worst := b.pushAll(s.near, b.limit, 0)
		if worst <= b.g.contact/2 {
			return true
		}
		if b.g.p.stopped() {
			return false
		}
		if k%squeezeCheck == squeezeCheck-1 {
			if worst > last*squeezeGain {
				return false
			}
			last = worst
		}
	}
	return false
}

// pushAll parts each of the pairs in turn, and each copy from what is fixed on its
// cloth, and returns the greatest push it took.
func (b *board) pushAll(pairs [][2]int, limit, margin float64) float64 {
	worst := 0.0
	for _, p := range pairs {
		worst = max(worst, b.pushApart(p[0], p[1], limit, margin))
	}
	for i := range b.at {
		worst = max(worst, b.pushOff(i, limit, margin))
	}
	return worst
}

// neighbours appends the pairs whose boxes come as near as this.
func (b *board) neighbours(reach float64, out [][2]int) [][2]int {
	for i := range b.boxes {
		o := b.boxes[i]
		for j := i + 1; j < len(b.boxes); j++ {
			u := &b.boxes[j]
			if o.x0-reach < u.x1 && u.x0-reach < o.x1 && o.y0-reach < u.y1 && u.y0-reach < o.y1 &&
				b.at[i].site.fabric == b.at[j].site.fabric {
				out = append(out, [2]int{i, j})
			}
		}
	}
	return out
}

// pushApart moves two copies apart, half the way each, and says how far in all.
func (b *board) pushApart(i, j int, limit, margin float64) float64 {
	p, q := &b.at[i], &b.at[j]
	r := b.g.t.get(q.site.pose, p.site.pose)
	x, y := p.x-q.x, p.y-q.y
	if margin == 0 && r.Depth(x, y) <= b.g.contact/2 {
		return 0
	}
	dx, dy := r.Push(x, y, margin)
	if dx == 0 && dy == 0 {
		return 0
	}
	half := 0.5
	if b.g.fixed[i] {
		half = 0
	} else if b.g.fixed[j] {
		half = 1
	}
	b.shift(i, half*dx, half*dy, limit)
	b.shift(j, (half-1)*dx, (half-1)*dy, limit)
	return math.Hypot(dx, dy)
}

// pushOff moves a copy out of what is fixed on its cloth.
func (b *board) pushOff(i int, limit, margin float64) float64 {
	moved := 0.0
	for _, r := range b.at[i].site.blocked {
		dx, dy := r.Push(b.at[i].x, b.at[i].y, margin)
		if dx != 0 || dy != 0 {
			b.shift(i, dx, dy, limit)
			moved = max(moved, math.Hypot(dx, dy))
		}
	}
	return moved
}

func (b *board) shift(i int, dx, dy, limit float64) {
	if b.g.fixed[i] || dx == 0 && dy == 0 {
		return
	}
	p := b.at[i]
	p.x, p.y = p.site.clamp(limit, p.x+dx, p.y+dy)
	b.put(i, p)
}
