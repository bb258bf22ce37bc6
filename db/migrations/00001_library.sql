-- +goose Up
-- Lengths are whole µm, areas µm², percents 1/100 %, weights mg/m², times µs
-- since 1970 UTC, IDs 16 bytes. An outline is text: points "x,y" parted by blanks,
-- rings by ";", the outer one first.

PRAGMA application_id = 1414285635; -- "TLYC"

-- Nothing is ever in this table. A column that refers to it, deferred, must be
-- NULL when an act is committed: a rule that is checked at the end of the act.
CREATE TABLE never (
    id INTEGER PRIMARY KEY CHECK (0)
) STRICT;

-- What the person did ------------------------------------------------------

CREATE TABLE act (
    seq      INTEGER PRIMARY KEY AUTOINCREMENT,
    id       BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    at       INTEGER NOT NULL,
    sentence TEXT NOT NULL CHECK (trim(sentence) <> ''),
    kind     TEXT NOT NULL CHECK (kind IN ('act', 'undo', 'redo')),
    undoes   BLOB REFERENCES act (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    undone   INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1)),
    CHECK ((kind = 'act') = (undoes IS NULL))
) STRICT;

CREATE INDEX act_undoes ON act (undoes);

-- A record as it was before and after an act, as JSON; NULL where there was none.
CREATE TABLE change (
    seq       INTEGER PRIMARY KEY AUTOINCREMENT,
    act_id    BLOB NOT NULL REFERENCES act (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    record    TEXT NOT NULL,
    record_id BLOB NOT NULL CHECK (length(record_id) = 16),
    before    TEXT CHECK (before IS NULL OR json_valid(before)),
    after     TEXT CHECK (after IS NULL OR json_valid(after)),
    CHECK (before IS NOT NULL OR after IS NOT NULL)
) STRICT;
CREATE INDEX change_of_act ON change (act_id);
CREATE INDEX change_of_record ON change (record, record_id);

-- Records --------------------------------------------------------------------
-- present = 0: taken back by Undo. Rows are never deleted.

CREATE TABLE fabric (
    id             BLOB PRIMARY KEY CHECK (length(id) = 16),
    name           TEXT NOT NULL CHECK (trim(name) <> ''),
    construction   TEXT NOT NULL,
    fibres         TEXT CHECK (fibres IS NULL OR json_valid(fibres)),
    weight         INTEGER NOT NULL CHECK (weight >= 0),
    full_width     INTEGER NOT NULL CHECK (full_width > 0),
    tubular        INTEGER NOT NULL CHECK (tubular IN (0, 1)),
    selvedge_loss  INTEGER NOT NULL CHECK (selvedge_loss >= 0),
    long_stretch   INTEGER CHECK (long_stretch >= 0),
    long_growth    INTEGER CHECK (long_growth >= 0),
    long_recovery  INTEGER CHECK (long_recovery BETWEEN 0 AND 10000),
    long_narrowing INTEGER CHECK (long_narrowing <= 10000),
    long_shrinkage INTEGER CHECK (long_shrinkage > -10000),
    cross_stretch   INTEGER CHECK (cross_stretch >= 0),
    cross_growth    INTEGER CHECK (cross_growth >= 0),
    cross_recovery  INTEGER CHECK (cross_recovery BETWEEN 0 AND 10000),
    cross_narrowing INTEGER CHECK (cross_narrowing <= 10000),
    cross_shrinkage INTEGER CHECK (cross_shrinkage > -10000),
    direction      INTEGER NOT NULL CHECK (direction BETWEEN 0 AND 2),
    repeat_along   INTEGER NOT NULL CHECK (repeat_along >= 0),
    repeat_across  INTEGER NOT NULL CHECK (repeat_across >= 0),
    same_both_face INTEGER NOT NULL CHECK (same_both_face IN (0, 1)),
    thickness      INTEGER NOT NULL CHECK (thickness >= 0),
    colour         TEXT NOT NULL,
    colour_name    TEXT NOT NULL,
    care           TEXT NOT NULL,
    supplier       TEXT NOT NULL,
    notes          TEXT NOT NULL,
    stitches       TEXT CHECK (stitches IS NULL OR json_valid(stitches)),
    tags           TEXT CHECK (tags IS NULL OR json_valid(tags)),
    present        INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1)),
    CHECK (2 * selvedge_loss < full_width)
) STRICT;

