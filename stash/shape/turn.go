package shape

import "math/bits"

// fullTurn is 360° in thousandths of a degree.
const fullTurn Angle = 360_000

// Norm returns the same turn with 0 ≤ a < 360 000.
func (a Angle) Norm() Angle {
	a %= fullTurn
	if a < 0 {
		a += fullTurn
	}
	return a
}

// Apply lays the outline: mirrored about y = 0 if Mirror, turned, rounded once,
// moved, in this order.
//
//  1. A counter-clockwise ring stays counter-clockwise: a mirrored one is
//     returned in reverse, from the image of its first point.
//  2. Quarter turns are exact: lengths and areas stay the same.
//  3. At other angles every point is the nearest whole µm to its true place.
//  4. Turning by a + 180° gives exactly the negatives of turning by a.
//  5. The same input gives the same µm on every machine.
func (p Placement) Apply(r Ring) Ring {
	out := make(Ring, len(r))
	t := p.turner()
	for i, q := range r {
		out[i] = t.apply(q)
	}
	if p.Mirror {
		return out.Reverse()
	}
	return out
}

// ApplyPoint lays one point as Apply does.
func (p Placement) ApplyPoint(q Point) Point { return p.turner().apply(q) }

// ApplyPolygon lays an outline with its holes as Apply does.
func (p Placement) ApplyPolygon(q Polygon) Polygon {
	out := Polygon{Outer: p.Apply(q.Outer)}
	for _, h := range q.Holes {
		out.Holes = append(out.Holes, p.Apply(h))
	}
	return out
}

// turner is a placement with its sine and cosine worked out.
type turner struct {
	cos, sin int64 // times 2^62
	mirror   bool
	at       Point
}

func (p Placement) turner() turner {
	cos, sin := sincos(p.Angle)
	return turner{cos, sin, p.Mirror, p.At}
}

func (t turner) apply(p Point) Point {
	if t.mirror {
		p.Y = -p.Y
	}
	return Point{
		sumOfProducts(p.X, t.cos, -p.Y, t.sin) + t.at.X,
		sumOfProducts(p.X, t.sin, p.Y, t.cos) + t.at.Y,
	}
}

const (
	one = 1 << 62 // 1 in the fixed point of this file
	// radian is one thousandth of a degree: π/180 000 · 2^78, rounded.
	radian = 5_274_933_991_161_581_362
)

// sincos returns cosine and sine times 2^62, off by less than 2^−57. Floating
// point is avoided because compilers for some processors fuse a product and a
// sum and round differently, and a layout must be the same everywhere.
func sincos(a Angle) (cos, sin int64) {
	a = a.Norm()
	quarter, rest := a/Turn90, a%Turn90
	switch {
	case rest == 0:
		cos, sin = one, 0
	case rest == 30_000: // one half exactly, so that ties round alike
		cos, _ = series(rest)
		sin = one / 2
	case rest > 45_000:
		sin, cos = sincos(Turn90 - rest)
	default:
		cos, sin = series(rest)
	}
	for range quarter {
		cos, sin = -sin, cos
	}
	return cos, sin
}

// series sums the Taylor series (B. Taylor, 1715) of both for 0 ≤ a ≤ 45°,
// where each term is under 0.79 of the one before.
func series(a Angle) (cos, sin int64) {
	hi, lo := bits.Mul64(uint64(a), radian)
	theta := hi<<48 | lo>>16
	sum := [2]int64{}
	term := uint64(one)
	for k := uint64(1); term > 0; k++ {
		if k%4 == 1 || k%4 == 2 { // terms come as cos +, sin +, cos −, sin −
			sum[(k-1)%2] += int64(term)
		} else {
			sum[(k-1)%2] -= int64(term)
		}
		hi, lo = bits.Mul64(term, theta)
		term = (hi<<2 | lo>>62) / k
	}
	return sum[0], sum[1]
}

// sumOfProducts returns (a·u + b·v) / 2^62 rounded to the nearest integer, halves
// away from zero, for a and b within ±2^31 and u, v within ±2^62.
func sumOfProducts(a, u, b, v int64) int64 {
	hi1, lo1 := mulSigned(a, u)
	hi2, lo2 := mulSigned(b, v)
	lo, carry := bits.Add64(lo1, lo2, 0)
	hi, _ := bits.Add64(hi1, hi2, carry)
	negative := int64(hi) < 0
	if negative {
		lo, carry = bits.Sub64(0, lo, 0)
		hi, _ = bits.Sub64(0, hi, carry)
	}
	lo, carry = bits.Add64(lo, one/2, 0)
	hi += carry
	q := int64(hi<<2 | lo>>62)
	if negative {
		return -q
	}
	return q
}

// mulSigned returns the 128-bit product in two's complement.
func mulSigned(a, b int64) (hi, lo uint64) {
	hi, lo = bits.Mul64(uint64(a), uint64(b))
	if a < 0 {
		hi -= uint64(b)
	}
	if b < 0 {
		hi -= uint64(a)
	}
	return hi, lo
}
