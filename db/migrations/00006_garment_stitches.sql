-- +goose Up
-- The stitches that worked on a garment, as JSON; NULL where none was noted.
ALTER TABLE garment ADD COLUMN stitches TEXT CHECK (stitches IS NULL OR json_valid(stitches));