CREATE TABLE purchase (
    id               BLOB PRIMARY KEY CHECK (length(id) = 16),
    date             TEXT NOT NULL CHECK (date IS date(date)),
    supplier         TEXT NOT NULL,
    postage          INTEGER NOT NULL CHECK (postage >= 0),
    postage_currency TEXT NOT NULL,
    tax              INTEGER NOT NULL CHECK (tax >= 0),
    tax_currency     TEXT NOT NULL,
    notes            TEXT NOT NULL,
    present          INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1))
) STRICT;

CREATE TABLE cloth (
    id            BLOB PRIMARY KEY CHECK (length(id) = 16),
    fabric_id     BLOB NOT NULL REFERENCES fabric (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    code          TEXT NOT NULL CHECK (trim(code) <> ''),
    lot           TEXT NOT NULL,
    place         TEXT NOT NULL,
    length        INTEGER NOT NULL CHECK (length BETWEEN 1 AND 536870911),
    width         INTEGER NOT NULL CHECK (width BETWEEN 1 AND 536870911),
    outline       TEXT,
    outline_area  INTEGER CHECK (outline_area > 0 AND outline_area <= length * width),
    raw_start     INTEGER NOT NULL CHECK (raw_start IN (0, 1)),
    raw_end       INTEGER NOT NULL CHECK (raw_end IN (0, 1)),
    selvedge_low  INTEGER NOT NULL CHECK (selvedge_low IN (0, 1)),
    selvedge_high INTEGER NOT NULL CHECK (selvedge_high IN (0, 1)),
    washed        INTEGER NOT NULL CHECK (washed IN (0, 1)),
    cut_from      BLOB REFERENCES cloth (id) ON DELETE RESTRICT ON UPDATE RESTRICT CHECK (cut_from <> id),
    purchase_id   BLOB REFERENCES purchase (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    gone          INTEGER NOT NULL CHECK (gone IN (0, 1)),
    notes         TEXT NOT NULL,
    present       INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1)),
    -- kept by the triggers below
    ledger_area   INTEGER NOT NULL DEFAULT 0,
    ledger_length INTEGER NOT NULL DEFAULT 0,
    reserved_area INTEGER NOT NULL DEFAULT 0,
    area_there    INTEGER GENERATED ALWAYS AS
        (CASE WHEN gone = 1 OR present = 0 THEN 0 ELSE coalesce(outline_area, length * width) END) STORED,
    length_there  INTEGER GENERATED ALWAYS AS
        (CASE WHEN gone = 1 OR present = 0 THEN 0 ELSE length END) STORED,
    -- the history explains every quantity
    unexplained   INTEGER GENERATED ALWAYS AS
        (CASE WHEN ledger_area <> area_there OR ledger_length <> length_there THEN 1 END) STORED
        REFERENCES never (id) DEFERRABLE INITIALLY DEFERRED,
    -- no more is reserved than is there
    overfull      INTEGER GENERATED ALWAYS AS
        (CASE WHEN reserved_area > area_there THEN 1 END) STORED
        REFERENCES never (id) DEFERRABLE INITIALLY DEFERRED,
    CHECK ((outline IS NULL) = (outline_area IS NULL))
) STRICT;
CREATE UNIQUE INDEX cloth_code ON cloth (code) WHERE present = 1;
CREATE INDEX cloth_of_fabric ON cloth (fabric_id);
CREATE INDEX cloth_cut_from ON cloth (cut_from);
CREATE INDEX cloth_of_purchase ON cloth (purchase_id);

