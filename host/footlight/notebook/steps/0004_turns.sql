-- What was taken back can be reinstated. Each turn of an act is kept, so that nothing of its history is lost.

CREATE TABLE turns (
    -- Every taking back and reinstating, in order; `acts.undone_unix_s` tells how an act stands now.
    id INTEGER PRIMARY KEY,
    act INTEGER NOT NULL REFERENCES acts (id), -- not `act_id`: a turn belongs to no act and is not taken back
    kind TEXT NOT NULL CHECK (kind IN ('taken back', 'reinstated')),
    at_unix_s INTEGER NOT NULL
) STRICT;
CREATE INDEX turns_by_act ON turns (act, id);

-- Those of before, as far as they were dated; of one second the later act was taken back first.
INSERT INTO turns (act, kind, at_unix_s)
    SELECT id, 'taken back', undone_unix_s FROM acts WHERE undone_unix_s IS NOT NULL
    ORDER BY undone_unix_s, id DESC;
