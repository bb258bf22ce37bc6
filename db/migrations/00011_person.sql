-- +goose Up
-- People that garments are made for, with their measurements by day, as JSON.
CREATE TABLE person (
    id       BLOB PRIMARY KEY CHECK (length(id) = 16),
    name     TEXT NOT NULL,
    document TEXT NOT NULL CHECK (json_valid(document)),
    present  INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1))
) STRICT;

-- +goose StatementBegin
CREATE TRIGGER person_never_deleted BEFORE DELETE ON person BEGIN
    SELECT RAISE(ABORT, 'A person is never deleted');
END;
-- +goose StatementEnd
