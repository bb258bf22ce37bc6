// Package paperui answers one question: how does a sheet look before it goes onto paper, and
// where does it go? A view over the window draws its pages, saves it, opens it and prints it.
// It must not know SQL, nor how sheets are put together: package paper and its callers do.
// Open preview.go first, then choices.go and going.go; cutting.go is that of a garment.
package paperui
