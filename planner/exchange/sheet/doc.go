// Package sheet answers one question: how does a scene come onto paper, or into a picture?
//
// It draws scenes as SVG, PNG and PDF in true millimetres, with a light palette of its own
// by what items mean, and lays them onto sheets: fitted with the scale written, or in full size
// tiled over several with a square to check the printer by. The font is given by the caller.
// It must not know layouts, strips or records: those are drawn by package scene.
//
// Open printer.go first, then palette.go, document.go, paper.go and tiles.go.
package sheet
