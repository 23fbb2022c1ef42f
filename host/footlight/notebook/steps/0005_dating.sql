-- The runs that a new record dates, and the nearest date of a record, are found however long the journal is.

CREATE INDEX runs_by_first_number ON runs (epoch_id, first_number);
CREATE INDEX anchors_by_boot ON anchors (epoch_id, boot, t_ms);
