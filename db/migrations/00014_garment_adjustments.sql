-- +goose Up
-- The adjustments of a garment in their order, as JSON; NULL where there is none.
ALTER TABLE garment ADD COLUMN adjustments TEXT CHECK (adjustments IS NULL OR json_valid(adjustments));
