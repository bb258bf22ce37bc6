// Package outlines answers one question: how do outlines come in from a file of any kind
// that is understood, and how are those of a pattern saved as one?
//
// The end of the name decides: .svg and .svgz go through package svg, .dxf through
// package dxf, .pdf through package pdf. It must not know the library, cloth or layouts.
package outlines
