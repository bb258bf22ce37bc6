package scene

import (
	"encoding/binary"
	"math"
	"sync"

	"tallycloth/stash/shape"
)

// Outlines of cloth and of what is reserved on it stay while a person types what else is cut from it: where
// their words fit is worked out once. What is kept is a function of its key alone.
var (
	fitsMu sync.Mutex
	fits   = map[string]fit{}
)

// mostFits bounds what is kept; then all of it is forgotten.
const mostFits = 1000

// fitOf is fitText, remembered.
func fitOf(p shape.Polygon, clear []Line, aspect, most float64) fit {
	key := make([]byte, 0, 16*(2+len(p.Outer)))
	number := func(v uint64) { key = binary.LittleEndian.AppendUint64(key, v) }
	number(math.Float64bits(aspect))
	number(math.Float64bits(most))
	for _, r := range p.Rings() {
		number(uint64(len(r)))
		for _, q := range r {
			number(uint64(q.X))
			number(uint64(q.Y))
		}
	}
	for _, l := range clear {
		number(uint64(len(l.Points)))
		for _, q := range l.Points {
			number(math.Float64bits(q.X))
			number(math.Float64bits(q.Y))
		}
	}
	fitsMu.Lock()
	f, ok := fits[string(key)]
	fitsMu.Unlock()
	if ok {
		return f
	}
	f = fitText(p, clear, aspect, most)
	fitsMu.Lock()
	defer fitsMu.Unlock()
	if len(fits) >= mostFits {
		fits = map[string]fit{}
	}
	fits[string(key)] = f
	return f
}
