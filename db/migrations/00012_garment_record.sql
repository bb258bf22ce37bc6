-- +goose Up
-- What else is noted of a garment: purpose, days of its states, work done, seams, fittings, as JSON;
-- NULL where nothing was noted.
ALTER TABLE garment ADD COLUMN record TEXT CHECK (record IS NULL OR json_valid(record));
