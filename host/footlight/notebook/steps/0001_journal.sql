-- Times named unix_s are seconds since 1970, UTC. Times named ms are milliseconds. Light is in ms of the
-- lamp as it was set up. Comments inside the tables are kept by SQLite: `.schema` shows them.

CREATE TABLE controllers (
    id TEXT PRIMARY KEY,                 -- as the controller says itself
    first_met_unix_s INTEGER NOT NULL
) STRICT;

CREATE TABLE epochs (
    -- A memory of a controller; formatting it begins a new one, with numbers from 1.
    id INTEGER PRIMARY KEY,
    controller_id TEXT NOT NULL REFERENCES controllers (id),
    epoch TEXT NOT NULL,
    first_read_unix_s INTEGER NOT NULL,
    kept_number INTEGER NOT NULL DEFAULT 0, -- the controller was told that all up to here is kept
    UNIQUE (controller_id, epoch)
) STRICT;

CREATE TABLE journal (
    -- What controllers have written, as they wrote it; everything in the tables further down that is
    -- 'derived' is read from here and can be read anew.
    epoch_id INTEGER NOT NULL REFERENCES epochs (id),
    number INTEGER NOT NULL,
    line TEXT NOT NULL,                  -- JSON and its check sum; what was left of a damaged one
    whole INTEGER NOT NULL CHECK (whole IN (0, 1)),
    boot INTEGER NOT NULL,               -- records of the same switching-on share it: its first number
    run INTEGER,                         -- the run that it belongs to, if any
    read_unix_s INTEGER NOT NULL,
    PRIMARY KEY (epoch_id, number)
) STRICT, WITHOUT ROWID;
CREATE INDEX journal_by_run ON journal (epoch_id, run, number) WHERE run IS NOT NULL;

CREATE TABLE programs (
    -- Sequences as they were sent.
    sha256 TEXT PRIMARY KEY,
    title TEXT NOT NULL,                 -- as the display shows it
    name TEXT NOT NULL,
    program TEXT NOT NULL,               -- what the controller was sent, JSON
    source TEXT NOT NULL,                -- the sequence file
    arithmetic TEXT NOT NULL,            -- how its times came about, a line each
    stored_unix_s INTEGER NOT NULL
) STRICT;
CREATE INDEX programs_by_short_sha ON programs (substr(sha256, 1, 16)); -- all that a record says of it

CREATE TABLE sends (
    id INTEGER PRIMARY KEY,
    sha256 TEXT NOT NULL REFERENCES programs (sha256),
    controller_id TEXT NOT NULL REFERENCES controllers (id),
    slot INTEGER NOT NULL,
    sent_unix_s INTEGER NOT NULL
) STRICT;

CREATE TABLE anchors (
    -- Derived: when a computer told the controller the time. t_ms: since it was switched on.
    epoch_id INTEGER NOT NULL REFERENCES epochs (id),
    number INTEGER NOT NULL,
    boot INTEGER NOT NULL,
    t_ms INTEGER NOT NULL,
    unix_s INTEGER NOT NULL,
    PRIMARY KEY (epoch_id, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE runs (
    -- Derived.
    id INTEGER PRIMARY KEY,
    epoch_id INTEGER NOT NULL REFERENCES epochs (id),
    run INTEGER NOT NULL,                -- the controller's number
    first_number INTEGER NOT NULL,       -- of its records
    boot INTEGER NOT NULL,
    t_ms INTEGER NOT NULL,
    slot INTEGER,                        -- NULL, as title and sha: the record that says so is damaged
    title TEXT,
    sha TEXT,                            -- the first 16 of the program's SHA-256
    sheets INTEGER NOT NULL,             -- more than 1: a batch
    ended TEXT,                          -- whole, left, broken; NULL: not ended, or not known
    from_unix_s INTEGER,                 -- when it began: both the same if known,
    to_unix_s INTEGER,                   -- else between them; NULL: no bound known
    UNIQUE (epoch_id, run)
) STRICT;

CREATE INDEX runs_undated ON runs (epoch_id) WHERE from_unix_s IS NULL OR from_unix_s IS NOT to_unix_s;

CREATE TABLE sheets (
    id INTEGER PRIMARY KEY,
    epoch_id INTEGER REFERENCES epochs (id),
    number INTEGER NOT NULL,             -- as the controller counts
    UNIQUE (epoch_id, number)
) STRICT;
CREATE INDEX sheets_by_number ON sheets (number);

CREATE TABLE run_sheets (
    -- Derived: which sheets a run was for.
    run_id INTEGER NOT NULL REFERENCES runs (id) ON DELETE CASCADE,
    sheet_id INTEGER NOT NULL REFERENCES sheets (id),
    PRIMARY KEY (run_id, sheet_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX run_sheets_by_sheet ON run_sheets (sheet_id, run_id);

CREATE TABLE steps (
    -- Derived: baths and the like, each time that they were begun.
    id INTEGER PRIMARY KEY,
    run_id INTEGER NOT NULL REFERENCES runs (id) ON DELETE CASCADE,
    sheet_id INTEGER NOT NULL REFERENCES sheets (id),
    step INTEGER NOT NULL,               -- from 1
    first_number INTEGER NOT NULL,
    real_ms INTEGER,                     -- NULL: not known
    how TEXT                             -- time, pedal, early, skipped, aside, broken
) STRICT;
CREATE INDEX steps_by_run ON steps (run_id, first_number);

CREATE TABLE lights (
    -- Derived: light steps, each time that they were begun. A light that was stopped and resumed is one.
    id INTEGER PRIMARY KEY,
    run_id INTEGER NOT NULL REFERENCES runs (id) ON DELETE CASCADE,
    sheet_id INTEGER NOT NULL REFERENCES sheets (id),
    step INTEGER NOT NULL,
    first_number INTEGER NOT NULL,
    planned_ms INTEGER,                  -- light; NULL: the record that says so is damaged
    gate_ms INTEGER NOT NULL,            -- how long the lamp was switched on, all parts
    least_ms INTEGER NOT NULL,           -- light given: the same twice unless a power cut hid it
    most_ms INTEGER NOT NULL,
    left_ms INTEGER,                     -- planned and not given
    how TEXT                             -- whole, held, short, abandoned, skipped, broken
) STRICT;
CREATE INDEX lights_by_run ON lights (run_id, first_number);

CREATE TABLE exposures (
    -- Derived: the parts of a light.
    light_id INTEGER NOT NULL REFERENCES lights (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    gate_ms INTEGER NOT NULL,
    light_ms INTEGER NOT NULL,
    how TEXT NOT NULL,
    PRIMARY KEY (light_id, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE faults (
    -- Derived.
    epoch_id INTEGER NOT NULL REFERENCES epochs (id),
    number INTEGER NOT NULL,
    run INTEGER NOT NULL,                -- 0: outside a run
    step INTEGER NOT NULL,
    code INTEGER NOT NULL,
    PRIMARY KEY (epoch_id, number)
) STRICT, WITHOUT ROWID;
CREATE INDEX faults_by_run ON faults (epoch_id, run);
