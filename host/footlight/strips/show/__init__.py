"""Pictures and the report of a reading."""
