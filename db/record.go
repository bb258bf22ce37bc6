package db

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash"
)

// record is what the change table needs to know of one kind of record: how to
// read it as a document and write it back. Kinds are named after their tables.
type record struct {
	kind string
	// doc returns the record as JSON, or nil when it is not there.
	doc func(ctx context.Context, q queryer, id stash.ID) ([]byte, error)
	// put writes a document back.
	put func(ctx context.Context, t *tx, doc []byte) error
	// canon returns a document as doc would write it today: fields that a later
	// version added are in it with their zero values.
	canon func(doc []byte) ([]byte, error)
}

// recordOf builds a record from the functions that load and save its type.
func recordOf[T any](kind string, load func(context.Context, queryer, stash.ID) (T, error), save func(context.Context, *tx, T) error) record {
	decode := func(doc []byte) (v T, err error) {
		if err := json.Unmarshal(doc, &v); err != nil {
			return v, fmt.Errorf("reading a changed %s: %w", kind, err)
		}
		return v, nil
	}
	return record{
		kind: kind,
		doc: func(ctx context.Context, q queryer, id stash.ID) ([]byte, error) {
			v, err := load(ctx, q, id)
			if errors.Is(err, stash.ErrNotFound) {
				return nil, nil
			}
			if err != nil {
				return nil, err
			}
			return json.Marshal(v)
		},
		put: func(ctx context.Context, t *tx, doc []byte) error {
			v, err := decode(doc)
			if err != nil {
				return err
			}
			return save(ctx, t, v)
		},
		canon: func(doc []byte) ([]byte, error) {
			v, err := decode(doc)
			if err != nil {
				return nil, err
			}
			return json.Marshal(v)
		},
	}
}

func loadCloth(ctx context.Context, q queryer, id stash.ID) (stash.Cloth, error) {
	row, err := clothByID(ctx, q, id)
	return row.Cloth, err
}

// The kinds of record.
var (
	fabricRecord      = recordOf[stash.Fabric]("fabric", fabricByID, saveFabric)
	clothRecord       = recordOf[stash.Cloth]("cloth", loadCloth, saveCloth)
	purchaseRecord    = recordOf[stash.Purchase]("purchase", purchaseByID, savePurchase)
	notionRecord      = recordOf[stash.Notion]("notion", notionByID, saveNotion)
	reservationRecord = recordOf[stash.Reservation]("reservation", reservationByID, saveReservation)
	patternRecord     = recordOf[pattern.Pattern]("pattern", patternByID, savePattern)
	garmentRecord     = recordOf[garment.Garment]("garment", garmentByID, saveGarment)
	batchRecord       = recordOf[planner.Batch]("batch", batchByID, saveBatch)
	personRecord      = recordOf[sizing.Person]("person", personByID, savePerson)
	photoRecord       = recordOf[stash.Photo]("photo", photoByID, savePhoto)
	settingsRecord    = recordOf[planner.Settings]("settings", settingsByID, saveSettings)
)

// recordNamed returns the record of a kind that the change table names.
func recordNamed(kind string) (record, error) {
	for _, r := range []record{fabricRecord, clothRecord, purchaseRecord, notionRecord, reservationRecord, patternRecord, garmentRecord, batchRecord, personRecord, photoRecord, settingsRecord} {
		if r.kind == kind {
			return r, nil
		}
	}
	return record{}, fmt.Errorf("the library has changes of an unknown kind of record, %q", kind)
}
