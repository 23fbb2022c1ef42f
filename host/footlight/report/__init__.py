"""Pictures and pages that a printer would want to look at."""
