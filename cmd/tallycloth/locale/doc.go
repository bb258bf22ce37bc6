// Package locale answers one question: which language does the toolkit take on a system
// that names none?
//
// In a locale such as C.UTF-8, usual in containers and over ssh, the toolkit looks for a
// language named "C" while its packages are initialised and complains on standard error,
// also when a verb never opens a window. This package is initialised before that and
// names English. It must import nothing but what it needs for that.
//
// Why it comes first: packages are initialised in the order of their import paths, each
// as soon as its imports are (The Go Programming Language Specification, "Package
// initialization"). The toolkit's languages import text/template, which sorts after this
// package, so they wait for it. TestVerbsAreQuiet in package e2e holds it.
//
// There is only locale.go.
package locale
