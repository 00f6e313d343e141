CREATE TABLE household (
    household_id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(name) BETWEEN 1 AND 100),
    begun_at TEXT NOT NULL
) STRICT;

-- One thing that somebody did. The operation is named by the click, so that two make one.
CREATE TABLE change (
    change_id INTEGER PRIMARY KEY,
    household_id INTEGER NOT NULL REFERENCES household,
    operation TEXT NOT NULL UNIQUE,
    written_at TEXT NOT NULL,
    written_by TEXT NOT NULL,
    words TEXT NOT NULL,
    undoes INTEGER UNIQUE REFERENCES change,
    checksum INTEGER NOT NULL
) STRICT;
CREATE INDEX change_of_household ON change (household_id, change_id);

-- A row of a table, or (once a table) its headings.
CREATE TABLE note_row (
    row_id INTEGER PRIMARY KEY,
    household_id INTEGER NOT NULL REFERENCES household,
    file TEXT NOT NULL CHECK (file LIKE '%.csv'),
    is_headings INTEGER NOT NULL CHECK (is_headings IN (0, 1))
) STRICT;
CREATE UNIQUE INDEX headings_once ON note_row (household_id, file) WHERE is_headings;
CREATE INDEX row_of_household ON note_row (household_id, row_id);

-- What a row said from a change on: its cells by heading, or nothing once it is taken out.
-- SQLite does not notice a letter that has gone wrong on the disk; the checksums do.
CREATE TABLE version (
    row_id INTEGER NOT NULL REFERENCES note_row,
    change_id INTEGER NOT NULL REFERENCES change,
    cells TEXT CHECK (cells IS NULL OR json_valid(cells)),
    checksum INTEGER NOT NULL,
    PRIMARY KEY (row_id, change_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX version_of_change ON version (change_id);

CREATE VIEW told_version AS
SELECT row.household_id, row.file, row.is_headings, version.*, (
    SELECT cells FROM version AS old WHERE old.row_id = version.row_id
    AND old.change_id < version.change_id ORDER BY old.change_id DESC LIMIT 1
) AS cells_before
FROM version JOIN note_row AS row USING (row_id);

CREATE TRIGGER change_stays BEFORE UPDATE ON change
BEGIN SELECT RAISE(ABORT, 'what was written stays'); END;
CREATE TRIGGER change_is_kept BEFORE DELETE ON change
BEGIN SELECT RAISE(ABORT, 'what was written stays'); END;
CREATE TRIGGER version_stays BEFORE UPDATE ON version
BEGIN SELECT RAISE(ABORT, 'what was written stays'); END;
CREATE TRIGGER version_is_kept BEFORE DELETE ON version
BEGIN SELECT RAISE(ABORT, 'what was written stays'); END;
CREATE TRIGGER row_stays BEFORE UPDATE ON note_row
BEGIN SELECT RAISE(ABORT, 'what was written stays'); END;
CREATE TRIGGER row_is_kept BEFORE DELETE ON note_row
BEGIN SELECT RAISE(ABORT, 'what was written stays'); END;
