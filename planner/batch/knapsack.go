package batch

import (
	"cmp"
	"slices"
)

// knapsack asks for the load of the highest price that may lie on a cloth: by area, by
// how many are wanted, and holding no load that was proved impossible.
type knapsack struct {
	items []item
	never [][][]int // by the item that comes last in it: how many of each item
	price float64   // of the best load
	count []int     // the best load, by item
	now   []int
	steps int
}

// item is a task that may lie on the cloth.
type item struct {
	task, slot int
	area       int64
	price      float64
	most       int
}

// mostSteps bounds the search for one load; beyond it what a load could be worth by area alone is taken.
const mostSteps = 1500

// earn returns what the cloth earns at most at prices, and adds the load to the supply.
func (b *book) earn(cloth int, price, supply []float64) float64 {
	k := b.newKnapsack(cloth, price)
	if len(k.items) == 0 {
		return 0
	}
	top := k.fill(0, b.Cloths[cloth].Area, nil)
	if k.search(0, b.Cloths[cloth].Area, 0); k.steps > mostSteps {
		k.fill(0, b.Cloths[cloth].Area, supply)
		return top
	}
	for i, n := range k.count {
		supply[k.items[i].slot] += float64(n)
	}
	return k.price
}

// newKnapsack takes the tasks that are worth something, the dearest for their area first.
func (b *book) newKnapsack(cloth int, price []float64) *knapsack {
	k := &knapsack{}
	for ti, t := range b.tasks {
		i := b.slotAt[ti][cloth]
		if i < 0 || price[i] <= 0 {
			continue
		}
		it := item{task: ti, slot: i, area: b.area(t), price: price[i], most: b.Rows[t.Row].Count}
		if it.area > 0 {
			it.most = min(it.most, int(b.Cloths[cloth].Area/it.area))
		}
		if it.most > 0 {
			k.items = append(k.items, it)
		}
	}
	k.heed(b, cloth)
	slices.SortStableFunc(k.items, func(x, y item) int {
		return cmp.Compare(y.price*float64(x.area), x.price*float64(y.area))
	})
	k.know(b, cloth)
	k.count, k.now = make([]int, len(k.items)), make([]int, len(k.items))
	return k
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

// fill returns what the items from one on are worth at most in an area, the last one in part,
// and adds them to a supply if there is one.
func (k *knapsack) fill(from int, area int64, supply []float64) float64 {
	sum := 0.0
	for _, it := range k.items[from:] {
		n := float64(it.most)
		if it.area > 0 {
			n = min(n, float64(area)/float64(it.area))
		}
		sum += n * it.price
		if supply != nil {
			supply[it.slot] += n
		}
		if area -= int64(n * float64(it.area)); area <= 0 {
			break
		}
	}
	return sum
}

// search goes through the loads that hold what is chosen before an item.
func (k *knapsack) search(from int, area int64, price float64) {
	if k.steps++; k.steps > mostSteps {
		return
	}
	if price > k.price {
		k.price = price
		copy(k.count, k.now)
	}
	for i := from; i < len(k.items); i++ {
		if price+k.fill(i, area, nil) <= k.price*(1+1e-12) {
			return
		}
		it := k.items[i]
		n := it.most
		if it.area > 0 {
			n = min(n, int(area/it.area))
		}
		for ; n > 0; n-- {
			k.now[i] = n
			if !k.forbidden(i) {
				k.search(i+1, area-int64(n)*it.area, price+float64(n)*it.price)
			}
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
