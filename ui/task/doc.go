// Package task answers one question: how does long work run without freezing the
// window? It is the only place of the window that starts goroutines. Work runs
// with a context that ends when newer work of the same name starts, when it is
// stopped, or when the window closes; what it reports comes back on the window's
// own thread. It must not know what the work is.
package task
