"""The notebook: one SQLite file of what controllers have done and all that is known of each sheet."""
