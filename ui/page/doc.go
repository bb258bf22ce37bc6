// Package page answers one question: what does a place of the window need from the
// window, and the window from it? Places know this package and not each other; they
// lead to each other by Routes. It must not know any place. Open page.go first.
package page
