-- Changes are kept short: where a record was there before and after an act, "after" holds
-- the fields that changed, as an array of one object, and "before" nothing; the documents
-- follow from the changes of the record in order. A program of an earlier form cannot read them.
-- Most acts undo nothing, most lines of history name neither a garment nor a reservation,
-- and an ID names one record of any kind: these indexes are as short as that.

-- +goose Up
CREATE INDEX reservation_live ON reservation (cloth_id) WHERE live = 1 AND present = 1;
DROP INDEX act_undoes;
CREATE INDEX act_undoes ON act (undoes) WHERE undoes IS NOT NULL;
DROP INDEX change_of_record;
CREATE INDEX change_of_record ON change (record_id);
DROP INDEX movement_of_garment;
CREATE INDEX movement_of_garment ON movement (garment_id) WHERE garment_id IS NOT NULL;
DROP INDEX movement_of_reservation;
CREATE INDEX movement_of_reservation ON movement (reservation_id) WHERE reservation_id IS NOT NULL;
