// Package ui answers one question: what does the window hold together? The shell with
// its rail of places, the quiet line, the keys that work everywhere, undo and redo.
// Places live in folders of their own and are reached by page.Route. The package must
// not know SQL, files or how a library is opened: it is given a planner.Studio.
// Open shell.go first, then page/page.go.
package ui
