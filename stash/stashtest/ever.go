package stashtest

import (
	"slices"

	"tallycloth/stash"
)

// Ever returns a record as it is, or as it was before Undo took it away; ok is false for one
// that never was.
func Ever[T any](v View, kind string, id stash.ID) (record T, ok bool) {
	ref := Ref{kind, id}
	doc := v.s.records[ref]
	for _, a := range slices.Backward(v.s.acts) {
		for _, c := range slices.Backward(a.changes) {
			if doc == nil && c.Ref == ref {
				doc = c.before
			}
		}
	}
	if doc == nil {
		return record, false
	}
	record, err := decode[T](doc)
	return record, err == nil
}
