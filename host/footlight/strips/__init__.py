"""Reading a strip from a scan: density, mottle, the window of safe second exposures, the next strip.

Nothing here is imported before it is used: numpy and its relatives are the extra `scans`, and `need.scans`
says how to install them. Deciding (`decision`, `cause`) and reading by eye (`by_eye`) need none of them.
"""
