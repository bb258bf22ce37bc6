// Package paper answers one question: what lies beside the cloth on cutting day, printed or
// projected, the same from the window and without it?
//
// It puts cutting sheets, full-size drawings and strips' sheets together from what the studio
// says, in the words of package say, for planner/exchange/sheet to draw, and writes them into
// files. It must not know the toolkit, nor SQL. Open sheet.go first, then drawing.go, full.go
// and file.go.
package paper
