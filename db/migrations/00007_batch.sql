-- +goose Up
-- Batches that are planned, each with its plan, as JSON.
CREATE TABLE batch (
    id       BLOB PRIMARY KEY CHECK (length(id) = 16),
    name     TEXT NOT NULL,
    changed  TEXT NOT NULL,
    document TEXT NOT NULL CHECK (json_valid(document)),
    present  INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1))
) STRICT;

-- +goose StatementBegin
CREATE TRIGGER batch_never_deleted BEFORE DELETE ON batch BEGIN
    SELECT RAISE(ABORT, 'A batch is never deleted');
END;
-- +goose StatementEnd
