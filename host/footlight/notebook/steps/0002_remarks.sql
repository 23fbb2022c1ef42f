-- What the printer writes about a sheet. Nothing is deleted: what was taken back stays, with its date.

CREATE TABLE remarks (
    id INTEGER PRIMARY KEY,
    sheet_id INTEGER NOT NULL REFERENCES sheets (id),
    kind TEXT NOT NULL CHECK (kind IN ('note', 'defect', 'verdict')),
    text TEXT NOT NULL,
    written_unix_s INTEGER NOT NULL,
    undone_unix_s INTEGER                -- NULL: it stands
) STRICT;
CREATE INDEX remarks_by_sheet ON remarks (sheet_id, id);

CREATE VIRTUAL TABLE remark_words USING fts5 (text, content = 'remarks', content_rowid = 'id');
CREATE TRIGGER remark_is_found AFTER INSERT ON remarks BEGIN
    INSERT INTO remark_words (rowid, text) VALUES (new.id, new.text);
END;
