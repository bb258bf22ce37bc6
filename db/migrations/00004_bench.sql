-- +goose Up
-- The stretch tests of a fabric, oldest first, as JSON; NULL where none was kept yet.
ALTER TABLE fabric ADD COLUMN bench TEXT CHECK (bench IS NULL OR json_valid(bench));
