-- What a cloth is still good for, as it was worked out: a memory, no record. Both keys are
-- digests of all that the answer depends on; a row whose keys nobody asks for is dropped.

-- +goose Up
CREATE TABLE good_for (
    cloth   BLOB NOT NULL CHECK (length(cloth) = 32),
    pattern BLOB NOT NULL CHECK (length(pattern) = 32),
    uses    TEXT NOT NULL CHECK (json_valid(uses)),
    PRIMARY KEY (cloth, pattern)
) STRICT, WITHOUT ROWID;
