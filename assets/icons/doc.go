// Package icons answers one question: what do the places and actions of the window
// look like as signs? They are drawn for this program, plain SVG of filled shapes. It
// must not know the toolkit. Open icons.go first.
package icons
