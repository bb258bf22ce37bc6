package stashtest

import (
	"context"
	"fmt"

	"tallycloth/stash"
)

// The stash's kinds of record.
const (
	fabric      = "fabric"
	cloth       = "cloth"
	purchase    = "purchase"
	notion      = "notion"
	reservation = "reservation"
	photo       = "photo"
)

// stashKinds says what each kind of the stash's records names.
func stashKinds() []Kind {
	return []Kind{
		{fabric, func([]byte) []Ref { return nil }},
		{notion, func(doc []byte) (refs []Ref) {
			n, _ := decode[stash.Notion](doc)
			for _, l := range n.Lines {
				refs = append(refs, Ref{"garment", l.GarmentID})
			}
			return refs
		}},
		{cloth, func(doc []byte) []Ref {
			c, _ := decode[stash.Cloth](doc)
			return []Ref{{fabric, c.FabricID}, {cloth, c.CutFrom}, {purchase, c.PurchaseID}}
		}},
		{purchase, func(doc []byte) (refs []Ref) {
			p, _ := decode[stash.Purchase](doc)
			for _, l := range p.Lines {
				refs = append(refs, Ref{fabric, l.FabricID}, Ref{cloth, l.ClothID})
			}
			return refs
		}},
		{photo, func(doc []byte) []Ref {
			p, _ := decode[stash.Photo](doc)
			return []Ref{{string(p.Of), p.OfID}}
		}},
		{reservation, func(doc []byte) []Ref {
			r, _ := decode[stash.Reservation](doc)
			return []Ref{{cloth, r.ClothID}, {"garment", r.GarmentID}}
		}},
	}
}

// refs lists the records that a record names, as far as the Core keeps their kinds.
func (t *Tx) refs(r Ref, doc []byte) []Ref {
	var out []Ref
	for _, to := range t.core.kinds[r.Kind].Refs(doc) {
		if _, kept := t.core.kinds[to.Kind]; kept && to.ID != stash.NoID {
			out = append(out, to)
		}
	}
	return out
}

// check is what must hold before an act is committed.
func (t *Tx) check() error {
	codes := map[string]stash.ID{}
	for r, doc := range t.s.records {
		if r.Kind != cloth {
			continue
		}
		c, err := decode[stash.Cloth](doc)
		if err != nil {
			return err
		}
		if _, taken := codes[c.Code]; taken {
			return &stash.Error{Kind: stash.Conflict, What: "Another cloth has this code", Do: "Choose another code for its label"}
		}
		codes[c.Code] = c.ID
	}
	for r := range t.touched {
		if err := t.checkRecord(r); err != nil {
			return err
		}
	}
	if t.act.kind != done {
		return nil
	}
	return stash.CheckLines(t.lines, t.turns())
}

// checkRecord says whether what a record names is there, and for a cloth whether its
// history explains it and its reservations fit.
func (t *Tx) checkRecord(r Ref) error {
	doc, there := t.s.records[r]
	if there {
		for _, to := range t.refs(r, doc) {
			if _, ok := t.s.records[to]; !ok {
				return &stash.Error{Kind: stash.Conflict, What: fmt.Sprintf("The %s names a %s that is not in the library", r.Kind, to.Kind), Do: "Add that one first"}
			}
		}
	}
	if r.Kind != cloth {
		return nil
	}
	c := stash.Cloth{ID: r.ID, Gone: true} // taken back: nothing may be left of it
	if there {
		state, err := t.Cloth(context.Background(), r.ID)
		if err != nil {
			return err
		}
		if err := stash.CheckCloth(state.Cloth, state.Reservations); err != nil {
			return err
		}
		c = state.Cloth
	}
	area, length := stash.Balance(t.s.lines, r.ID)
	return stash.CheckBalance(c, area, length)
}

// turns lists the reservations that the act touched, with whether they were live.
func (t *Tx) turns() []stash.Turn {
	var out []stash.Turn
	seen := map[Ref]bool{}
	for _, c := range t.act.changes {
		if c.Kind != reservation || seen[c.Ref] {
			continue
		}
		seen[c.Ref] = true
		was, _ := decode[stash.Reservation](c.before) // not live when it was not there
		now, _ := decode[stash.Reservation](t.s.records[c.Ref])
		now.ID = c.ID
		out = append(out, stash.Turn{Reservation: now, WasLive: was.Live})
	}
	return out
}
