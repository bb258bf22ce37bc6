-- What was last chosen when something went onto paper: a memory, no record.

-- +goose Up
CREATE TABLE habits (
    id       INTEGER PRIMARY KEY CHECK (id = 1),
    document TEXT NOT NULL CHECK (json_valid(document))
) STRICT;