-- The lines belong to their purchase and are replaced with it; what they were is
-- in the change table.
CREATE TABLE purchase_line (
    purchase_id BLOB NOT NULL REFERENCES purchase (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    position    INTEGER NOT NULL CHECK (position >= 0),
    fabric_id   BLOB NOT NULL REFERENCES fabric (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    cloth_id    BLOB NOT NULL REFERENCES cloth (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    quantity    INTEGER NOT NULL CHECK (quantity > 0),
    price       INTEGER NOT NULL CHECK (price >= 0),
    currency    TEXT NOT NULL,
    PRIMARY KEY (purchase_id, position)
) STRICT;
CREATE INDEX purchase_line_fabric ON purchase_line (fabric_id);
CREATE INDEX purchase_line_cloth ON purchase_line (cloth_id);

CREATE TABLE notion (
    id       BLOB PRIMARY KEY CHECK (length(id) = 16),
    name     TEXT NOT NULL CHECK (trim(name) <> ''),
    kind     TEXT NOT NULL,
    quantity REAL NOT NULL CHECK (quantity >= 0),
    unit     TEXT NOT NULL,
    reorder  REAL NOT NULL CHECK (reorder >= 0),
    present  INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1))
) STRICT;

-- A pattern is one document: it is read and written whole. Its version says
-- which form of the document it is.
CREATE TABLE pattern (
    id       BLOB PRIMARY KEY CHECK (length(id) = 16),
    name     TEXT NOT NULL CHECK (trim(name) <> ''),
    version  INTEGER NOT NULL CHECK (version >= 1),
    document TEXT NOT NULL CHECK (json_valid(document)),
    present  INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1))
) STRICT;

CREATE TABLE garment (
    id         BLOB PRIMARY KEY CHECK (length(id) = 16),
    name       TEXT NOT NULL CHECK (trim(name) <> ''),
    pattern_id BLOB REFERENCES pattern (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    size       TEXT NOT NULL,
    variant    TEXT NOT NULL,
    made_for   TEXT NOT NULL,
    state      TEXT NOT NULL CHECK (state IN ('wanted', 'reserved', 'cut', 'sewing', 'fitted', 'finished', 'given up')),
    wanted     TEXT NOT NULL,
    changed    TEXT NOT NULL,
    notes      TEXT NOT NULL,
    strips     TEXT CHECK (strips IS NULL OR json_valid(strips)),
    present    INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1))
) STRICT;
CREATE INDEX garment_of_pattern ON garment (pattern_id);

