"""Hazards of what stands in the trays."""

from footlight.sequence.model import Sequence


def hazards_of(sequence: Sequence) -> list[str]:
    """A line for each tray whose formula is known to be hazardous."""
    return []
