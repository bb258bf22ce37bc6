// Package e2e answers one question: does a person at the real window get the main
// job done, and is the library right afterwards?
//
// Its tests (build tag e2e) build the program, start it under a virtual display with
// a window manager and a home folder of its own, and use it with real keys and
// clicks. Where a widget is they ask the program through a socket that only a build
// with the same tag has; what they do never goes past the keyboard and the mouse.
// Afterwards they look at the database with the sqlite3 program, and leave pictures
// of every stage in out/e2e.
//
// It must not call services or open the library through package db: it sees what a
// person sees.
//
// Open mainjob_test.go first, then studio_test.go for how the window is driven.
package e2e
