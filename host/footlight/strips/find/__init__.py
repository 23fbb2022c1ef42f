"""Where strip, steps, bands and tablet lie in a scan."""
