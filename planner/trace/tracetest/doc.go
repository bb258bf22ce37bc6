// Package tracetest answers one question: what would a photo of this leftover look
// like? It draws pictures of invented leftovers on mats, with the outline that is truly
// there, for tests of package trace.
//
// A scene is a plane in mm seen by a pinhole camera: the cloth, a sheet or the lines of a
// mat, light that falls off, a soft shadow beside the cloth; then lens blur, vignetting,
// noise and JPEG compression. Everything follows from one seed.
//
// Open scene.go first, then camera.go and render.go.
package tracetest
