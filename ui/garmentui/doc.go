// Package garmentui answers one question: what is being made, and what comes next?
// The place lists garments by their next step, and shows for the one chosen its
// fabric with the layout, its strips and the order of work. It must not know SQL or
// other places; it leads to them by routes. Open garments.go first.
package garmentui
