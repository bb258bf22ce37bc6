-- Photos: what each is of, and the pictures, each kept once under its digest, whatever
-- is undone. No list reads a picture; the thumbnail stands before the full one, so that
-- reading it does not pass over that.

-- +goose Up
CREATE TABLE picture (
    digest TEXT PRIMARY KEY CHECK (length(digest) = 64),
    width  INTEGER NOT NULL CHECK (width > 0),
    height INTEGER NOT NULL CHECK (height > 0),
    thumb  BLOB NOT NULL CHECK (length(thumb) > 0),
    full   BLOB NOT NULL CHECK (length(full) > 0)
) STRICT;

CREATE TABLE photo (
    id          BLOB PRIMARY KEY CHECK (length(id) = 16),
    fabric_id   BLOB REFERENCES fabric (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    cloth_id    BLOB REFERENCES cloth (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    purchase_id BLOB REFERENCES purchase (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    garment_id  BLOB REFERENCES garment (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    kind        TEXT NOT NULL,
    stitch      INTEGER NOT NULL CHECK (stitch >= 0),
    digest      TEXT NOT NULL REFERENCES picture (digest) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    width       INTEGER NOT NULL CHECK (width > 0),
    height      INTEGER NOT NULL CHECK (height > 0),
    note        TEXT NOT NULL,
    at          TEXT NOT NULL,
    gone        INTEGER NOT NULL CHECK (gone IN (0, 1)),
    present     INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1)),
    CHECK ((fabric_id IS NOT NULL) + (cloth_id IS NOT NULL) + (purchase_id IS NOT NULL) + (garment_id IS NOT NULL) = 1)
) STRICT;
CREATE INDEX photo_of_fabric ON photo (fabric_id) WHERE fabric_id IS NOT NULL;
CREATE INDEX photo_of_cloth ON photo (cloth_id) WHERE cloth_id IS NOT NULL;
CREATE INDEX photo_of_purchase ON photo (purchase_id) WHERE purchase_id IS NOT NULL;
CREATE INDEX photo_of_garment ON photo (garment_id) WHERE garment_id IS NOT NULL;
CREATE INDEX photo_digest ON photo (digest);

-- +goose StatementBegin
CREATE TRIGGER photo_never_deleted BEFORE DELETE ON photo BEGIN
    SELECT RAISE(ABORT, 'A photo is never deleted');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER picture_never_deleted BEFORE DELETE ON picture BEGIN
    SELECT RAISE(ABORT, 'A picture is never deleted');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER picture_never_edited BEFORE UPDATE ON picture BEGIN
    SELECT RAISE(ABORT, 'A picture is never edited');
END;
-- +goose StatementEnd
