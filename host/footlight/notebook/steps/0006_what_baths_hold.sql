-- What was really put into a bath: its formula as it was mixed, which a name alone does not tell.

ALTER TABLE baths ADD COLUMN holds TEXT NOT NULL DEFAULT ''; -- JSON; '' where only its name is known
