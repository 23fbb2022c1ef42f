"""Footlight: the tool that plans for a foot-operated darkroom controller."""

__version__ = "0.1.0"
