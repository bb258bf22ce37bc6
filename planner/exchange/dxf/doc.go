// Package dxf answers one question: which pattern pieces, or at least which outlines, does
// a DXF file hold, and how is a pattern or a layout written as one?
//
// It reads text DXF into a File, structs shaped like the file (header, layers, blocks,
// entities), and makes a drawn.Drawing of it. Where the file follows ASTM D6673 (also
// known as AAMA), a block for every pattern piece and size, the Drawing holds a whole
// pattern; any other file gives outlines. Nothing is dropped or guessed in silence, and
// every file is read within limits.
//
// # What is read of sewn products
//
// The numbers of layers and the words of texts are from memory of the standard, so reading
// is lenient and tells what it did: see layers.go and keys.go. Outlines come back in the
// frame of pattern pieces, the grain line along x, its top end towards −x: of the two
// ends of a grain line the upper is taken as the top, of a level one the left. A piece
// drawn as half beside a mirror line along the grain is cut on the fold; any other
// mirror line is opened out.
//
// # What is written
//
// One block for each piece and size in mm with three decimals, so that every whole µm
// comes back: cutting line, notches, dots, inner lines, grain, fold, stretches of edges to
// finish, marks to match stripes by, how many are cut, from what. What the standard has
// no place for stands in notes that a person can read: "cut in mirrored pairs".
//
// It must not know the library or cloth. Open read.go first, then parse.go, piece.go and
// write.go.
package dxf
