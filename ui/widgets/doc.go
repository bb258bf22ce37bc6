// Package widgets answers one question: which parts do several screens share? Rows
// in a list, swatches, fields that read back what was typed, forms over the window,
// the drawing of a layout. They only call back; they must not know services, the
// library or each other's pages. Open rowlist.go, field.go and layoutview.go first.
package widgets
