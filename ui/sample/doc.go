// Package sample answers one question: what stands on the screens of the window's
// tests? A small invented studio in memory, made faster than the demo studio: fabrics,
// lengths and leftovers, the studio's own patterns, garments in several states. It is
// for tests and for the gallery of screens only. Open sample.go first.
package sample
