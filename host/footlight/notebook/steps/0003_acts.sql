-- Everything that the printer enters belongs to an act: one command, taken back as a whole by `undo`.
-- Rows are never changed or deleted; those of an act that was undone stay, and count no more. What can change
-- in a thing's life (a batch's speed, a bath's clearing time) is a row of its own; the last that stands holds.

CREATE TABLE acts (
    id INTEGER PRIMARY KEY,
    said TEXT NOT NULL,                  -- what it did, in a line
    done_unix_s INTEGER NOT NULL,
    undone_unix_s INTEGER                -- NULL: it stands
) STRICT;
CREATE INDEX acts_that_stand ON acts (id) WHERE undone_unix_s IS NULL;

-- Remarks were undone one by one; each becomes an act.
DROP TRIGGER remark_is_found;
DROP TABLE remark_words;
ALTER TABLE remarks RENAME TO remarks_before_acts;
DROP INDEX remarks_by_sheet;
INSERT INTO acts (id, said, done_unix_s, undone_unix_s)
    SELECT remarks_before_acts.id, 'sheet ' || sheets.number || ', ' || kind || ': ' || text,
        written_unix_s, undone_unix_s
    FROM remarks_before_acts JOIN sheets ON sheets.id = remarks_before_acts.sheet_id;

CREATE TABLE remarks (
    -- What the printer writes about a sheet. Nothing is deleted.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    sheet_id INTEGER NOT NULL REFERENCES sheets (id),
    kind TEXT NOT NULL CHECK (kind IN ('note', 'defect', 'verdict')),
    text TEXT NOT NULL
) STRICT;
INSERT INTO remarks (id, act_id, sheet_id, kind, text)
    SELECT id, id, sheet_id, kind, text FROM remarks_before_acts;
DROP TABLE remarks_before_acts;
CREATE INDEX remarks_by_sheet ON remarks (sheet_id, id);

-- Everything in words, for the search. Kept up by triggers; made anew by an import.
CREATE VIRTUAL TABLE words USING fts5 (text, kind UNINDEXED, sheet_id UNINDEXED, act_id UNINDEXED);
INSERT INTO words (text, kind, sheet_id, act_id) SELECT text, kind, sheet_id, act_id FROM remarks;
CREATE TRIGGER remark_is_found AFTER INSERT ON remarks BEGIN
    INSERT INTO words (text, kind, sheet_id, act_id) VALUES (new.text, new.kind, new.sheet_id, new.act_id);
END;

CREATE TABLE batches (
    -- A batch of paper: one box, or boxes of the same emulsion number.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    name TEXT NOT NULL,                  -- the printer's, for example 'A'
    paper TEXT NOT NULL,
    size TEXT NOT NULL,                  -- as written: '8x10'
    sheets INTEGER NOT NULL              -- as bought
) STRICT;
CREATE INDEX batches_by_name ON batches (name);

