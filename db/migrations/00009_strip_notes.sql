-- +goose Up
-- The binding strips that worked on a fabric, oldest first, as JSON; NULL where none was noted.
ALTER TABLE fabric ADD COLUMN strips TEXT CHECK (strips IS NULL OR json_valid(strips));
