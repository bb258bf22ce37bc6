package db

import (
	"context"
	"database/sql"
	"fmt"

	"tallycloth/stash"
)

const photoColumns = `id, fabric_id, cloth_id, purchase_id, garment_id, kind, stitch, digest, width, height, note, at, gone`

const selectPhoto = `SELECT ` + photoColumns + ` FROM photo WHERE present = 1`

// photoOf are the columns that say of what a photo is, in their order.
var photoOf = [4]stash.PhotoOf{stash.OfFabric, stash.OfCloth, stash.OfPurchase, stash.OfGarment}

func scanPhoto(rows *sql.Rows) (p stash.Photo, err error) {
	var of [4]stash.ID
	err = rows.Scan(&p.ID, &of[0], &of[1], &of[2], &of[3], &p.Kind, &p.Stitch, &p.Digest, &p.Width, &p.Height, &p.Note, &p.At, &p.Gone)
	for i, id := range of {
		if id != stash.NoID {
			p.Of, p.OfID = photoOf[i], id
		}
	}
	return p, err
}

func photoByID(ctx context.Context, q queryer, id stash.ID) (stash.Photo, error) {
	return one(ctx, q, "photo", selectPhoto+` AND id = ?`, []any{id[:]}, scanPhoto)
}

func savePhoto(ctx context.Context, t *tx, p stash.Photo) error {
	if err := p.Validate(); err != nil {
		return err
	}
	var of [4]any
	for i, kind := range photoOf {
		if p.Of == kind {
			of[i] = blob(p.OfID)
		}
	}
	return t.upsert(ctx, "photo", photoColumns, p.ID[:], of[0], of[1], of[2], of[3], string(p.Kind), p.Stitch, p.Digest,
		p.Width, p.Height, p.Note, string(p.At), p.Gone)
}

// Photos returns the photos of a record that are not gone, oldest first.
func (r reader) Photos(ctx context.Context, of stash.ID) ([]stash.Photo, error) {
	return read(ctx, r, "reading the photos", func(q queryer) ([]stash.Photo, error) {
		return all(ctx, q, selectPhoto+` AND gone = 0 AND ?1 IN (fabric_id, cloth_id, purchase_id, garment_id) ORDER BY id`, []any{of[:]}, scanPhoto)
	})
}

// Photo returns one photo, also one that is gone.
func (r reader) Photo(ctx context.Context, id stash.ID) (stash.Photo, error) {
	return read(ctx, r, "reading a photo", func(q queryer) (stash.Photo, error) { return photoByID(ctx, q, id) })
}

// Picture returns a picture as a JPEG file, full or as a thumbnail.
func (r reader) Picture(ctx context.Context, digest string, full bool) ([]byte, error) {
	column := "thumb"
	if full {
		column = "full"
	}
	return read(ctx, r, "reading a picture", func(q queryer) ([]byte, error) {
		return one(ctx, q, "picture", `SELECT `+column+` FROM picture WHERE digest = ?`, []any{digest},
			func(rows *sql.Rows) (b []byte, err error) { return b, rows.Scan(&b) })
	})
}

// PutPhoto inserts or replaces a photo; its picture must have been put before.
func (t *tx) PutPhoto(ctx context.Context, p stash.Photo) error {
	return t.change(ctx, photoRecord, p.ID, func() error { return savePhoto(ctx, t, p) })
}

// PutPicture keeps a picture under its digest. It is no change to a record: one without a
// photo is of no consequence.
func (t *tx) PutPicture(ctx context.Context, p stash.Picture) error {
	if err := p.Validate(); err != nil {
		return fmt.Errorf("keeping a picture: %w", err)
	}
	return t.exec(ctx, `INSERT INTO picture (digest, width, height, thumb, full) VALUES (?, ?, ?, ?, ?) ON CONFLICT (digest) DO NOTHING`,
		p.Digest(), p.Width, p.Height, p.Thumb, p.Full)
}
