// Package sample answers one question: what stands on the screens of the gallery and
// of the window's tests? A small invented studio in memory: fabrics, lengths and
// leftovers, the studio's own patterns, garments in several states. It is for the
// gallery and for tests only. Open sample.go first.
package sample
