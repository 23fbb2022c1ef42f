"""Drawings: a small canvas, the schematic and the reading of nets back from it, the board and the boxes."""
