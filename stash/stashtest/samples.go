package stashtest

import (
	"encoding/binary"
	"time"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// IDs returns a source of IDs that count up, for repeatable tests.
func IDs() func() stash.ID { return idsFrom(0) }

// idsFrom returns a source whose IDs begin with a byte of their own.
func idsFrom(first byte) func() stash.ID {
	var n uint64
	return func() (id stash.ID) {
		n++
		id[0] = first
		id[6], id[8] = 0x70, 0x80 // version and variant of a UUIDv7
		binary.BigEndian.PutUint32(id[12:], uint32(n))
		return id
	}
}

// Clock returns a clock that starts on 5 January 2026 and goes on by a minute at
// each look.
func Clock() func() time.Time {
	t := time.Date(2026, 1, 5, 9, 0, 0, 0, time.UTC)
	return func() time.Time {
		t = t.Add(time.Minute)
		return t
	}
}

const (
	cm = int64(measure.Centimetre)
	m  = int64(measure.Metre)
)

// SampleFabric returns a fabric with every field filled in.
func SampleFabric(id stash.ID, name string) stash.Fabric {
	grain := stash.Grain{
		Stretch: stash.Measured(4000), Growth: stash.Measured(350), Recovery: stash.Measured(9125),
		Narrowing: stash.Measured(800), Shrinkage: stash.Measured(-450),
	}
	along := stash.Grain{Stretch: stash.Measured(0), Shrinkage: stash.Measured(-600)}
	return stash.Fabric{
		ID: id, Name: name, Construction: stash.Jersey, Fibres: stash.Fibres{{Name: "cotton", Share: 9500}, {Name: "elastane", Share: 500}},
		Weight: 187_500, FullWidth: measure.Length(155 * cm), SelvedgeLoss: measure.Length(cm), Lengthwise: along, Crosswise: grain,
		Direction: stash.SameWayForAll, RepeatAlong: 123_456, RepeatAcross: 64_000, SameBothFace: true, Thickness: 700,
		Colour: "#a03b2c", ColourName: "brick", Care: "30 °C, no tumble drying", Supplier: "the corner stall", Notes: "curls: pin; 'quoted' \"twice\"",
		Strips: []stash.StripNote{{Edge: "neck", Technique: "folded band", Ratio: 0.86, Drawn: 0.02, Width: lengthOf(2 * cm), Seam: lengthOf(cm), CutWidth: lengthOf(6 * cm), Note: "lies flat", Date: "2026-03-04"}},
		Bench:  []stash.BenchReading{{Date: "2026-03-02", Crosswise: true, StretchTest: stash.StretchTest{Before: lengthOf(8 * cm), Stretched: lengthOf(12 * cm), After: lengthOf(8 * cm)}}},
		Stitches: []stash.StitchNote{{Seam: "side", Stitch: "narrow zigzag", Width: "0.5", Length: "2.5", Feed: "1.3", Needle: "75/11 ball point", Thread: "polyester", Tension: "3", Note: "hold taut"},
			{Seam: "shoulder", Stitch: "lockstitch", Length: "2.8", Note: "over tape", Still: true}},
		Tags: []string{"summer", "remnant bin"}, Buy: 1_250_001, BuyFor: "the autumn class",
	}
}

// SampleLength returns a plain length of a fabric, 155 cm wide.
func SampleLength(id, fabric stash.ID, code string, length measure.Length) stash.Cloth {
	return stash.Cloth{
		ID: id, FabricID: fabric, Code: code, Lot: "L7", Place: "shelf 2", Length: length, Width: measure.Length(155 * cm),
		RawStart: true, RawEnd: true, SelvedgeLow: true, SelvedgeHigh: true, Notes: "bought on a rainy day",
	}
}

// SampleLeftover returns a leftover with an outline, 60 cm × 40 cm with a slanted
// end and a flaw.
func SampleLeftover(id, fabric stash.ID, code string) stash.Cloth {
	return stash.Cloth{
		ID: id, FabricID: fabric, Code: code, Length: measure.Length(60 * cm), Width: measure.Length(40 * cm), Washed: true,
		Outline: shape.Polygon{
			Outer: shape.Ring{{X: 0, Y: 0}, {X: 60 * cm, Y: 0}, {X: 45 * cm, Y: 40 * cm}, {X: 0, Y: 40 * cm}},
			Holes: []shape.Ring{{{X: 10 * cm, Y: 10 * cm}, {X: 10 * cm, Y: 12 * cm}, {X: 12 * cm, Y: 12 * cm}, {X: 12 * cm, Y: 10 * cm}}},
		},
	}
}

// SamplePiece returns a rectangular piece laid with its corner at (x, y) µm.
func SamplePiece(name string, x, y, length, width int64) stash.ReservedPiece {
	return stash.ReservedPiece{
		Name:    name,
		Outline: shape.Box{Min: shape.Point{X: x, Y: y}, Max: shape.Point{X: x + length, Y: y + width}}.Ring(),
		GrainTo: shape.Point{X: -1000},
	}
}
