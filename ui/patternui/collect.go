package patternui

import "sync"

// batched returns a function that collects reports and shows them together: while one
// showing waits for the window, what else comes in goes into the next. So a search that
// reports a hundred times a second does not keep the window busy.
func batched[T any](show func(func()), see func([]T)) func(T) {
	var mu sync.Mutex
	var waiting []T
	asked := false
	return func(r T) {
		mu.Lock()
		waiting = append(waiting, r)
		first := !asked
		asked = true
		mu.Unlock()
		if !first {
			return
		}
		show(func() {
			mu.Lock()
			some := waiting
			waiting, asked = nil, false
			mu.Unlock()
			see(some)
		})
	}
}
