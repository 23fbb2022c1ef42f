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
CREATE INDEX remarks_by_text ON remarks (kind, text, sheet_id) WHERE kind != 'note';

-- A sheet that was written about before the controller's journal came home: the act that did so, and no epoch
-- yet. The journal that brings its number takes it over, and then it belongs to no act.
ALTER TABLE sheets ADD COLUMN act_id INTEGER REFERENCES acts (id);
CREATE INDEX sheets_written_first ON sheets (act_id) WHERE act_id IS NOT NULL;
CREATE INDEX runs_by_date ON runs (from_unix_s);

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
    -- use: from now on, sheets of its size that come home are taken to be of it.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    batch_id INTEGER NOT NULL REFERENCES batches (id),
    kind TEXT NOT NULL CHECK (kind IN
        ('speed', 'pre-flash', 'second', 'spoiled', 'use', 'note')),
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
    -- sheets: a printer's own capacity, in sheets of 8x10, each visit counted. hours: the same in the open
    -- tray. bottled: out of the tray and kept. poured: back in its tray.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    bath_id INTEGER NOT NULL REFERENCES baths (id),
    kind TEXT NOT NULL CHECK (kind IN
        ('clearing', 'temperature', 'topped', 'bottled', 'poured', 'emptied', 'sheets', 'hours', 'note')),
    value REAL,
    text TEXT NOT NULL DEFAULT '',
    at_unix_s INTEGER NOT NULL
) STRICT;
CREATE INDEX bath_findings_by_bath ON bath_findings (bath_id, kind, id);

CREATE TABLE fog_tests (
    -- How long paper may lie under the safelight; the last of a stage holds.
    id INTEGER PRIMARY KEY,
    act_id INTEGER NOT NULL REFERENCES acts (id),
    stage TEXT NOT NULL CHECK (stage IN ('before', 'after-bleach')), -- the first developer; the bleach
    safe_s REAL NOT NULL,                -- the longest time without a change
    fogged_s REAL                        -- the shortest with one; NULL: none was found
) STRICT;

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

-- Everything in words. The search's index is filled from here alone, and can be made anew from it:
--   DELETE FROM words;
--   INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words ORDER BY act_id;
CREATE VIEW everything_in_words AS
    SELECT 'remarks' AS source, id AS row_id, text, kind, '' AS about, sheet_id, act_id FROM remarks
    UNION ALL SELECT 'camera_exposures', id, trim(subject || ' ' || light || ' ' || filter), 'camera', '',
        sheet_id, act_id FROM camera_exposures WHERE subject || light || filter != ''
    UNION ALL SELECT 'batches', id, trim(name || ' ' || paper || ' ' || size), 'paper', name, NULL, act_id
        FROM batches
    UNION ALL SELECT 'batch_findings', batch_findings.id, text, 'paper', batches.name, NULL,
        batch_findings.act_id FROM batch_findings JOIN batches ON batches.id = batch_id WHERE text != ''
    UNION ALL SELECT 'baths', id, trim(name || ' ' || formula || ' ' || made_from), 'bath', name, NULL, act_id
        FROM baths
    UNION ALL SELECT 'bath_findings', bath_findings.id, text, 'bath', baths.name, NULL, bath_findings.act_id
        FROM bath_findings JOIN baths ON baths.id = bath_id WHERE text != ''
    UNION ALL SELECT 'lenses', id, trim(name || ' ' || note), 'lens', name, NULL, act_id FROM lenses
    UNION ALL SELECT 'sessions', id, trim(name || ' ' || note), 'session', name, NULL, act_id FROM sessions
    UNION ALL SELECT 'programs', rowid, title || ' ' || name, 'sequence', title, NULL, NULL FROM programs;

CREATE VIRTUAL TABLE words USING fts5
    (text, kind UNINDEXED, about UNINDEXED, sheet_id UNINDEXED, act_id UNINDEXED);
INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words ORDER BY act_id;
CREATE TRIGGER remarks_are_found AFTER INSERT ON remarks BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'remarks' AND row_id = new.id;
END;
CREATE TRIGGER camera_exposures_are_found AFTER INSERT ON camera_exposures BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'camera_exposures' AND row_id = new.id;
END;
CREATE TRIGGER batches_are_found AFTER INSERT ON batches BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'batches' AND row_id = new.id;
END;
CREATE TRIGGER batch_findings_are_found AFTER INSERT ON batch_findings BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'batch_findings' AND row_id = new.id;
END;
CREATE TRIGGER baths_are_found AFTER INSERT ON baths BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'baths' AND row_id = new.id;
END;
CREATE TRIGGER bath_findings_are_found AFTER INSERT ON bath_findings BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'bath_findings' AND row_id = new.id;
END;
CREATE TRIGGER lenses_are_found AFTER INSERT ON lenses BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'lenses' AND row_id = new.id;
END;
CREATE TRIGGER sessions_are_found AFTER INSERT ON sessions BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'sessions' AND row_id = new.id;
END;
CREATE TRIGGER programs_are_found AFTER INSERT ON programs BEGIN
    INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words
        WHERE source = 'programs' AND row_id = new.rowid;
END;

-- For people who look into the notebook without the program: one row a sheet, one a light, one a batch.
CREATE VIEW prints AS
    SELECT sheets.number AS sheet,
        (SELECT controller_id FROM epochs WHERE id = sheets.epoch_id) AS controller,
        (SELECT datetime(max(from_unix_s), 'unixepoch', 'localtime') FROM runs JOIN run_sheets
            ON run_sheets.run_id = runs.id WHERE run_sheets.sheet_id = sheets.id) AS last_run,
        (SELECT group_concat(title, ' + ') FROM (SELECT title FROM runs JOIN run_sheets
            ON run_sheets.run_id = runs.id WHERE run_sheets.sheet_id = sheets.id ORDER BY first_number))
            AS sequences,
        (SELECT batches.name || ', ' || batches.paper FROM papers_of_sheets
            JOIN acts ON acts.id = papers_of_sheets.act_id AND undone_unix_s IS NULL
            JOIN batches ON batches.id = batch_id
            WHERE papers_of_sheets.sheet_id = sheets.id ORDER BY papers_of_sheets.id DESC LIMIT 1) AS paper,
        (SELECT trim(subject || ' ' || camera_exposures.light) FROM camera_exposures
            JOIN acts ON acts.id = act_id AND undone_unix_s IS NULL
            WHERE sheet_id = sheets.id ORDER BY camera_exposures.id DESC LIMIT 1) AS camera,
        (SELECT text FROM remarks JOIN acts ON acts.id = act_id AND undone_unix_s IS NULL
            WHERE sheet_id = sheets.id AND kind = 'verdict' ORDER BY remarks.id DESC LIMIT 1) AS verdict,
        (SELECT group_concat(text, ', ') FROM remarks JOIN acts ON acts.id = act_id AND undone_unix_s IS NULL
            WHERE sheet_id = sheets.id AND kind = 'defect') AS defects,
        (SELECT group_concat(text, '; ') FROM remarks JOIN acts ON acts.id = act_id AND undone_unix_s IS NULL
            WHERE sheet_id = sheets.id AND kind = 'note') AS notes
    FROM sheets LEFT JOIN acts ON acts.id = sheets.act_id WHERE acts.undone_unix_s IS NULL;

CREATE VIEW light_given AS
    SELECT sheets.number AS sheet, datetime(runs.from_unix_s, 'unixepoch', 'localtime') AS run_began,
        runs.title AS sequence, lights.step, lights.planned_ms / 1000.0 AS planned_s,
        lights.least_ms / 1000.0 AS given_least_s, lights.most_ms / 1000.0 AS given_most_s,
        lights.gate_ms / 1000.0 AS lamp_on_s, lights.how
    FROM lights JOIN runs ON runs.id = lights.run_id JOIN sheets ON sheets.id = lights.sheet_id;

CREATE VIEW paper_left AS
    -- Sheets are of the batch that was last written for them.
    SELECT batches.name AS batch, paper, size, sheets AS bought,
        (SELECT count(*) FROM papers_of_sheets WHERE batch_id = batches.id AND papers_of_sheets.id IN
            (SELECT max(of.id) FROM papers_of_sheets AS of JOIN acts ON acts.id = of.act_id
                AND undone_unix_s IS NULL WHERE of.sheet_id = papers_of_sheets.sheet_id)) AS used,
        (SELECT ifnull(sum(value), 0) FROM batch_findings
            JOIN acts ON acts.id = batch_findings.act_id AND undone_unix_s IS NULL
            WHERE batch_id = batches.id AND kind = 'spoiled') AS spoiled
    FROM batches JOIN acts ON acts.id = batches.act_id AND acts.undone_unix_s IS NULL;
