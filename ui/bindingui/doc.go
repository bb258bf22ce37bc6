// Package bindingui answers one question: what strips does an edge take, and how are
// they cut? It is the place Binding: an edge of a pattern or typed lengths on the left,
// and beside it, while typing, the finish cut through, the strip with its marks, the
// strips across the cloth and the checks in words. It must not know formulas: the
// studio works them out. Open binding.go first.
package bindingui
