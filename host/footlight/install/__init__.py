"""Putting the firmware on a board, and trying a new controller part by part, over the board's own prompt."""
