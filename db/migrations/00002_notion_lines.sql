-- +goose Up
-- The history of a notion, oldest line first, as JSON; NULL where none was kept yet.
ALTER TABLE notion ADD COLUMN lines TEXT CHECK (lines IS NULL OR json_valid(lines));
