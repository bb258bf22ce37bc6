// Tallycloth tells a person who sews which of the fabrics and leftovers on the
// shelf are really enough for a pattern in a size, and keeps them reserved.
//
// This package answers one question: how do the parts come together? It starts the
// window (window.go, the only place that imports the toolkit's driver) or hands the
// words of the command line to package verb. It must not know anything about cloth.
//
// Open main.go first. layout_test.go keeps the arrows between the packages.
package main
