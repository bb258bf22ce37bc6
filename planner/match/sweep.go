package match

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"tallycloth/stash"
)

// Sweep answers for a whole shelf with so many workers. Each answer is reported as it
// comes, from one goroutine at a time, the most promising cloth first: fabric that
// suits before fabric that does not, enough area before too little, and of those the
// smallest first, for a leftover that serves is the best find. The answers returned
// are in the order of the cloths given; after an error, the context's for instance,
// those not reached are missing (ClothID is zero).
func (q *Question) Sweep(ctx context.Context, cloths []stash.ClothState, workers int, report func(int, Verdict)) ([]Verdict, error) {
	out := make([]Verdict, len(cloths))
	next := make(chan int)
	var mu sync.Mutex
	var failed error
	var wait sync.WaitGroup
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	for range max(workers, 1) {
		wait.Go(func() {
			for i := range next {
				v, err := q.Check(ctx, cloths[i])
				mu.Lock()
				switch {
				case err != nil:
					failed = cmp.Or(failed, err)
					stop()
				default:
					out[i] = v
					if report != nil {
						report(i, v)
					}
				}
				mu.Unlock()
			}
		})
	}
	for _, i := range q.promising(cloths) {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wait.Wait()
	if failed == nil {
		failed = ctx.Err()
	}
	return out, failed
}

// promising orders cloths for Sweep.
func (q *Question) promising(cloths []stash.ClothState) []int {
	type rank struct {
		suits Grade
		small bool
		area  int64
	}
	need := q.area()
	ranks := make([]rank, len(cloths))
	order := make([]int, len(cloths))
	for i, c := range cloths {
		order[i] = i
		ranks[i] = rank{suits(q.role, c.Fabric, false).grade, int64(c.FreeArea) < need, int64(c.FreeArea)}
	}
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := ranks[i], ranks[j]
		return cmp.Or(cmp.Compare(a.suits, b.suits), stash.FalseFirst(a.small, b.small), cmp.Compare(a.area, b.area))
	})
	return order
}

// Compare orders verdicts best first: by grade; among what is not enough the least
// that is missing first.
func Compare(a, b Verdict) int {
	return cmp.Or(cmp.Compare(a.Grade, b.Grade), cmp.Compare(len(a.Ifs), len(b.Ifs)), stash.FalseFirst(a.Short == 0, b.Short == 0), cmp.Compare(a.Short, b.Short))
}
