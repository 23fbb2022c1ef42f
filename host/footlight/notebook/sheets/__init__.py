"""Sheets: what is written about one, what was read from it, and how one is found again."""
