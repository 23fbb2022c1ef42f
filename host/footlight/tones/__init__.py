"""Tones before paper: the curve of a positive, exposures that add, what a place becomes, and learning."""
