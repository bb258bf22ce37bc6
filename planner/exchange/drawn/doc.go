// Package drawn answers one question: which outlines and lines does a drawing hold,
// whatever kind of file it came in, and which pattern pieces do they make?
//
// The readers of files (svg, dxf) put points into a Collector, in mm on a page whose x
// runs to the right and y down from the top left corner. What comes out is a Drawing:
// closed outlines and open lines in whole µm with their names and layers, squares to
// confirm the size by, and a warning for everything that was left out. Pattern turns
// a Drawing into a pattern. Nothing is dropped or guessed in silence, and every file is
// read within Limits.
//
// # The frame
//
// Outlines come back in the frame of pattern pieces: x = y down the page, y = x to the
// right, so that the top of the page is the top end of the grain and what is seen
// stays the face.
//
// # Marks on pieces
//
// What is drawn on a piece is taken for more than a line by these rules, which know nothing but what is
// seen. The person sees each mark with its reason, and can say that it is none or choose another line.
//
//   - Grain line: a straight line of 3 cm or more with an arrow head (short arms bent back, a small area at
//     its end, a thin arrow drawn as an area, or a head that the file itself puts there), or one that is
//     named grain, or lies in a group so named. Else the longest straight line drawn through, of 5 cm or
//     more, that runs more up the piece than across it and ends at least 2 mm clear of its edge. All other
//     straight lines of 3 cm are offered. With one head that end is the top; else the upper end.
//   - Notch: a short stroke, a small V or a small triangle of 1.5 to 15 mm that touches the outline (within
//     0.7 mm) or crosses it and does not run along it; two of them within 8 mm are a double notch. Also a V
//     or a square step of the outline itself, at most 12 mm wide, where the edge before and after it goes
//     the same way: the outline is then drawn straight there.
//   - Dot: a circle of at most 12 mm, or two strokes as short that cross in their middles.
//   - Fold edge: a bent arrow, a line with two square bends, its shaft of 3 cm or more and its ends within 1 cm
//     of the outline; a straight line named fold; or words with "fold" in them, within 6 cm of the edge or 2 cm
//     beside the piece. Its left or right edge, whichever that is nearer to; words in the middle of a piece stand
//     for its only straight side. The edge must run straight along the grain. The shaft of a bent arrow is the
//     grain line too.
//   - Name: words written inside an outline, those in the largest letters, where neither it nor its
//     group has a label or title.
//
// Notches and dots are numbered clockwise from the top as drawn, so that a number means the same in
// every size. How large and near marks are is common practice.
//
// It must not know any kind of file, the library, cloth or layouts. Open drawing.go
// first, then collect.go, pieces.go and recognise.go.
package drawn
