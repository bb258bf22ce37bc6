package batch

import (
	"cmp"
	"slices"
)

// knapsack asks for the load of the highest price that may lie on a cloth: by area and other
// gauges, by how many are wanted, and holding no load that was proved impossible.
type knapsack struct {
	items []item
	never [][][]int // by the item that comes last in it: how many of each item
	have  []int64   // of each gauge; the first is the one that leaves least
	price float64   // of the best load
	count []int     // the best load, by item
	now   []int
	steps int
}

// item is a task that may lie on the cloth.
type item struct {
	task, slot int
	takes      []int64 // of each gauge
	price      float64
	most       int
}

// mostSteps bounds the search for one load; beyond it what a load could be worth by one gauge alone is taken.
const mostSteps = 1500

// earn returns what the cloth earns at most at prices, and adds the load to the supply.
func (b *book) earn(cloth int, price, supply []float64) float64 {
	k := b.newKnapsack(cloth, price)
	if len(k.items) == 0 {
		return 0
	}
	top := k.fill(0, k.have[0], nil)
	if k.search(0, k.have, 0); k.steps > mostSteps {
		k.fill(0, k.have[0], supply)
		return top
	}
	for i, n := range k.count {
		supply[k.items[i].slot] += float64(n)
	}
	return k.price
}

// dearest is a load that earns most on a cloth at prices, as far as is known, and what it is worth.
func (b *book) dearest(cloth int, price []float64) (Load, float64) {
	k := b.newKnapsack(cloth, price)
	k.search(0, k.have, 0)
	var l Load
	for i, n := range k.count {
		if n > 0 {
			l = l.With(b.tasks[k.items[i].task], n)
		}
	}
	return l, k.price
}

// newKnapsack takes the tasks that are worth something, the dearest first for what they take of
// the gauge that leaves least.
func (b *book) newKnapsack(cloth int, price []float64) *knapsack {
	k := &knapsack{}
	gauges := b.gauges[cloth]
	for ti, t := range b.tasks {
		i := b.slotAt[ti][cloth]
		if i < 0 || price[i] <= 0 {
			continue
		}
		it := item{task: ti, slot: i, takes: make([]int64, len(gauges)), price: price[i], most: b.Rows[t.Row].Count}
		for n, g := range gauges {
			it.takes[n] = g.Takes[ti]
		}
		k.items = append(k.items, it)
	}
	for _, g := range gauges {
		k.have = append(k.have, g.Have)
	}
	for i := range k.items {
		k.items[i].most = k.items[i].fitting(k.items[i].most, k.have)
	}
	k.heed(b, cloth)
	k.lead()
	k.know(b, cloth)
	k.count, k.now = make([]int, len(k.items)), make([]int, len(k.items))
	return k
}

// fitting is how many copies the gauges allow, no more than most.
func (it item) fitting(most int, have []int64) int {
	for n, take := range it.takes {
		if take > 0 {
			most = min(most, int(have[n]/take))
		}
	}
	return max(most, 0)
}

// lead puts the gauge first by which the cloth earns least, and sorts the items by it.
func (k *knapsack) lead() {
	best, at := 0.0, -1
	for n := range k.have {
		k.swap(n)
		if top := k.fill(0, k.have[0], nil); at < 0 || top < best {
			best, at = top, n
		}
		k.swap(n)
	}
	if at > 0 {
		k.swap(at)
	}
	k.sort()
}

// swap exchanges a gauge with the first and sorts by that.
func (k *knapsack) swap(n int) {
	k.have[0], k.have[n] = k.have[n], k.have[0]
	for _, it := range k.items {
		it.takes[0], it.takes[n] = it.takes[n], it.takes[0]
	}
	k.sort()
}

func (k *knapsack) sort() {
	slices.SortStableFunc(k.items, func(x, y item) int {
		return cmp.Or(cmp.Compare(y.price*float64(x.takes[0]), x.price*float64(y.takes[0])), cmp.Compare(x.task, y.task))
	})
}

// heed lowers how many of one task may lie on the cloth by what was proved.
func (k *knapsack) heed(b *book, cloth int) {
	for _, f := range b.never[cloth] {
		if len(f.load) > 1 {
			continue
		}
		for i := range k.items {
			if k.items[i].task == b.index(f.load[0].Task) {
				k.items[i].most = min(k.items[i].most, f.load[0].N-1)
			}
		}
	}
	k.items = slices.DeleteFunc(k.items, func(it item) bool { return it.most == 0 })
}

// know sorts the proofs by the item that comes last in them.
func (k *knapsack) know(b *book, cloth int) {
	at := make([]int, len(b.tasks))
	for i := range at {
		at[i] = -1
	}
	for i, it := range k.items {
		at[it.task] = i
	}
	k.never = make([][][]int, len(k.items))
proofs:
	for _, f := range b.never[cloth] {
		if len(f.load) == 1 {
			continue
		}
		var of []int // item, number, item, number …
		last := 0
		for _, s := range f.load {
			i := at[b.index(s.Task)]
			if i < 0 {
				continue proofs
			}
			of = append(of, i, s.N)
			last = max(last, i)
		}
		k.never[last] = append(k.never[last], of)
	}
}

// fill returns what the items from one on are worth at most in what is left of the first gauge, the
// last one in part, and adds them to a supply if there is one.
func (k *knapsack) fill(from int, left int64, supply []float64) float64 {
	sum := 0.0
	for _, it := range k.items[from:] {
		n := float64(it.most)
		if it.takes[0] > 0 {
			n = min(n, float64(left)/float64(it.takes[0]))
		}
		sum += n * it.price
		if supply != nil {
			supply[it.slot] += n
		}
		if left -= int64(n * float64(it.takes[0])); left <= 0 && it.takes[0] > 0 {
			break
		}
	}
	return sum
}

// search goes through the loads that hold what is chosen before an item.
func (k *knapsack) search(from int, left []int64, price float64) {
	if k.steps++; k.steps > mostSteps {
		return
	}
	if price > k.price {
		k.price = price
		copy(k.count, k.now)
	}
	rest := make([]int64, len(left))
	for i := from; i < len(k.items); i++ {
		if price+k.fill(i, left[0], nil) <= k.price*(1+1e-12) {
			return
		}
		it := k.items[i]
		for n := it.fitting(it.most, left); n > 0; n-- {
			k.now[i] = n
			if k.forbidden(i) {
				continue
			}
			for g := range left {
				rest[g] = left[g] - int64(n)*it.takes[g]
			}
			k.search(i+1, rest, price+float64(n)*it.price)
		}
		k.now[i] = 0
	}
}

func (k *knapsack) forbidden(last int) bool {
	for _, of := range k.never[last] {
		holds := true
		for j := 0; j < len(of) && holds; j += 2 {
			holds = k.now[of[j]] >= of[j+1]
		}
		if holds {
			return true
		}
	}
	return false
}
