// Package answer answers one question: how is a verdict shown? One panel with the
// verdict in words, its grounds, what it rests on and the layout, used wherever
// cloth is compared with a pattern. It must not know the library. Open answer.go.
package answer
