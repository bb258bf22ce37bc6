-- +goose Up
-- How much of a fabric is on the shopping list (µm, 0: none), and what for.
ALTER TABLE fabric ADD COLUMN buy INTEGER NOT NULL DEFAULT 0 CHECK (buy >= 0);
ALTER TABLE fabric ADD COLUMN buy_for TEXT NOT NULL DEFAULT '';