CREATE TABLE reservation (
    id         BLOB PRIMARY KEY CHECK (length(id) = 16),
    cloth_id   BLOB NOT NULL REFERENCES cloth (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    garment_id BLOB REFERENCES garment (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    used_for   TEXT NOT NULL,
    live       INTEGER NOT NULL CHECK (live IN (0, 1)),
    at         INTEGER NOT NULL,
    pieces     TEXT NOT NULL CHECK (json_valid(pieces)),
    area       INTEGER NOT NULL CHECK (area > 0 OR live = 0),
    present    INTEGER NOT NULL DEFAULT 1 CHECK (present IN (0, 1))
) STRICT;
CREATE INDEX reservation_on_cloth ON reservation (cloth_id);
CREATE INDEX reservation_for_garment ON reservation (garment_id);

CREATE TABLE settings (
    id       INTEGER PRIMARY KEY CHECK (id = 1),
    document TEXT NOT NULL CHECK (json_valid(document))
) STRICT;

-- The ledger -----------------------------------------------------------------

CREATE TABLE movement (
    seq            INTEGER PRIMARY KEY AUTOINCREMENT,
    id             BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    act_id         BLOB NOT NULL REFERENCES act (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    at             INTEGER NOT NULL,
    kind           TEXT NOT NULL CHECK (kind IN ('bought', 'added', 'measured again', 'trued', 'washed', 'reserved',
                   'released', 'cut', 'returned as leftover', 'given away', 'discarded', 'reversed')),
    cloth_id       BLOB NOT NULL REFERENCES cloth (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    area           INTEGER NOT NULL,
    length         INTEGER NOT NULL,
    garment_id     BLOB REFERENCES garment (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    reservation_id BLOB REFERENCES reservation (id) ON DELETE RESTRICT ON UPDATE RESTRICT DEFERRABLE INITIALLY DEFERRED,
    reverses       BLOB UNIQUE REFERENCES movement (id) ON DELETE RESTRICT ON UPDATE RESTRICT,
    note           TEXT NOT NULL,
    CHECK ((kind = 'reversed') = (reverses IS NOT NULL)),
    CHECK (kind NOT IN ('reserved', 'released') OR (area = 0 AND length = 0))
) STRICT;
CREATE INDEX movement_of_cloth ON movement (cloth_id);
CREATE INDEX movement_of_act ON movement (act_id);
CREATE INDEX movement_of_garment ON movement (garment_id);
CREATE INDEX movement_of_reservation ON movement (reservation_id);

-- Rules ----------------------------------------------------------------------
-- The sentences are shown to the person as they stand.

-- +goose StatementBegin
CREATE TRIGGER movement_adds_up AFTER INSERT ON movement BEGIN
    UPDATE cloth SET ledger_area = ledger_area + NEW.area, ledger_length = ledger_length + NEW.length WHERE id = NEW.cloth_id;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER movement_reverses_its_like BEFORE INSERT ON movement WHEN NEW.reverses IS NOT NULL BEGIN
    SELECT RAISE(ABORT, 'A line that reverses another must take back exactly what it said')
    WHERE NOT EXISTS (SELECT 1 FROM movement m WHERE m.id = NEW.reverses AND m.cloth_id = NEW.cloth_id
        AND m.area = -NEW.area AND m.length = -NEW.length);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER movement_belongs_to_last_act BEFORE INSERT ON movement BEGIN
    SELECT RAISE(ABORT, 'A line of history belongs to the act that is being written')
    WHERE NEW.act_id IS NOT (SELECT id FROM act ORDER BY seq DESC LIMIT 1);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER movement_never_edited BEFORE UPDATE ON movement BEGIN
    SELECT RAISE(ABORT, 'A line of history is never edited, only reversed by another line');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER movement_never_deleted BEFORE DELETE ON movement BEGIN
    SELECT RAISE(ABORT, 'A line of history is never deleted, only reversed by another line');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER act_never_edited BEFORE UPDATE OF seq, id, at, sentence, kind, undoes ON act BEGIN
    SELECT RAISE(ABORT, 'What was done is never edited, only taken back by another act');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER act_never_deleted BEFORE DELETE ON act BEGIN
    SELECT RAISE(ABORT, 'What was done is never deleted, only taken back by another act');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER act_undone_by_an_act BEFORE UPDATE OF undone ON act WHEN NEW.undone <> OLD.undone BEGIN
    SELECT RAISE(ABORT, 'An act counts as undone only while an act that undoes it stands')
    WHERE NOT EXISTS (SELECT 1 FROM act u WHERE u.undoes = NEW.id);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER change_never_edited BEFORE UPDATE ON change BEGIN
    SELECT RAISE(ABORT, 'What was changed is never edited, only taken back by another act');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER change_never_deleted BEFORE DELETE ON change BEGIN
    SELECT RAISE(ABORT, 'What was changed is never deleted, only taken back by another act');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER fabric_never_deleted BEFORE DELETE ON fabric BEGIN
    SELECT RAISE(ABORT, 'A fabric is never deleted');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER cloth_never_deleted BEFORE DELETE ON cloth BEGIN
    SELECT RAISE(ABORT, 'Cloth is never deleted; it is given away or discarded');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER purchase_never_deleted BEFORE DELETE ON purchase BEGIN
    SELECT RAISE(ABORT, 'A purchase is never deleted');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER notion_never_deleted BEFORE DELETE ON notion BEGIN
    SELECT RAISE(ABORT, 'A notion is never deleted');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER pattern_never_deleted BEFORE DELETE ON pattern BEGIN
    SELECT RAISE(ABORT, 'A pattern is never deleted');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER garment_never_deleted BEFORE DELETE ON garment BEGIN
    SELECT RAISE(ABORT, 'A garment is never deleted; it is given up');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER reservation_never_deleted BEFORE DELETE ON reservation BEGIN
    SELECT RAISE(ABORT, 'A reservation is never deleted; it is released');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER settings_never_deleted BEFORE DELETE ON settings BEGIN
    SELECT RAISE(ABORT, 'Settings are never deleted');
END;
-- +goose StatementEnd

-- Sums that the cloth row carries are what the rows they stand for add up to.

-- +goose StatementBegin
CREATE TRIGGER cloth_starts_empty BEFORE INSERT ON cloth WHEN NEW.ledger_area <> 0 OR NEW.ledger_length <> 0 OR NEW.reserved_area <> 0 BEGIN
    SELECT RAISE(ABORT, 'New cloth has no history yet');
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER cloth_ledger_sum BEFORE UPDATE OF ledger_area, ledger_length ON cloth BEGIN
    SELECT RAISE(ABORT, 'What a cloth has is what its history adds up to')
    WHERE NEW.ledger_area <> (SELECT coalesce(sum(area), 0) FROM movement WHERE cloth_id = NEW.id)
       OR NEW.ledger_length <> (SELECT coalesce(sum(length), 0) FROM movement WHERE cloth_id = NEW.id);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER cloth_reserved_sum BEFORE UPDATE OF reserved_area ON cloth BEGIN
    SELECT RAISE(ABORT, 'What is reserved of a cloth is what its reservations add up to')
    WHERE NEW.reserved_area <> (SELECT coalesce(sum(area), 0) FROM reservation WHERE cloth_id = NEW.id AND live = 1 AND present = 1);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER reservation_made AFTER INSERT ON reservation BEGIN
    UPDATE cloth SET reserved_area = (SELECT coalesce(sum(area), 0) FROM reservation
        WHERE cloth_id = NEW.cloth_id AND live = 1 AND present = 1) WHERE id = NEW.cloth_id;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER reservation_changed AFTER UPDATE ON reservation BEGIN
    UPDATE cloth SET reserved_area = (SELECT coalesce(sum(area), 0) FROM reservation
        WHERE cloth_id = NEW.cloth_id AND live = 1 AND present = 1) WHERE id = NEW.cloth_id;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER reservation_stays_on_cloth BEFORE UPDATE OF cloth_id ON reservation WHEN NEW.cloth_id <> OLD.cloth_id BEGIN
    SELECT RAISE(ABORT, 'A reservation stays on its cloth; release it and make a new one');
END;
-- +goose StatementEnd

-- Fibres, when known, reach 100 %.

-- +goose StatementBegin
CREATE TRIGGER fibres_reach_100_new BEFORE INSERT ON fabric WHEN NEW.fibres IS NOT NULL BEGIN
    SELECT RAISE(ABORT, 'The fibres must reach 100 %')
    WHERE (SELECT coalesce(sum(json_extract(value, '$.Share')), 0) FROM json_each(NEW.fibres)) <> 10000;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER fibres_reach_100 BEFORE UPDATE OF fibres ON fabric WHEN NEW.fibres IS NOT NULL BEGIN
    SELECT RAISE(ABORT, 'The fibres must reach 100 %')
    WHERE (SELECT coalesce(sum(json_extract(value, '$.Share')), 0) FROM json_each(NEW.fibres)) <> 10000;
END;
-- +goose StatementEnd

-- What is taken back may not be missed by anything that stands.

-- +goose StatementBegin
CREATE TRIGGER fabric_missed BEFORE UPDATE OF present ON fabric WHEN NEW.present = 0 BEGIN
    SELECT RAISE(ABORT, 'There is cloth of this fabric')
    WHERE EXISTS (SELECT 1 FROM cloth WHERE fabric_id = NEW.id AND present = 1);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER cloth_missed BEFORE UPDATE OF present ON cloth WHEN NEW.present = 0 BEGIN
    SELECT RAISE(ABORT, 'Other cloth was cut from this cloth')
    WHERE EXISTS (SELECT 1 FROM cloth WHERE cut_from = NEW.id AND present = 1);
    SELECT RAISE(ABORT, 'This cloth is reserved')
    WHERE EXISTS (SELECT 1 FROM reservation WHERE cloth_id = NEW.id AND present = 1);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER pattern_missed BEFORE UPDATE OF present ON pattern WHEN NEW.present = 0 BEGIN
    SELECT RAISE(ABORT, 'There is a garment of this pattern')
    WHERE EXISTS (SELECT 1 FROM garment WHERE pattern_id = NEW.id AND present = 1);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER cloth_needs_fabric BEFORE INSERT ON cloth BEGIN
    SELECT RAISE(ABORT, 'The fabric of this cloth is not in the library')
    WHERE NOT EXISTS (SELECT 1 FROM fabric WHERE id = NEW.fabric_id AND present = 1);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER cloth_needs_fabric_still BEFORE UPDATE OF fabric_id, present ON cloth WHEN NEW.present = 1 BEGIN
    SELECT RAISE(ABORT, 'The fabric of this cloth is not in the library')
    WHERE NOT EXISTS (SELECT 1 FROM fabric WHERE id = NEW.fabric_id AND present = 1);
END;
-- +goose StatementEnd
