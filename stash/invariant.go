package stash

import (
	"fmt"

	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// What must hold when an act is committed. Every Store checks it inside its
// transaction, on the cloths and reservations that the act touched:
//
//  1. CheckBalance: the history explains every quantity.
//  2. CheckReservation: live reservations lie within their cloth, and no two overlap.
//  3. CheckLines: what reservations became, and where leftovers came from, is in the lines.

// CheckBalance says whether the history of a cloth adds up to what is there.
func CheckBalance(c Cloth, area measure.Area, length measure.Length) error {
	if area == c.Area() && length == c.LengthThere() {
		return nil
	}
	return &Error{
		Kind: Conflict,
		What: fmt.Sprintf("The history of %s adds up to %.4f m² and %.1f mm, but %.4f m² and %.1f mm are there",
			c.Code, area.SquareMetres(), length.Millimetres(), c.Area().SquareMetres(), c.LengthThere().Millimetres()),
		Do: "Add the line of history that explains the change",
	}
}

// CheckReservation says whether a live reservation lies within its cloth, as exact
// outlines, and overlaps neither itself nor the other live reservations on it
// (others may contain r itself, which is passed over by its ID). Touching is
// allowed. A reservation that is not live is always in order.
func CheckReservation(r Reservation, c Cloth, others []Reservation) error {
	switch {
	case r.ID == NoID:
		return invalid("", "The reservation has no number of its own")
	case !r.Live:
		return nil
	case c.Gone:
		return &Error{Kind: Conflict, What: fmt.Sprintf("%s is gone", c.Code), Do: "Choose another cloth"}
	case len(r.Pieces) == 0:
		return invalid("Lay at least one pattern piece or strip", "The reservation on %s keeps nothing", c.Code)
	}
	cloth := c.Polygon()
	for i, p := range r.Pieces {
		if err := p.Outline.Validate(); err != nil {
			return &Error{Kind: Invalid, What: fmt.Sprintf("The outline of %q is not closed and simple", p.Name), Do: "Lay it out again", Err: err}
		}
		if !shape.Inside(p.Outline, cloth) {
			return &Error{Kind: Conflict, What: fmt.Sprintf("%q reaches out of %s", p.Name, c.Code), Do: "Lay it out again on what is there"}
		}
		for _, q := range r.Pieces[:i] {
			if shape.Overlaps(p.Outline, q.Outline) {
				return &Error{Kind: Conflict, What: fmt.Sprintf("%q and %q overlap on %s", q.Name, p.Name, c.Code), Do: "Lay it out again"}
			}
		}
	}
	return clearOf(r, c, others)
}

// clearOf says whether r overlaps a live reservation of others.
func clearOf(r Reservation, c Cloth, others []Reservation) error {
	for _, o := range others {
		if o.ID == r.ID || !o.Live || o.ClothID != r.ClothID {
			continue
		}
		for _, p := range r.Pieces {
			for _, q := range o.Pieces {
				if shape.Overlaps(p.Outline, q.Outline) {
					return &Error{
						Kind: Conflict,
						What: fmt.Sprintf("%q overlaps %q, which is reserved on %s already", p.Name, q.Name, c.Code),
						Do:   "Lay it out again on what is free",
					}
				}
			}
		}
	}
	return nil
}

// CheckCloth says whether all live reservations on a cloth are in order, after its
// size changed for instance.
func CheckCloth(c Cloth, live []Reservation) error {
	for i, r := range live {
		if err := CheckReservation(r, c, live[:i]); err != nil {
			return err
		}
	}
	return nil
}

// Turn is a reservation that an act made live or ended.
type Turn struct {
	Reservation Reservation // as it is now
	WasLive     bool
}

// CheckLines says whether the lines of an act tell what its reservations became: a
// Reserved line for each that was made, Released or Cut for each that ended; and
// whether leftovers add up: what one cloth gains another loses.
func CheckLines(lines []Movement, turns []Turn) error {
	var kept measure.Area
	said := map[ID]map[MovementKind]bool{}
	for _, m := range lines {
		if m.Kind == LeftOver {
			kept += m.Area
		}
		if said[m.ReservationID] == nil {
			said[m.ReservationID] = map[MovementKind]bool{}
		}
		said[m.ReservationID][m.Kind] = true
	}
	for _, t := range turns {
		by := said[t.Reservation.ID]
		switch {
		case t.Reservation.Live && !t.WasLive && !by[Reserved]:
			return &Error{Kind: Conflict, What: "Cloth would be reserved without a line in its history", Do: "Add the line that says so"}
		case !t.Reservation.Live && t.WasLive && !by[Released] && !by[Cut]:
			return &Error{Kind: Conflict, What: "Reserved cloth would become free without a line in its history", Do: "Add the line that says so"}
		}
	}
	if kept != 0 {
		return &Error{
			Kind: Conflict, What: fmt.Sprintf("The leftovers gain %.4f m² that no cloth loses", kept.SquareMetres()),
			Do: "Take what is kept from the cloth it was cut from",
		}
	}
	return nil
}

// CheckMovement says what cannot be about a line of history.
func CheckMovement(m Movement) error {
	switch {
	case m.ClothID == NoID:
		return invalid("", "The line of history names no cloth")
	case !knownKinds[m.Kind]:
		return invalid("", "%q is no kind of movement", m.Kind)
	case m.Kind == Reversed:
		return invalid("Use Undo", "A line of history is only reversed by taking its act back")
	}
	return nil
}

var knownKinds = map[MovementKind]bool{
	Bought: true, Added: true, MeasuredAgain: true, Trued: true, Washed: true, Moved: true, FlawFound: true, Reserved: true,
	Released: true, Cut: true, LeftOver: true, GivenAway: true, Discarded: true, Reversed: true,
}

// BuiltOn is the error for an act that cannot be taken back because a later one
// built on it.
func BuiltOn(act, later string) error {
	return &Error{
		Kind: Conflict,
		What: fmt.Sprintf("“%s” cannot be taken back, because “%s” came after it and builds on it", act, later),
		Do:   "Take that one back first",
	}
}

// UndoSentence is what the act that Undo writes says about the act it takes back.
func UndoSentence(sentence string) string { return "Took back: " + sentence }

// RedoSentence is what Redo's act says about the act it brings back.
func RedoSentence(sentence string) string { return "Did again: " + sentence }
