// Package helpui is the place Help: the guide that travels with the program, written around
// what a person wants to do, with its list of keys. F1 opens it, Escape leads back to where one was.
package helpui
