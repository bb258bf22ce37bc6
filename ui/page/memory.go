package page

import "sync"

// Memory keeps what makes the window come back as it was left: its size, the place, filters.
// It is no part of the library, and losing it costs nothing.
type Memory interface {
	Get(name string) string
	Set(name, value string)
}

// Forgetful is a Memory for as long as the program runs.
type Forgetful struct {
	mu sync.Mutex
	by map[string]string
}

// Get returns what was kept under a name, or "".
func (m *Forgetful) Get(name string) string {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.by[name]
}

// Set keeps something.
func (m *Forgetful) Set(name, value string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.by == nil {
		m.by = map[string]string{}
	}
	m.by[name] = value
}
