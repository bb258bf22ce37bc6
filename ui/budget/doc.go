// Package budget answers one question: does the window keep up while a person scrolls, filters,
// pans and zooms? A program built with the tag budget does so by itself for two minutes and records
// how long each frame kept the window's thread; all others have none of it. Open run.go first.
package budget
