package stash

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"tallycloth/stash/measure"
)

// StateOf puts a cloth together with what follows from its history: the area the
// ledger adds up to, and what of it the live reservations leave free.
func StateOf(c Cloth, f Fabric, live []Reservation, area measure.Area) ClothState {
	s := ClothState{Cloth: c, Fabric: f, Reservations: live, Area: area, FreeArea: area}
	for _, r := range live {
		s.FreeArea -= r.Area()
	}
	return s
}

// ByName orders names as a reader expects, capitals beside small letters, and
// records of one name by their IDs.
func ByName(a, b string, idA, idB ID) int {
	return cmp.Or(cmp.Compare(strings.ToLower(a), strings.ToLower(b)), bytes.Compare(idA[:], idB[:]))
}

// SortCloths orders by fabric name, then code.
func SortCloths(cs []ClothState) {
	type place struct {
		name string // in small letters, made once for each
		at   int
	}
	order := make([]place, len(cs))
	for i := range cs {
		order[i] = place{strings.ToLower(cs[i].Fabric.Name), i}
	}
	slices.SortFunc(order, func(p, q place) int {
		a, b := &cs[p.at], &cs[q.at]
		return cmp.Or(cmp.Compare(p.name, q.name), bytes.Compare(a.Fabric.ID[:], b.Fabric.ID[:]), cmp.Compare(a.Cloth.Code, b.Cloth.Code))
	})
	for i := range order { // each round of exchanges at once, without a second copy of all cloth
		if order[i].at < 0 {
			continue
		}
		first, at := cs[i], i
		for order[at].at != i {
			from := order[at].at
			cs[at] = cs[from]
			order[at].at, at = -1, from
		}
		cs[at] = first
		order[at].at = -1
	}
}

// SortPurchases orders by date, the newest first.
func SortPurchases(ps []Purchase) {
	slices.SortFunc(ps, func(a, b Purchase) int {
		return cmp.Or(cmp.Compare(b.Date, a.Date), bytes.Compare(b.ID[:], a.ID[:]))
	})
}

// washedTube is the part of its width that a tube may change by in washing and still be one (ours: 15 %).
const washedTube = 15 * measure.OnePercent

// Tube says whether a cloth is a tube that nobody slit. A leftover or a narrower piece of a tube is slit,
// but a whole one is, once it is washed, as wide as it has become.
func (s *ClothState) Tube() bool {
	full := s.Fabric.OpenWidth()
	switch {
	case !s.Fabric.Tubular || !s.Cloth.Plain():
		return false
	case s.Cloth.Width == full:
		return true
	}
	change := max(s.Cloth.Width-full, full-s.Cloth.Width)
	return s.Cloth.Washed && s.Cloth.CutFrom == NoID && int64(change)*int64(whole) <= int64(full)*int64(washedTube)
}
