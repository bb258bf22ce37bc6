// Package demo answers one question: what does a studio look like that has been in use
// for two years?
//
// Fill makes an invented one in an empty library, by the studio's own methods, so that
// everything in it could have been done by a person: fabrics, lengths, odd leftovers,
// purchases, patterns and garments in every state. Names of people, shops and
// fabrics are invented. The same studio comes out each time, but for IDs and times,
// which the library gives.
//
// The package must not know SQL, files nor windows.
//
// Open fill.go first; the rest is data.
package demo
