// Package pdf answers one question: which outlines does a PDF hold, over one page or over
// many that are to be joined, and which of its pages are pictures?
//
// The file is opened with pdfcpu (Apache licence), the drawing instructions of its pages are
// read here after ISO 32000-1: paths with their colour, dash and layer (optional content),
// curves flattened, clipped by the rectangles that the page clips by. A File is what its
// pages hold; Lay puts pages side by side as a drawn.Plan says and makes a drawn.Drawing of
// them, lines that go on over the next page joined. Find works the plan out from frames, marks
// and lines that go on.
//
// What is written is read where the file says which letters its codes are (9.10), and may name outlines;
// words that cannot be read, and pictures, are counted and told. Nothing is dropped or guessed
// in silence, and every file is read within limits.
//
// It must not know the library, cloth or layouts. Open read.go first, then content.go,
// paint.go, find.go and lay.go.
package pdf
