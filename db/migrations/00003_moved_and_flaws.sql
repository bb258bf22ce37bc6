-- Two more things that happen to cloth: it is moved, and a flaw is found. The rule for
-- kinds of movement is changed in place, as the makers of SQLite describe for rules that
-- no row on disk depends on (sqlite.org/lang_altertable.html, section 7).

-- +goose Up
PRAGMA writable_schema = ON;
UPDATE sqlite_schema SET sql = replace(sql, '''trued'', ''washed'',', '''trued'', ''washed'', ''moved'', ''flaw found'',')
WHERE type = 'table' AND name = 'movement';
PRAGMA writable_schema = RESET;
