-- How the lights of a controller with a light sensor were measured.

CREATE TABLE doses (
    -- Derived: a row a part of a light, while a sensor was fitted.
    light_id INTEGER NOT NULL REFERENCES lights (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,             -- of its record
    gate_ms INTEGER NOT NULL,            -- how long the lamp was switched on for it
    dose_ms INTEGER NOT NULL,            -- light at the learnt level of the warm lamp
    least INTEGER NOT NULL,              -- level in thousandths of the learnt one, once steady; 0: never was
    mean INTEGER NOT NULL,
    most INTEGER NOT NULL,
    how TEXT NOT NULL,                   -- counted; or why it went by seconds
    PRIMARY KEY (light_id, number)
) STRICT, WITHOUT ROWID;
