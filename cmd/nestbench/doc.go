// Command nestbench answers one question: how well, and how quickly, does the
// layout engine do on published instances of strip packing?
//
// It reads instance files of the JSON form published with Gardeyn, Vanden Berghe,
// Wauters, "An open-source heuristic to reboot 2D nesting research", 2025
// (strip_height, and items with demand, allowed_orientations and a closed outline),
// prints a table, and writes every layout so that it can be checked with any tool.
//
// Open main.go first.
package main
