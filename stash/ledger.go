package stash

import (
	"fmt"

	"tallycloth/stash/measure"
)

// Arrived returns the line for a cloth that is new in the library: Bought or Added.
func Arrived(kind MovementKind, c Cloth, note string) Movement {
	return Movement{Kind: kind, ClothID: c.ID, Area: c.Area(), Length: c.LengthThere(), Note: note}
}

// Resized returns the line for a cloth whose size changed: MeasuredAgain, Trued or
// Washed, from before to after (zero changes for a washing that changed nothing).
func Resized(kind MovementKind, before, after Cloth, note string) Movement {
	return Movement{
		Kind: kind, ClothID: after.ID, Note: note,
		Area:   after.Area() - before.Area(),
		Length: after.LengthThere() - before.LengthThere(),
	}
}

// Left returns the line for a cloth that leaves the library whole, GivenAway or
// Discarded, and the cloth as it is then.
func Left(kind MovementKind, c Cloth, note string) (Movement, Cloth) {
	line := Movement{Kind: kind, ClothID: c.ID, Area: -c.Area(), Length: -c.LengthThere(), Note: note}
	c.Gone = true
	return line, c
}

// ReservedLine returns the line for a reservation that was made. It changes what
// is free, not what is there.
func ReservedLine(r Reservation, note string) Movement { return about(Reserved, r, note) }

// ReleasedLine returns the line for a reservation that was given back, and the
// reservation as it is then.
func ReleasedLine(r Reservation, note string) (Movement, Reservation) {
	r.Live = false
	return about(Released, r, note), r
}

func about(kind MovementKind, r Reservation, note string) Movement {
	return Movement{Kind: kind, ClothID: r.ClothID, GarmentID: r.GarmentID, ReservationID: r.ID, Note: note}
}

// Cutting is what became of one cloth when reserved parts were cut from it.
type Cutting struct {
	Cloth     Cloth         // before
	Cut       []Reservation // live before; all are cut in this
	Leftovers []Cloth       // kept, each CutFrom Cloth
	Note      string
}

// CutUp returns the lines for a cutting, the cloth and the reservations as they
// are then. The cloth is gone afterwards: what is left of it is in the leftovers.
//
// area before = cut + kept + discarded: each reservation's line takes what its
// outlines cover, each leftover moves from the cloth to itself, and what neither
// accounts for is discarded. More cut and kept than there was is refused.
func CutUp(c Cutting) (lines []Movement, cloth Cloth, cut []Reservation, err error) {
	left, length := c.Cloth.Area(), c.Cloth.LengthThere()
	for _, r := range c.Cut {
		line := about(Cut, r, c.Note)
		line.Area = -r.Area()
		left -= r.Area()
		r.Live = false
		lines, cut = append(lines, line), append(cut, r)
	}
	for _, k := range c.Leftovers {
		left -= k.Area()
		lines = append(lines,
			Movement{Kind: LeftOver, ClothID: c.Cloth.ID, Area: -k.Area(), Note: "kept as " + k.Code},
			Movement{Kind: LeftOver, ClothID: k.ID, Area: k.Area(), Length: k.Length, Note: "from " + c.Cloth.Code})
	}
	if left < 0 {
		return nil, Cloth{}, nil, &Error{
			Kind: Conflict,
			What: fmt.Sprintf("What is cut and kept of %s is %.4f m² more than there was", c.Cloth.Code, -left.SquareMetres()),
			Do:   "Draw the leftovers again without what was cut",
		}
	}
	lines = append(lines, Movement{Kind: Discarded, ClothID: c.Cloth.ID, Area: -left, Length: -length, Note: c.Note})
	c.Cloth.Gone = true
	return lines, c.Cloth, cut, nil
}

// Reversal returns the line that takes m back. Its ID is left for the store.
func Reversal(m Movement) Movement {
	return Movement{
		Kind: Reversed, ClothID: m.ClothID, Area: -m.Area, Length: -m.Length,
		GarmentID: m.GarmentID, ReservationID: m.ReservationID, Reverses: m.ID, Note: string(m.Kind),
	}
}

// Balance returns what a history adds up to for one cloth: what is there.
func Balance(lines []Movement, cloth ID) (measure.Area, measure.Length) {
	var a measure.Area
	var l measure.Length
	for _, m := range lines {
		if m.ClothID == cloth {
			a, l = a+m.Area, l+m.Length
		}
	}
	return a, l
}
