PRAGMA application_id = 1211256881;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
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
INSERT INTO "change" VALUES(1,1,'begin','2027-08-16T09:00:00+00:00','Ann','something',NULL,1636241884);
INSERT INTO "change" VALUES(2,1,'one','2027-08-16T09:00:00+00:00','Ann','something',NULL,2946956635);
CREATE TABLE household (
    household_id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(name) BETWEEN 1 AND 100),
    begun_at TEXT NOT NULL
) STRICT;
INSERT INTO "household" VALUES(1,'Tiny','2027-08-16T09:00:00+00:00');
CREATE TABLE migration (
    number INTEGER PRIMARY KEY, name TEXT NOT NULL, applied_at TEXT NOT NULL) STRICT;
INSERT INTO "migration" VALUES(1,'first','2027-08-16T09:00:00+00:00');
CREATE TABLE note_row (
    row_id INTEGER PRIMARY KEY,
    household_id INTEGER NOT NULL REFERENCES household,
    file TEXT NOT NULL CHECK (file LIKE '%.csv'),
    is_headings INTEGER NOT NULL CHECK (is_headings IN (0, 1))
) STRICT;
INSERT INTO "note_row" VALUES(1,1,'household.csv',1);
INSERT INTO "note_row" VALUES(2,1,'household.csv',0);
INSERT INTO "note_row" VALUES(3,1,'frosts.csv',1);
INSERT INTO "note_row" VALUES(4,1,'frosts.csv',0);
INSERT INTO "note_row" VALUES(5,1,'frosts.csv',0);
INSERT INTO "note_row" VALUES(6,1,'eaters.csv',1);
INSERT INTO "note_row" VALUES(7,1,'eaters.csv',0);
INSERT INTO "note_row" VALUES(8,1,'eaters.csv',0);
INSERT INTO "note_row" VALUES(9,1,'foods.csv',1);
INSERT INTO "note_row" VALUES(10,1,'foods.csv',0);
INSERT INTO "note_row" VALUES(11,1,'foods.csv',0);
INSERT INTO "note_row" VALUES(12,1,'beds.csv',1);
INSERT INTO "note_row" VALUES(13,1,'beds.csv',0);
INSERT INTO "note_row" VALUES(14,1,'seasons.csv',1);
INSERT INTO "note_row" VALUES(15,1,'seasons.csv',0);
INSERT INTO "note_row" VALUES(16,1,'plantings.csv',1);
INSERT INTO "note_row" VALUES(17,1,'plantings.csv',0);
INSERT INTO "note_row" VALUES(18,1,'plantings.csv',0);
INSERT INTO "note_row" VALUES(19,1,'jars.csv',1);
INSERT INTO "note_row" VALUES(20,1,'jars.csv',0);
INSERT INTO "note_row" VALUES(21,1,'jars.csv',0);
INSERT INTO "note_row" VALUES(22,1,'jars.csv',0);
INSERT INTO "note_row" VALUES(23,1,'equipment.csv',1);
INSERT INTO "note_row" VALUES(24,1,'equipment.csv',0);
INSERT INTO "note_row" VALUES(25,1,'equipment.csv',0);
INSERT INTO "note_row" VALUES(26,1,'places.csv',1);
INSERT INTO "note_row" VALUES(27,1,'places.csv',0);
INSERT INTO "note_row" VALUES(28,1,'places.csv',0);
INSERT INTO "note_row" VALUES(29,1,'kitchen_hours.csv',1);
INSERT INTO "note_row" VALUES(30,1,'kitchen_hours.csv',0);
INSERT INTO "note_row" VALUES(31,1,'preserves.csv',1);
INSERT INTO "note_row" VALUES(32,1,'preserves.csv',0);
INSERT INTO "note_row" VALUES(33,1,'preserves.csv',0);
INSERT INTO "note_row" VALUES(34,1,'preserves.csv',0);
INSERT INTO "note_row" VALUES(35,1,'preserves.csv',0);
INSERT INTO "note_row" VALUES(36,1,'stock.csv',1);
INSERT INTO "note_row" VALUES(37,1,'stock.csv',0);
INSERT INTO "note_row" VALUES(38,1,'stock.csv',0);
INSERT INTO "note_row" VALUES(39,1,'harvest_log.csv',1);
INSERT INTO "note_row" VALUES(40,1,'harvest_log.csv',0);
CREATE TABLE version (
    row_id INTEGER NOT NULL REFERENCES note_row,
    change_id INTEGER NOT NULL REFERENCES change,
    cells TEXT CHECK (cells IS NULL OR json_valid(cells)),
    checksum INTEGER NOT NULL,
    PRIMARY KEY (row_id, change_id)
) STRICT, WITHOUT ROWID;
INSERT INTO "version" VALUES(1,1,'["household", "invented", "altitude_m", "notes_date"]',3848662800);
INSERT INTO "version" VALUES(2,1,'{"household": "Tiny", "invented": "yes", "altitude_m": "640", "notes_date": "2027-03-01"}',700624645);
INSERT INTO "version" VALUES(3,1,'["frost", "early_month_day", "median_month_day", "late_month_day"]',2778951158);
INSERT INTO "version" VALUES(4,1,'{"frost": "last spring frost", "early_month_day": "04-28", "median_month_day": "05-12", "late_month_day": "05-26"}',3733201760);
INSERT INTO "version" VALUES(5,1,'{"frost": "first autumn frost", "early_month_day": "09-20", "median_month_day": "10-04", "late_month_day": "10-18"}',3980556911);
INSERT INTO "version" VALUES(6,1,'["eater", "age_years", "sex"]',2497057557);
INSERT INTO "version" VALUES(7,1,'{"eater": "Ann", "age_years": "40", "sex": "female"}',2604687283);
INSERT INTO "version" VALUES(8,1,'{"eater": "Ben", "age_years": "42", "sex": "male"}',884246242);
INSERT INTO "version" VALUES(9,1,'["food", "group", "portions_a_week", "most_a_week", "liking", "crops"]',217609133);
INSERT INTO "version" VALUES(10,1,'{"food": "beans", "group": "vegetable", "portions_a_week": "3", "most_a_week": "8", "liking": "4", "crops": "bush bean"}',1896378545);
INSERT INTO "version" VALUES(11,1,'{"food": "tomatoes", "group": "vegetable", "portions_a_week": "4", "most_a_week": "9", "liking": "5", "crops": "tomato"}',3767375264);
INSERT INTO "version" VALUES(12,1,'["bed", "area_m2"]',1532482511);
INSERT INTO "version" VALUES(13,1,'{"bed": "only bed", "area_m2": "30"}',282314702);
INSERT INTO "version" VALUES(14,1,'["season", "begins", "ends"]',291762630);
INSERT INTO "version" VALUES(15,1,'{"season": "2027", "begins": "2027-01-01", "ends": "2027-12-31"}',3452492160);
INSERT INTO "version" VALUES(16,1,'["season", "crop", "bed", "sown", "planted_out", "area_m2", "plants"]',2024425135);
INSERT INTO "version" VALUES(17,1,'{"season": "2027", "crop": "bush bean", "bed": "only bed", "sown": "2027-05-28", "area_m2": "8"}',1413924030);
INSERT INTO "version" VALUES(18,1,'{"season": "2027", "crop": "tomato", "bed": "only bed", "sown": "2027-03-20", "planted_out": "2027-05-28", "plants": "12"}',106908702);
INSERT INTO "version" VALUES(19,1,'["jar", "volume_ml", "owned", "lids"]',2429668088);
INSERT INTO "version" VALUES(20,1,'{"jar": "quart", "volume_ml": "946", "owned": "40", "lids": "60"}',3064136678);
INSERT INTO "version" VALUES(21,1,'{"jar": "pint", "volume_ml": "473", "owned": "30", "lids": "40"}',3471067431);
INSERT INTO "version" VALUES(22,1,'{"jar": "pack", "volume_ml": "750"}',2157079309);
INSERT INTO "version" VALUES(23,1,'["equipment", "kind", "jar", "jars_per_load"]',2022830606);
INSERT INTO "version" VALUES(24,1,'{"equipment": "pan", "kind": "boiling-water canner", "jar": "quart", "jars_per_load": "7"}',1203386588);
INSERT INTO "version" VALUES(25,1,'{"equipment": "pan", "kind": "boiling-water canner", "jar": "pint", "jars_per_load": "9"}',2278273641);
INSERT INTO "version" VALUES(26,1,'["place", "kind", "shelf_area_m2", "tiers", "volume_l", "holds_kg"]',399353435);
INSERT INTO "version" VALUES(27,1,'{"place": "shelf", "kind": "shelf", "shelf_area_m2": "1", "tiers": "2"}',700292500);
INSERT INTO "version" VALUES(28,1,'{"place": "freezer", "kind": "freezer", "volume_l": "150"}',145281211);
INSERT INTO "version" VALUES(29,1,'["begins", "ends", "hours_a_week"]',1536980729);
INSERT INTO "version" VALUES(30,1,'{"hours_a_week": "6"}',1002511340);
INSERT INTO "version" VALUES(31,1,'["preserve", "food", "crop", "method", "product", "pack", "jar", "share_percent"]',542968807);
INSERT INTO "version" VALUES(32,1,'{"preserve": "whole tomatoes", "food": "tomatoes", "crop": "tomato", "method": "boiling water", "product": "Tomatoes, whole or halved, in water", "pack": "hot", "jar": "quart", "share_percent": "60"}',4193316866);
INSERT INTO "version" VALUES(33,1,'{"preserve": "sauce", "food": "tomatoes", "crop": "tomato", "method": "boiling water", "product": "Tomato sauce, standard (thin or thick)", "pack": "hot", "jar": "pint", "share_percent": "40"}',2671539976);
INSERT INTO "version" VALUES(34,1,'{"preserve": "frozen beans", "food": "beans", "crop": "bush bean", "method": "freeze", "jar": "pack", "share_percent": "80"}',3771347563);
INSERT INTO "version" VALUES(35,1,'{"preserve": "dilled beans", "food": "beans", "crop": "bush bean", "method": "boiling water", "product": "Beans, dilled", "pack": "raw", "jar": "pint", "share_percent": "20"}',2735580676);
INSERT INTO "version" VALUES(36,1,'["counted_on", "preserve", "jars", "put_up_on"]',3893484638);
INSERT INTO "version" VALUES(37,1,'{"counted_on": "2027-02-27", "preserve": "whole tomatoes", "jars": "6", "put_up_on": "2026-09-01"}',3543802836);
INSERT INTO "version" VALUES(38,1,'{"counted_on": "2027-02-27", "preserve": "frozen beans", "jars": "4", "put_up_on": "2026-08-15"}',2470851964);
INSERT INTO "version" VALUES(39,2,'["picked_on", "crop", "picked_kg"]',234286897);
INSERT INTO "version" VALUES(40,2,'{"picked_on": "2027-08-01", "crop": "tomato", "picked_kg": "3"}',3495584605);
CREATE INDEX change_of_household ON change (household_id, change_id);
CREATE UNIQUE INDEX headings_once ON note_row (household_id, file) WHERE is_headings;
CREATE INDEX row_of_household ON note_row (household_id, row_id);
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
COMMIT;
