"""Results as lines, tables and plain dictionaries: the same words wherever they are read."""
