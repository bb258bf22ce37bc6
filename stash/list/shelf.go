package list

import (
	"strings"

	"tallycloth/stash"
)

// entry is a fabric that rows may be of: known to the library, or made by an earlier row.
type entry struct {
	fab     stash.Fabric
	known   bool
	changed bool
	no      string // its number in the list, or ""
	lots    map[string]bool
}

// shelf finds fabrics by their names.
type shelf struct {
	entries []*entry
	byName  map[string][]*entry
	byNo    map[string]*entry
}

func newShelf(fabrics []stash.Fabric) *shelf {
	s := &shelf{byName: map[string][]*entry{}, byNo: map[string]*entry{}}
	for _, f := range fabrics {
		s.add(&entry{fab: f, known: true})
	}
	return s
}

func (s *shelf) add(e *entry) {
	s.entries = append(s.entries, e)
	s.byName[nameKey(e.fab.Name)] = append(s.byName[nameKey(e.fab.Name)], e)
}

// nameKey is what two spellings of one name share.
func nameKey(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// find returns the fabric that a row is of, nil when it is of a new one; a sentence says
// why neither can be told. Fabrics of one name are told apart by colour, then by what
// else the row says of them; numbers of the list keep them apart whatever they say.
func (s *shelf) find(l *line) (*entry, string) {
	no, name := l.rec.FabricNo, l.rec.Fabric.Name
	if e := s.byNo[no]; no != "" && e != nil {
		if nameKey(e.fab.Name) != nameKey(name) {
			return nil, "the fabric number " + no + " is that of " + e.fab.Name + "; give " + name + " a number of its own"
		}
		return e, ""
	}
	var alike []*entry
	for _, e := range s.byName[nameKey(name)] {
		if no != "" && e.no != "" {
			continue
		}
		if a, b := nameKey(e.fab.ColourName), nameKey(l.rec.Fabric.ColourName); a == b || a == "" || b == "" {
			alike = append(alike, e)
		}
	}
	for _, narrow := range []func(*entry) bool{
		func(e *entry) bool { return nameKey(e.fab.ColourName) == nameKey(l.rec.Fabric.ColourName) },
		func(e *entry) bool { return len(differing(e.fab, l)) == 0 },
	} {
		if kept := keep(alike, narrow); len(alike) > 1 && len(kept) > 0 {
			alike = kept
		}
	}
	switch len(alike) {
	case 0:
		return nil, ""
	case 1:
		return alike[0], ""
	}
	return nil, "there are several fabrics called " + name + "; say its colour, or give it a name of its own"
}

func keep(list []*entry, ok func(*entry) bool) []*entry {
	var out []*entry
	for _, e := range list {
		if ok(e) {
			out = append(out, e)
		}
	}
	return out
}

// differing lists the facts of a fabric that a row says otherwise; facts that are not
// known are not other.
func differing(f stash.Fabric, l *line) []*def {
	var out []*def
	rec := Record{Fabric: f}
	for i := range defs {
		d := &defs[i]
		if d.part != ofFabric || !l.said[d.field] || d.field == FabricNo || d.field == FabricName {
			continue
		}
		if was := exact(d, &rec); was != "" && was != exact(d, &l.rec) {
			out = append(out, d)
		}
	}
	return out
}

// learn fills in what is not known of a fabric from what a row says, and reports whether
// anything was.
func learn(f *stash.Fabric, l *line) bool {
	rec, learned := Record{Fabric: *f}, false
	for i := range defs {
		d := &defs[i]
		if d.part != ofFabric || !l.said[d.field] || d.field == FabricNo || exact(d, &rec) != "" {
			continue
		}
		switch to := d.at(&rec).(type) {
		case *string:
			*to = *d.at(&l.rec).(*string)
		default:
			copyFact(to, d.at(&l.rec))
		}
		learned = true
	}
	*f = rec.Fabric
	return learned
}

// copyFact copies a fact of the same type.
func copyFact(to, from any) {
	switch to := to.(type) {
	case *stash.Fibres:
		*to = *from.(*stash.Fibres)
	case *stash.Construction:
		*to = *from.(*stash.Construction)
	case *stash.Reading:
		*to = *from.(*stash.Reading)
	case *[]string:
		*to = *from.(*[]string)
	case *[]stash.StitchNote:
		*to = *from.(*[]stash.StitchNote)
	default:
		copyQuantity(to, from)
	}
}
