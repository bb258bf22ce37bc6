// Package glpk answers one question, for tests alone: what is the optimum of this integer
// programme according to GLPK, the general reference (Debian package glpk-utils)?
//
// It must not know what the programme is about. Open glpk.go.
package glpk
