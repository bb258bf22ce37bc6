package garment

import (
	"cmp"
	"math/big"
	"slices"

	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// OfFabric is how much of a fabric is in a garment.
type OfFabric struct {
	Fabric stash.Fabric
	Area   measure.Area
}

// Blend is the fibre content of a garment by mass.
type Blend struct {
	Fibres  stash.Fibres    // largest share first; sums to 100 % less Unknown
	Unknown measure.Percent // of fabrics whose fibres are not known
	Grams   float64         // of all fabric
	Assumed []string        // fabrics whose weight is assumed by their construction
}

// BlendOf weights the fibres of each fabric by its mass in the garment: area × weight per
// area × share. A weight that is not known is assumed by construction. Thread, elastic and
// hardware are left out. It is guidance, not a label that any law asks for.
//
// Source: 16 CFR 303.24 works in the same way: a face of 60 % rayon and 40 % nylon with a
// back of 70 % cotton and 30 % rayon that is 60 % of the fabric.
func BlendOf(parts []OfFabric) Blend {
	var b Blend
	whole := new(big.Int)
	mass := map[string]*big.Int{}
	for _, p := range parts {
		known := stash.Assumed(p.Fabric)
		if p.Fabric.Weight == 0 && !slices.Contains(b.Assumed, p.Fabric.Name) {
			b.Assumed = append(b.Assumed, p.Fabric.Name)
		}
		m := new(big.Int).Mul(big.NewInt(int64(p.Area)), big.NewInt(int64(known.Weight)))
		b.Grams += p.Area.SquareMetres() * float64(known.Weight) / float64(measure.GramPerSquareMetre)
		whole.Add(whole, new(big.Int).Mul(m, big.NewInt(int64(100*measure.OnePercent))))
		fibres := p.Fabric.Fibres
		if len(fibres) == 0 {
			fibres = stash.Fibres{{Name: "", Share: 100 * measure.OnePercent}}
		}
		for _, f := range fibres {
			if mass[f.Name] == nil {
				mass[f.Name] = new(big.Int)
			}
			mass[f.Name].Add(mass[f.Name], new(big.Int).Mul(m, big.NewInt(int64(f.Share))))
		}
	}
	if whole.Sign() <= 0 {
		return b
	}
	b.share(mass, whole)
	return b
}

// share turns masses into percents that sum to 100 exactly: each is rounded down, and what is
// missing goes to those that lost most.
func (b *Blend) share(mass map[string]*big.Int, whole *big.Int) {
	type part struct {
		name string
		pct  measure.Percent
		lost *big.Int
	}
	var all []part
	left := 100 * measure.OnePercent
	for name, m := range mass {
		q, r := new(big.Int).QuoRem(new(big.Int).Mul(m, big.NewInt(int64(100*measure.OnePercent))), whole, new(big.Int))
		all = append(all, part{name, measure.Percent(q.Int64()), r})
		left -= measure.Percent(q.Int64())
	}
	slices.SortFunc(all, func(x, y part) int { return cmp.Or(y.lost.Cmp(x.lost), cmp.Compare(x.name, y.name)) })
	for i := range all {
		if left > 0 {
			all[i].pct++
			left--
		}
	}
	slices.SortFunc(all, func(x, y part) int { return cmp.Or(cmp.Compare(y.pct, x.pct), cmp.Compare(x.name, y.name)) })
	for _, p := range all {
		switch {
		case p.name == "":
			b.Unknown = p.pct
		case p.pct > 0:
			b.Fibres = append(b.Fibres, stash.Fibre{Name: p.name, Share: p.pct})
		}
	}
}
