package stash

import (
	"time"

	"tallycloth/stash/measure"
)

// MovementKind is what happened to a cloth.
type MovementKind string

// The kinds of movement.
const (
	Bought        MovementKind = "bought"
	Added         MovementKind = "added" // a leftover that was there before the library
	MeasuredAgain MovementKind = "measured again"
	Trued         MovementKind = "trued"
	Washed        MovementKind = "washed"
	Moved         MovementKind = "moved"      // kept elsewhere
	FlawFound     MovementKind = "flaw found" // nothing is cut over it
	Reserved      MovementKind = "reserved"
	Released      MovementKind = "released"
	Cut           MovementKind = "cut"
	LeftOver      MovementKind = "returned as leftover"
	GivenAway     MovementKind = "given away"
	Discarded     MovementKind = "discarded"
	Reversed      MovementKind = "reversed"
)

// Movement is one line of history: never edited, only reversed by another line.
type Movement struct {
	ID      ID
	ActID   ID
	Seq     int64 // order in the ledger, given by the store
	At      time.Time
	Kind    MovementKind
	ClothID ID
	// Area is the signed change of the cloth's area; Length of its length. Zero
	// for reserving and releasing, which change what is free, not what is there.
	Area   measure.Area
	Length measure.Length
	// GarmentID and ReservationID say what for, or NoID.
	GarmentID, ReservationID ID
	Reverses                 ID // the movement that this one takes back, or NoID
	Note                     string
}

// Act is one thing the person did: a time and a sentence to which ledger lines
// and changed records belong. Undo writes a reversing act.
type Act struct {
	ID       ID
	Seq      int64
	At       time.Time
	Sentence string
	Undoes   ID // the act taken back by this one, or NoID
	Undone   bool
}

// Stamp returns t as histories keep it: in UTC, to the microsecond.
func Stamp(t time.Time) time.Time { return t.UTC().Truncate(time.Microsecond) }
