package dxf

import (
	"bufio"
	"fmt"
	"io"
	"strconv"

	"tallycloth/stash/shape"
)

// writer writes pairs of the oldest text DXF that every program reads, R12. Lengths are mm with
// three decimals, so that whole µm stay exact.
//
// Everything drawn has a handle. What stands in a block and has parts of its own says besides whose it is,
// as later editions of the format do: readers that know these alone otherwise miss an owner, others skip it.
type writer struct {
	out    *bufio.Writer
	buf    []byte
	handle int    // the next that is free
	inside string // handle of the block being written, "" outside of all
}

// Handles: the first that is taken, and one beyond all.
const (
	firstHandle = 0x30
	lastHandle  = "FFFFFFF"
)

func newWriter(w io.Writer) *writer {
	return &writer{out: bufio.NewWriterSize(w, 64<<10), handle: firstHandle}
}

// next is a handle that nothing has.
func (w *writer) next() string {
	w.handle++
	return w.last()
}

// last is the handle that was given last.
func (w *writer) last() string { return strconv.FormatInt(int64(w.handle-1), 16) }

// close writes what is left and returns the first error.
func (w *writer) close() error {
	w.text(0, "EOF")
	if err := w.out.Flush(); err != nil {
		return fmt.Errorf("writing the DXF file: %w", err)
	}
	return nil
}

// The buffered writer keeps its first error for close, so the calls below need none.

func (w *writer) code(n int) {
	w.buf = strconv.AppendInt(w.buf[:0], int64(n), 10)
	for len(w.buf) < 3 {
		w.buf = append([]byte{' '}, w.buf...)
	}
	w.buf = append(w.buf, '\n')
	_, _ = w.out.Write(w.buf)
}

func (w *writer) text(code int, s string) {
	w.code(code)
	_, _ = w.out.WriteString(s)
	_ = w.out.WriteByte('\n')
}

func (w *writer) integer(code, n int) { w.text(code, strconv.Itoa(n)) }

func (w *writer) number(code int, mm float64) {
	w.code(code)
	w.buf = append(strconv.AppendFloat(w.buf[:0], mm, 'f', 6, 64), '\n')
	_, _ = w.out.Write(w.buf)
}

// length writes µm as mm.
func (w *writer) length(code int, um int64) {
	w.code(code)
	b := w.buf[:0]
	if um < 0 {
		b, um = append(b, '-'), -um
	}
	b = append(strconv.AppendInt(b, um/1000, 10), '.', byte('0'+um/100%10), byte('0'+um/10%10), byte('0'+um%10), '\n')
	w.buf = b
	_, _ = w.out.Write(b)
}

func (w *writer) place(p shape.Point) {
	w.length(10, p.X)
	w.length(20, p.Y)
}

func (w *writer) entity(kind, layer string) {
	w.text(0, kind)
	w.text(5, w.next())
	if kind == "POLYLINE" && w.inside != "" {
		w.text(330, w.inside)
	}
	w.text(8, layer)
}

func (w *writer) point(layer string, p shape.Point) {
	w.entity("POINT", layer)
	w.place(p)
}

// polyline writes a run of points, as a line where it has two and is open.
func (w *writer) polyline(layer string, pts []shape.Point, closed bool) {
	if len(pts) < 2 {
		return
	}
	if len(pts) == 2 && !closed {
		w.entity("LINE", layer)
		w.place(pts[0])
		w.length(11, pts[1].X)
		w.length(21, pts[1].Y)
		return
	}
	w.entity("POLYLINE", layer)
	w.integer(66, 1)
	w.place(shape.Point{})
	w.integer(70, map[bool]int{true: 1}[closed])
	for _, p := range pts {
		w.entity("VERTEX", layer)
		w.place(p)
	}
	w.entity("SEQEND", layer)
}

func (w *writer) words(layer string, at shape.Point, height int64, s string) {
	w.entity("TEXT", layer)
	w.place(at)
	w.length(40, height)
	w.text(1, s)
}

// millimetres is the number of $INSUNITS for millimetres.
const millimetres = 4

// units writes that lengths are millimetres, and within which box the drawing lies.
func (w *writer) units(box shape.Box) {
	w.text(9, "$INSUNITS")
	w.integer(70, millimetres)
	w.text(9, "$MEASUREMENT")
	w.integer(70, 1)
	for _, c := range []struct {
		name string
		at   shape.Point
	}{{"$EXTMIN", box.Min}, {"$EXTMAX", box.Max}} {
		w.text(9, c.name)
		w.place(c.at)
	}
}

// head writes the header and the table of layers.
func (w *writer) head(box shape.Box, layers []string) {
	w.text(0, "SECTION")
	w.text(2, "HEADER")
	w.text(9, "$ACADVER")
	w.text(1, "AC1009")
	w.text(9, "$HANDLING")
	w.integer(70, 1)
	w.text(9, "$HANDSEED")
	w.text(5, lastHandle)
	w.units(box)
	w.text(0, "ENDSEC")
	w.text(0, "SECTION")
	w.text(2, "TABLES")
	w.text(0, "TABLE")
	w.text(2, "LAYER")
	w.integer(70, len(layers))
	for i, l := range layers {
		w.text(0, "LAYER")
		w.text(2, l)
		w.integer(70, 0)
		w.integer(62, i%6+1)
		w.text(6, "CONTINUOUS")
	}
	w.text(0, "ENDTAB")
	w.text(0, "ENDSEC")
}