CREATE TABLE batch_findings (
    -- What was found out about a batch. speed: exposure index. pre-flash: threshold, in stops from the
    -- reference of the pre-flash setup. second: stops from the reference of the light setup. spoiled: sheets.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    batch_id INTEGER NOT NULL REFERENCES batches (id),
    kind TEXT NOT NULL CHECK (kind IN ('speed', 'pre-flash', 'second', 'spoiled', 'note')),
    value REAL,
    setup TEXT NOT NULL DEFAULT '',      -- the light setup that the value is for
    reading_id INTEGER REFERENCES readings (id), -- the strip that says so
    text TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX batch_findings_by_batch ON batch_findings (batch_id, kind, id);

CREATE TABLE baths (
    -- A bath, mixed once.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    name TEXT NOT NULL,                  -- as the sequence calls its tray: 'bleach'
    formula TEXT NOT NULL,               -- the formula's name, or '' if none is given
    made_from TEXT NOT NULL,             -- in words, as mixed
    kind TEXT NOT NULL CHECK (kind IN ('developer', 'bleach', 'clearing', 'fixer', 'other')),
    volume_ml REAL NOT NULL,
    mixed_unix_s INTEGER NOT NULL
) STRICT;
CREATE INDEX baths_by_name ON baths (name, mixed_unix_s);

CREATE TABLE bath_findings (
    -- What became of a bath. clearing: time in s. temperature: degrees Celsius. topped: ml. emptied: 1.
    -- sheets: a printer's own capacity, in sheets of 8x10. hours: the same in the tray.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    bath_id INTEGER NOT NULL REFERENCES baths (id),
    kind TEXT NOT NULL CHECK (kind IN
        ('clearing', 'temperature', 'topped', 'emptied', 'sheets', 'hours', 'note')),
    value REAL,
    text TEXT NOT NULL DEFAULT '',
    at_unix_s INTEGER NOT NULL
) STRICT;
CREATE INDEX bath_findings_by_bath ON bath_findings (bath_id, kind, id);

CREATE TABLE lenses (
    -- A lens of camera or enlarger; a later row of the same name replaces an earlier one.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    name TEXT NOT NULL,
    focal_mm REAL NOT NULL,
    widest TEXT NOT NULL DEFAULT '',     -- f-number, as written
    true_stops TEXT NOT NULL DEFAULT '', -- 'marked = true', as measured: 'f/32 = f/29'
    note TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE light_setups (
    -- The history of light setups: every reference exposure that was written into a setups file.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    file TEXT NOT NULL,
    setup TEXT NOT NULL,
    reference_before TEXT NOT NULL,
    reference_after TEXT NOT NULL,
    reading_id INTEGER REFERENCES readings (id) -- the strip that says so, if one does
) STRICT;

CREATE TABLE papers_of_sheets (
    -- Which paper a sheet is; a later row replaces an earlier one.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    sheet_id INTEGER NOT NULL REFERENCES sheets (id),
    batch_id INTEGER NOT NULL REFERENCES batches (id)
) STRICT;
CREATE INDEX papers_by_sheet ON papers_of_sheets (sheet_id, id);
CREATE INDEX papers_by_batch ON papers_of_sheets (batch_id);

CREATE TABLE camera_exposures (
    -- A sheet in the camera; a later row replaces an earlier one.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    sheet_id INTEGER NOT NULL REFERENCES sheets (id),
    holder TEXT NOT NULL DEFAULT '',     -- its number and side: '3a'
    planned_s REAL,
    given_s REAL,
    lens TEXT NOT NULL DEFAULT '',
    stop TEXT NOT NULL DEFAULT '',       -- as set: 'f/32'
    exposure_index REAL,
    subject TEXT NOT NULL DEFAULT '',
    light TEXT NOT NULL DEFAULT '',      -- on the subject, in words
    filter TEXT NOT NULL DEFAULT '',
    arithmetic TEXT NOT NULL DEFAULT '', -- how the planned time came about, a line each
    at_unix_s INTEGER
) STRICT;
CREATE INDEX camera_exposures_by_sheet ON camera_exposures (sheet_id, id);
CREATE TRIGGER exposure_is_found AFTER INSERT ON camera_exposures
WHEN new.subject || new.light || new.filter != '' BEGIN
    INSERT INTO words (text, kind, sheet_id, act_id) VALUES
        (trim(new.subject || ' ' || new.light || ' ' || new.filter), 'camera', new.sheet_id, new.act_id);
END;

CREATE TABLE readings (
    -- Strips and prints that were read, with what was given then.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    kind TEXT NOT NULL CHECK (kind IN ('strip', 'pre-flash', 'eye', 'print')),
    sheet_id INTEGER REFERENCES sheets (id),
    run INTEGER,                         -- the controller's number of the run whose doses were used
    step INTEGER,                        -- of the first light of the strip
    setup TEXT NOT NULL DEFAULT '',      -- the light setup of those lights
    scan TEXT NOT NULL DEFAULT '',       -- name of the scanned file
    scan_sha256 TEXT NOT NULL DEFAULT '',
    result TEXT NOT NULL,                -- JSON, as `footlight read` prints it
    d_max REAL, veil_d REAL, mottle_d REAL, -- of a print: what is drawn against the bath's use
    dose_s REAL                          -- advised [s of light]; NULL: none
) STRICT;
CREATE INDEX readings_by_sheet ON readings (sheet_id, id);

CREATE TABLE pictures (
    -- Pictures of sheets and of readings, small enough to keep here.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    sheet_id INTEGER REFERENCES sheets (id),
    reading_id INTEGER REFERENCES readings (id),
    name TEXT NOT NULL,
    media TEXT NOT NULL,                 -- 'image/png'
    sha256 TEXT NOT NULL,
    data BLOB NOT NULL
) STRICT;
CREATE INDEX pictures_by_sheet ON pictures (sheet_id, id);

CREATE TABLE sessions (
    -- An evening by name; its runs are those that began within it.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    name TEXT NOT NULL,
    from_unix_s INTEGER NOT NULL,
    to_unix_s INTEGER,                   -- NULL: still open
    note TEXT NOT NULL DEFAULT ''
) STRICT;

-- The light setups as they were when a sequence was sent; '' where an earlier version did not keep them.
ALTER TABLE programs ADD COLUMN setups TEXT NOT NULL DEFAULT '';
