"""Density, graininess and mottle of what was found."""
