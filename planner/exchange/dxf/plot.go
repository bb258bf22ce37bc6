package dxf

import (
	"io"

	"tallycloth/stash/shape"
)

// plot writes pairs of the DXF of 2000, the oldest that knows how wide lines are. All that it names has a
// handle and an owner.
type plot struct{ *writer }

// Handles that others refer to, so they are the same in every file.
const (
	modelSpace = "1F"
	paperSpace = "1B"
)

func newPlot(w io.Writer) *plot { return &plot{newWriter(w)} }

// weighted is a layer with the number of the width of its lines.
type weighted struct {
	name   string
	weight int
}

func (p *plot) section(name string, content func()) {
	p.text(0, "SECTION")
	p.text(2, name)
	content()
	p.text(0, "ENDSEC")
}

// owned begins something that belongs to owner, under a handle; empty for the next that is free.
func (p *plot) owned(kind, handle, owner string, classes ...string) {
	if handle == "" {
		handle = p.next()
	}
	p.text(0, kind)
	p.text(5, handle)
	p.text(330, owner)
	for _, c := range classes {
		p.text(100, c)
	}
}

// table writes a table whose rows come from content.
func (p *plot) table(name, handle string, rows int, content func()) {
	p.text(0, "TABLE")
	p.text(2, name)
	p.text(5, handle)
	p.text(330, "0")
	p.text(100, "AcDbSymbolTable")
	p.integer(70, rows)
	if name == "DIMSTYLE" {
		p.text(100, "AcDbDimStyleTable")
	}
	content()
	p.text(0, "ENDTAB")
}

// head is all that stands before what is drawn.
func (p *plot) head(box shape.Box, layers []weighted) {
	p.section("HEADER", func() {
		p.text(9, "$ACADVER")
		p.text(1, "AC1015")
		p.text(9, "$HANDSEED")
		p.text(5, lastHandle)
		p.units(box)
		p.text(9, "$LWDISPLAY")
		p.integer(290, 1)
	})
	p.section("CLASSES", func() {})
	p.section("TABLES", func() { p.tables(layers) })
	p.section("BLOCKS", func() {
		for _, b := range [][2]string{{modelSpace, "*Model_Space"}, {paperSpace, "*Paper_Space"}} {
			p.owned("BLOCK", "", b[0], "AcDbEntity")
			p.text(8, "0")
			p.text(100, "AcDbBlockBegin")
			p.text(2, b[1])
			p.integer(70, 0)
			p.place(shape.Point{})
			p.length(30, 0)
			p.text(3, b[1])
			p.text(1, "")
			p.owned("ENDBLK", "", b[0], "AcDbEntity")
			p.text(8, "0")
			p.text(100, "AcDbBlockEnd")
		}
	})
}

// tables are those that a file must have, with the layers.
func (p *plot) tables(layers []weighted) {
	none := func() {}
	row := func(kind, table, class, name string) {
		p.owned(kind, "", table, "AcDbSymbolTableRecord", class)
		p.text(2, name)
		p.integer(70, 0)
	}
	p.table("VPORT", "8", 0, none)
	lines := []string{"ByBlock", "ByLayer", "Continuous"}
	p.table("LTYPE", "5", len(lines), func() {
		for _, l := range lines {
			row("LTYPE", "5", "AcDbLinetypeTableRecord", l)
			p.text(3, "")
			p.integer(72, 65)
			p.integer(73, 0)
			p.number(40, 0)
		}
	})
	p.table("LAYER", "2", len(layers), func() {
		for i, l := range layers {
			row("LAYER", "2", "AcDbLayerTableRecord", l.name)
			p.integer(62, i%6+1)
			p.text(6, "Continuous")
			p.integer(370, l.weight)
		}
	})
	p.table("STYLE", "3", 1, func() {
		row("STYLE", "3", "AcDbTextStyleTableRecord", "Standard")
		p.number(40, 0)
		p.number(41, 1)
		p.number(50, 0)
		p.integer(71, 0)
		p.number(42, 2.5)
		p.text(3, "txt")
		p.text(4, "")
	})
	p.table("VIEW", "6", 0, none)
	p.table("UCS", "7", 0, none)
	p.table("APPID", "9", 1, func() { row("APPID", "9", "AcDbRegAppTableRecord", "ACAD") })
	p.table("DIMSTYLE", "A", 0, none)
	p.table("BLOCK_RECORD", "1", 2, func() {
		for _, b := range [][2]string{{modelSpace, "*Model_Space"}, {paperSpace, "*Paper_Space"}} {
			p.owned("BLOCK_RECORD", b[0], "1", "AcDbSymbolTableRecord", "AcDbBlockTableRecord")
			p.text(2, b[1])
			p.text(340, "0")
		}
	})
}

// polyline writes a run of points.
func (p *plot) polyline(layer string, pts []shape.Point, closed bool) {
	if len(pts) < 2 {
		return
	}
	p.drawn("LWPOLYLINE", layer, "AcDbPolyline")
	p.integer(90, len(pts))
	p.integer(70, map[bool]int{true: 1}[closed])
	for _, q := range pts {
		p.place(q)
	}
}

// words writes a text turned by some degrees.
func (p *plot) words(layer string, at shape.Point, height int64, s string, turn float64) {
	p.drawn("TEXT", layer, "AcDbText")
	p.place(at)
	p.length(30, 0)
	p.length(40, height)
	p.text(1, s)
	if turn != 0 {
		p.number(50, turn)
	}
	p.text(100, "AcDbText")
}

// drawn begins something that is drawn, with the line's width of its layer.
func (p *plot) drawn(kind, layer, class string) {
	p.owned(kind, "", modelSpace, "AcDbEntity")
	p.text(8, layer)
	p.text(100, class)
}

// foot is all that stands after what is drawn.
func (p *plot) foot() error {
	p.section("OBJECTS", func() {
		p.owned("DICTIONARY", "C", "0", "AcDbDictionary")
		p.integer(281, 1)
		p.text(3, "ACAD_GROUP")
		p.text(350, "D")
		p.owned("DICTIONARY", "D", "C", "AcDbDictionary")
		p.integer(281, 1)
	})
	return p.close()
}
